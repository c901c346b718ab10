"""Slabs: slices of a region between two heights with no corner between them, and what a column holds of them.

All by plain arithmetic: a column of one slab is a box, cut by one sloping edge or by two; columns of a few slabs are towers of
such parts.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from storeyrod.geometry.intervals import Interval, clip, difference, union
from storeyrod.geometry.parts import SMALLEST_PART, Part, RakedCell, made, plain_part
from storeyrod.geometry.rings import Ring, Vertex, bounds, box_of, from_lowest, signed_area

Edge = tuple[float, float, float, float]
"""An edge that is not level: y and x of its lower end, y and x of its upper end."""

SlabRun = tuple[float, float, float, float]
"""Left x at the foot and at the head, right x at the foot and at the head."""

MOST_SLABS: Final = 4
"""Columns of more slabs are left to a polygon clipper: there are as many in every arch."""

_STRAIGHT: Final = 1.0e-3
"""Ticks that a vertex between two slabs may lie off the line through its neighbours when the edge goes on."""


class Slab(NamedTuple):
    """A slice of a region between two neighbouring corner heights: per run, left and right x at the foot and at the head."""

    bottom: float
    top: float
    runs: tuple[SlabRun, ...]

    @property
    def inner(self) -> list[Interval]:
        """Where the full height of the slab lies in the region."""
        return union((max(lb, lt), min(rb, rt)) for lb, lt, rb, rt in self.runs)

    @property
    def outer(self) -> list[Interval]:
        """Where any height of the slab lies in the region."""
        return union((min(lb, lt), max(rb, rt)) for lb, lt, rb, rt in self.runs)

    @property
    def clear_and_ragged(self) -> tuple[list[Interval], list[Interval]]:
        """Where the full height of the slab lies in the region, and where only some of it does."""
        clear: list[Interval] = []
        ragged: list[Interval] = []
        reached = -math.inf
        for lb, lt, rb, rt in self.runs:
            outer, inner = (lb, lt) if lb < lt else (lt, lb)
            inner_right, outer_right = (rb, rt) if rb < rt else (rt, rb)
            if outer <= reached:
                return self.inner, difference(self.outer, self.inner)
            reached = outer_right
            if inner >= inner_right:
                ragged.append((outer, outer_right))
                continue
            clear.append((inner, inner_right))
            ragged += [span for span in ((outer, inner), (inner_right, outer_right)) if span[1] > span[0]]
        return clear, ragged

    @property
    def area(self) -> float:
        """Area of the region in the slab."""
        return sum((rb - lb + rt - lt) / 2.0 for lb, lt, rb, rt in self.runs) * (self.top - self.bottom)

    @property
    def is_plumb(self) -> bool:
        """Whether all edges of the slab are plumb."""
        return all(lb == lt and rb == rt for lb, lt, rb, rt in self.runs)

    def lowered(self, by: float) -> "Slab":
        """The slab with its heights measured from a level."""
        return Slab(self.bottom - by, self.top - by, self.runs)

    def parts(self, left: float, right: float) -> list[Part]:
        """What a column holds of the slab, from left to right."""
        made = []
        for run in self.runs:
            lb, lt, rb, rt = run
            if lb >= right and lt >= right:
                break
            if rb > left or rt > left:
                part = _run_part(run, self.bottom, self.top, left, right)
                if part is not None:
                    made.append(part)
        return made


def x_at(edge: Edge, y: float) -> float:
    """Where an edge passes a height."""
    y_low, x_low, y_high, x_high = edge
    if y == y_low or x_low == x_high:
        return x_low
    if y == y_high:
        return x_high
    return x_low + (x_high - x_low) * (y - y_low) / (y_high - y_low)


def edges_of(ring: Ring) -> Iterator[Edge]:
    """The edges of a ring that are not level."""
    x0, y0 = ring[-1]
    for x1, y1 in ring:
        if y0 < y1:
            yield y0, x0, y1, x1
        elif y1 < y0:
            yield y1, x1, y0, x0
        x0, y0 = x1, y1


def even_odd_runs(crossings: Iterable[float]) -> tuple[Interval, ...]:
    """Where the wall stands between plumb edges under the even-odd rule."""
    xs = sorted(crossings)
    pairs = zip(xs[::2], xs[1::2], strict=True)
    runs: list[Interval] = []
    for left, right in pairs:
        if runs and left <= runs[-1][1]:
            runs[-1] = runs[-1][0], right
        elif right > left:
            runs.append((left, right))
    return tuple(runs)


def runs_between(edges: Iterable[Edge], low: float, high: float) -> tuple[SlabRun, ...]:
    """Runs of the wall between two heights under the even-odd rule; every edge passes both."""
    crossings = sorted([(x_at(edge, low), x_at(edge, high)) for edge in edges])
    crossings.sort(key=sum)
    return tuple(
        [
            (left_low, left_high, right_low, right_high)
            for (left_low, left_high), (right_low, right_high) in zip(crossings[::2], crossings[1::2], strict=True)
            if right_low > left_low or right_high > left_high
        ]
    )


def _run_part(run: SlabRun, bottom: float, top: float, left: float, right: float) -> Part | None:
    """What a column holds of a run that reaches into it; None where that is no more than rounding."""
    lb, lt, rb, rt = run
    raked_left = lb != lt and (lb > left or lt > left)
    raked_right = rb != rt and (rb < right or rt < right)
    if raked_left and raked_right:
        part = _between_rakes(run, bottom, top, left, right)
    elif raked_left:
        part = _right_of_rake(lb, lt, left, bottom, min(rb, right), top)
    elif raked_right:
        part = _left_of_rake(rb, rt, max(lb, left), bottom, right, top)
    else:
        part = plain_part(max(lb, left), bottom, min(rb, right), top)
    return part if part is not None and part.area >= SMALLEST_PART else None


def _left_of_rake(foot: float, head: float, left: float, bottom: float, right: float, top: float) -> Part | None:
    """What lies left of a sloping edge in a box: a share of its height without wall, one with its whole width, the rest."""
    if right <= left:
        return None
    cell = made(RakedCell, (foot, head, left, bottom, right, top, False))
    low, high = (foot, head) if foot < head else (head, foot)
    run, height = high - low, top - bottom
    none = whole = 0.0
    if high > right:
        whole, high = (high - right) / run, right
    if low < left:
        none, low = (left - low) / run, left
        level = cell.height_at(left)
        bottom, top = (level, top) if foot < head else (bottom, level)
    width = (1.0 - none - whole) * ((low + high) / 2.0 - left) + whole * (right - left)
    return made(Part, (left, bottom, high, top, width * height, cell))


def _right_of_rake(foot: float, head: float, left: float, bottom: float, right: float, top: float) -> Part | None:
    """What lies right of a sloping edge in a box."""
    if right <= left:
        return None
    cell = made(RakedCell, (foot, head, left, bottom, right, top, True))
    low, high = (foot, head) if foot < head else (head, foot)
    run, height = high - low, top - bottom
    none = whole = 0.0
    if low < left:
        whole, low = (left - low) / run, left
    if high > right:
        none, high = (high - right) / run, right
        level = cell.height_at(right)
        bottom, top = (bottom, level) if foot < head else (level, top)
    width = (1.0 - none - whole) * (right - (low + high) / 2.0) + whole * (right - left)
    return made(Part, (low, bottom, right, top, width * height, cell))


def _between_rakes(run: SlabRun, bottom: float, top: float, left: float, right: float) -> Part | None:
    lb, lt, rb, rt = run
    ring = [(lb, bottom), (rb, bottom), (rt, top), (lt, top)]
    ring = _clipped(_clipped(ring, left, 1.0), right, -1.0)
    ring = [here for here, after in pairwise((*ring, *ring[:1])) if here != after]
    if len(ring) < 3:
        return None
    return Part(*bounds(ring), signed_area(ring), (from_lowest(ring),))


def _clipped(ring: Sequence[Vertex], limit: float, sign: float) -> list[Vertex]:
    """The part of a convex ring right of a plumb line, or with a negative sign left of it."""
    kept: list[Vertex] = []
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        before, after = (x0 - limit) * sign, (x1 - limit) * sign
        if before >= 0:
            kept.append((x0, y0))
        if before * after < 0:
            kept.append((limit, y0 + (y1 - y0) * (limit - x0) / (x1 - x0)))
    return kept


def column_parts(slabs: Sequence[Slab], left: float, right: float) -> list[Part] | None:
    """What a column holds of some slabs, from left to right; None where that takes a polygon clipper.

    That is where the parts of several slabs meet in more than towers, and where slabs are many.
    """
    if len(slabs) > MOST_SLABS:
        return None
    levels = [slab.parts(left, right) for slab in slabs]
    towers: list[list[Part]] = []
    standing: list[list[Part]] = []
    for parts in levels:
        rising: list[list[Part]] = []
        for part in parts:
            below = [tower for tower in standing if _meet(tower[-1], part)]
            if len(below) > 1:
                return None
            rising.append([*below[0], part] if below else [part])
        if len({id(tower[0]) for tower in rising}) < len(rising):
            return None
        grown = {id(tower[0]) for tower in rising}
        towers += [tower for tower in standing if id(tower[0]) not in grown]
        standing = rising
    made = [_tower(tower) for tower in (*towers, *standing)]
    return sorted(made, key=lambda part: (part.left, part.bottom, part.right, part.top))


def _meet(lower: Part, upper: Part) -> bool:
    """Whether a part stands on another one: they share some width at one height."""
    if lower.top != upper.bottom:
        return False
    (a, b), (c, d) = _level_side(lower, lower.top), _level_side(upper, upper.bottom)
    return min(b, d) > max(a, c)


def _level_side(part: Part, level: float) -> Interval:
    """Ends of a part at its foot or head."""
    if part.is_rectangle:
        return part.left, part.right
    xs = [x for x, y in part.rings[0] if y == level]
    return min(xs), max(xs)


def _tower(parts: Sequence[Part]) -> Part:
    """Parts that stand on one another as one."""
    if len(parts) == 1:
        return parts[0]
    sides = [_sides(part.outline[0]) for part in parts]
    left, right = [vertex for side, _ in sides for vertex in side], [vertex for _, side in sides for vertex in side]
    ring = from_lowest(straightened([*right, *reversed(left)]))
    box = bounds(ring)
    return plain_part(*box) if box_of(ring) is not None else Part(*box, sum(part.area for part in parts), (ring,))


def _sides(ring: Ring) -> tuple[list[Vertex], list[Vertex]]:
    """Left and right side of a convex ring that starts at its lowest, then leftmost vertex; both from the foot upwards."""
    top = max(y for _, y in ring)
    at_head = [index for index, (_, y) in enumerate(ring) if y == top]
    foot = 1 if ring[1][1] == ring[0][1] else 0
    return [ring[0], *reversed(ring[at_head[-1] :])], list(ring[foot : at_head[0] + 1])


def straightened(ring: Sequence[Vertex]) -> list[Vertex]:
    """The ring without repeated vertices and those at which an edge goes straight on, but for rounding."""
    kept: list[Vertex] = []
    for index, here in enumerate(ring):
        after = ring[(index + 1) % len(ring)]
        if not _is_near(here, after) and not (kept and _is_straight(kept[-1], here, after)):
            kept.append(here)
    return kept[1:] if len(kept) > 2 and _is_straight(kept[-1], kept[0], kept[1]) else kept


def _is_near(first: Vertex, second: Vertex) -> bool:
    return abs(first[0] - second[0]) <= _STRAIGHT and abs(first[1] - second[1]) <= _STRAIGHT


def _is_straight(before: Vertex, here: Vertex, after: Vertex) -> bool:
    (x0, y0), (x1, y1), (x2, y2) = before, here, after
    off = (x1 - x0) * (y2 - y0) - (y1 - y0) * (x2 - x0)
    return abs(off) <= _STRAIGHT * math.hypot(x2 - x0, y2 - y0)


def whole_slab(slabs: Sequence[Slab], bottom: float, top: float) -> bool:
    """Whether a band is one slab from foot to head."""
    return len(slabs) == 1 and slabs[0].bottom == bottom and slabs[0].top == top


def plain_parts(
    runs: Sequence[Interval], bottom: float, top: float, columns: Iterable[Interval]
) -> Iterator[list[Part]]:
    """What columns hold of runs that stand over the whole band."""
    return ([plain_part(a, bottom, b, top) for a, b in clip(runs, *column)] for column in columns)
