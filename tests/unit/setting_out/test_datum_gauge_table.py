"""The gauge table against printed coursings, and its marks."""

from typing import Any

import pytest

from unit.setting_out.level_walls import levelled, result_of, stood


def table(*elevations: dict[str, Any], **system: Any) -> list[dict[str, Any]]:
    return result_of(stood(*elevations, **system))["gauge"]


def foot_of(rows: list[dict[str, Any]], course: int) -> float:
    (found,) = [row["foot_mm"] for row in rows if row["course"] == course]
    return found


@pytest.mark.parametrize(
    ("slip", "bed", "courses", "height"),
    [
        # Numeracy sheet on quantities of brick (2000): four courses with their beds are 300 mm, twelve 900 mm.
        (65, 10, 4, 300.0),
        (65, 10, 12, 900.0),
        # US modular brick 2 1/4 in: three courses to 8 in, thirty to 80 in.
        (57.15, 203.2 / 3 - 57.15, 3, 8 * 25.4),
        (57.15, 203.2 / 3 - 57.15, 30, 80 * 25.4),
        # DIN 4172, octametre: twelve courses of 71 mm units to the metre, sixteen of 52 mm units.
        (71, 1000 / 12 - 71, 12, 1000.0),
        (52, 10.5, 16, 1000.0),
    ],
)
def test_courses_come_to_the_printed_heights(slip: float, bed: float, courses: int, height: float) -> None:
    rows = table(
        levelled(0, 2400),
        ribs=False,
        slip={"length_mm": 215, "height_mm": slip, "thickness_mm": 20},
        joint={"bed_mm": bed},
    )
    assert foot_of(rows, courses) == pytest.approx(height, abs=1e-9)


def test_every_course_stands_a_slip_and_a_bed_over_the_one_below() -> None:
    rows = table(levelled(0, 2475), datum=10)
    assert [row["head_mm"] - row["foot_mm"] for row in rows] == pytest.approx([65.0] * len(rows))
    assert [row["foot_mm"] for row in rows] == [10 + 75 * row["course"] for row in rows]


def test_the_table_runs_from_the_course_at_the_foot_to_the_line_of_the_top() -> None:
    rows = table(levelled(0, 2475), levelled(-150, 900, name="left"))
    assert [rows[0]["course"], rows[-1]["course"]] == [-2, 33]


def test_a_foot_and_a_top_between_lines_stand_in_the_first_and_last_course() -> None:
    rows = table(levelled(20, 2465))
    assert [rows[0]["course"], rows[-1]["course"]] == [0, 32]


def test_levels_within_half_a_millimetre_of_a_line_are_marked_on_it() -> None:
    rows = table(levelled(0, 2475.6, (1050.5, 2100)), levelled(0, 2475, name="left"))
    assert {row["course"]: row["marks"] for row in rows if row["marks"]} == {
        0: ["left: foot", "rear: foot"],
        14: ["rear: sill of w0"],
        28: ["rear: head of w0"],
        33: ["left: top"],
    }
