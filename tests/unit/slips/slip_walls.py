"""Walls for the tests of slips: a system of 215 x 65 slips with 10 mm joints, and short ways to write elevations."""

import copy

from slip_rows import written_out
from storeyrod.movement_joints.placement import planned_joints
from storeyrod.options import Options
from storeyrod.reference.tables import worked_examples
from storeyrod.slips.calculation import calculate
from storeyrod.slips.layout import SlipLayout, lay_slips
from storeyrod.slips.models import SlipLayoutRequest
from storeyrod.wall.wall import wall_of

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10},
}


def system(**changes):
    made = copy.deepcopy(SYSTEM)
    for name, value in changes.items():
        made[name] = {**made.get(name, {}), **value} if isinstance(value, dict) else value
    return made


def request(*elevations, options=None, **changes):
    rows = [{"id": f"face-{index}", **elevation} for index, elevation in enumerate(elevations)]
    return SlipLayoutRequest.model_validate({"elevations": rows, "system": system(**changes), "options": options or {}})


def answer(*elevations, options=None, **changes):
    """The answer, its courses written out."""
    made = calculate(request(*elevations, options=options, **changes))
    made.result = written_out(made.result)
    return made


def result(*elevations, options=None, **changes):
    return answer(*elevations, options=options, **changes).result


def face(elevation, options=None, **changes):
    """The answer's row of a wall with one elevation."""
    return result(elevation, options=options, **changes)["elevations"][0]


def layout(*elevations, perps="nominal", **changes) -> SlipLayout:
    made = request(*elevations, **changes)
    wall = wall_of(made.elevations, made.system)
    return lay_slips(wall, [planned_joints(one, made.system) for one in wall.faces], Options(perps=perps))


def codes(*elevations, options=None, **changes):
    return [item["code"] for item in answer(*elevations, options=options, **changes).findings]


def rectangle(width_mm, height_mm, *openings, **more):
    return {"width_mm": width_mm, "height_mm": height_mm, "openings": list(openings), **more}


def opening(x_mm, y_mm, width_mm, height_mm, name="hole", **more):
    made = {"id": name, "kind": "rectangle", "x_mm": x_mm, "y_mm": y_mm, "width_mm": width_mm, "height_mm": height_mm}
    return {**made, **more}


def outline(*points, **more):
    return {"outline": [{"x_mm": x, "y_mm": y} for x, y in points], **more}


def house(name):
    """Request of one of the worked house's examples."""
    example = next(row for row in worked_examples() if row["id"] == name)
    return SlipLayoutRequest.model_validate(example["request"])
