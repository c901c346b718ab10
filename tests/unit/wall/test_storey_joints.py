"""Level joints: at which course lines they lie, what they move, and when they are refused. Courses of 75, boards of 600."""

from typing import Any

import pytest

from storeyrod.findings import Refusal
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.models import Elevation
from storeyrod.wall.storey_joints import StoreyJoint
from storeyrod.wall.wall import Wall, wall_of
from unit.wall.survey import rectangle, system, wall, window


def stood(*levels: float, width: float | None = None, datum: float = 0.0, **members: Any) -> Wall:
    joint = {"at_storeys": True} if width is None else {"at_storeys": True, "storey_width_mm": width}
    face = rectangle(height_mm=9000, storey_levels_mm=list(levels), **members)
    on_datum = system(movement_joint=joint).model_copy(update={"course_datum_mm": datum})
    return wall_of([Elevation.model_validate(face)], on_datum)


def lying(made: Wall) -> list[tuple[int, float, float]]:
    """Course over each joint, its foot and its head in mm."""
    return [(one.course, millimetres(one.bottom), millimetres(one.top)) for one in made.storey_joints]


def codes(made: Wall) -> list[str]:
    return [item["code"] for item in made.findings]


def test_a_joint_as_wide_as_a_bed_lies_in_the_bed_at_its_storey_and_moves_nothing() -> None:
    made = stood(2700, 5400)
    assert lying(made) == [(36, 2690, 2700), (72, 5390, 5400)]
    assert made.gauge == made.gauge.even
    assert made.findings == ()


def test_without_at_storeys_levels_make_no_joints() -> None:
    assert wall(rectangle(storey_levels_mm=[1500])).storey_joints == ()


@pytest.mark.parametrize(("level", "course", "moved"), [(2662.6, 36, 37.4), (2737.4, 36, -37.4), (2662.4, 35, -37.4)])
def test_a_level_between_course_lines_goes_to_the_nearest_one(level: float, course: int, moved: float) -> None:
    (joint,) = stood(level).storey_joints
    assert joint.course == course
    assert millimetres(joint.moved) == pytest.approx(moved)


def test_each_wider_joint_moves_the_courses_over_it_and_the_next_joint_follows_them() -> None:
    """15 in beds of 10: courses 36 and up stand 5 higher, so 5400 lies under course 72 at 5405, which the next joint moves to 5410."""
    made = stood(2700, 5400, width=15)
    assert lying(made) == [(36, 2690, 2705), (72, 5395, 5410)]
    assert [millimetres(made.gauge.bottom(number)) for number in (35, 36, 71, 72, 100)] == [
        2625,
        2705,
        5330,
        5410,
        7510,
    ]
    assert [millimetres(joint.moved) for joint in made.storey_joints] == [0, 5]
    assert codes(made).count("storey-joint-shifts-courses") == 2


@pytest.mark.parametrize(("level", "moved"), [(2699, 1), (2700, 0), (2705, 0), (2706, -1)])
def test_a_level_at_either_course_line_of_a_wider_joint_has_not_moved(level: float, moved: float) -> None:
    (joint,) = stood(level, width=15).storey_joints
    assert (joint.course, millimetres(joint.moved)) == (36, moved)


def test_heads_over_a_wider_joint_are_measured_against_the_moved_courses() -> None:
    on_even, on_moved = window("even", y_mm=3000), window("moved", x_mm=3000, y_mm=3005)
    made = stood(2700, width=15, openings=[on_even, on_moved])
    off = [item["where"]["opening"] for item in made.findings if item["code"] in ("head-off-course", "sill-off-course")]
    assert off == ["even", "even"]


def test_courses_below_a_datum_are_moved_down_by_the_joints_below_it() -> None:
    """From a datum of 3000 the joint at 1500 lies under course -20, whose foot stays; what is below it makes room."""
    made = stood(1500, 4500, width=15, datum=3000)
    assert lying(made) == [(-20, 1485, 1500), (20, 4490, 4505)]
    assert [millimetres(made.gauge.bottom(number)) for number in (-21, -20, 0, 19, 20)] == [
        1420,
        1500,
        3000,
        4425,
        4505,
    ]


@pytest.mark.parametrize(("level", "count"), [(600, 1), (599, 0), (8925, 1), (8926, 0)])
def test_a_joint_has_a_board_below_and_a_course_above(level: float, count: int) -> None:
    made = stood(level)
    assert len(made.storey_joints) == count
    assert codes(made) == ([] if count else ["storey-levels-missing"])


def test_one_joint_runs_round_the_building_for_levels_of_all_its_faces() -> None:
    faces = [{**rectangle(storey_levels_mm=[level]), "id": name} for name, level in (("a", 1500), ("b", 1520))]
    made = wall(*faces, movement_joint={"at_storeys": True})
    assert lying(made) == [(20, 1490, 1500)]
    (found,) = made.findings
    assert (found["code"], found["value"]) == ("storey-levels-differ", 20.0)
    assert found["where"] == {"pointer": "/elevations/1/storey_levels_mm/0", "elevation": "b", "y_mm": 1520.0}


def test_a_mirror_image_has_the_joints_of_its_source_once() -> None:
    image = {"id": "b", "mirror_of": "rear"}
    made = wall(rectangle(storey_levels_mm=[1500]), image, movement_joint={"at_storeys": True})
    assert lying(made) == [(20, 1490, 1500)]
    assert made.findings == ()


def test_a_joint_of_the_structure_is_repeated_where_it_lies_whether_storeys_have_joints_or_not() -> None:
    made = wall(rectangle(existing_joints_y_mm=[1495]))
    assert lying(made) == [(20, 1490, 1500)]
    assert made.storey_joints[0].existing


def test_a_wider_joint_has_the_structures_joint_in_its_strip_and_near_its_middle() -> None:
    """20 wide under course 20 it reaches from 1490 to 1510."""
    made = wall(rectangle(existing_joints_y_mm=[1502]), movement_joint={"storey_width_mm": 20})
    assert lying(made) == [(20, 1490, 1510)]
    assert millimetres(made.storey_joints[0].moved) == -2


def test_a_joint_of_the_structure_decides_over_a_storey_beside_it() -> None:
    made = stood(1530, existing_joints_y_mm=[1495])
    assert lying(made) == [(20, 1490, 1500)]
    assert codes(made) == ["storey-levels-differ"]


def refused(**members: Any) -> tuple[str, str]:
    with pytest.raises(Refusal) as caught:
        wall(rectangle(**members))
    (fault,) = caught.value.faults
    return caught.value.slug, fault.pointer


def test_a_joint_of_the_structure_behind_slips_is_refused() -> None:
    assert refused(existing_joints_y_mm=[1495, 1060]) == (
        "existing-joint-bridged", "/elevations/0/existing_joints_y_mm/1",
    )  # fmt: skip


def test_a_joint_of_the_structure_off_the_wall_is_refused() -> None:
    assert refused(existing_joints_y_mm=[2475]) == ("joint-outside-outline", "/elevations/0/existing_joints_y_mm/0")


def test_a_joint_needs_a_width_where_slips_have_no_beds() -> None:
    with pytest.raises(Refusal, match="over 0"):
        wall(
            rectangle(storey_levels_mm=[1500]),
            movement_joint={"at_storeys": True},
            joint={"bed_mm": 0},
            board={"rib_pitch_mm": 65, "cover_height_mm": 650},
        )


def test_more_than_200_level_joints_are_refused() -> None:
    levels = [1500 + 150 * step for step in range(201)]
    faces = [
        {**rectangle(height_mm=150 * 220), "id": name, "storey_levels_mm": part}
        for name, part in (("a", levels[:150]), ("b", levels[150:]))
    ]
    with pytest.raises(Refusal, match="201 level joints"):
        wall(*faces, movement_joint={"at_storeys": True})


LIFTED = Gauge(ticks(65), ticks(75)).with_joints(
    [StoreyJoint(4, 0.0, 0.0, 0.0, ticks(20)), StoreyJoint(8, 0.0, 0.0, 0.0, ticks(20))]
)
"""Feet at 0, 75, 150, 225, then 320, 395, 470, 545, then 640, 715, ... mm."""


@pytest.mark.parametrize(
    ("level", "course"), [(0, 0), (319.9, 3), (320, 4), (-0.1, -1), (639, 7), (640, 8), (5000, 66)]
)
def test_a_level_stands_on_the_highest_moved_course_at_or_below_it(level: float, course: int) -> None:
    """5000 - 40 is 66.13 courses."""
    assert LIFTED.standing_at(ticks(level)) == course


@pytest.mark.parametrize(("level", "course"), [(272.5, 3), (272.6, 4), (300, 4), (357.5, 4), (357.6, 5)])
def test_the_course_line_nearest_to_a_level_beside_a_joint(level: float, course: int) -> None:
    """Half way from 225 to 320 is 272.5."""
    assert LIFTED.nearest(ticks(level)) == course


@pytest.mark.parametrize(("foot", "top", "numbers"), [(0, 300, range(4)), (0, 320, range(4)), (310, 321, range(3, 5))])
def test_courses_between_two_heights_count_the_one_under_a_joint(foot: float, top: float, numbers: range) -> None:
    assert LIFTED.numbers(ticks(foot), ticks(top)) == numbers


def test_slips_under_a_joint_keep_their_height() -> None:
    assert millimetres(LIFTED.top(3)) == 290
