"""The load path sheet: bars as long as their use, a line at 1.0, links without data shown as such, and the one that governs."""

from typing import Any

import pytest

from drawing_walls import groups_of, particulars, sheet_of, small_wall, texts_of, words_of
from storeyrod.drawings.display_list import Line, Polygon, Sheet
from storeyrod.drawings.link_bars import AXIS_END, UNIT
from storeyrod.drawings.load_path_sheet import LoadPathSubject, load_path_sheet
from storeyrod.drawings.paper import PAPERS
from storeyrod.weights.load_path import PATH


def assessed(link: str, use: float, action: str = "suction") -> dict[str, Any]:
    figures = {"action_kn_per_m2": use * 2, "resistance_kn_per_m2": 2.0, "utilisation_fraction": use}
    return {"link": link, "action": action, "status": "assessed"} | figures


def unknown(link: str, missing: str, action: str = "suction") -> dict[str, Any]:
    return {"link": link, "action": action, "status": "not_assessed", "missing": missing}


def drawn(*links: dict[str, Any]) -> Sheet:
    known = [link for link in links if link["status"] == "assessed"]
    path: dict[str, Any] = {
        "links": list(links), "assessed_count": len(known), "not_assessed_count": len(links) - len(known),
    }  # fmt: skip
    if known:
        worst = max(known, key=lambda link: link["utilisation_fraction"])
        path |= {"governing_link": worst["link"], "governing_action": worst["action"]}
    return load_path_sheet(LoadPathSubject(path), None, "", particulars(subject="Load path"), "")


def frames_of(sheet: Sheet, role: str = "link-frame") -> dict[str, Polygon]:
    items = [item for _, group in groups_of(sheet, role) for item in group.items]
    return {item.id: item for item in items if isinstance(item, Polygon)}


def long(frame: Polygon) -> float:
    left, _, right, _ = frame.box
    return right - left


def test_a_bar_is_as_long_as_its_use():
    frames = frames_of(drawn(assessed("slip_bond", 0.25), assessed("substrate", 0.8)))
    assert long(frames["load-path:slip_bond:suction"]) == pytest.approx(0.25 * UNIT)
    assert long(frames["load-path:substrate:suction"]) == pytest.approx(0.8 * UNIT)


def test_a_line_stands_where_the_action_equals_the_resistance():
    sheet = drawn(assessed("slip_bond", 1.0))
    (((_, limit),), (frame,)) = groups_of(sheet, "limit"), frames_of(sheet).values()
    (line,) = limit.items
    assert isinstance(line, Line)
    assert line.start[0] == line.end[0] == pytest.approx(frame.box[2])


def test_the_use_is_printed():
    assert {"0.25", "0.97"} <= set(
        words_of(drawn(assessed("slip_bond", 0.25), assessed("adhesive", 0.967)), "link-words")
    )


def test_a_link_over_its_resistance_is_hatched_and_explained():
    sheet = drawn(assessed("slip_bond", 1.2), assessed("adhesive", 0.5))
    ((_, over),) = groups_of(sheet, "link-over")
    ((_, within),) = groups_of(sheet, "link-within")
    assert (len(over.items), len(within.items)) == (1, 1)
    assert "action over resistance" in words_of(sheet, "legend-words")


def test_a_use_of_exactly_one_is_not_over():
    assert [
        item for _, group in groups_of(drawn(assessed("slip_bond", 1.0)), "link-over") for item in group.items
    ] == []


def test_a_bar_far_over_its_resistance_is_broken_and_its_use_printed():
    sheet = drawn(assessed("slip_bond", 7.5))
    (frame,) = frames_of(sheet).values()
    assert long(frame) == pytest.approx(AXIS_END * UNIT)
    assert len(groups_of(sheet, "link-break")[0][1].items) == 1
    assert "7.50" in words_of(sheet, "link-words")


def test_a_link_without_data_says_what_is_missing_and_has_no_use():
    sheet = drawn(unknown("pull_out", "wind"), assessed("slip_bond", 0.5))
    assert "not assessed, missing: wind" in words_of(sheet, "link-words")
    assert "0.00" not in words_of(sheet, "link-words")
    assert list(frames_of(sheet, "link-unknown")) == ["load-path:pull_out:suction"]


def test_a_long_text_of_what_is_missing_takes_two_lines():
    missing = (
        "the resistance of the board at heads, near edges too where heads stand there, and the wind on the building"
    )
    words = words_of(drawn(unknown("head_pull_through", missing)), "link-words")
    said = words[1:]
    assert len(said) == 2
    assert " ".join(said) == f"not assessed, missing: {missing}"


def test_a_text_that_finds_no_room_is_counted():
    told = " ".join(words_of(drawn(unknown("pull_out", "data " * 80)), "legend-words"))
    assert "Links that say less than what is missing: 1; see the answer." in told


PARAPET = "wind on the parapet of garden"


def in_part(link: str, use: float, missing: str = PARAPET) -> dict[str, Any]:
    return assessed(link, use) | {"missing": missing}


def test_a_bar_says_below_it_what_its_use_leaves_out():
    sheet = drawn(in_part("slip_bond", 0.5), assessed("adhesive", 0.4))
    assert f"left out: {PARAPET}" in words_of(sheet, "link-words")
    ((_, note),) = [found for found in texts_of(sheet, "link-words") if found[1].words.startswith("left out")]
    (frame,) = frames_of(sheet, "link-in-part").values()
    assert note.at[1] < frame.box[1]


def test_a_bar_that_leaves_something_out_has_a_broken_frame_and_is_as_long_as_its_use():
    sheet = drawn(in_part("slip_bond", 0.5), assessed("adhesive", 0.4))
    ((_, group),) = groups_of(sheet, "link-in-part")
    assert group.style.dashes
    (frame,) = group.items
    assert long(frame) == pytest.approx(0.5 * UNIT)
    assert frame.title == f"bond of slips, suction: 0.500 of its resistance or more; left out: {PARAPET}"
    assert list(frames_of(sheet)) == ["load-path:adhesive:suction"]


def test_a_use_that_leaves_something_out_may_be_higher():
    sheet = drawn(in_part("slip_bond", 0.739), assessed("adhesive", 0.4))
    assert {"0.74 or more", "0.40"} <= set(words_of(sheet, "link-words"))
    assert "part left out: use may be higher" in words_of(sheet, "legend-words")


def test_links_assessed_in_part_are_counted_apart():
    told = " ".join(
        words_of(
            drawn(in_part("slip_bond", 0.7), assessed("adhesive", 0.4), unknown("structure", "wind")), "legend-words"
        )
    )
    assert "Of what was assessed, bond of slips under suction governs: 0.70 or more." in told
    assert "Assessed: 1, in part: 1, not assessed: 1;" in told
    assert "What a use leaves out may be used more, and then governs." in told


def test_where_nothing_is_left_out_nothing_is_said_of_it():
    words = words_of(drawn(assessed("adhesive", 0.4)), "legend-words")
    assert not [said for said in words if "left out" in said or "in part" in said]


def test_a_note_that_finds_no_room_is_counted():
    told = " ".join(words_of(drawn(in_part("pull_out", 0.5, "data " * 80)), "legend-words"))
    assert "Links that say less than what is missing: 1; see the answer." in told


def test_a_bar_that_is_broken_off_is_explained_and_no_other():
    assert "broken off: use over 1.3, as printed" in words_of(drawn(assessed("slip_bond", 7.5)), "legend-words")
    assert not [said for said in words_of(drawn(assessed("slip_bond", 1.3)), "legend-words") if "broken" in said]


def test_the_gap_of_a_bar_stands_clear_of_the_line_at_one():
    sheet = drawn(in_part("slip_bond", 7.5), assessed("adhesive", 7.5))
    (((_, limit),), ((_, gaps),)) = groups_of(sheet, "limit"), groups_of(sheet, "link-break")
    (line,) = limit.items
    assert all(gap.box[0] > line.start[0] + 5.0 for gap in gaps.items)


def test_a_parapet_that_wind_leaves_out_stands_on_the_sheet():
    """Wind ends at 0.9 m of 1.35: the use of the cores is that of the wall below."""
    links = [{"link": "board_core", "action": "suction", "resistance_kn_per_m2": 42, "gamma_m": 2}]
    sheet = sheet_of(small_wall() | {"parapet_from_mm": 900}, kind="load_path", links=links)
    assert list(frames_of(sheet, "link-in-part")) == ["load-path:board_core:suction"]
    assert f"left out: {PARAPET}" in words_of(sheet, "link-words")


def test_the_governing_link_is_marked_and_named():
    sheet = drawn(assessed("slip_bond", 0.5), assessed("substrate", 0.7, "weight"), unknown("structure", "wind"))
    assert len(groups_of(sheet, "governs")[0][1].items) == 1
    bold = [text.words for _, text in texts_of(sheet, "link-words") if text.bold]
    assert bold == ["substrate, weight: governs", "0.70"]
    told = " ".join(words_of(sheet, "legend-words"))
    assert "Of what was assessed, substrate under weight governs: 0.70." in told
    assert "Assessed: 2, not assessed: 1;" in told


@pytest.mark.parametrize(("link", "action"), PATH)
def test_the_name_of_any_link_is_written_out_where_it_governs(link, action):
    name, *_ = words_of(drawn(assessed(link, 0.5, action)), "link-words")
    assert name.endswith(f", {action}: governs")


def test_where_nothing_is_assessed_nothing_governs():
    sheet = drawn(unknown("pull_out", "wind"))
    assert [item for _, group in groups_of(sheet, "governs") for item in group.items] == []
    assert "No link was assessed: no link can be said to govern." in " ".join(words_of(sheet, "legend-words"))


def test_of_fasteners_the_piece_used_most_is_named():
    link = {
        "link": "pull_out", "action": "suction", "status": "assessed", "piece": "rear-04-03",
        "action_kn": 1.2, "resistance_kn": 1.5, "utilisation_fraction": 0.8,
    }  # fmt: skip
    words = words_of(drawn(link), "link-words")
    assert {"1.200 of 1.500 kN", "piece rear-04-03"} <= set(words)


def test_the_sheet_has_no_scale_and_no_bar_of_one():
    sheet = drawn(assessed("slip_bond", 0.5))
    assert "no scale on A3" in words_of(sheet, "title-block-words")
    assert groups_of(sheet, "scale-bar") == []


def test_every_link_of_a_take_off_has_a_row():
    sheet = sheet_of(small_wall(), kind="load_path")
    assert len(frames_of(sheet)) + len(frames_of(sheet, "link-unknown")) == 16


def test_a_declared_resistance_is_assessed():
    """Wind of 1.4 kPa times 1.5 on 42 kN/m2 over 2: 2.1 of 21, a tenth."""
    links = [{"link": "board_core", "action": "suction", "resistance_kn_per_m2": 42, "gamma_m": 2}]
    sheet = sheet_of(small_wall(), kind="load_path", links=links)
    (frame,) = frames_of(sheet).values()
    assert long(frame) == pytest.approx(0.1 * UNIT)
    assert "2.100 of 21.000 kN/m²" in words_of(sheet, "link-words")


def test_every_link_that_there_is_stands_above_the_legend():
    sheet = drawn(*(unknown(link, "wind", action) for link, action in PATH))
    frames = frames_of(sheet, "link-unknown")
    assert len(frames) == len(PATH)
    assert min(frame.box[1] for frame in frames.values()) > PAPERS[0].field[1]
