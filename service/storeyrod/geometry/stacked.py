"""Boxes that stand on one another in a column, joined into parts by plain arithmetic: L and U shapes, and rings round a hole."""

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import pairwise

from storeyrod.geometry.intervals import Interval, difference
from storeyrod.geometry.parts import Part, plain_part
from storeyrod.geometry.rings import Box, Ring, Vertex, from_lowest, signed_area

Level = tuple[float, float, Sequence[Interval]]
"""Foot and head of a slice with plumb edges, and where it stands."""


def stacked_parts(levels: Sequence[Level], left: float, right: float) -> list[Part] | None:
    """Connected parts of slices between two plumb lines, from left to right; None where two of them touch at a corner only."""
    boxes: list[Box] = []
    is_tower, low, high, reached = True, left, right, math.nan
    for bottom, top, runs in levels:
        for start, end in _reaching(runs, left, right):
            a, b = start if start > left else left, end if end < right else right
            is_tower &= not boxes or (bottom == reached and a < high and low < b)
            boxes.append((a, bottom, b, top))
            low, high, reached = a, b, top
    if is_tower and boxes:
        return [_tower(boxes)]
    parts = [_joined(group) for group in _connected(boxes)]
    found = [part for part in parts if part is not None]
    return sorted(found, key=lambda part: part[:4]) if len(found) == len(parts) else None


def _reaching(runs: Sequence[Interval], left: float, right: float) -> Sequence[Interval]:
    """Runs that reach between two plumb lines."""
    first = bisect_right(runs, (left, math.inf)) - 1
    if first < 0 or runs[first][1] <= left:
        first += 1
    last = first
    while last < len(runs) and runs[last][0] < right:
        last += 1
    return runs[first:last]


def _connected(boxes: Sequence[Box]) -> list[list[Box]]:
    """Boxes by the part that they belong to: those that share some width at one height are of one part."""
    groups: list[list[Box]] = []
    for box in boxes:
        touching = [group for group in groups if any(_stands(box, below) for below in group)]
        for group in touching:
            groups.remove(group)
        groups.append([*(below for group in touching for below in group), box])
    return groups


def _stands(box: Box, below: Box) -> bool:
    return below[3] == box[1] and below[0] < box[2] and box[0] < below[2]


def _joined(boxes: Sequence[Box]) -> Part | None:
    left, bottom = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, top = max(box[2] for box in boxes), max(box[3] for box in boxes)
    area = sum((box[2] - box[0]) * (box[3] - box[1]) for box in boxes)
    if area == (right - left) * (top - bottom):
        return plain_part(left, bottom, right, top)
    rings = _rings(boxes)
    return Part(left, bottom, right, top, area, rings) if rings else None


def _tower(boxes: Sequence[Box]) -> Part:
    """Boxes of which each stands on the one before, as one part, its outline from the lowest, then leftmost corner."""
    left, foot, right, head = boxes[0]
    if len(boxes) == 1:
        return plain_part(left, foot, right, head)
    least, most, area = left, right, 0.0
    lefts: list[Vertex] = [(left, foot), (left, head)]
    rights: list[Vertex] = [(right, foot), (right, head)]
    for low, bottom, high, top in boxes:
        area += (high - low) * (top - bottom)
        if low == left:
            lefts[-1] = (low, top)
        else:
            lefts += ((low, bottom), (low, top))
        if high == right:
            rights[-1] = (high, top)
        else:
            rights += ((high, bottom), (high, top))
        left, right, least, most = low, high, min(least, low), max(most, high)
    if len(lefts) == 2 and len(rights) == 2:
        return plain_part(least, foot, most, top)
    return Part(least, foot, most, top, area, ((lefts[0], *rights, *lefts[:0:-1]),))


def _rings(boxes: Sequence[Box]) -> tuple[Ring, ...]:
    """Outer ring, then holes, all anticlockwise; nothing where a corner is passed twice."""
    after: dict[Vertex, Vertex] = {}
    for start, end in _edges(boxes):
        if start in after:
            return ()
        after[start] = end
    outer: list[Ring] = []
    holes: list[Ring] = []
    while after:
        start, here = after.popitem()
        ring = [start]
        while here != start:
            ring.append(here)
            here = after.pop(here)
        ring = _turning(ring)
        if signed_area(ring) > 0.0:
            outer.append(from_lowest(ring))
        else:
            holes.append(from_lowest(ring[::-1]))
    return (*outer, *sorted(holes))


def _edges(boxes: Sequence[Box]) -> Iterator[tuple[Vertex, Vertex]]:
    """Edges with the part on their left: plumb ones of every box, level ones where only one side stands."""
    feet: dict[float, list[Interval]] = {}
    heads: dict[float, list[Interval]] = {}
    for left, bottom, right, top in boxes:
        yield (right, bottom), (right, top)
        yield (left, top), (left, bottom)
        feet.setdefault(bottom, []).append((left, right))
        heads.setdefault(top, []).append((left, right))
    for level in {*feet, *heads}:
        above, below = feet.get(level, []), heads.get(level, [])
        for low, high in difference(above, below):
            yield (low, level), (high, level)
        for low, high in difference(below, above):
            yield (high, level), (low, level)


def _turning(ring: Sequence[Vertex]) -> list[Vertex]:
    """The corners at which a ring of level and plumb edges turns."""
    closed = [ring[-1], *ring, ring[0]]
    return [
        here
        for before, (here, after) in zip(closed, pairwise(closed[1:]), strict=False)
        if (before[0] == here[0]) != (here[0] == after[0])
    ]
