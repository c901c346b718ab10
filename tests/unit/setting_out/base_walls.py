"""Short ways to ask for the base of a wall in tests."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from storeyrod.findings import Finding
from storeyrod.movement_joints.placement import planned_joints
from storeyrod.options import Options
from storeyrod.setting_out.base_steps import elevation_base
from storeyrod.setting_out.level_models import ElevationBase
from storeyrod.setting_out.set_out import set_out
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall, wall_of
from unit.wall.survey import PLAIN, points, rectangle


def over_ground(*ground: tuple[float, float], clearance: float = 150, **members: Any) -> dict[str, Any]:
    """An elevation of 4800 by 2475 with ground before it."""
    ends = [members.pop("left", "free_end"), members.pop("right", "free_end")]
    return rectangle(*ends, **members, base={"ground": points(*ground), "clearance_mm": clearance})


def wall_on(elevation: dict[str, Any], **system: Any) -> Wall:
    return wall_of([Elevation.model_validate(elevation)], System.model_validate({**PLAIN, **system}))


def based(elevation: dict[str, Any], **system: Any) -> tuple[ElevationBase, list[Finding]]:
    """The base of one elevation, set out with nominal perps."""
    wall = wall_on(elevation, **system)
    (face,) = wall.faces
    (out,) = set_out(wall, [planned_joints(face, wall.system)], Options())
    return elevation_base(face, wall, out)


def base_of(elevation: dict[str, Any], **system: Any) -> ElevationBase:
    return based(elevation, **system)[0]


def levels(row: ElevationBase) -> list[tuple[float, float, float]]:
    """Runs as (left, right, level)."""
    return [(run["x_from_mm"], run["x_to_mm"], run["level_mm"]) for run in row["runs"]]


def flat(row: ElevationBase) -> list[float]:
    """The figures of all runs one after another."""
    return [value for run in levels(row) for value in run]


def limits(row: ElevationBase) -> list[float]:
    return [step["limit_x_mm"] for step in row["steps"]]


def given_back(elevation: dict[str, Any], row: ElevationBase) -> dict[str, Any]:
    """The elevation with the stepped outline as its own."""
    rest = {name: value for name, value in elevation.items() if name not in ("width_mm", "height_mm")}
    return {**rest, "outline": row["stepped_outline"]}


def height_at(line: Sequence[tuple[float, float]], x: float) -> float:
    """Height of a line of corners at a place, by plain interpolation; at a jump the higher."""
    found = []
    for (x0, y0), (x1, y1) in pairwise(line):
        if x0 <= x <= x1:
            found.append(max(y0, y1) if x0 == x1 else y0 + (y1 - y0) * (x - x0) / (x1 - x0))
    return max(found)
