"""Corner slips: one for each course that both edges have, handed, the longer leg alternating."""

import pytest
from slip_walls import codes, opening, rectangle, result


def corner(height_a=2475, height_b=2475, start_b="half", **more):
    first = {"id": "a", **rectangle(2240, height_a, right_edge={"kind": "external_corner", "to": "b:left"}), **more}
    second = {"id": "b", **rectangle(2240, height_b, left_edge={"kind": "external_corner", "to": "a:right"}, bond_start=start_b)}  # fmt: skip
    return first, second


def row(*elevations):
    return result(*elevations)["corners"][0]


def test_one_for_each_course() -> None:
    assert row(*corner())["corner_slips_count"] == 33


def test_the_shorter_edge_counts() -> None:
    assert row(*corner(height_b=1500))["corner_slips_count"] == 20


def test_a_ripped_course_takes_a_slip_too() -> None:
    assert row(*corner(height_b=1520))["corner_slips_count"] == 21


def test_a_course_with_bed_only_takes_none() -> None:
    flat = corner(height_a=1500, height_b=1500)
    assert row(*flat)["corner_slips_count"] == 20


def test_hands_differ_by_one_at_most() -> None:
    made = row(*corner())
    assert sorted((made["left_handed_count"], made["right_handed_count"])) == [16, 17]


def test_the_longer_leg_lies_where_the_bond_shows_a_whole_slip() -> None:
    """Face a ends its even courses in a whole slip at 2240 = 10 x 225 - 10; face b starts them with a half."""
    assert row(*corner())["longer_leg_even"] == "a:right"


def test_a_leg_to_the_left_of_the_arris_is_left_handed() -> None:
    """Courses 0, 2, ... 32 show the longer leg on the right end of face a: 17 left-handed slips."""
    assert row(*corner())["left_handed_count"] == 17


def test_each_slip_replaces_a_piece_on_both_faces() -> None:
    balance = result(*corner())["pieces"]
    assert balance["corner_ends_count"] == 66
    assert balance["straight_pieces_count"] + 66 == balance["face_pieces_count"]


def test_an_unknown_other_face_counts_one_piece() -> None:
    alone = {"id": "a", **rectangle(2240, 2475, right_edge={"kind": "external_corner"})}
    assert result(alone)["corners"][0]["corner_slips_count"] == 33
    assert result(alone)["pieces"]["corner_ends_count"] == 33


def test_an_opening_at_the_corner_leaves_its_courses_out() -> None:
    window = opening(1640, 750, 600, 750)
    first, second = corner()
    assert row({**first, "openings": [window]}, second)["corner_slips_count"] == 33 - 10


def test_an_internal_corner_has_no_corner_slips() -> None:
    first = {"id": "a", **rectangle(2240, 300, right_edge={"kind": "internal_corner", "to": "b:left"})}
    second = {"id": "b", **rectangle(2240, 300, left_edge={"kind": "internal_corner", "to": "a:right"})}
    assert result(first, second)["corners"] == []


@pytest.mark.parametrize(("start", "found"), [("full", True), ("half", False)])
def test_a_bond_that_does_not_turn_the_corner_is_reported(start, found) -> None:
    assert ("corner-bond-broken" in codes(*corner(start_b=start))) is found


def test_an_end_a_little_longer_than_the_leg_is_taken_up_by_its_perp() -> None:
    """The end of face a is 104.5 in odd courses: 2 mm more than the leg, which perps of up to 12 take up."""
    first, second = corner()
    assert "corner-bond-broken" not in codes({**first, "width_mm": 2242}, second)
