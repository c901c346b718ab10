"""Requests for the tests of wind: a block of 30 by 12 m, 14 m high, and its four faces."""

from typing import Any

from storeyrod.answer import Answer
from storeyrod.wind.calculation import calculate
from storeyrod.wind.models import WindLoadRequest

FOUR_FACES = [
    {"id": side, "width_mm": width, "height_mm": 14000, "face": {"side": side}}
    for side, width in (("front", 30000), ("right", 12000), ("rear", 30000), ("left", 12000))
]


def wind(breadth: float = 30, depth: float = 12, height: float = 14, **changes: Any) -> dict[str, Any]:
    building = {"breadth_m": breadth, "depth_m": depth, "height_m": height}
    made = {"kind": "basic_velocity", "fundamental_velocity_m_per_s": 25, "terrain": "III", "building": building}
    return {**made, **changes}


def asked(site: dict[str, Any], *elevations: dict[str, Any], **members: Any) -> Answer[Any]:
    return calculate(WindLoadRequest.model_validate({"wind": site, "elevations": list(elevations), **members}))


def zones_on(answer: Answer[Any], elevation: str, direction: str) -> list[tuple[str, float, float]]:
    """Zones of one direction on an elevation: letter and ends in mm."""
    return [
        (row["zone"], row["x_from_mm"], row["x_to_mm"])
        for row in answer.result["zones"]
        if row["elevation"] == elevation and row["direction"] == direction
    ]


def codes(answer: Answer[Any]) -> list[str]:
    return [item["code"] for item in answer.findings]
