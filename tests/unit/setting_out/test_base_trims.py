"""Base trim: lengths, stop ends and upright returns, and the perps at which steps are made. Counted by hand."""

import pytest

from unit.setting_out.base_walls import base_of, over_ground
from unit.take_off.worked_house import house
from unit.wall.survey import points, rectangle, window

DOOR = window("d", x_mm=1000, y_mm=0, width_mm=1000, height_mm=2100)


def drawn(index: int) -> dict:
    """An elevation of the worked house without its neighbours."""
    made = house()["elevations"][index]
    edges = {side: {**made[side], "to": None} for side in ("left_edge", "right_edge")}
    return base_of({**made, **edges})


def test_the_trim_of_the_worked_house_leaves_its_door_out() -> None:
    """5046 - 2485; between two corners both trims end at a jamb."""
    row = drawn(0)
    assert (row["as_drawn_trim_mm"], row["as_drawn_stop_ends_count"], row["as_drawn_other_ends_count"]) == (
        2561.0,
        0,
        2,
    )


def test_the_drawn_step_of_the_worked_house_has_two_stop_ends_and_a_return() -> None:
    row = drawn(1)
    assert row["as_drawn_trim_mm"] == 3723.0
    assert (row["as_drawn_stop_ends_count"], row["as_drawn_upright_trim_mm"]) == (2, 150.0)
    assert row["as_drawn_other_ends_count"] == 0


@pytest.mark.parametrize(
    ("left", "right", "ends"),
    [
        ("free_end", "free_end", 2),
        ("free_end", "abutment", 1),
        ("external_corner", "internal_corner", 0),
        ("abutment", "external_corner", 0),
    ],
)
def test_free_ends_are_closed_corners_turned_and_abutments_butted(left: str, right: str, ends: int) -> None:
    assert base_of(rectangle(left, right))["as_drawn_other_ends_count"] == ends


def test_each_jamb_of_a_door_ends_the_trim() -> None:
    row = base_of(rectangle(openings=[DOOR]))
    assert (row["as_drawn_trim_mm"], row["as_drawn_other_ends_count"]) == (3800.0, 4)


def test_a_stepped_base_has_two_stop_ends_at_each_step() -> None:
    row = base_of(over_ground((0, 140), (4800, -160)))
    assert (row["stop_ends_count"], row["upright_trim_mm"], row["trim_mm"]) == (8, 300.0, 4800.0)
    assert row["other_ends_count"] == 2


def test_a_step_in_a_doorway_has_no_trim_to_close_there() -> None:
    """Over the worked house's right flank four steps, the third between the jambs of a door at 1115 to 2025."""
    row = drawn(2)
    assert len(row["steps"]) == 4
    assert (row["stop_ends_count"], row["other_ends_count"], row["upright_trim_mm"]) == (6, 2, 225.0)
    assert row["trim_mm"] == pytest.approx(3723 - 910)
    assert [run["trim_mm"] for run in row["runs"]] == pytest.approx([124.1, 930.75, 60.15, 891.35, 806.65])


def test_a_threshold_above_the_base_leaves_trim_under_the_door() -> None:
    door = window("d", x_mm=1000, y_mm=150, width_mm=1000, height_mm=1950)
    assert base_of(over_ground((0, -75), (4800, -75), openings=[door]))["trim_mm"] == 4800.0
    assert base_of(over_ground((0, 0), (4800, 0), openings=[door]))["trim_mm"] == 3800.0


def perps(*ground: tuple[float, float], **members: object) -> list[float]:
    return [step["at_perp_x_mm"] for step in base_of(over_ground(*ground, **members))["steps"]]


def test_a_step_up_stands_at_the_last_perp_of_the_upper_course_before_its_limit() -> None:
    """Courses 1 and 3 of a stretcher bond start with a half: their units start at 112.5 + 225 n; those of 2 and 4 at 225 n.
    Limits on this slope are (y + 10) x 16: 160, 1360, 2560, 3760.
    """
    assert perps((0, -160), (4800, 140)) == [112.5, 1350.0, 2362.5, 3600.0]


def test_a_step_down_stands_at_the_first_perp_of_the_upper_course_after_its_limit() -> None:
    """Units of courses 4 and 2 end at 215 + 225 n, of 3 and 1 at 327.5 + 225 n; limits 1040, 2240, 3440 and 4640. After the
    last one course 1 has no further perp and ends with the wall.
    """
    assert perps((0, 140), (4800, -160)) == [1115.0, 2352.5, 3590.0, 4800.0]


def test_a_step_before_the_first_perp_stands_at_the_end_of_the_wall() -> None:
    """A limit of 64 lies before the first perp of course 1 at 112.5."""
    assert perps((0, -154), (4800, 146))[0] == 0.0


def test_a_step_beside_a_door_stands_at_its_jamb_when_no_perp_is_nearer() -> None:
    """The limit at 2080: course 1 starts anew at the jamb at 2025, its last perp before that ends at 1912.5."""
    door = window("d", x_mm=1100, y_mm=0, width_mm=925, height_mm=2100)
    assert perps((0, -160), (2080, -150), (2080, -80), (4800, -80), openings=[door]) == [2025.0]


def test_a_step_in_a_doorway_may_stand_at_its_limit() -> None:
    assert perps((0, -160), (1500, -150), (1500, -80), (4800, -80), openings=[DOOR]) == [1500.0]


def test_bond_set_out_from_the_right_puts_perps_there() -> None:
    """Course 1 has its half of 102.5 at the right end, so that its units start at 4800 - 102.5 - 225 n: 1322.5 before 1500."""
    assert perps((0, -160), (1500, -150), (1500, -80), (4800, -80), bond_from="right") == [1322.5]


def test_trims_of_a_raked_foot_are_none() -> None:
    row = base_of(rectangle(outline=points((0, 0), (4800, 300), (4800, 2475), (0, 2475))))
    assert (row["as_drawn"], row["as_drawn_trim_mm"]) == ([], 0.0)
