"""Fasteners bought are those of the schedule under the same wind."""

from typing import Any

from storeyrod.fasteners.calculation import calculate as schedule_of
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.quantities.calculation import calculate as quantities_of
from storeyrod.quantities.models import QuantitiesRequest

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "fastener": {"pull_out": {"characteristic_kn": 0.3}},
    "movement_joint": {"max_spacing_mm": 50_000, "max_boards_count": 100},
}
WALL = {"id": "wall", "width_mm": 6000, "height_mm": 600, "face": {"side": "front", "offset_mm": 0}}
WIND = {
    "kind": "peak_pressures",
    "building": {"breadth_m": 40, "depth_m": 40, "height_m": 5},
    "internal_pressure": {"kind": "on_background"},
    "peak_pressures": [{"height_m": 5, "pressure_pa": 1000}],
}


def bought(**more: Any) -> float:
    request = {"elevations": [WALL], "system": SYSTEM, **more}
    lines = quantities_of(QuantitiesRequest.model_validate(request)).result["lines"]
    (line,) = [line for line in lines if line["role"] == "fastener"]
    return line["net"]


def test_without_wind_five_boards_take_the_pattern() -> None:
    """Five boards of eight."""
    assert bought() == 40


def test_under_wind_the_boards_in_the_edge_zone_take_more() -> None:
    """Zone A reaches 2 m, into the second board: 1.4*1.5*0.72/0.15 = 10.08, so eleven, set as twelve; three boards of eight."""
    assert bought(wind=WIND, substrate={"category": "B"}) == 2 * 12 + 3 * 8


def test_they_are_those_of_the_schedule() -> None:
    loads = {"wind": WIND, "substrate": {"category": "B"}, "partial_factors": {"wind": 1.8}}
    request = {"elevations": [WALL], "system": SYSTEM, **loads}
    schedule = schedule_of(FastenerScheduleRequest.model_validate(request)).result
    assert bought(**loads) == schedule["fasteners_count"]
