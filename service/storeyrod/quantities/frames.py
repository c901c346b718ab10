"""Perimeters to seal round what fills openings: jambs, head and sill, but not where an opening meets the edge of the wall."""

import math
from itertools import pairwise

from storeyrod.geometry.arc import arc_radius
from storeyrod.geometry.intervals import Interval, clip, total, union
from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import millimetres
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import Face, FaceOpening


@formula(symbol="L_arc", expression="4*R*asin(sqrt(h/(2*R)))", unit="m", inputs={"R": "m", "h": "m"}, clause=GEOMETRY)
def arc_length(*, R: float, h: float) -> float:  # noqa: N803  symbol of the formula
    """Length of an arc of radius R and rise h, by half angles as in ``geometry.arc``: exact for flat arches too."""
    return 4 * R * math.asin(math.sqrt(h / (2 * R)))


def frame_length(face: Face, opening: FaceOpening, trace: Trace) -> float:
    """Length to seal round one opening, in m."""
    pointer = opening.pointer
    level_head = 0.0 if opening.is_arch else opening.right - opening.left
    straight = [
        ("jambs", 2.0 * opening.jamb_height),
        ("head", level_head),
        ("sill", opening.right - opening.left),
        ("at the edge of the wall", -_on_outline(face.outline, opening)),
    ]
    terms = [(what, millimetres(length) * METRES_PER_MILLIMETRE, pointer) for what, length in straight if length]
    length = trace.measure("L_frame", "m", terms)
    if not opening.is_arch:
        return length
    width, rise = millimetres(opening.right - opening.left), millimetres(opening.head - opening.springing)
    radius = trace.call(arc_radius, w=trace.given(width, pointer), h=trace.given(rise, pointer))
    arc = trace.call(
        arc_length,
        R=trace.given(radius * METRES_PER_MILLIMETRE, origin_of(radius)),
        h=trace.given(rise * METRES_PER_MILLIMETRE, pointer),
    )
    return trace.sum("L_frame", "m", [length, arc])


def _on_outline(outline: Ring, opening: FaceOpening) -> float:
    """Length of jambs, head and sill that lies on the outline: there is no wall to seal to."""
    levels = {
        "y": [opening.sill] if opening.is_arch else [opening.sill, opening.head],
        "x": [opening.left, opening.right],
    }
    level = sum(total(clip(_along(outline, 1, y), opening.left, opening.right)) for y in levels["y"])
    return level + sum(total(clip(_along(outline, 0, x), opening.sill, opening.springing)) for x in levels["x"])


def _along(outline: Ring, axis: int, position: float) -> list[Interval]:
    """Edges of the outline on a level line (axis 1) or a plumb line (axis 0)."""
    other = 1 - axis
    return union(
        (min(a[other], b[other]), max(a[other], b[other]))
        for a, b in pairwise((*outline, outline[0]))
        if a[axis] == b[axis] == position
    )
