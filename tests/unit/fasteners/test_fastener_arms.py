"""Fasteners on the arms of pieces: what the rows of the pattern pass by gets its own. House rule, by hand."""

from fastener_requests import answer, found_codes, only, places, wall, window


def test_an_arm_under_a_window_gets_its_own_fasteners() -> None:
    """Board 1200 x 600, a window over 600 to 1200 from 200 up: course 2 at 182.5 is too near the sill, course 1 at 107.5 not.

    The arm is 600 long: two at its quarter points, as in a piece of that length.
    """
    found = answer(wall(1200, 600, openings=[window("w", 600, 200, 600, 400)]))
    assert [x for x, y in places(found, "wall-00-01") if y == 107.5] == [750, 1050]
    assert "fasteners-few" not in found_codes(found)


def test_the_part_between_two_jambs_gets_its_own_fasteners() -> None:
    """A window 800 wide in the middle of the board: rows stand at both jambs only, 100 from the ends, and none under the sill."""
    found = answer(wall(1200, 600, openings=[window("w", 200, 200, 800, 400)]))
    under = [x for x, y in places(found, "wall-00-01") if 200 < x < 1000]
    assert under
    assert all(y < 200 - 50 for x, y in places(found, "wall-00-01") if 200 < x < 1000)


def test_an_arm_that_a_row_reaches_gets_no_more() -> None:
    """The sill at 300 leaves room on course 2 all along: the pattern's eight less the two beside the window's place."""
    found = answer(wall(1200, 600, openings=[window("w", 600, 300, 600, 300)]))
    assert sorted({y for _, y in places(found, "wall-00-01")}) == [182.5, 482.5]


def test_an_arm_without_room_is_reported() -> None:
    """75 high under the sill: no middle of a slip keeps 50 from both edges."""
    found = answer(wall(1200, 600, openings=[window("w", 500, 75, 700, 525)]))
    assert all(x < 500 for x, _ in places(found, "wall-00-01"))
    assert only(found, "fasteners-few")["where"]["pieces"] == ["wall-00-01"]
