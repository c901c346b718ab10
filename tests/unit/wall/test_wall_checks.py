"""The wall against its courses, the ground and the system: each limit, on it and just past it."""

from typing import Any

import pytest

from storeyrod.findings import Finding, Refusal
from storeyrod.wall.models import Elevation
from storeyrod.wall.wall import wall_of
from unit.wall.survey import points, rectangle, system, wall, window


def found(elevation: dict[str, Any]) -> list[Finding]:
    return list(wall(elevation).findings)


def codes(elevation: dict[str, Any]) -> list[str]:
    return [one["code"] for one in found(elevation)]


def test_a_wall_on_its_courses_has_nothing_to_report() -> None:
    assert codes(rectangle(openings=[window()])) == []


@pytest.mark.parametrize("offset", [0.5, -0.5])
def test_half_a_millimetre_off_the_course_is_still_on_it(offset: float) -> None:
    assert codes(rectangle(height_mm=2475 + offset)) == []


@pytest.mark.parametrize("offset", [0.6, -0.6, 37.5])
def test_a_top_off_its_course_is_reported_with_its_distance(offset: float) -> None:
    (one,) = found(rectangle(height_mm=2475 + offset))
    assert (one["code"], one["value"], one["limit"], one["unit"]) == (
        "top-off-course", pytest.approx(abs(offset)), 0.5, "mm",
    )  # fmt: skip
    assert one["where"]["y_mm"] == 2475 + offset


def test_a_sill_off_its_course_is_reported_at_the_opening() -> None:
    (one,) = found(rectangle(openings=[window(y_mm=1060, height_mm=1040)]))
    assert (one["code"], one["value"], one["where"]["opening"]) == ("sill-off-course", 10.0, "w")


def test_a_head_off_its_course_is_reported_at_the_opening() -> None:
    (one,) = found(rectangle(openings=[window(height_mm=1060)]))
    assert (one["code"], one["value"], one["where"]["pointer"]) == ("head-off-course", 10.0, "/elevations/0/openings/0")


def on_datum(level: float, elevation: dict[str, Any]) -> list[tuple[str, float]]:
    made = wall_of([Elevation.model_validate(elevation)], system().model_copy(update={"course_datum_mm": level}))
    return [(one["code"], one["value"]) for one in made.findings]


def test_courses_are_counted_from_the_datum_of_the_system() -> None:
    """Courses at 20, 95, ... 1070, ... 2495: sill 1050, head 2100 and top 2475 all lie 20 below one."""
    found = on_datum(20, rectangle(openings=[window()]))
    assert found == [("head-off-course", 20.0), ("sill-off-course", 20.0), ("top-off-course", 20.0)]


@pytest.mark.parametrize("datum", [-75, 75, 750])
def test_a_datum_whole_courses_off_changes_no_distance(datum: float) -> None:
    assert (
        on_datum(datum, rectangle(height_mm=2480))
        == on_datum(0, rectangle(height_mm=2480))
        == [("top-off-course", 5.0)]
    )


def test_a_wall_on_the_courses_of_its_datum_has_nothing_to_report() -> None:
    assert on_datum(10, rectangle(height_mm=2485, openings=[window(y_mm=1060)])) == []


def test_an_arch_has_no_level_head_to_report() -> None:
    arch = {
        "kind": "arch", "id": "a", "x_mm": 900, "width_mm": 685, "sill_mm": 900, "springing_mm": 1811, "rise_mm": 100,
    }  # fmt: skip
    assert codes(rectangle(openings=[arch])) == []


def test_a_rake_has_no_level_top_to_report() -> None:
    assert codes(rectangle(outline=points((0, 0), (3723, 0), (3723, 3380), (0, 2471)))) == []


def ground(left: float, right: float, **members: Any) -> list[Finding]:
    return found(rectangle(base={"ground": points((0, left), (4800, right)), **members}))


def test_ground_at_the_clearance_asked_is_far_enough() -> None:
    assert ground(-150, -150) == []


def test_ground_nearer_than_the_clearance_is_reported_at_its_worst_place() -> None:
    (one,) = ground(-400, -149)
    assert (one["code"], one["value"], one["limit"], one["where"]["x_mm"]) == ("clearance-short", 149.0, 150.0, 4800.0)


def test_ground_at_the_foot_is_no_clearance_but_not_above_it() -> None:
    assert [one["code"] for one in ground(0, -400)] == ["clearance-short"]


def test_ground_above_the_foot_is_reported_as_such() -> None:
    (one,) = ground(-160, 140)
    assert (one["code"], one["value"], one["where"]["x_mm"]) == ("base-below-ground", -140.0, 4800.0)


def test_a_clearance_of_nothing_is_kept_by_ground_at_the_foot() -> None:
    assert ground(0, -10, clearance_mm=0) == []


def test_ground_points_may_come_in_any_order_and_peak_between_the_ends() -> None:
    peaked = points((4800, -300), (2400, 20), (0, -300))
    (one,) = found(rectangle(base={"ground": peaked}))
    assert (one["code"], one["value"], one["where"]["x_mm"]) == ("base-below-ground", -20.0, 2400.0)


def test_ground_in_front_of_a_door_is_not_ground_under_cladding() -> None:
    door = window("d", x_mm=1000, y_mm=0, width_mm=1000, height_mm=2100)
    humped = points((0, -300), (1100, -300), (1200, 50), (1900, 50), (1950, -300), (4800, -300))
    assert found(rectangle(openings=[door], base={"ground": humped})) == []


def test_ground_that_jumps_counts_with_either_level_on_its_own_side() -> None:
    """Down from -20 to -400 at the jamb of a door: the high ground ends there, and nothing stands beyond it before 2000."""
    door = window("d", x_mm=1000, y_mm=0, width_mm=1000, height_mm=2100)
    jump = points((0, -400), (1000, -400), (1000, -20), (2000, -20), (2000, -300), (4800, -300))
    assert found(rectangle(openings=[door], base={"ground": jump})) == []
    (one,) = found(rectangle(base={"ground": jump}))
    assert (one["code"], one["value"]) == ("clearance-short", 20.0)


def test_ground_listed_from_right_to_left_jumps_at_the_same_side() -> None:
    jump = points((0, -400), (1000, -400), (1000, -100), (4800, -100))
    (one,) = found(rectangle(base={"ground": jump[::-1]}))
    assert one == found(rectangle(base={"ground": jump}))[0]
    door = window("d", x_mm=1000, y_mm=0, width_mm=3800, height_mm=2100)
    assert found(rectangle(openings=[door], base={"ground": jump[::-1]})) == []


def test_ground_that_ends_before_the_foot_is_reported_where_it_is_missing() -> None:
    (one,) = found(rectangle(base={"ground": points((100, -400), (4000, -400))}))
    assert (one["code"], one["value"], one["limit"], one["where"]["x_mm"]) == ("ground-incomplete", 900.0, 1.0, 0.0)


def test_ground_is_not_missed_where_a_door_stands_on_the_foot() -> None:
    door = window("d", x_mm=3800, y_mm=0, width_mm=1000, height_mm=2100)
    assert found(rectangle(openings=[door], base={"ground": points((0, -400), (3800, -400))})) == []


def test_ground_surveyed_before_the_wall_behind_goes_on_to_an_external_corner() -> None:
    """The build-up of 123 mm puts the finished corner past the survey."""
    behind = {"plane": "substrate", "base": {"ground": points((0, -400), (4800, -400))}}
    assert found(rectangle("external_corner", "external_corner", **behind)) == []
    short = {"plane": "substrate", "base": {"ground": points((0, -400), (4798.9, -400))}}
    assert [one["code"] for one in found(rectangle("free_end", "external_corner", **short))] == ["ground-incomplete"]


REFUSED: list[tuple[str, str, dict[str, Any]]] = [
    ("pitch-mismatch", "/system/board/rib_pitch_mm", {"board": {"rib_pitch_mm": 75.06, "cover_height_mm": 600.48}}),
    ("board-smaller-than-course", "/system/board/cover_height_mm",
     {"board": {"cover_height_mm": 74.9, "rib_pitch_mm": None}}),
    ("board-not-whole-courses", "/system/board/cover_height_mm", {"board": {"cover_height_mm": 615}}),
    ("perp-limits-contradictory", "/system/joint/perp_min_mm", {"joint": {"perp_min_mm": 12.5}}),
]  # fmt: skip


@pytest.mark.parametrize(("slug", "pointer", "changes"), REFUSED, ids=[row[0] for row in REFUSED])
def test_a_system_that_cannot_belong_together_is_refused(slug: str, pointer: str, changes: dict[str, Any]) -> None:
    with pytest.raises(Refusal) as caught:
        wall(rectangle(), **changes)
    assert (caught.value.slug, [fault.pointer for fault in caught.value.faults]) == (slug, [pointer])


@pytest.mark.parametrize(
    "changes",
    [
        {"board": {"rib_pitch_mm": 75.04, "cover_height_mm": 600.32}},
        {"board": {"cover_height_mm": 75, "rib_pitch_mm": None}},
        {"board": {"cover_height_mm": 600.05}},
        {"board": {"cover_height_mm": 615, "rib_pitch_mm": None}},
        {"joint": {"perp_min_mm": 12, "perp_max_mm": 12}},
    ],
    ids=["pitch within 0.05", "board of one course", "courses within 0.05", "no ribs to fit", "one permitted perp"],
)
def test_a_system_inside_its_tolerances_is_taken(changes: dict[str, Any]) -> None:
    wall(rectangle(), **changes)
