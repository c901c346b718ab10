"""How a cut piece is sawn: square, at one rake, along a curve, or to an outline of its own.

A piece cut at one rake is its bounding box less one corner. Length, height, angle of the rake, the way it rises, and the
shorter side along the slip say how large that corner is and which one it is, up to turning the piece half round: that
changes none of them.
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Final, Literal, NamedTuple

from storeyrod.geometry.arc import Circle
from storeyrod.geometry.parts import RakedCell
from storeyrod.geometry.plane import Part, Ring, Vertex, distance_to_edge, signed_area
from storeyrod.setting_out.course_grid import HAIRLINE

Rises = Literal["left", "right"]
Edge = tuple[Vertex, Vertex]

_MOST_SLOPES: Final = 4
"""Sloping edges of a piece between straight rakes; a piece with more follows a curve."""


class RakeCut(NamedTuple):
    """One straight rake through a piece: its angle from level in degrees, the way it rises, and the corner taken off, in ticks."""

    angle: float
    rises: Rises
    run: float
    rise: float


class CutShape(NamedTuple):
    """Shape of a cut piece: at most one of a rake, a curve, a wedge, and an outline from its lower left corner, in ticks.

    A wedge is given by its width at both ends; one that is ``trimmed`` is cut again where the wall ends.
    """

    rake: RakeCut | None = None
    curved: bool = False
    outline: Ring = ()
    wedge: tuple[float, float] | None = None
    trimmed: bool = False


SQUARE: Final = CutShape()
"""A rectangle."""


def shape_of(part: Part, circles: Sequence[Circle] = ()) -> CutShape:
    """How a piece is sawn; ``circles`` are those of arches, of the rings over them and of round openings."""
    if not part.shape:
        return SQUARE
    if isinstance(part.shape, RakedCell) and not circles:
        run, rise, angle = part.shape.slope
        if run > HAIRLINE and rise > HAIRLINE:
            return CutShape(RakeCut(angle, "right" if part.shape.head > part.shape.foot else "left", run, rise))
    one_rake = isinstance(part.shape, RakedCell)
    rings = part.rings if one_rake else [_straightened(ring) for ring in part.rings]
    edges = [edge for ring in rings for edge in pairwise((*ring, ring[0]))]
    slopes = [edge for edge in edges if _is_sloping(edge)]
    if len(slopes) > _MOST_SLOPES or any(circle.holds(*edge) for edge in slopes for circle in circles):
        return CutShape(curved=True)
    if len(slopes) == 1 and len(rings) == 1 and (one_rake or _is_box_less_corner(part, rings[0], slopes[0])):
        return CutShape(rake=_rake(slopes[0]))
    if not slopes and len(rings) == 1 and _fills_box(part):
        return SQUARE
    return CutShape(outline=tuple((x - part.left, y - part.bottom) for x, y in rings[0]))


def _rake(edge: Edge) -> RakeCut:
    (x0, y0), (x1, y1) = sorted(edge)
    run, rise = x1 - x0, abs(y1 - y0)
    return RakeCut(math.degrees(math.atan2(rise, run)), "right" if y1 > y0 else "left", run, rise)


def _is_sloping(edge: Edge) -> bool:
    (x0, y0), (x1, y1) = edge
    return abs(x1 - x0) > HAIRLINE and abs(y1 - y0) > HAIRLINE


def _straightened(ring: Ring) -> list[Vertex]:
    """The ring without vertices at which it turns by less than a hairline."""
    kept = list(ring)
    index = 0
    while len(kept) > 3 and index < len(kept):
        before, here, after = kept[index - 1], kept[index], kept[(index + 1) % len(kept)]
        if here in (before, after) or (before != after and distance_to_edge(here, before, after) < HAIRLINE):
            del kept[index]
            index = max(0, index - 1)
        else:
            index += 1
    return kept


def _fills_box(part: Part) -> bool:
    width, height = part.right - part.left, part.top - part.bottom
    return width * height - part.area <= HAIRLINE * (width + height)


def _is_box_less_corner(part: Part, ring: Sequence[Vertex], slope: Edge) -> bool:
    """Whether nothing but the triangle beside the slope is missing from the bounding box."""
    rake = _rake(slope)
    width, height = part.right - part.left, part.top - part.bottom
    missing = width * height - rake.run * rake.rise / 2.0 - abs(signed_area(ring))
    return abs(missing) <= HAIRLINE * (width + height)
