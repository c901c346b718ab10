"""A corner of two walls at a right angle, its layers running round it."""

from storeyrod.junctions.detail_models import CornerParameters, ExternalCornerDetail, InternalCornerDetail
from storeyrod.junctions.details.detail import DrawnDetail, inside, leg_of, length_with, outside, thickness_of
from storeyrod.junctions.details.drawing import CUT, Box, Surface, place
from storeyrod.junctions.details.wall_slices import Wall
from storeyrod.junctions.posed import Flank
from storeyrod.trace import Trace


def corner(asked: ExternalCornerDetail | InternalCornerDetail, wall: Wall, trace: Trace) -> DrawnDetail:
    """The corner with its arris at the origin, that of the outside for an external one, of the inside for an internal one.

    Each leg is measured from the arris on the other side of the wall, so one of its two faces is longer by the thickness.
    """
    external = asked.kind == "external_corner"
    parameters: CornerParameters = asked.parameters
    d = thickness_of(wall.slices, trace)
    leg = leg_of(parameters.leg_mm, d, trace)
    far = wall.thickness + leg.length
    longer = trace.call(length_with, l_leg=leg.metres, d=d)
    near_face, far_face = (outside("outside", wall), inside("inside", wall))
    if not external:
        near_face, far_face = far_face, near_face

    def surfaces(x: float, y: float) -> Surface:
        if far in (x, y):
            return CUT
        return far_face if min(x, y) >= wall.thickness else near_face

    u_value = wall.u_value(trace)
    lengths = (leg.metres, longer) if external else (longer, leg.metres)
    arris = wall.thickness if external else 0.0
    return DrawnDetail(
        tuple(_boxes(wall, far, external=external)),
        surfaces,
        "plan",
        (Flank("wall", u_value, *lengths), Flank("wall", u_value, *lengths)),
        (place("inside_arris", arris, arris, "plan"),),
        findings=leg.findings,
        assumptions=leg.assumptions,
    )


def _boxes(wall: Wall, far: float, *, external: bool) -> list[Box]:
    made = []
    for one in wall.slices:
        near, end = (one.outer, one.inner) if external else (wall.thickness - one.inner, wall.thickness - one.outer)
        made.append(Box((near, far), (near, end), one.conductivity, one.name, one.pointer))
        made.append(Box((near, end), (end, far), one.conductivity, one.name, one.pointer))
    return made
