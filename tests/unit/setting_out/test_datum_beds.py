"""Beds that bring a level onto a course, their limits, and boards whose ribs fix the pitch.

Limits of 8 to 12 mm for a bed that is adjusted are this service's own.
"""

from typing import Any

import pytest

from storeyrod.findings import Finding
from storeyrod.setting_out.datum import datum_result
from unit.setting_out.level_walls import candidate, levelled, result_of, stood


def sills(wall: Any) -> dict[str, Any]:
    (found,) = [one for one in candidate(result_of(wall), "as_given")["levels"] if one["what"] == "sill"]
    return found


def found(wall: Any) -> list[Finding]:
    return datum_result(wall, None)[1]


def test_a_bed_brings_the_nearest_course_onto_the_level() -> None:
    """Course 14 at 1078: 1078 / 14 = 77, of which the slip has 65."""
    row = sills(stood(levelled(0, 2475, (1078, 2100)), ribs=False))
    assert (row["course"], row["bed_mm"], row["bed_within"]) == (14, pytest.approx(12.0), True)


def test_beds_are_counted_from_the_datum_down_as_well() -> None:
    """Course -14 stands at -1050, 28 below the sill; 14 courses of 73 reach down to -1022, and a slip has 65 of that."""
    row = sills(stood(levelled(-1500, 900, (-1022, 600)), ribs=False))
    assert (row["course"], row["bed_mm"]) == (-14, pytest.approx(8.0))


def test_a_datum_off_zero_is_taken_off_before_beds_are_counted() -> None:
    row = sills(stood(levelled(0, 2475, (1088, 2110)), datum=10, ribs=False))
    assert (row["course"], row["bed_mm"]) == (14, pytest.approx(12.0))


def test_a_bed_outside_its_limits_is_reported_at_its_level() -> None:
    (one,) = found(stood(levelled(0, 2475, (1078.1, 2100)), ribs=False))
    assert (one["code"], one["limit"], one["where"]["opening"], one["where"]["y_mm"]) == (
        "bed-out-of-range", 12.0, "w0", 1078.1,
    )  # fmt: skip
    assert one["value"] == pytest.approx(1078.1 / 14 - 65)


def test_a_level_on_course_and_one_at_course_0_have_no_bed() -> None:
    rows = candidate(result_of(stood(levelled(20, 2475, (1050, 2100)), ribs=False)), "as_given")["levels"]
    assert [(one["what"], one["course"]) for one in rows if "bed_mm" not in one] == [
        ("base", 0), ("sill", 14), ("head", 28), ("top", 33),
    ]  # fmt: skip


def test_ribs_fix_the_pitch_so_that_only_the_datum_may_move() -> None:
    wall = stood(levelled(0, 2475, (1078.1, 2100)))
    assert result_of(wall)["pitch_fixed_by_ribs"] is True
    assert "bed_mm" not in sills(wall)
    assert found(wall) == []


def test_a_plain_board_leaves_the_pitch_to_the_beds_inside_the_limits_given() -> None:
    wall = stood(levelled(0, 2475), ribs=False)
    assert result_of(wall)["pitch_fixed_by_ribs"] is False
    joint = wall.system.joint
    assert (joint.bed_min_mm, joint.bed_max_mm) == (8.0, 12.0)
