"""Perimeters to seal round what fills openings: jambs, head and sill, but not where an opening meets the edge of the wall."""

import math
from collections.abc import Sequence
from itertools import pairwise

from storeyrod.geometry.arc import arc_radius
from storeyrod.geometry.intervals import Interval, clip, total, union
from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import millimetres
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import SIDES, Face, FaceOpening
from storeyrod.wall.rings import LevelEdge


@formula(symbol="L_arc", expression="4*R*asin(sqrt(h/(2*R)))", unit="m", inputs={"R": "m", "h": "m"}, clause=GEOMETRY)
def arc_length(*, R: float, h: float) -> float:  # noqa: N803  symbol of the formula
    """Length of an arc of radius R and rise h, by half angles as in ``geometry.arc``: exact for flat arches too."""
    return 4 * R * math.asin(math.sqrt(h / (2 * R)))


@formula(symbol="L_frame", expression="pi*d", unit="m", inputs={"d": "m"}, clause=GEOMETRY)
def circumference(*, d: float) -> float:
    """Length round a circle of diameter d."""
    return math.pi * d


def frame_length(face: Face, opening: FaceOpening, trace: Trace) -> float:
    """Length to seal round one opening, in m."""
    match opening.model.kind:
        case "circle":
            diameter = millimetres(opening.right - opening.left) * METRES_PER_MILLIMETRE
            return trace.call(circumference, d=trace.given(diameter, opening.pointer))
        case "polygon":
            straight = [("edges", _perimeter(opening.ring))]
        case _:
            straight = [
                ("jambs", 2.0 * opening.jamb_height),
                ("head", sum(_run(head) for head in opening.heads)),
                ("sill", opening.right - opening.left),
            ]
    length = _straight_length(straight, _on_outline(face.outline, opening), opening.pointer, trace)
    return trace.sum("L_frame", "m", [length, _arc(opening, trace)]) if opening.is_arch else length


def _straight_length(rows: Sequence[tuple[str, float]], on_outline: float, pointer: str, trace: Trace) -> float:
    terms = [
        (what, millimetres(length) * METRES_PER_MILLIMETRE, pointer)
        for what, length in (*rows, ("at the edge of the wall", -on_outline))
        if length
    ]
    return trace.measure("L_frame", "m", terms)


def _arc(opening: FaceOpening, trace: Trace) -> float:
    pointer = opening.pointer
    width, rise = millimetres(opening.right - opening.left), millimetres(opening.head - opening.springing)
    radius = trace.call(arc_radius, w=trace.given(width, pointer), h=trace.given(rise, pointer))
    return trace.call(
        arc_length,
        R=trace.given(radius * METRES_PER_MILLIMETRE, origin_of(radius)),
        h=trace.given(rise * METRES_PER_MILLIMETRE, pointer),
    )


def _perimeter(ring: Ring) -> float:
    return math.fsum(math.dist(a, b) for a, b in pairwise((*ring, ring[0])))


def _run(edge: LevelEdge) -> float:
    return edge.span[1] - edge.span[0]


def _on_outline(outline: Ring, opening: FaceOpening) -> float:
    """Length of jambs, heads and sills that lies on the outline: there is no wall to seal to."""
    level = [(_along(outline, 1, edge.height), edge.span) for edge in (*opening.heads, *opening.sills)]
    plumb = [(_along(outline, 0, edge.x), edge.heights) for side in SIDES for edge in opening.jambs(side)]
    return sum(total(clip(edges, *span)) for edges, span in (*level, *plumb))


def _along(outline: Ring, axis: int, position: float) -> list[Interval]:
    """Edges of the outline on a level line (axis 1) or a plumb line (axis 0)."""
    other = 1 - axis
    return union(
        (min(a[other], b[other]), max(a[other], b[other]))
        for a, b in pairwise((*outline, outline[0]))
        if a[axis] == b[axis] == position
    )
