"""Closing bonds of a run, worked by hand with slips of 215 and perps of 10; half bats are 102.5, a module is 225."""

import pytest
from closing_runs import lengths_of, way, ways
from loop_walls import SYSTEM

from storeyrod.setting_out.calculation import calculate
from storeyrod.setting_out.models import SettingOutRequest

HALF = 102.5


def rounded(courses):
    return [[round(length, 6) for length in course] for course in courses]


def names(length, **more):
    return [one.arrangement for one in ways(length, **more)]


def test_an_odd_length_of_half_a_module_and_more_takes_one_piece_and_two_in_turn() -> None:
    """1045 = 4 x 225 - 10 + 155: one piece of 155 - 10, then two of (215 + 155 - 10) / 2."""
    assert rounded(lengths_of(way(1045, "broken_bond_at_centre"))) == [
        [215, 215, 145, 215, 215],
        [HALF, 215, 180, 180, 215, HALF],
    ]


def test_a_shorter_odd_length_ends_in_the_other_unit_on_the_right() -> None:
    """1600 = 7 x 225 - 10 + 35, or 6 1/2 x 225 - 10 + 147.5: pieces of 137.5, and two of 176.25."""
    best = ways(1600)[0]
    assert best.arrangement == "broken_bond_at_centre"
    assert rounded(lengths_of(best)) == [
        [215, 215, 215, 137.5, 215, 215, 215, HALF],
        [HALF, 215, 215, 176.25, 176.25, 215, 215, 215],
    ]


def test_a_short_run_keeps_its_laps_with_one_piece_in_each_course() -> None:
    """500 = 215 + 162.5 + 102.5 and 2 perps, the next course turned round: perps 62.5 mm off, over a quarter module."""
    assert rounded(lengths_of(ways(500)[0])) == [[215, 162.5, HALF], [HALF, 162.5, 215]]


def test_closers_at_both_ends_are_equal_and_alternate_by_half_a_module() -> None:
    """(1045 - 3 x 215 - 4 x 10) / 2 and (1045 - 4 x 215 - 5 x 10) / 2."""
    assert rounded(lengths_of(way(1045, "closers_at_ends"))) == [
        [180, 215, 215, 215, 180],
        [67.5, 215, 215, 215, 215, 67.5],
    ]


def test_perps_change_where_nominal_ones_leave_a_closer_that_is_a_sliver() -> None:
    """With perps of 10 the shorter closer of 1000 would be 45; perps of 8 leave (1000 - 4 x 215 - 5 x 8) / 2 = 50."""
    made = way(1000, "closers_at_ends")
    assert made.perps == pytest.approx([80_000, 80_000])
    assert rounded(lengths_of(made))[1] == [50, 215, 215, 215, 215, 50]


def test_a_run_that_would_begin_with_a_half_bat_begins_with_the_shorter_closer() -> None:
    made = way(1045, "closers_at_ends", phase="1/2")
    assert [course[0] for course in rounded(lengths_of(made))] == [67.5, 180]


def test_closers_that_no_perp_brings_out_are_not_listed() -> None:
    """Of 1130 one course would end in (1130 - 4 x 215 - 5 j) / 2: 115 with perps of 8, 105 with perps of 12; both too long for
    the next one to end half a module on, and the other way round it ends in a joint.
    """
    assert way(1130, "closers_at_ends") is None


@pytest.mark.parametrize("bond", ["third_lap", "quarter_lap"])
def test_bonds_without_a_common_line_of_symmetry_have_no_equal_closers(bond) -> None:
    assert all(way(length, "closers_at_ends", bond=bond) is None for length in (1045, 1600, 2222))


@pytest.mark.parametrize("bond", ["header", "english", "flemish", "english_garden_wall", "flemish_garden_wall"])
def test_a_bond_with_headers_is_not_broken_in_its_middle(bond) -> None:
    assert all(way(length, "broken_bond_at_centre", bond=bond) is None for length in (1045, 1600, 2222))


def test_slips_as_short_as_their_perp_have_no_header_to_close_with() -> None:
    assert way(1045, "closers_at_ends", bond="english", unit=40.0, perp=40.0, limits=(30.0, 50.0)) is None


def test_english_bond_is_closed_alike_at_both_ends() -> None:
    """1130 is 5 x 225 - 10 + 15: stretchers end in (1130 - 4 x 215 - 5 x 10) / 2, headers in (1130 - 9 x 102.5 - 100) / 2."""
    made = rounded(lengths_of(way(1130, "closers_at_ends", bond="english")))
    assert made == [[110, 215, 215, 215, 215, 110], [53.75, *[HALF] * 9, 53.75]]


def test_flemish_closers_stand_symmetrical_to_a_stretcher_and_a_header() -> None:
    made = rounded(lengths_of(way(2020, "closers_at_ends", bond="flemish")))
    assert [course == course[::-1] for course in made] == [True, True]
    assert [course[len(course) // 2] for course in made] in ([215, HALF], [HALF, 215])


def test_stack_bond_takes_its_odd_piece_in_the_middle_of_every_course() -> None:
    """1250 = 5 x 225 - 10 + 135."""
    assert rounded(lengths_of(ways(1250, bond="stack")[0])) == [[215, 215, 125, 215, 215, 215]]


def test_third_lap_is_broken_with_laps_of_a_quarter_module() -> None:
    made = ways(1130, bond="third_lap")[0]
    assert made.arrangement == "broken_bond_at_centre"
    assert [course[0] for course in rounded(lengths_of(made))] == [215, 140]


def test_us_modular_units_are_closed_like_any_other() -> None:
    """In inches: 7 5/8 with 3/8; 36 1/2 = 4 x 8 - 3/8 + 4 7/8: a piece of 4 1/2, then two of (7 5/8 + 4 7/8 - 3/8) / 2."""
    inch = 25.4
    made = lengths_of(ways(36.5 * inch, unit=7.625 * inch, perp=0.375 * inch, limits=(0.3 * inch, 0.45 * inch))[0])
    in_inches = [[round(length / inch, 6) for length in course] for course in made]
    assert in_inches == [[7.625, 7.625, 4.5, 7.625, 7.625], [3.625, 7.625, 6.0625, 6.0625, 7.625, 3.625]]


def test_perps_alone_come_before_a_closing_bond() -> None:
    assert names(5046)[0] == "equalised"


def test_equal_perps_that_leave_a_sliver_come_after_a_closing_bond() -> None:
    """A quarter lap over whole modules ends in a quarter less a perp, 46.25."""
    assert names(2020, bond="quarter_lap")[:2] == ["broken_bond_at_centre", "equalised"]


def test_closers_that_a_bond_of_headers_has_by_itself_are_no_reason_to_cut_more() -> None:
    best = ways(2020, bond="english")[0]
    assert (best.arrangement, round(best.shortest / 1e4, 6)) == ("equalised", 46.25)


def test_what_is_drawn_is_always_listed() -> None:
    assert all("nominal" in names(length) for length in (150, 300, 329.6, 1045, 5046))


def test_a_course_that_stops_short_of_its_end_is_not_within_the_limits() -> None:
    """As drawn 2245 ends in 5 mm of joint beyond the tenth slip."""
    drawn = way(2245, "nominal")
    assert (drawn.within, drawn.deviation, drawn.sliver_free) == (False, 0.0, True)


def test_counts_and_ends_of_an_arrangement() -> None:
    """1045: 145, and two of 180 with two half bats."""
    made = way(1045, "broken_bond_at_centre")
    assert (made.cuts, round(made.shortest / 1e4, 6)) == (5, HALF)
    assert [[round(length / 1e4, 6) for length in course] for course in made.ends] == [[215, 215], [HALF, HALF]]


def test_no_piece_under_a_half_bat_comes_before_fewer_cuts() -> None:
    """Of 1045 closers at both ends would be four cuts against five, but two of them of 67.5."""
    ranked = names(1045)
    assert ranked.index("broken_bond_at_centre") < ranked.index("closers_at_ends")


def test_a_pier_of_one_header_between_two_openings_is_answered() -> None:
    """102.5 mm in header bond: half a module less would need a perp below nothing."""
    window = {"kind": "rectangle", "y_mm": 150, "width_mm": 300, "height_mm": 300}
    wall = {
        "id": "w",
        "width_mm": 3000,
        "height_mm": 600,
        "openings": [{**window, "id": "a", "x_mm": 600}, {**window, "id": "b", "x_mm": 1002.5}],
    }
    request = {"elevations": [wall], "system": {**SYSTEM, "bond": "header"}, "options": {"perps": "equalised"}}
    bay = calculate(SettingOutRequest.model_validate(request)).result["elevations"][0]["bays"][0]
    assert [run["x_to_mm"] - run["x_from_mm"] for run in bay["runs"] if run["kind"] == "pier"] == [102.5]
