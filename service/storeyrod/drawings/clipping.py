"""Clipping of a display list to a stretch of its subject: what lies beyond two plumb lines is left out, shapes are cut at them.

A shape that is cut has an edge along the line; what breaks a drawing off is drawn over it.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from storeyrod.drawings.display_list import (
    Box,
    Group,
    Item,
    Line,
    Marker,
    Point,
    Polygon,
    Polyline,
    Rings,
    Shapes,
    Strokes,
    Text,
    box_polygon,
    upright_box,
)
from storeyrod.drawings.lettering import width_of
from storeyrod.geometry.intervals import Interval

_CORNERS: Final = 3
"""A ring has at least so many."""


def clipped(groups: Iterable[Group], window: Interval, scale: float) -> tuple[Group, ...]:
    """What of groups lies between two places; a group of which nothing does is left out."""
    cut = (
        replace(group, items=tuple(item for whole in group.items for item in _within(whole, window, scale)))
        for group in groups
    )
    return tuple(group for group in cut if group.items)


def _within(item: Item, window: Interval, scale: float) -> Iterator[Item]:
    match item:
        case Line():
            yield from (Line(*ends) for ends in _segments(((item.start, item.end),), window))
        case Strokes():
            if lines := tuple(_segments(item.lines, window)):
                yield Strokes(lines)
        case Polyline():
            yield from map(Polyline, clipped_polyline(item.points, window))
        case Polygon():
            yield from clipped_polygon(item, window)
        case Shapes():
            yield from _shapes(item, window)
        case Marker():
            if window[0] <= item.at[0] < window[1]:
                yield item
        case Text():
            low, high = _along(item, scale)
            if window[0] <= low and high <= window[1]:
                yield item


def _along(text: Text, scale: float) -> Interval:
    """From where to where a line of lettering runs."""
    x, long = text.at[0], width_of(text.words, text.height) * scale
    if text.turned:
        return x - text.height * scale, x + text.height * scale
    before = {"start": 0.0, "middle": long / 2.0, "end": long}[text.anchor]
    return x - before, x - before + long


def _segments(lines: Iterable[tuple[Point, Point]], window: Interval) -> Iterator[tuple[Point, Point]]:
    """Lines cut at the window; one that only touches it is left out, one along its edge is not."""
    low, high = window
    for start, end in lines:
        left, right = min(start[0], end[0]), max(start[0], end[0])
        if left >= low and right <= high:
            yield start, end
        elif left < high and right > low:
            first, last = (
                at if low <= at[0] <= high else _at(start, end, min(max(at[0], low), high)) for at in (start, end)
            )
            yield first, last


def _at(start: Point, end: Point, x: float) -> Point:
    """Where a line that is not plumb passes a place."""
    return x, start[1] + (end[1] - start[1]) * (x - start[0]) / (end[0] - start[0])


def clipped_polyline(points: Sequence[Point], window: Interval) -> Iterator[tuple[Point, ...]]:
    """Stretches of straight lines from point to point that lie in the window."""
    stretch: list[Point] = []
    for start, end in _segments(pairwise(points), window):
        if stretch and stretch[-1] != start:
            yield tuple(stretch)
            stretch = []
        stretch = [*stretch, end] if stretch else [start, end]
    if stretch:
        yield tuple(stretch)


def clipped_polygon(shape: Polygon, window: Interval) -> Iterator[Polygon]:
    """The shape cut at the window; nothing where it lies beyond."""
    (left, bottom, right, top), (low, high) = shape.box, window
    if left >= low and right <= high:
        yield shape
    elif left < high and right > low:
        if upright_box(shape.rings) is not None:
            yield box_polygon((max(left, low), bottom, min(right, high), top), shape.id, shape.title)
        else:
            yield replace(shape, rings=_cut_rings(shape.rings, window))


def _shapes(shapes: Shapes, window: Interval) -> Iterator[Shapes]:
    low, high = window
    boxes: tuple[Box, ...] = tuple(
        (max(left, low), bottom, min(right, high), top)
        for left, bottom, right, top in shapes.boxes
        if left < high and right > low
    )
    others = tuple(part.rings for rings in shapes.others for part in clipped_polygon(Polygon(rings), window))
    if boxes or others:
        yield replace(shapes, boxes=boxes, others=others)


def _cut_rings(rings: Rings, window: Interval) -> Rings:
    """Rings cut side by side (Sutherland and Hodgman, 1974, from memory); parts may hang together along the cut."""
    cut = (_cut_ring(_cut_ring(ring, window[0], 1.0), window[1], -1.0) for ring in rings)
    return tuple(ring for ring in cut if len(ring) >= _CORNERS)


def _cut_ring(ring: Sequence[Point], bound: float, side: float) -> tuple[Point, ...]:
    """What of a ring lies at the right of a place (``side`` 1) or at its left (-1)."""
    kept: list[Point] = []
    for start, end in pairwise((*ring[-1:], *ring)):
        inside, after = side * (start[0] - bound) >= 0.0, side * (end[0] - bound) >= 0.0
        if inside != after:
            kept.append(_at(start, end, bound))
        if after:
            kept.append(end)
    return tuple(here for before, here in pairwise((*kept[-1:], *kept)) if here != before)
