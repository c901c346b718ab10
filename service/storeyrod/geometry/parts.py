"""Parts of cells: what a column of a band holds of a region, with the ring of a raked cell worked out when it is asked for."""

import math
from itertools import pairwise
from typing import Final, NamedTuple

from storeyrod.geometry.rings import Ring, Vertex, rectangle

SMALLEST_PART: Final = 1.0e4
"""Square ticks (0.01 mm by 0.01 mm): what clipping leaves below this is rounding, not a piece."""


made: Final = tuple.__new__
"""The constructor of a named tuple without its own frame: ``made(Part, (left, bottom, right, top, area, shape))``."""


class RakedCell(NamedTuple):
    """A box cut by one sloping edge that crosses the box's band from (foot, bottom) to (head, top).

    The wall lies right of the edge, or left of it.
    """

    foot: float
    head: float
    left: float
    bottom: float
    right: float
    top: float
    wall_right: bool

    def height_at(self, x: float) -> float:
        """Where the edge passes a plumb line."""
        foot, head, _, bottom, _, top, _ = self
        return top if x == head else bottom + (top - bottom) * ((x - foot) / (head - foot))

    @property
    def slope(self) -> tuple[float, float, float]:
        """How far the edge goes along and upwards in the box, and its angle from level in degrees."""
        foot, head, left, bottom, right, top, _ = self
        low, high = (foot, head) if foot < head else (head, foot)
        run, height = min(high, right) - max(low, left), top - bottom
        return run, run * height / (high - low), math.degrees(math.atan2(height, high - low))

    def ring(self) -> Ring:
        """Ring of the wall in the box, anticlockwise from its lowest, then leftmost vertex."""
        corners = self._right_of_edge() if self.wall_right else self._left_of_edge()
        return tuple([here for here, after in pairwise((*corners, corners[0])) if here != after])

    def _left_of_edge(self) -> list[Vertex]:
        foot, head, left, bottom, right, top, _ = self
        ring = [(left, bottom), (min(foot, right), bottom)] if foot > left else [(left, self.height_at(left))]
        if (foot < right) != (head < right):
            ring.append((right, self.height_at(right)))
        return [*ring, *([(min(head, right), top), (left, top)] if head > left else [(left, self.height_at(left))])]

    def _right_of_edge(self) -> list[Vertex]:
        foot, head, left, bottom, right, top, _ = self
        ring = [(max(foot, left), bottom), (right, bottom)] if foot < right else [(right, self.height_at(right))]
        ring += [(right, top), (max(head, left), top)] if head < right else [(right, self.height_at(right))]
        if (foot > left) != (head > left):
            ring.append((left, self.height_at(left)))
        return ring


class Part(NamedTuple):
    """One connected part of a cell: bounding box, area and, unless it is a plain rectangle, its shape."""

    left: float
    bottom: float
    right: float
    top: float
    area: float
    shape: tuple[Ring, ...] | RakedCell = ()

    @property
    def rings(self) -> tuple[Ring, ...]:
        """Outer ring, then holes; nothing for a plain rectangle."""
        return (self.shape.ring(),) if isinstance(self.shape, RakedCell) else self.shape

    @property
    def is_rectangle(self) -> bool:
        """Whether the part fills its bounding box."""
        return not self.shape

    @property
    def outline(self) -> tuple[Ring, ...]:
        """Rings of the part, outer ring first, also for a plain rectangle."""
        return self.rings or (rectangle(self.left, self.bottom, self.right, self.top),)

    @property
    def is_axis_aligned(self) -> bool:
        """Whether every edge is level or plumb."""
        return all(a[0] == b[0] or a[1] == b[1] for ring in self.rings for a, b in pairwise((*ring, ring[0])))

    def lowered(self, by: float) -> "Part":
        """The part with its heights measured from a level."""
        rings = tuple(tuple((x, y - by) for x, y in ring) for ring in self.rings)
        return Part(self.left, self.bottom - by, self.right, self.top - by, self.area, rings)


def plain_part(left: float, bottom: float, right: float, top: float) -> Part:
    """A rectangle."""
    return Part(left, bottom, right, top, (right - left) * (top - bottom))
