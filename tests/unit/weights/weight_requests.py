"""Requests for the tests of weights: a wall of 4800 by 2400 mm, boards of 100 mm at 35 kg/m3, adhesive in a bed of 3 mm."""

from typing import Any

from storeyrod.answer import Answer
from storeyrod.weights.calculation import calculate
from storeyrod.weights.models import DeadLoadRequest

SYSTEM: dict[str, dict[str, Any]] = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "density_kg_per_m3": 35},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "joint": {"depth_mm": 15},
    "adhesive": {"laid": "bed", "compressed_thickness_mm": 3},
}
WALL = {"id": "wall", "width_mm": 4800, "height_mm": 2400, "face": {"side": "front", "offset_mm": 16000}}
WIND = {
    "kind": "peak_pressures", "peak_pressures": [{"height_m": 20, "pressure_pa": 1000}],
    "building": {"breadth_m": 40, "depth_m": 10, "height_m": 5}, "internal_pressure": {"kind": "on_background"},
}  # fmt: skip
"""Zone C governs on the middle of the front, 10 m and more from both ends: c_pe,1 -0.5."""


def asked(*elevations: dict[str, Any], members: dict[str, Any] | None = None, **system: Any) -> Answer[Any]:
    made = {**SYSTEM, **{name: {**SYSTEM.get(name, {}), **value} for name, value in system.items()}}
    document = {
        "elevations": list(elevations or (WALL,)),
        "system": made,
        "options": {"effort": "quick"},
        **(members or {}),
    }
    return calculate(DeadLoadRequest.model_validate(document))


def link(found: Answer[Any], name: str, action: str = "suction") -> dict[str, Any]:
    return next(row for row in found.result["load_path"]["links"] if (row["link"], row["action"]) == (name, action))


def codes(found: Answer[Any]) -> list[str]:
    return [item["code"] for item in found.findings]
