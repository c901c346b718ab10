"""Short ways to ask for the movement joints of walls: joints of 10 mm, half modules of 112.5."""

from typing import Any, Final

from storeyrod.answer import Answer
from storeyrod.movement_joints.calculation import calculate
from storeyrod.movement_joints.models import MovementJointsRequest

SYSTEM: Final[dict[str, Any]] = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10},
}


def outline(*corners: tuple[float, float]) -> dict[str, Any]:
    """An outline, in place of width and height."""
    points = [{"x_mm": x, "y_mm": y} for x, y in corners]
    return {"outline": points, "width_mm": None, "height_mm": None}


def window(name: str, x_mm: float, width_mm: float, **members: Any) -> dict[str, Any]:
    """A window with its sill at 900 and its head at 2100."""
    return {
        "id": name, "kind": "rectangle", "x_mm": x_mm, "y_mm": 900, "width_mm": width_mm, "height_mm": 1200, **members,
    }  # fmt: skip


def joined(*elevations: dict[str, Any], **joint: Any) -> Answer[Any]:
    """Joints of a building."""
    system = {**SYSTEM, "movement_joint": {**SYSTEM["movement_joint"], **joint}}
    return calculate(MovementJointsRequest.model_validate({"elevations": list(elevations), "system": system}))


def wall(**members: Any) -> dict[str, Any]:
    """An elevation of 12 000 by 3000."""
    return {"id": "wall", "width_mm": 12_000, "height_mm": 3000, **members}


def jointed(elevation: dict[str, Any], **joint: Any) -> dict[str, Any]:
    """The row of a single elevation."""
    return joined(elevation, **joint).result["elevations"][0]


def places(row: dict[str, Any]) -> list[float]:
    """Centres of joints."""
    return [joint["x_mm"] for joint in row["joints"]]


def lengths(row: dict[str, Any]) -> list[float]:
    """Clear lengths of bays."""
    return [bay["length_mm"] for bay in row["bays"]]


def codes(answer: Answer[Any]) -> list[str]:
    """What was found."""
    return [item["code"] for item in answer.findings]


def found(answer: Answer[Any], code: str) -> list[dict[str, Any]]:
    """Findings of one code."""
    return [dict(item) for item in answer.findings if item["code"] == code]
