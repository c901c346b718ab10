"""Edges of the substrate behind a face: openings as they are in it, free ends, the top of the wall, and joints of the structure.

External corners are not among them: past them a board has nothing behind it, which ``room`` knows. The foot is none: the wall goes
on below the cladding.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.rings import Ring, Vertex
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.face import SIDES, Face

Rise = Literal[-1, 0, 1]


class SubstrateEdge(NamedTuple):
    """A rectangle that is no substrate, or an edge by the box around it, in ticks; a sloping edge rises to the right (1) or left (-1)."""

    left: float
    bottom: float
    right: float
    top: float
    rise: Rise = 0

    def reached(self, height: float, distance: float) -> Interval | None:
        """What of a level line is closer to it than a distance."""
        left, bottom, right, top, rise = self
        away = bottom - height if height < bottom else height - top if height > top else 0.0
        if away >= distance:
            return None
        if rise:
            return _along_slope(self, height, distance)
        reach = math.sqrt(distance * distance - away * away) if away else distance
        return left - reach, right + reach

    def distance(self, x: float, y: float) -> float:
        """From a point."""
        if self.rise:
            return _from_slope(self, x, y)
        across, along = max(self.left - x, x - self.right, 0.0), max(self.bottom - y, y - self.top, 0.0)
        return math.hypot(across, along)

    def seen_from(self, left: float, bottom: float, right: float, top: float) -> tuple[float, ...]:
        """The edge as a piece with this box sees it, from its lower left corner: what of a rectangle lies farther away is left out."""
        a, b, c, d, rise = self
        if rise:
            return a - left, b - bottom, c - left, d - bottom, rise
        start, end = a if a > left else min(left, c), c if c < right else max(right, a)
        low, high = b if b > bottom else min(bottom, d), d if d < top else max(top, b)
        return start - left, low - bottom, end - left, high - bottom, rise


def _seen(low: float, high: float, start: float, end: float) -> Interval:
    """What of an interval is as near to all that lies from a start to an end."""
    return low if low > start else min(start, high), high if high < end else max(end, low)


def near_edges(edges: Sequence[SubstrateEdge], height: float, distance: float) -> list[Interval]:
    """What of a level line is closer to edges than a distance, by where it starts."""
    return sorted([span for edge in edges if (span := edge.reached(height, distance)) is not None])


def _ends(edge: SubstrateEdge) -> tuple[Vertex, Vertex]:
    """Lower and upper end of a sloping edge."""
    left, bottom, right, top, rise = edge
    return ((left, bottom), (right, top)) if rise > 0 else ((right, bottom), (left, top))


def _along_slope(edge: SubstrateEdge, height: float, distance: float) -> Interval | None:
    """What of a level line lies in the strip along a sloping edge, or in the circles round its ends."""
    (x0, y0), (x1, y1) = _ends(edge)
    found: list[float] = []
    for x, y in ((x0, y0), (x1, y1)):
        if abs(height - y) < distance:
            reach = math.sqrt(distance * distance - (height - y) ** 2)
            found += [x - reach, x + reach]
    run, rise = x1 - x0, y1 - y0
    length = math.hypot(run, rise)
    for side in (-distance, distance):
        # Where a parallel at that distance passes the level line, if beside the edge itself.
        x = x0 + ((height - y0) * run + side * length) / rise
        if 0.0 <= (x - x0) * run + (height - y0) * rise <= length * length:
            found.append(x)
    return (min(found), max(found)) if found else None


def _from_slope(edge: SubstrateEdge, x: float, y: float) -> float:
    (x0, y0), (x1, y1) = _ends(edge)
    run, rise = x1 - x0, y1 - y0
    share = min(1.0, max(0.0, ((x - x0) * run + (y - y0) * rise) / (run * run + rise * rise)))
    return math.hypot(x - x0 - share * run, y - y0 - share * rise)


def substrate_edges_of(face: Face) -> tuple[SubstrateEdge, ...]:
    """Edges of the substrate behind a face, from left to right."""
    found = list(_top_and_ends(face))
    for opening in face.board_openings():
        if opening.is_box:
            found.append(SubstrateEdge(opening.left, opening.sill, opening.right, opening.head))
        else:
            found += _edges(pairwise((*opening.ring, opening.ring[0])))
    for x in map(ticks, face.elevation.existing_joints_x_mm):
        found.append(SubstrateEdge(x, -math.inf, x, math.inf))
    for y in map(ticks, face.elevation.existing_joints_y_mm):
        found.append(SubstrateEdge(-math.inf, y, math.inf, y))
    return tuple(sorted(found))


def _top_and_ends(face: Face) -> Iterator[SubstrateEdge]:
    """The outline from the foot of its right end over the top to the foot of its left end; where the wall goes on past an end, so does
    its level top, and there is no edge.
    """
    chain = _from_foot_to_foot(face.outline, face.left, face.right)
    left_goes_on, right_goes_on = (face.edge(side).kind != "free_end" for side in SIDES)
    for edge in _edges(pairwise(chain)):
        at_left, at_right = left_goes_on and edge.left == face.left, right_goes_on and edge.right == face.right
        if edge.bottom == edge.top:
            left, right = -math.inf if at_left else edge.left, math.inf if at_right else edge.right
            yield edge._replace(left=left, right=right)
        elif edge.left < edge.right or not (at_left or at_right):
            yield edge


def _from_foot_to_foot(outline: Ring, left: float, right: float) -> Sequence[Vertex]:
    start, end = (outline.index(min(v for v in outline if v[0] == x)) for x in (right, left))
    return outline[start : end + 1] if start < end else (*outline[start:], *outline[: end + 1])


def _edges(edges: Iterable[tuple[Vertex, Vertex]]) -> Iterator[SubstrateEdge]:
    for (x0, y0), (x1, y1) in edges:
        rise: Rise = 0 if x0 == x1 or y0 == y1 else 1 if (x1 > x0) == (y1 > y0) else -1
        yield SubstrateEdge(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1), rise)


class EdgesBeside:
    """Edges of the substrate in reach of a row of pieces, in cells from left to right, so that most pieces need no look at them."""

    __slots__ = ("_cells", "_ends", "_inside", "_reach", "_starts")

    def __init__(
        self, edges: Sequence[SubstrateEdge], bottom: float, top: float, reach: float, *, inside: float
    ) -> None:
        """Of edges from left to right, for pieces between two levels; ``inside`` is how far from its own edges a fastener stands at least."""
        self._reach = reach
        self._inside = inside
        starts: list[float] = []
        ends: list[float] = []
        cells: list[list[SubstrateEdge]] = []
        low, high, end = bottom - reach, top + reach, -math.inf
        for edge in [edge for edge in edges if edge[1] < high and edge[3] > low]:
            if not cells or edge[0] - reach > end:
                starts.append(edge[0] - reach)
                ends.append(end)
                cells.append([])
            cells[-1].append(edge)
            end = max(end, edge[2] + reach)
        self._starts = starts
        self._ends = [*ends[1:], end]
        self._cells = cells

    def seen_over(self, bottom: float, top: float) -> list[tuple[float, ...]]:
        """All of them as pieces between these levels see them: where they stand along the face, and their heights over the lower one."""
        found: list[tuple[float, ...]] = []
        for cell in self._cells:
            for left, foot, right, head, rise in cell:
                low, high = (foot, head) if rise else _seen(foot, head, bottom, top)
                found.append((left, right, low - bottom, high - bottom, rise))
        return found

    def of(self, left: float, right: float) -> list[SubstrateEdge]:
        """Edges in reach of the fasteners of a piece between two plumb lines."""
        index = bisect_left(self._starts, right) - 1
        found: list[SubstrateEdge] = []
        while index >= 0 and self._ends[index] > left:
            # One that is too narrow to keep the distance from its own edges has its fasteners anywhere.
            inside = self._inside if right - left >= 2.0 * self._inside else 0.0
            low, high = left + inside - self._reach, right - inside + self._reach
            found += [edge for edge in self._cells[index] if edge[0] < high and edge[2] > low]
            index -= 1
        return found
