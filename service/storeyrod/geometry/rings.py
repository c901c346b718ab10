"""Rings of straight edges: their areas, boxes and tidy form, and what can be said of convex ones by plain arithmetic."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

Vertex = tuple[float, float]
Ring = tuple[Vertex, ...]
Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""


def signed_area(ring: Sequence[Vertex]) -> float:
    """Area of a ring, positive when it runs anticlockwise."""
    doubled = 0.0
    x0, y0 = ring[-1]
    for x1, y1 in ring:
        doubled += x0 * y1 - x1 * y0
        x0, y0 = x1, y1
    return doubled / 2.0


def area_between(ring: Sequence[Vertex], low: float, high: float) -> float:
    """Area of an anticlockwise ring between two plumb lines: what lies under each of its edges there, added up."""
    area = 0.0
    x0, y0 = ring[-1]
    for x1, y1 in ring:
        if x0 != x1 and (x0 > low or x1 > low) and (x0 < high or x1 < high):
            a, b = min(max(x0, low), high), min(max(x1, low), high)
            rise = (y1 - y0) / (x1 - x0)
            area += (y0 + ((a + b) / 2.0 - x0) * rise) * (a - b)
        x0, y0 = x1, y1
    return area


def bounds(ring: Iterable[Vertex]) -> Box:
    """Smallest axis-aligned box around a ring."""
    xs, ys = zip(*ring, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def tidy(ring: Sequence[Vertex]) -> Ring:
    """The ring anticlockwise from its lowest, then leftmost vertex, without repeated or collinear vertices."""
    corners = _corners(list(ring))
    if len(corners) < 3:
        return ()
    if signed_area(corners) < 0:
        corners.reverse()
    return from_lowest(corners)


def from_lowest(ring: Sequence[Vertex]) -> Ring:
    """The same ring from its lowest, then leftmost vertex."""
    start = min(range(len(ring)), key=lambda index: (ring[index][1], ring[index][0]))
    return (*ring[start:], *ring[:start])


def _corners(ring: list[Vertex]) -> list[Vertex]:
    """The vertices at which the ring turns; dropping one may make its neighbours equal or collinear, so repeat."""
    kept, before = ring, len(ring) + 1
    while 0 < len(kept) < before:
        before = len(kept)
        kept = _turning(_distinct(kept))
    return kept


def _distinct(ring: list[Vertex]) -> list[Vertex]:
    return [here for here, after in pairwise((*ring, ring[0])) if here != after]


def _turning(ring: list[Vertex]) -> list[Vertex]:
    return [
        here
        for before, here, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True)
        if (here[0] - before[0]) * (after[1] - here[1]) != (here[1] - before[1]) * (after[0] - here[0])
    ]


def rectangle(left: float, bottom: float, right: float, top: float) -> Ring:
    """Ring of an axis-aligned rectangle."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def box_of(ring: Sequence[Vertex]) -> Box | None:
    """The box that a tidy ring is, or none for any other shape."""
    if len(ring) != 4:
        return None
    (left, bottom), (right, _), (_, top), _ = ring
    return (left, bottom, right, top) if tuple(ring) == rectangle(left, bottom, right, top) else None


def overlap_of_boxes(first: Box, second: Box) -> float:
    """Area common to two boxes."""
    width = min(first[2], second[2]) - max(first[0], second[0])
    height = min(first[3], second[3]) - max(first[1], second[1])
    return width * height if width > 0 and height > 0 else 0.0


def is_convex(ring: Sequence[Vertex]) -> bool:
    """Whether an anticlockwise ring never turns right."""
    return all(
        (x1 - x0) * (y2 - y1) >= (y1 - y0) * (x2 - x1)
        for (x0, y0), (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), (*ring[2:], *ring[:2]), strict=True)
    )


def holds(convex: Sequence[Vertex], points: Iterable[Vertex]) -> bool:
    """Whether points lie in a convex anticlockwise ring, or on its edges."""
    edges = list(pairwise((*convex, convex[0])))
    return all((x1 - x0) * (y - y0) >= (y1 - y0) * (x - x0) for x, y in points for (x0, y0), (x1, y1) in edges)


def beside_strip(ring: Ring, low: float, high: float) -> tuple[Ring, ...] | None:
    """The parts of a ring left and right of a plumb strip.

    None where an edge of the strip meets the ring more than twice, so that a part might fall apart.
    """
    xs = [x for x, _ in ring]
    if max(xs) <= low or min(xs) >= high:
        return (ring,)
    left, right = _left_of(ring, low), _left_of(_mirrored(ring), -high)
    if left is None or right is None:
        return None
    return tuple(part for part in (left, _mirrored(right)) if part)


def _mirrored(ring: Ring) -> Ring:
    return tidy([(-x, y) for x, y in ring])


def _left_of(ring: Ring, limit: float) -> Ring | None:
    sides = [side for x, _ in ring if (side := _side(x, limit))]
    if sum(1 for before, after in pairwise((*sides, sides[0])) if before != after) > 2:
        return None
    kept: list[Vertex] = []
    for (x0, y0), (x1, y1) in pairwise((*ring, ring[0])):
        if x0 <= limit:
            kept.append((x0, y0))
        if (x0 - limit) * (x1 - limit) < 0:
            kept.append((limit, y0 if y0 == y1 else y0 + (y1 - y0) * (limit - x0) / (x1 - x0)))
    return tidy(kept)


def _side(value: float, limit: float) -> int:
    return (value > limit) - (value < limit)


def distance_to_edge(point: Vertex, start: Vertex, end: Vertex) -> float:
    """Shortest distance of a point from a straight edge."""
    (x, y), (x0, y0), (x1, y1) = point, start, end
    run, rise = x1 - x0, y1 - y0
    along = ((x - x0) * run + (y - y0) * rise) / (run * run + rise * rise)
    share = min(1.0, max(0.0, along))
    return math.hypot(x - x0 - share * run, y - y0 - share * rise)
