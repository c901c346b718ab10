"""The ground in front of an elevation: its line, with short strokes below."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from storeyrod.drawings.display_list import Group, Line, Point, Polyline
from storeyrod.drawings.line_styles import GROUND, GROUND_HATCH

_BEYOND: Final = 3.0
"""How far the line runs past the wall on paper, mm."""

_STROKE: Final = 2.0
_STROKE_PITCH: Final = 6.0


def ground_line(points: Sequence[Point], left: float, right: float, low: float, high: float) -> tuple[Point, ...]:
    """The ground from end to end of a wall, level beyond the points given, and held between two heights. All mm."""
    ordered = sorted(points)
    inner = [point for point in ordered if left < point[0] < right]
    line = [(left, _level(ordered, left)), *inner, (right, _level(ordered, right))]
    return tuple((x, min(max(y, low), high)) for x, y in line)


def _level(points: Sequence[Point], x: float) -> float:
    if x <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= x <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]


def ground_groups(line: Sequence[Point], scale: float) -> tuple[Group, ...]:
    """A ground line, run past the wall at both ends, with strokes below."""
    (first_x, first_y), (last_x, last_y) = line[0], line[-1]
    whole = ((first_x - _BEYOND * scale, first_y), *line, (last_x + _BEYOND * scale, last_y))
    return (
        Group("ground", GROUND, (Polyline(whole),)),
        Group("ground-strokes", GROUND_HATCH, tuple(_strokes(whole, scale))),
    )


def _strokes(line: Sequence[Point], scale: float) -> Iterator[Line]:
    x, long = line[0][0] + _STROKE * scale, _STROKE * scale
    while x <= line[-1][0]:
        y = _level(line, x)
        yield Line((x, y), (x - long, y - long))
        x += _STROKE_PITCH * scale
