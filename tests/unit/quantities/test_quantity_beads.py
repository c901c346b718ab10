"""Beads of adhesive against circle, triangle and the areas of the layout."""

import math

import pytest

from unit.quantities.quantity_requests import line, quantities
from unit.wall.survey import rectangle, window

# A face of 20 by 30 whole modules: every course 20 stretchers, or 19 and two ends that make one.
WALL = rectangle(width_mm=4500, height_mm=2250)
FACE_M2 = 20 * 30 * 0.215 * 0.065


def adhesive(*elevations, **system):
    return quantities(*elevations, **system)["adhesive"]


def test_a_bead_runs_behind_every_slip():
    bead = adhesive(WALL)
    assert bead["slip_face_area_m2"] == pytest.approx(FACE_M2)
    assert bead["bead_length_m"] == pytest.approx(20 * 30 * 0.215)


def test_two_beads_in_a_course_are_twice_as_long():
    assert adhesive(WALL, adhesive={"beads_per_course_count": 2})["bead_length_m"] == pytest.approx(2 * 20 * 30 * 0.215)


def test_a_round_bead_of_10_mm_takes_78_54_ml_per_m():
    # Common practice, no source: beads of 10 to 12 mm; 78.5 to 113.1 ml per m by the area of the circle.
    assert adhesive(WALL)["volume_l"] == pytest.approx(129.0 * math.pi * 10**2 / 4 / 1000)
    assert adhesive(WALL, adhesive={"bead_diameter_mm": 12})["bead_volume_ml_per_m"] == pytest.approx(113.1, abs=0.05)


def test_a_triangular_bead_takes_half_its_box():
    bead = adhesive(WALL, adhesive={"bead_triangle": {"width_mm": 8, "height_mm": 12}})
    assert bead["bead_section_mm2"] == pytest.approx(48.0)
    assert bead["volume_l"] == pytest.approx(129.0 * 48 / 1000)


def test_a_full_metre_of_courses_takes_1_047_l_per_m2():
    # 13.33 m of course in a square metre, perps included; slips alone are 4 % less: 215 of 225 mm.
    per_m2 = adhesive(WALL)["volume_l"] / (4.5 * 2.25)
    assert per_m2 == pytest.approx(1.047 * 215 / 225, abs=0.0005)


def test_coverage_is_the_bead_pressed_flat_over_the_slip():
    assert adhesive(WALL)["coverage_fraction"] == pytest.approx(math.pi * 25 / (3 * 65))


def test_coverage_never_exceeds_the_slip():
    assert adhesive(WALL, adhesive={"bead_diameter_mm": 20})["coverage_fraction"] == 1.0


def test_lined_reveals_have_beads_too():
    plain = adhesive(rectangle(openings=[window()]))
    lined = adhesive(rectangle(openings=[window(reveal={"left": {"depth_mm": 102.5}})]))
    # Fourteen courses of 102.5 by 65.
    assert lined["slip_face_area_m2"] - plain["slip_face_area_m2"] == pytest.approx(14 * 0.1025 * 0.065)


def test_the_line_takes_the_litres_of_the_beads():
    result = quantities(WALL)
    assert line(result["lines"], "adhesive")["net"] == result["adhesive"]["volume_l"]
    assert result["adhesive"]["packs_used"] == pytest.approx(result["adhesive"]["volume_l"] / 0.6)


def test_elevations_add_up():
    result = quantities(WALL, {**WALL, "id": "front", "height_mm": 1500})
    for member in ("slip_face_area_m2", "bead_length_m", "volume_l"):
        assert result["adhesive"][member] == pytest.approx(sum(row["adhesive"][member] for row in result["elevations"]))
