"""The ground along a face: a line of straight stretches from left to right, with plumb jumps where points stand above one another."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.wall.face import Face, Side, corner_shift

END_MM: Final = 1.0
"""House limit: ground that ends so far before the end of the foot is taken to go on level."""

Stretch = tuple[tuple[float, float], tuple[float, float]]
"""Left and right end of a straight stretch of ground, in ticks."""


def ground_of(face: Face) -> tuple[Stretch, ...]:
    """Stretches of ground before a face, from left to right; none without a base.

    Points are taken by their place; where two have the same place, in the order of the list, read from left to right. A survey of
    the wall behind ends short of an external corner, so there the last level goes on to it.
    """
    base = face.elevation.base
    if base is None:
        return ()
    given = [(ticks(point.x_mm), ticks(point.y_mm)) for point in base.ground]
    line = sorted(given if given[0][0] <= given[-1][0] else reversed(given), key=lambda point: point[0])
    (first, first_level), (last, last_level) = line[0], line[-1]
    if 0.0 < first - face.left <= _short_of(face, "left"):
        line.insert(0, (face.left, first_level))
    if 0.0 < face.right - last <= _short_of(face, "right"):
        line.append((face.right, last_level))
    return tuple((start, end) for start, end in pairwise(line) if end[0] > start[0])


def _short_of(face: Face, side: Side) -> float:
    edge = face.edge(side)
    behind = face.elevation.plane == "substrate" and edge.kind == "external_corner"
    return END_MM * TICKS_PER_MM + (corner_shift(edge, face.build_up) if behind else 0.0)


def stretches_within(ground: Sequence[Stretch], left: float, right: float) -> Iterator[Stretch]:
    """The parts of the ground between two places."""
    for (x0, y0), (x1, y1) in ground:
        low, high = max(x0, left), min(x1, right)
        if low < high:
            slope = (y1 - y0) / (x1 - x0)
            start = y0 if low == x0 else y0 + slope * (low - x0)
            yield (low, start), (high, y1 if high == x1 else y0 + slope * (high - x0))
