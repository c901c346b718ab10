"""Rings of a request: corners in ticks, checked to enclose one area; their level and plumb edges; which of them may meet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from storeyrod.findings import refuse
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Ring, Vertex, bounds, is_simple, signed_area, tidy
from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.wall.opening_models import Point

SMALLEST_OUTLINE: Final = 1000.0 * TICKS_PER_MM**2
"""Square ticks: an outline below 1000 mm2 is taken for a slip of the unit."""


def checked_ring(points: Sequence[Point], pointer: str) -> Ring:
    """Ring through the points; raises ``geometry-self-intersecting`` and ``outline-too-small``."""
    ring = tidy([(ticks(point.x_mm), ticks(point.y_mm)) for point in points])
    if len(ring) < 3:
        raise refuse("outline-too-small", pointer, "The corners lie on one line; give at least three that do not.")
    if not is_simple(ring):
        raise refuse(
            "geometry-self-intersecting", pointer, "The line crosses or touches itself; list the corners in order."
        )
    if signed_area(ring) < SMALLEST_OUTLINE:
        detail = f"The corners enclose {signed_area(ring) / TICKS_PER_MM**2:.10g} mm2, under 1000 mm2; coordinates are millimetres."
        raise refuse("outline-too-small", pointer, detail)
    return ring


@dataclass(frozen=True, slots=True)
class LevelEdge:
    """A level edge of an area in a wall: its head or its foot. Ticks."""

    height: float
    span: Interval


@dataclass(frozen=True, slots=True)
class PlumbEdge:
    """A plumb edge of an area in a wall. Ticks."""

    x: float
    heights: Interval


def heads_of(ring: Ring) -> list[LevelEdge]:
    """Level edges with the area below them."""
    return [LevelEdge(y, (end, start)) for (start, y), (end, other) in _edges(ring) if y == other and end < start]


def feet_of(ring: Ring) -> list[LevelEdge]:
    """Level edges with the area above them."""
    return [LevelEdge(y, (start, end)) for (start, y), (end, other) in _edges(ring) if y == other and end > start]


def sides_of(ring: Ring, side: Literal["left", "right"]) -> list[PlumbEdge]:
    """Plumb edges at the left or right of the area."""
    plumb = [(x, low, high) for (x, low), (other, high) in _edges(ring) if x == other]
    if side == "left":
        return [PlumbEdge(x, (high, low)) for x, low, high in plumb if high < low]
    return [PlumbEdge(x, (low, high)) for x, low, high in plumb if high > low]


def _edges(ring: Ring) -> Iterator[tuple[Vertex, Vertex]]:
    """Edges of a ring, its area to the left of each."""
    return pairwise((*ring, ring[0]))


def meeting(rings: Sequence[Ring]) -> Iterator[tuple[int, int]]:
    """Pairs of rings, by their numbers, whose boxes share an area: by a sweep from left to right."""
    boxes = [bounds(ring) for ring in rings]
    open_now: list[int] = []
    for index in sorted(range(len(boxes)), key=lambda one: (*boxes[one][:2], one)):
        left, bottom, _, top = boxes[index]
        open_now = [earlier for earlier in open_now if boxes[earlier][2] > left]
        for earlier in open_now:
            if boxes[earlier][3] > bottom and top > boxes[earlier][1]:
                yield earlier, index
        open_now.append(index)
