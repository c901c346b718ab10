"""Buildings as loops of faces: their edges name one another, lengths are in the finished plane."""

from storeyrod.movement_joints.placement import planned_joints
from storeyrod.options import Options
from storeyrod.setting_out.loop import bond_loops
from storeyrod.setting_out.set_out import set_out
from storeyrod.trace import SILENT
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"max_spacing_mm": 50_000, "max_boards_count": 100},
}
MODULE = 225.0


def building(lengths, corners, height=750):
    """Faces in order round a building; corner k is the one at the right end of face k."""
    names = [f"f{index}" for index in range(len(lengths))]
    elevations = []
    for index, (name, length) in enumerate(zip(names, lengths, strict=True)):
        before, after = names[index - 1], names[(index + 1) % len(names)]
        elevations.append(
            {
                "id": name,
                "width_mm": length,
                "height_mm": height,
                "left_edge": {"kind": f"{corners[index - 1]}_corner", "to": f"{before}:right"},
                "right_edge": {"kind": f"{corners[index]}_corner", "to": f"{after}:left"},
            }
        )
    return elevations


def wall(elevations, **system):
    return wall_of([Elevation.model_validate(one) for one in elevations], System.model_validate({**SYSTEM, **system}))


def loops(elevations, perps="nominal", **system):
    made = wall(elevations, **system)
    plans = [planned_joints(face, made.system) for face in made.faces]
    options = Options(perps=perps)
    return bond_loops(made, plans, set_out(made, plans, options), options, SILENT)


def outs(elevations, perps="equalised", **system):
    made = wall(elevations, **system)
    plans = [planned_joints(face, made.system) for face in made.faces]
    return set_out(made, plans, Options(perps=perps))
