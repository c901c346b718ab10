"""Runs of a bay: which there are, and how each comes out. Worked by hand: modules of 225, half bats of 102.5."""

import pytest
from set_out_walls import bay_findings, bays, hole, plain, shaped

DOOR = hole(890, 0, 1135, 2100, "door")
"""From unit to unit 890 = 4 x 225 - 10 and 1135 = 5 x 225 + 10."""


def runs(elevation, **more):
    return [run for bay in bays(elevation, **more) for run in bay["runs"]]


def ends(run):
    return run["x_from_mm"], run["x_to_mm"], run["kind"], run["course_from"], run["course_to"]


def test_a_plain_face_is_one_run() -> None:
    assert [ends(run) for run in runs(plain(5046, 600))] == [(0.0, 5046.0, "bay", 0, 7)]


def test_piers_stand_between_jambs_and_ends() -> None:
    wall = plain(5390, 2475, DOOR, hole(3140, 900, 1135, 1200, "window"))
    assert [ends(run) for run in runs(wall)] == [
        (0.0, 5390.0, "bay", 0, 32),
        (0.0, 890.0, "end_pier", 0, 27),
        (2025.0, 5390.0, "end_pier", 0, 11),
        (2025.0, 3140.0, "pier", 12, 27),
        (4275.0, 5390.0, "end_pier", 12, 27),
    ]


def test_a_movement_joint_ends_runs() -> None:
    rows = bays(plain(4500, 600, existing_joints_x_mm=[2245]))
    assert [(bay["x_from_mm"], bay["x_to_mm"]) for bay in rows] == [(0.0, 2240.0), (2250.0, 4500.0)]
    assert [ends(bay["runs"][0])[:3] for bay in rows] == [(0.0, 2240.0, "bay"), (2250.0, 4500.0, "bay")]


def test_a_course_cut_by_a_head_has_no_run_of_its_own() -> None:
    """The head at 2090 leaves 2025 to 2090 of course 27, which has the run of the courses below it."""
    wall = plain(5390, 2475, hole(890, 0, 1135, 2090))
    assert ends(runs(wall)[1]) == (0.0, 890.0, "end_pier", 0, 27)


def test_courses_at_a_rake_and_beside_an_arch_are_left_out() -> None:
    """A lean-to from 600 to 1200: above its eaves no course ends plumb at the left."""
    arch = {
        "kind": "arch", "id": "a", "x_mm": 890, "width_mm": 685, "sill_mm": 0, "springing_mm": 150, "rise_mm": 342.5,
    }  # fmt: skip
    wall = shaped((0, 0), (2240, 0), (2240, 1200), (0, 600), openings=[arch])
    assert [ends(run) for run in runs(wall)] == [
        (0.0, 2240.0, "bay", 0, 15),
        (0.0, 890.0, "end_pier", 0, 1),
        (1575.0, 2240.0, "end_pier", 0, 1),
    ]


def test_a_step_of_the_base_ends_the_runs_below_it() -> None:
    wall = shaped((0, 0), (1800, 0), (1800, 150), (3723, 150), (3723, 900), (0, 900))
    assert [ends(run) for run in runs(wall)] == [(0.0, 3723.0, "bay", 0, 11), (0.0, 1800.0, "end_pier", 0, 1)]


@pytest.mark.parametrize(("length", "off"), [(890, 0.0), (892, 2.0), (1000, -2.5), (5046, -6.5)])
def test_co_of_a_run_is_what_it_has_over_half_modules_less_a_joint(length, off) -> None:
    """Half modules less a joint: 102.5, ..., 890, 1002.5, ..., 5052.5."""
    assert runs(plain(length, 75))[0]["co_mm"] == pytest.approx(off, abs=1e-9)


def test_options_of_a_bay_are_listed_best_first() -> None:
    options = runs(plain(1045, 600))[0]["options"]
    assert [one["arrangement"] for one in options] == [
        "broken_bond_at_centre", "closers_at_ends", "nominal", "equalised",
    ]  # fmt: skip
    best = options[0]
    assert (best["cut_count"], best["perps_within"], best["sliver_free"]) == (5, True, True)
    assert best["ends_mm"] == [[215.0, 215.0], [102.5, 102.5]]
    assert options[2]["shortest_piece_mm"] == pytest.approx(32.5)


def test_the_arrangement_taken_is_the_first_option() -> None:
    for length in (1045, 2020, 5046, 500):
        row = bays(plain(length, 600), perps="equalised")[0]
        assert row["runs"][0]["options"][0]["arrangement"] == row["arrangement"]
        assert row["runs"][0]["options"][0]["perps_mm"] == row["perps_mm"]


def test_a_pier_begins_with_what_the_perps_of_its_bay_leave() -> None:
    """Perps of the bay are (5046 - 22 x 215 - 102.5) / 22; at 890 the fourth slip is 3 x 215 and 3 perps on."""
    perp = (5046 - 22 * 215 - 102.5) / 22
    pier = next(run for run in runs(plain(5046, 2475, DOOR), perps="equalised") if run["x_to_mm"] == 890)
    carried = pier["options"][0]
    assert carried["arrangement"] == "carried_through"
    assert carried["perps_mm"] == pytest.approx([perp, perp])
    starts = 102.5 + 4 * perp + 3 * 215
    assert carried["ends_mm"][1] == pytest.approx([102.5, 890 - starts])


def test_a_pier_on_the_module_comes_out_with_nominal_perps_by_itself() -> None:
    pier = next(run for run in runs(plain(5046, 2475, DOOR), perps="equalised") if run["x_to_mm"] == 890)
    alone = pier["options"][1]
    assert (alone["arrangement"], alone["perps_mm"]) == ("equalised", pytest.approx([10.0, 10.0]))
    assert alone["ends_mm"] == [[215.0, pytest.approx(215.0)], [102.5, pytest.approx(102.5)]]


def test_a_face_set_out_from_the_right_lists_its_pieces_from_the_left() -> None:
    """From the right 1000 is 102.5 or 215 at the right end."""
    made = runs(plain(1000, 600, bond_from="right"))[0]["options"]
    nominal = next(one for one in made if one["arrangement"] == "nominal")
    assert nominal["ends_mm"] == [[pytest.approx(100.0), 215.0], [pytest.approx(212.5), 102.5]]


def test_a_jamb_that_leaves_a_sliver_is_found_once() -> None:
    """890 + 10 + 40: the next slip is cut to 40 in every other course of the pier."""
    found = bay_findings(plain(5390, 2475, hole(940, 300, 1085, 1800)))
    assert [item["code"] for item in found] == ["jamb-off-module"]
    assert (found[0]["value"], found[0]["limit"]) == (pytest.approx(40.0), 50.0)
    assert found[0]["where"] == {
        "pointer": "/elevations/0/openings/0",
        "elevation": "wall",
        "opening": "w",
        "x_mm": 940.0,
    }


def test_a_jamb_off_the_perps_that_leaves_larger_pieces_is_not_found() -> None:
    assert bay_findings(plain(5390, 2475, hole(960, 300, 1065, 1800))) == []


def test_a_jamb_at_which_only_courses_with_long_pieces_end_is_not_found() -> None:
    """One course high, at an even course; 940 leaves 40 there, and 152.5 in odd ones."""
    assert bay_findings(plain(5390, 2475, hole(940, 375, 1085, 65))) == []
    assert len(bay_findings(plain(5390, 2475, hole(940, 300, 1085, 65)))) == 1


def test_a_quarter_closer_on_the_module_is_no_jamb_off_the_module() -> None:
    """In quarter lap 890 ends a whole slip in even courses, and in odd ones a quarter less a perp, 46.25."""
    assert bay_findings(plain(5390, 2475, hole(890, 300, 1135, 1800)), bond="quarter_lap") == []


def test_a_bay_without_a_whole_course_has_no_runs() -> None:
    assert bays(plain(2240, 60))[0]["runs"] == []
