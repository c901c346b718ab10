"""Single faces set out: slips of 215 with perps of 10, a module of 225, courses of 75, boards of 600."""

from storeyrod.movement_joints.placement import planned_joints
from storeyrod.options import Options
from storeyrod.setting_out.runs import bay_set_outs
from storeyrod.setting_out.set_out import set_out
from storeyrod.setting_out.stacks import opening_stacks
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10, "max_spacing_mm": 50_000, "max_boards_count": 100},
}


def hole(x_mm, y_mm, width_mm, height_mm, name="w", **more):
    made = {"kind": "rectangle", "id": name, "x_mm": x_mm, "y_mm": y_mm, "width_mm": width_mm, "height_mm": height_mm}
    return {**made, **more}


def plain(width_mm, height_mm, *openings, **more):
    return {"id": "wall", "width_mm": width_mm, "height_mm": height_mm, "openings": list(openings), **more}


def shaped(*corners, openings=(), **more):
    outline = [{"x_mm": x, "y_mm": y} for x, y in corners]
    return {"id": "wall", "outline": outline, "openings": list(openings), **more}


def set_out_of(elevation, perps="nominal", **system):
    """The face set out, and its wall."""
    return _set_out(elevation, perps, system)


def _set_out(elevation, perps, system):
    made = {**SYSTEM, **{name: {**SYSTEM.get(name, {}), **change} if isinstance(change, dict) else change
                         for name, change in system.items()}}  # fmt: skip
    wall = wall_of([Elevation.model_validate(elevation)], System.model_validate(made))
    plans = [planned_joints(face, wall.system) for face in wall.faces]
    return set_out(wall, plans, Options(perps=perps))[0], wall


def bays(elevation, perps="nominal", **system):
    """Rows of the bays of a face."""
    return bay_set_outs(*_set_out(elevation, perps, system))[0]


def bay_findings(elevation, perps="nominal", **system):
    return bay_set_outs(*_set_out(elevation, perps, system))[1]


def stacks(elevation, perps="nominal", **system):
    """Rows of the stacks of a face, and what was found."""
    return opening_stacks(*_set_out(elevation, perps, system))
