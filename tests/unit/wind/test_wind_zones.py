"""Zones of walls (EN 1991-1-4 figures 7.4 and 7.5, from memory), by hand on a block of 30 by 12 m, 14 m high.

Wind on the front: b 30, d 12, e = min(30, 28) = 28, so d <= e < 5 d: A 5.6, B 6.4, no C. Wind on the right side: b 12, d 30,
e = 12 < d: A 2.4, B 9.6, C 18.
"""

from itertools import pairwise
from typing import Any

import pytest
from wind_requests import FOUR_FACES, asked, codes, wind, zones_on

from storeyrod.findings import Refusal

BLOCK = asked(wind(), *FOUR_FACES)


def test_zones_of_a_side_wall_start_at_its_upwind_end() -> None:
    """The right side's left end, seen from outside, is the front's right corner."""
    assert zones_on(BLOCK, "right", "front") == [("A", 0, 5600), ("B", 5600, 12000)]
    assert zones_on(BLOCK, "left", "front") == [("A", 6400, 12000), ("B", 0, 6400)]


def test_a_long_wall_along_the_wind_has_three_zones() -> None:
    assert zones_on(BLOCK, "rear", "right") == [("A", 0, 2400), ("B", 2400, 12000), ("C", 12000, 30000)]


def test_the_windward_wall_is_one_zone_up_to_its_breadth_and_the_leeward_wall_another() -> None:
    assert zones_on(BLOCK, "front", "front") == [("D", 0, 30000)]
    assert zones_on(BLOCK, "rear", "front") == [("E", 0, 30000)]


def test_a_wall_of_a_fifth_of_e_is_zone_a_from_end_to_end() -> None:
    """d 5, b 30, h 14: e = 28 >= 25."""
    found = asked(wind(depth=5), {"id": "end", "width_mm": 5000, "height_mm": 14000, "face": {"side": "right"}})
    assert zones_on(found, "end", "front") == [("A", 0, 5000)]
    assert "zone-a-whole-face" in codes(found)


def test_an_elevation_that_starts_along_its_side_has_the_zones_of_its_place() -> None:
    """The last 10 m of the front: A of wind on the right side is its last 2.4 m."""
    part = {"id": "part", "width_mm": 10000, "height_mm": 14000, "face": {"side": "front", "offset_mm": 20000}}
    found = asked(wind(), part)
    assert zones_on(found, "part", "right") == [("A", 7600, 10000), ("B", 0, 7600)]
    assert zones_on(found, "part", "left") == [("C", 0, 10000)]


@pytest.mark.parametrize(
    ("offset", "along_the_wind"), [(0, [("A", 0, 2400), ("B", 2400, 10000)]), (20000, [("C", 0, 10000)])]
)
def test_an_elevation_drawn_from_inside_has_its_zones_turned_round(offset: float, along_the_wind: list[Any]) -> None:
    """Ten metres of the front at its left or its right end, seen from outside: wind on the left side comes upon that end first.

    Drawn from inside the left end of the front lies at the right of the drawing.
    """
    place = {"side": "front", "offset_mm": offset}
    part = {"width_mm": 10000, "height_mm": 14000}
    drawn = [{**part, "id": view, "face": {**place, "seen_from": view}} for view in ("outside", "inside")]
    found = asked(wind(), *drawn)
    outside, inside = (sorted(zones_on(found, view, "left")) for view in ("outside", "inside"))
    assert outside == along_the_wind
    assert inside == sorted((zone, 10000 - right, 10000 - left) for zone, left, right in along_the_wind)


def test_coordinates_are_those_of_the_elevation() -> None:
    outline = [{"x_mm": x, "y_mm": y} for x, y in ((5000, 100), (35000, 100), (35000, 14100), (5000, 14100))]
    found = asked(wind(ground_y_mm=100), {"id": "front", "outline": outline, "face": {"side": "front"}})
    assert ("A", 5000, 7400) in zones_on(found, "front", "left")


@pytest.mark.parametrize(
    ("height", "tops"),
    [(18, [18]), (20, [20]), (30, [20, 30]), (40, [20, 40]), (60, [20, 30, 40, 60]), (55, [20, 30, 35, 55])],
)
def test_the_windward_wall_of_a_tower_is_parted_by_reference_heights(height: float, tops: list[float]) -> None:
    """b 20: one part up to 20 m, two up to 40 m, beyond that 20 m at foot and head with strips of 10 m between."""
    found = asked(wind(20, 20, height))
    parts = [row for row in found.result["zones"] if (row["direction"], row["zone"]) == ("front", "D")]
    assert [row["y_to_mm"] / 1000 for row in parts] == tops
    assert [row["reference_height_m"] for row in parts] == tops


def test_side_and_rear_walls_of_a_tower_take_the_pressure_at_its_top() -> None:
    found = asked(wind(20, 20, 60))
    others = {row["reference_height_m"] for row in found.result["zones"] if row["zone"] != "D"}
    assert others == {60}


def test_the_envelope_takes_the_strongest_suction_of_all_directions() -> None:
    """On the front: A at both ends, B up to 12 m from each, and E of wind on the rear between (it is over C there)."""
    patches = [
        (row["zone"], row["x_from_mm"], row["x_to_mm"])
        for row in BLOCK.result["envelope"]
        if row["elevation"] == "front"
    ]
    assert patches == [
        ("A", 0, 2400), ("B", 2400, 12000), ("E", 12000, 18000), ("B", 18000, 27600), ("A", 27600, 30000),
    ]  # fmt: skip


def test_a_gable_has_its_own_area_in_its_zones() -> None:
    """A gable of 12 by 10 m with a tip of 4 m: 120 + 24 m2; each direction covers all of it once."""
    outline = [{"x_mm": x, "y_mm": y} for x, y in ((0, 0), (12000, 0), (12000, 10000), (6000, 14000), (0, 10000))]
    found = asked(wind(), {"id": "gable", "outline": outline, "face": {"side": "right"}})
    for direction in ("front", "right", "rear", "left"):
        areas = [row["area_m2"] for row in found.result["zones"] if row["direction"] == direction]
        assert sum(areas) == pytest.approx(144.0, abs=1e-6)


def test_a_parapet_is_left_out_and_its_verdict_withheld() -> None:
    found = asked(wind(), {**FOUR_FACES[0], "parapet_from_mm": 13000})
    assert "parapet-wind" in codes(found)
    assert {row["y_to_mm"] for row in found.result["zones"]} <= {12000, 13000}


def test_an_elevation_whose_side_is_not_known_is_zone_a_all_over() -> None:
    unknown = {"id": "somewhere", "width_mm": 9000, "height_mm": 6000}
    found = asked(wind(), unknown)
    (patch,) = found.result["envelope"]
    assert (patch["zone"], patch["x_from_mm"], patch["x_to_mm"]) == ("A", 0, 9000)
    assert "wind-face-unknown" in codes(found)


def test_rounding_adds_no_strip_without_height() -> None:
    """h is 2 b and four strips of 11 m, but for the last bits of floats."""
    found = asked(wind(20.74, 60, 85.48, strip_height_m=11))
    heights = [row["height_m"] for row in found.result["heights"] if row["direction"] == "front"]
    assert len(heights) == 6
    assert all(high - low > 1 for low, high in pairwise(heights))


def test_an_elevation_on_no_known_side_is_still_held_against_the_building() -> None:
    with pytest.raises(Refusal, match="above the ground"):
        asked(wind(height=5), {"id": "tower", "width_mm": 9000, "height_mm": 20000})
