"""Openings above one another."""

import pytest
from set_out_walls import hole, plain, stacks

LOWER = hole(890, 300, 1135, 1200, "lower")


def upper(x_mm=890, width_mm=1135, y_mm=2400, name="upper"):
    return hole(x_mm, y_mm, width_mm, 1200, name)


def test_windows_in_line_form_a_stack_whose_perps_run_through() -> None:
    rows, found = stacks(plain(4490, 4800, upper(), LOWER))
    assert rows == [
        {"openings": ["lower", "upper"], "left_drift_mm": 0.0, "right_drift_mm": 0.0, "perps_run_through": True}
    ]
    assert found == []


def test_a_window_out_of_line_is_found_with_its_drift() -> None:
    rows, found = stacks(plain(4490, 4800, LOWER, upper(x_mm=930)))
    assert (rows[0]["left_drift_mm"], rows[0]["right_drift_mm"], rows[0]["perps_run_through"]) == (40.0, 40.0, False)
    assert [(item["code"], item["value"], item["limit"]) for item in found] == [("perps-do-not-run-through", 40.0, 0.5)]
    assert found[0]["where"] == {
        "pointer": "/elevations/0/openings/1", "elevation": "wall", "opening": "upper", "x_mm": 930.0, "y_mm": 2400.0,
    }  # fmt: skip


def test_a_narrower_window_whose_jambs_meet_other_perps_lets_them_run_through() -> None:
    """A module narrower at either side: jambs drift by 225, and stand on perps all the same."""
    rows, found = stacks(plain(4490, 4800, LOWER, upper(x_mm=1115, width_mm=685)))
    assert (rows[0]["left_drift_mm"], rows[0]["right_drift_mm"], rows[0]["perps_run_through"]) == (225.0, 225.0, True)
    assert found == []


@pytest.mark.parametrize(("off", "through"), [(0.5, True), (0.6, False)])
def test_half_a_millimetre_is_in_line(off, through) -> None:
    assert stacks(plain(4490, 4800, LOWER, upper(x_mm=890 + off)))[0][0]["perps_run_through"] is through


def test_openings_that_share_half_of_the_narrower_width_or_less_are_no_stack() -> None:
    """Of 1135 shared 567: less than half."""
    assert stacks(plain(5390, 4800, LOWER, upper(x_mm=890 + 568)))[0] == []
    assert len(stacks(plain(5390, 4800, LOWER, upper(x_mm=890 + 567)))[0]) == 1


def test_three_storeys_are_one_stack() -> None:
    rows, _ = stacks(plain(4490, 7200, upper(), LOWER, upper(y_mm=4500, name="attic", x_mm=900)))
    assert [row["openings"] for row in rows] == [["lower", "upper", "attic"]]
    assert rows[0]["left_drift_mm"] == 10.0


def test_of_two_windows_over_a_wide_one_the_left_stands_on_it() -> None:
    wide = hole(890, 300, 2485, 1200, "wide")
    over = [hole(2465, 2400, 910, 1200, "right"), hole(890, 2400, 910, 1200, "left")]
    assert [row["openings"] for row in stacks(plain(4490, 4800, wide, *over))[0]] == [["wide", "left"]]


def test_a_round_window_stands_in_no_stack() -> None:
    eye = {"kind": "circle", "id": "eye", "x_mm": 1457.5, "y_mm": 3000, "diameter_mm": 900}
    assert stacks(plain(4490, 4800, LOWER, eye))[0] == []


def test_jambs_are_seen_against_the_equal_perps_of_their_bay() -> None:
    """A shift of one nominal module is 0.3 mm off perps of 9.7, of seven modules 2 mm."""
    near, far = (
        stacks(plain(5046, 4800, hole(890, 300, 3160, 1200, "lower"), hole(890 + shift, 2400, 3160 - 2 * shift, 1200, "upper")), perps="equalised")[0]
        for shift in (225, 675)
    )  # fmt: skip
    assert near[0]["perps_run_through"] is True
    assert far[0]["perps_run_through"] is False


def test_openings_seen_from_the_right_form_the_same_stacks() -> None:
    wall = plain(4490, 4800, LOWER, upper(x_mm=930))
    assert stacks({**wall, "bond_from": "right"})[0] == stacks(wall)[0]
