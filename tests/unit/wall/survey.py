"""Short ways to write a surveyed wall in tests: one rectangle with its ends, and a plain system."""

from typing import Any, Final

from storeyrod.wall.face import Face, faces_of
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall, wall_of

PLAIN: Final[dict[str, Any]] = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "rib_pitch_mm": 75},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "adhesive": {"compressed_thickness_mm": 3},
}
"""Build-up 100 + 3 + 20 = 123 mm, course 65 + 10 = 75 mm, module 215 + 10 = 225 mm."""


def system(**changes: dict[str, Any]) -> System:
    """The plain system with members changed, part by part."""
    parts = {name: {**PLAIN.get(name, {}), **changes.get(name, {})} for name in {*PLAIN, *changes}}
    return System.model_validate(parts)


def rectangle(left: str = "free_end", right: str = "free_end", /, **members: Any) -> dict[str, Any]:
    """An elevation of 4800 by 2475 with the two kinds of edge."""
    sizes = {} if "outline" in members else {"width_mm": 4800, "height_mm": 2475}
    return {"id": "rear", **sizes, "left_edge": {"kind": left}, "right_edge": {"kind": right}, **members}


def points(*corners: tuple[float, float]) -> list[dict[str, float]]:
    """Corners as the request writes them."""
    return [{"x_mm": x, "y_mm": y} for x, y in corners]


def window(id: str = "w", **members: Any) -> dict[str, Any]:
    """A window of 1135 by 1050 with its sill at 1050."""
    return {
        "kind": "rectangle", "id": id, "x_mm": 900, "y_mm": 1050, "width_mm": 1135, "height_mm": 1050, **members,
    }  # fmt: skip


def band(id: str = "f", **members: Any) -> dict[str, Any]:
    """A feature of 4800 by 300, its foot at 0."""
    return {"kind": "rectangle", "id": id, "x_mm": 0, "y_mm": 0, "width_mm": 4800, "height_mm": 300, **members}


def wall(*elevations: dict[str, Any], **changes: dict[str, Any]) -> Wall:
    """The checked wall."""
    return wall_of([Elevation.model_validate(one) for one in elevations], system(**changes))


def face(elevation: dict[str, Any], **changes: dict[str, Any]) -> Face:
    """The one face of an elevation."""
    return faces_of([Elevation.model_validate(elevation)], system(**changes))[0]
