"""The lowest base in whole courses over sloping ground: limits of its steps, worked by hand.

A clearance of 150 mm is the usual height of a damp-proof course above ground; steps in whole courses are common practice, no
source.
"""

import pytest

from storeyrod.findings import Refusal
from storeyrod.movement_joints.placement import planned_joints
from storeyrod.options import Options
from storeyrod.setting_out.base_steps import elevation_base
from storeyrod.setting_out.set_out import set_out
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of
from unit.setting_out.base_walls import base_of, based, flat, given_back, levels, limits, over_ground, wall_on
from unit.take_off.worked_house import house
from unit.wall.survey import PLAIN, points, window


def flank() -> dict:
    """The right flank of the worked house: ground from -160 to +140 over 3723, a door at 1115 with its threshold at 150."""
    made = house()["elevations"][2]
    return {**made, "left_edge": {"kind": "external_corner"}}


def test_the_steps_of_the_worked_house_stand_at_their_latest_places() -> None:
    """Ground and clearance meet a level y at (y - 150 + 160) x 3723 / 300 = (y + 10) x 12.41."""
    row = base_of(flank())
    assert [level for _, _, level in levels(row)] == [0.0, 75.0, 150.0, 225.0, 300.0]
    assert limits(row) == [124.1, 1054.85, 1985.6, 2916.35]


def test_the_net_area_of_the_worked_house_over_its_base_is_the_largest_that_is_legal() -> None:
    """8.978775 as drawn, less 75 x (930.75 x (1 + 2 + 3) + 806.65 x 4) mm2, of which 75 x 39.4 lay in the doorway."""
    taken = 75 * (930.75 * 6 + 806.65 * 4) - 75 * (2025 - 1985.6)
    assert base_of(flank())["stepped_net_area_m2"] == pytest.approx(8.978775 - taken * 1e-6, abs=1e-12)
    assert base_of(flank())["stepped_net_area_m2"] == pytest.approx(8.3208975, abs=1e-9)


def test_each_run_carries_the_course_that_stands_on_it() -> None:
    assert [run["course"] for run in base_of(flank())["runs"]] == [0, 1, 2, 3, 4]
    assert [run["course"] for run in base_of(flank(), course_datum_mm=-150)["runs"]] == [2, 3, 4, 5, 6]


def test_going_down_to_the_right_a_step_stands_as_early_as_it_may() -> None:
    """Ground falls from 140 to -160 over 4800: a base at 75 is clear from (140 + 150 - 75) x 16 = 3440 on."""
    row = base_of(over_ground((0, 140), (4800, -160)))
    assert levels(row) == [(0.0, 1040.0, 300.0), (1040.0, 2240.0, 225.0), (2240.0, 3440.0, 150.0), (3440.0, 4640.0, 75.0), (4640.0, 4800.0, 0.0)]  # fmt: skip
    assert [step["rise_mm"] for step in row["steps"]] == [-75.0] * 4


def test_ground_that_falls_rises_and_falls_again_has_the_base_follow_it() -> None:
    """From -50 down to -250, up to 50, down to -150: with 150 over it 100, -100, 200 and 0; levels 150, 75, 0 and back."""
    row = base_of(over_ground((0, -50), (1200, -250), (3000, 50), (4800, -150)))
    assert [level for _, _, level in levels(row)] == [150.0, 75.0, 0.0, 75.0, 150.0, 225.0, 150.0, 75.0]
    assert limits(row) == pytest.approx([150.0, 600.0, 1800.0, 2250.0, 2700.0, 3450.0, 4125.0])


def test_a_plumb_jump_of_the_ground_is_one_step_of_several_courses() -> None:
    row = base_of(over_ground((0, -200), (2000, -200), (2000, 60), (4800, 60)))
    assert levels(row) == [(0.0, 2000.0, 0.0), (2000.0, 4800.0, 225.0)]
    (step,) = row["steps"]
    assert (step["limit_x_mm"], step["courses_count"], step["rise_mm"]) == (2000.0, 3, 225.0)


def test_levels_below_zero_are_courses_too() -> None:
    outline = points((0, -600), (4800, -600), (4800, 1800), (0, 1800))
    row = base_of(over_ground((0, -700), (4800, -500), outline=outline))
    assert levels(row) == [
        (0.0, 600.0, -525.0),
        (600.0, 2400.0, -450.0),
        (2400.0, 4200.0, -375.0),
        (4200.0, 4800.0, -300.0),
    ]
    assert [run["course"] for run in row["runs"]] == [-7, -6, -5, -4]


def test_steps_stand_on_the_course_lines_of_the_datum() -> None:
    row = base_of(over_ground((0, -160), (4800, -160)), course_datum_mm=-30)
    assert levels(row) == [(0.0, 4800.0, 45.0)]


def test_ground_far_below_the_foot_leaves_it_as_it_is_drawn() -> None:
    row, findings = based(over_ground((0, -900), (4800, -151)))
    assert (levels(row), row["steps"], findings) == ([(0.0, 4800.0, 0.0)], [], [])
    assert "stepped_outline" not in row
    assert "stepped_net_area_m2" not in row
    assert row["least_clearance_mm"] == 151.0


def test_a_foot_between_courses_starts_on_the_next_one() -> None:
    outline = points((0, 10), (4800, 10), (4800, 2475), (0, 2475))
    row = base_of(over_ground((0, -900), (4800, -900), outline=outline))
    assert levels(row) == [(0.0, 4800.0, 75.0)]
    assert row["stepped_net_area_m2"] == pytest.approx(4.8 * 2.4)


def test_a_foot_within_half_a_millimetre_of_a_course_stands_on_it() -> None:
    outline = points((0, 0.4), (4800, 0.4), (4800, 2475), (0, 2475))
    row = base_of(over_ground((0, -900), (4800, -900), outline=outline))
    assert levels(row) == [(0.0, 4800.0, 0.0)]
    assert "stepped_outline" not in row


def test_a_foot_that_is_drawn_in_steps_is_kept_where_it_is_high_enough() -> None:
    """Drawn at 0 and from 1800 at 150; the ground asks for 75 up to 900 and for 225 from 3000."""
    outline = points((0, 0), (1800, 0), (1800, 150), (4800, 150), (4800, 2475), (0, 2475))
    row = base_of(over_ground((0, -75), (900, -75), (900, -400), (3000, -400), (3000, 75), (4800, 75), outline=outline))
    assert levels(row) == [(0.0, 900.0, 75.0), (900.0, 1800.0, 0.0), (1800.0, 3000.0, 150.0), (3000.0, 4800.0, 225.0)]


def test_a_raked_foot_is_stepped_above_itself() -> None:
    """From 0 to 300 over 4800: half a millimetre may be missed, so each course starts 8 mm after the foot reaches it."""
    outline = points((0, 0), (4800, 300), (4800, 2475), (0, 2475))
    row = base_of(over_ground((0, -900), (4800, -900), outline=outline))
    assert limits(row) == pytest.approx([8.0, 1208.0, 2408.0, 3608.0])


def test_without_ground_there_is_only_the_foot_as_drawn() -> None:
    row = base_of({"id": "rear", "width_mm": 4800, "height_mm": 2475})
    assert row["as_drawn"] == [
        {"course": 0, "level_mm": 0.0, "x_from_mm": 0.0, "x_to_mm": 4800.0, "trim_mm": 4800.0}
    ]  # fmt: skip
    assert not {"runs", "steps", "least_clearance_mm", "stepped_outline"} & set(row)


def test_where_no_ground_is_given_the_foot_stays_as_drawn() -> None:
    row = base_of(over_ground((1000, 0), (2000, 0)))
    assert levels(row) == [(0.0, 1000.0, 0.0), (1000.0, 2000.0, 150.0), (2000.0, 4800.0, 0.0)]


def test_a_gable_keeps_its_rakes_over_a_stepped_base() -> None:
    """Above the base stand 4800 x 1500 / 2 of the gable and 4800 x 2400 less 75 x 2400 of the wall below it."""
    gable = points((0, 0), (4800, 0), (4800, 2400), (2400, 3900), (0, 2400))
    row = base_of(over_ground((0, -160), (2400, -160), (2400, -100), (4800, -100), outline=gable))
    assert row["stepped_net_area_m2"] == pytest.approx((4800 * 2400 - 75 * 2400 + 4800 * 750) * 1e-6)


def test_the_outline_given_back_needs_no_further_step_and_keeps_its_clearance() -> None:
    row = base_of(flank())
    again = base_of(given_back(flank(), row))
    assert flat(again) == pytest.approx(flat(row))
    assert "stepped_outline" not in again
    assert again["as_drawn_trim_mm"] == pytest.approx(row["trim_mm"])
    wall = wall_on(given_back(flank(), row))
    assert wall.faces[0].net_area * 1e-14 == pytest.approx(8.3208975, abs=1e-9)
    assert wall.findings == ()


def test_the_outline_goes_round_a_doorway_that_the_base_runs_into() -> None:
    """The step at 1985.6 lies in the doorway, which ends at 2025: the outline rises at the jamb."""
    corners = [(one["x_mm"], one["y_mm"]) for one in base_of(flank())["stepped_outline"]]
    assert (2025.0, 150.0) in corners
    assert (2025.0, 225.0) in corners
    assert not any(x == 1985.6 for x, _ in corners)


@pytest.mark.parametrize(
    "ground",
    [
        pytest.param([(0, 1950), (4800, 1950)], id="base at the head of the window"),
        pytest.param([(0, 2100), (4800, 2100)], id="base over the head"),
        pytest.param(
            [(0, -400), (3000, -400), (3000, 2500), (4800, 2500)], id="ground over the top of part of the wall"
        ),
    ],
)
def test_a_base_that_no_outline_can_hold_is_reported(ground: list[tuple[float, float]]) -> None:
    row, (one,) = based(over_ground(*ground, openings=[window()]))
    assert (one["code"], one["where"]) == ("stepped-base-unfit", {"pointer": "/elevations/0/base", "elevation": "rear"})
    assert "stepped_outline" not in row
    assert "stepped_net_area_m2" in row


def test_a_base_that_cuts_an_arch_beside_its_curve_is_reported() -> None:
    """At 1950 the base would leave wall between itself and the haunches of an arch that springs at 1800."""
    arch = {
        "kind": "arch",
        "id": "a",
        "x_mm": 900,
        "width_mm": 685,
        "sill_mm": 900,
        "springing_mm": 1800,
        "rise_mm": 342.5,
    }
    _, (one,) = based(over_ground((0, 1800), (4800, 1800), openings=[arch]))
    assert one["code"] == "stepped-base-unfit"


def test_ground_that_crosses_more_courses_than_anybody_can_step_is_refused() -> None:
    """Ground that rises 790 m passes 10 533 courses of 75 mm."""
    tower = points((0, -400_000), (1000, -400_000), (1000, 400_000), (0, 400_000))
    with pytest.raises(Refusal) as caught:
        base_of(over_ground((0, -400_000), (1000, 390_000), outline=tower))
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("size-limit", "/elevations/0/base/ground")


def test_a_wall_in_a_mirror_has_its_base_in_the_mirror() -> None:
    ground = [(0, -50), (1200, -250), (3000, 50), (4800, -150)]
    row = base_of(over_ground(*ground))
    image = base_of(over_ground(*[(4800 - x, y) for x, y in ground]))
    mirrored = [(4800 - right, 4800 - left, y) for left, right, y in reversed(levels(row))]
    assert flat(image) == pytest.approx([value for run in mirrored for value in run])


def test_a_mirror_image_steps_in_the_mirror_at_the_same_perps() -> None:
    """The image is set out from its other end, so that its perps are images too."""
    walls = [flank(), {"id": "image", "mirror_of": "right"}]
    wall = wall_of([Elevation.model_validate(one) for one in walls], System.model_validate(PLAIN))
    outs = set_out(wall, [planned_joints(face, wall.system) for face in wall.faces], Options())
    row, image = (elevation_base(face, wall, out)[0] for face, out in zip(wall.faces, outs, strict=True))
    mirrored = [(3723 - right, 3723 - left, y) for left, right, y in reversed(levels(row))]
    assert flat(image) == pytest.approx([value for run in mirrored for value in run])
    perps = [step["at_perp_x_mm"] for step in reversed(row["steps"])]
    assert [step["at_perp_x_mm"] for step in image["steps"]] == pytest.approx([3723 - x for x in perps])
    assert image["stepped_net_area_m2"] == pytest.approx(row["stepped_net_area_m2"])
