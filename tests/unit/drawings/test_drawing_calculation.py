"""Drawings from requests: subjects, fingerprint, pointers, strictness."""

from typing import Any

import pytest
from pydantic import ValidationError

from drawing_walls import SYSTEM, WIND, gable, in_the_wind, small_wall, texts_of
from storeyrod.boards.calculation import calculate as lay
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.canonical import fingerprint
from storeyrod.drawings.calculation import calculate
from storeyrod.drawings.models import DrawingRequest
from storeyrod.drawings.svg import write
from storeyrod.findings import Refusal
from storeyrod.take_off.calculation import calculate as take_off
from storeyrod.take_off.models import TakeOffRequest


def body(
    *names: str, elevations: list[dict[str, Any]] | None = None, perps: str = "nominal", **more: Any
) -> dict[str, Any]:
    walls = [small_wall(), gable()] if elevations is None else elevations
    take_off = {
        "project": {"name": "Hill House"}, "system": SYSTEM, "elevations": walls, "options": {"perps": perps},
    }  # fmt: skip
    return {"take_off": take_off, "sheets": [{"kind": "elevation", "elevation": name} for name in names], **more}


def answered(*names: str, **more: Any) -> Any:
    return calculate(DrawingRequest.model_validate(body(*names, **more)))


def test_one_sheet_for_each_asked_for_in_that_order():
    assert [sheet.title for sheet in answered("gable", "garden").result] == [
        "Hill House: Elevation gable",
        "Hill House: Elevation garden",
    ]


def test_the_title_block_begins_the_fingerprint_of_the_take_off_and_the_description_holds_it():
    (sheet,) = answered("garden").result
    whole = fingerprint(TakeOffRequest.model_validate(body("garden")["take_off"]))
    assert whole[:12] in [text.words for _, text in texts_of(sheet, "title-block-words")]
    assert whole in sheet.description


def test_the_scale_of_a_sheet_changes_no_fingerprint():
    request = body("garden")
    request["sheets"][0]["scale"] = 50
    scaled = calculate(DrawingRequest.model_validate(request)).result[0]
    whole = fingerprint(TakeOffRequest.model_validate(request["take_off"]))
    assert whole in scaled.description


def test_a_project_without_a_name_is_drawn():
    request = body("garden")
    del request["take_off"]["project"]
    assert calculate(DrawingRequest.model_validate(request)).result[0].title == "Elevation garden"


def test_the_other_elevations_of_the_house_are_laid_but_not_drawn():
    assert b"gable-" not in write(answered("garden"))


def test_a_sheet_of_an_unknown_elevation_is_refused():
    with pytest.raises(Refusal) as caught:
        answered("garden", "shed")
    assert caught.value.slug == "reference-unknown"
    assert caught.value.faults[0].pointer == "/sheets/1/elevation"


def test_that_is_told_before_anything_is_laid(monkeypatch):
    monkeypatch.setattr("storeyrod.drawings.calculation.shown_by", lambda *_: pytest.fail("the wall was laid first"))
    with pytest.raises(Refusal, match="No elevation of the take-off has this id"):
        answered("garden", "attic")


def test_refusals_of_the_take_off_point_into_the_drawing_request():
    with pytest.raises(Refusal) as caught:
        answered("garden", elevations=[small_wall(), small_wall()])
    assert caught.value.slug == "duplicate-id"
    assert caught.value.faults[0].pointer == "/take_off/elevations/1/id"


def test_findings_point_into_the_drawing_request():
    low = small_wall() | {"height_mm": 1380}
    pointers = [item["where"]["pointer"] for item in answered("garden", elevations=[low]).findings]
    assert pointers
    assert all(pointer.startswith("/take_off/elevations/0") for pointer in pointers)


def test_cautions_refuse_a_drawing_that_asks_to_be_strict():
    with pytest.raises(Refusal) as caught:
        answered("garden", elevations=[small_wall() | {"height_mm": 1380}], options={"strict": True})
    assert caught.value.slug == "strict-cautions"


def test_cautions_are_counted_in_the_title_block():
    answer = answered("garden", elevations=[small_wall() | {"height_mm": 1380}])
    cautions = sum(item["level"] == "caution" for item in answer.findings)
    words = [text.words for _, text in texts_of(answer.result[0], "title-block-words")]
    assert f"{cautions} caution{'s' if cautions > 1 else ''}" in words


def test_a_scale_that_fits_no_paper_is_refused_at_its_place():
    request = body("gable")
    request["sheets"][0]["scale"] = 1
    with pytest.raises(Refusal) as caught:
        calculate(DrawingRequest.model_validate(request))
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("sheet-too-small", "/sheets/0/scale")


def test_assumptions_are_those_of_the_take_off():
    fields = [row["field"] for row in answered("garden").assumptions]
    assert "/take_off/system/joint/bed_mm" in fields


def mixed(*sheets: tuple[str, str], **more: Any) -> DrawingRequest:
    asked = [{"kind": kind, "elevation": name} for kind, name in sheets]
    return DrawingRequest.model_validate(body(**more) | {"sheets": asked})


def test_kinds_of_sheets_may_be_mixed():
    sheets = calculate(mixed(("setting_out", "garden"), ("slips", "gable"), ("elevation", "garden"))).result
    assert [sheet.title for sheet in sheets] == [
        "Hill House: Setting out garden",
        "Hill House: Slips gable",
        "Hill House: Elevation garden",
    ]


def test_a_second_sheet_of_an_elevation_has_ids_of_its_own_whatever_its_kind():
    sheets = calculate(mixed(("setting_out", "garden"), ("slips", "garden"), ("elevation", "gable"))).result
    assert [sheet.id_prefix for sheet in sheets] == ["", "sheet-2:", ""]


def with_cut_sheets(*sheets: dict[str, Any]) -> Any:
    return calculate(DrawingRequest.model_validate(body() | {"sheets": list(sheets)})).result


def test_cut_sheets_take_as_many_sheets_as_they_need_and_all_are_numbered():
    sheets = with_cut_sheets({"kind": "cut_sheets", "scale": 10}, {"kind": "elevation", "elevation": "garden"})
    said = [[text.words for _, text in texts_of(sheet, "title-block-words")] for sheet in sheets]
    assert len(sheets) > 2
    assert [f"{place} of {len(sheets)}" in words for place, words in enumerate(said, start=1)] == [True] * len(sheets)


def test_pieces_on_an_elevation_and_on_cut_sheets_have_ids_of_their_own():
    elevation = {"kind": "boards", "elevation": "garden"}
    before = with_cut_sheets(elevation, {"kind": "cut_sheets"})
    after = with_cut_sheets({"kind": "cut_sheets"}, elevation)
    assert [sheet.id_prefix for sheet in before[:2]] == ["", "sheet-2:"]
    assert after[0].id_prefix == ""
    assert after[-1].id_prefix == f"sheet-{len(after)}:"


def test_sheets_of_boards_show_the_boards_of_the_take_off():
    """Every piece of the board layout stands on the cut sheets in the board that it names there."""
    asked = body()
    laid = lay(BoardLayoutRequest.model_validate({key: asked["take_off"][key] for key in ("elevations", "system")}))
    drawn = with_cut_sheets({"kind": "cut_sheets"})
    words = [text.words for sheet in drawn for _, text in texts_of(sheet, "pattern-words")]
    assert [word for word in words if word.startswith("Pattern")] == [
        f"Pattern {row['number']}: {row['count']} board{'s' if row['count'] > 1 else ''}"
        for row in laid.result["cut_sheets"]
    ]


LOADED = {"wind": WIND, "links": [], "options": {"effort": "quick"}}


def loaded(*sheets: dict[str, Any], **members: Any) -> Any:
    """Sheets of the garden wall on the front of a building in the wind."""
    made = body(elevations=[in_the_wind(small_wall())]) | {"sheets": list(sheets)}
    made["take_off"] |= LOADED | members
    return calculate(DrawingRequest.model_validate(made))


def test_sheets_of_loads_are_named_for_what_they_show():
    sheets = loaded(
        {"kind": "fasteners", "elevation": "garden"},
        {"kind": "wind", "elevation": "garden"},
        {"kind": "wind", "elevation": "garden", "direction": "left"},
        {"kind": "load_path"},
    ).result
    assert [sheet.title for sheet in sheets] == [
        "Hill House: Fasteners garden",
        "Hill House: Wind garden: envelope of all directions",
        "Hill House: Wind garden: wind on left side",
        "Hill House: Load path",
    ]
    assert [sheet.id_prefix for sheet in sheets] == ["", "sheet-2:", "sheet-3:", ""]


def test_a_load_path_drawn_twice_has_ids_of_its_own():
    assert [sheet.id_prefix for sheet in loaded({"kind": "load_path"}, {"kind": "load_path"}).result] == [
        "",
        "sheet-2:",
    ]


def test_the_fasteners_drawn_are_those_of_the_take_off():
    made = body(elevations=[in_the_wind(small_wall())])["take_off"] | LOADED
    taken = take_off(TakeOffRequest.model_validate(made)).result["fasteners"]["fasteners_count"]
    (sheet,) = loaded({"kind": "fasteners", "elevation": "garden"}).result
    groups = [group for view in sheet.views for group in view.groups if group.role.startswith("fastener-")]
    assert sum(len(group.items) for group in groups) == taken


def test_the_load_path_drawn_is_that_of_the_take_off():
    made = body(elevations=[in_the_wind(small_wall())])["take_off"] | LOADED
    links = take_off(TakeOffRequest.model_validate(made)).result["dead_loads"]["load_path"]["links"]
    (sheet,) = loaded({"kind": "load_path"}).result
    ids = [item.id for group in sheet.views[0].groups if group.role == "link-unknown" for item in group.items]
    assert ids == [f"load-path:{link['link']}:{link['action']}" for link in links if link["status"] == "not_assessed"]


@pytest.mark.parametrize(
    ("sheet", "pointer"),
    [
        ({"kind": "wind", "elevation": "garden"}, "/sheets/0/kind"),
        ({"kind": "load_path"}, "/sheets/0/kind"),
    ],
)
def test_loads_that_were_not_given_are_not_drawn(sheet, pointer):
    with pytest.raises(Refusal) as caught:
        calculate(DrawingRequest.model_validate(body() | {"sheets": [sheet]}))
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("loads-not-given", pointer)


def test_a_direction_that_was_left_out_is_not_drawn():
    with pytest.raises(Refusal) as caught:
        loaded({"kind": "wind", "elevation": "garden", "direction": "rear"}, wind=WIND | {"directions": ["front"]})
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("loads-not-given", "/sheets/0/direction")


def test_findings_of_loads_point_into_the_drawing_request():
    codes = {item["code"]: item["where"].get("pointer") for item in loaded({"kind": "load_path"}).findings}
    assert codes["load-path-incomplete"] == "/take_off/links"


def test_only_what_some_sheet_shows_is_laid_and_remarked_on():
    # The gable is the only wall here with slivers of slips; the set-out alone looks at none.
    codes = {
        kind: {item["code"] for item in calculate(mixed((kind, "gable"))).findings} for kind in ("slips", "setting_out")
    }
    assert "sliver" in codes["slips"]
    assert "sliver" not in codes["setting_out"]


@pytest.mark.parametrize(
    ("kind", "rooms"),
    [
        ("setting_out", "wall, joints, setting out"),
        ("slips", "wall, joints, slips"),
        ("boards", "wall, joints, boards, cutting"),
        ("joints", "wall, joints"),
        ("fasteners", "wall, boards, fasteners, wind"),
    ],
)
def test_the_title_block_names_the_rooms_whose_findings_it_counts(kind, rooms):
    (sheet,) = calculate(mixed((kind, "garden"))).result
    assert f"findings: {rooms}" in [text.words for _, text in texts_of(sheet, "title-block-words")]


def test_perps_of_the_take_off_are_drawn():
    nominal, equalised = (
        calculate(mixed(("setting_out", "garden"), perps=perps)).result[0] for perps in ("nominal", "equalised")
    )
    assert texts_of(nominal, "dimension-figures") != texts_of(equalised, "dimension-figures")


def test_legs_of_corner_slips_that_nobody_gave_are_assumptions_of_the_take_off():
    wall = small_wall() | {"left_edge": {"kind": "external_corner"}}
    fields = [row["field"] for row in calculate(mixed(("slips", "garden"), elevations=[wall])).assumptions]
    assert "/take_off/system/corner_slip/return_mm" in fields


def test_a_drawing_says_what_was_not_checked():
    assert any("wind" in sentence for sentence in answered("garden").not_checked)


@pytest.mark.parametrize(
    "sheet",
    [
        {"elevation": "garden"},
        {"kind": "poster", "elevation": "garden"},
        {"kind": "elevation"},
        {"kind": "slips"},
        {"kind": "boards"},
        {"kind": "joints"},
        {"kind": "cut_sheets", "elevation": "garden"},
        {"kind": "fasteners"},
        {"kind": "wind", "elevation": "garden", "direction": "north"},
        {"kind": "load_path", "scale": 10},
    ],
)
def test_sheets_are_closed(sheet):
    with pytest.raises(ValidationError):
        DrawingRequest.model_validate(body() | {"sheets": [sheet]})


def test_equal_requests_give_equal_bytes():
    assert write(answered("gable", "garden", "gable")) == write(answered("gable", "garden", "gable"))
