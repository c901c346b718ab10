"""Break lines: where a drawing shows a part of a wall, a thin line with a zigzag beyond either end of it.

A continuous thin line with zigzags bounds a partial view (ISO 128, line type 01.1.19, from memory).
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from storeyrod.drawings.display_list import Group, Line, Point, Polyline, Strokes, Style
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.line_styles import THIN
from storeyrod.drawings.wall_part import WallPart
from storeyrod.geometry.plane import Region
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.face import Face

BREAK: Final = Style(THIN)
_BLANK: Final = Style(0.9, grey=1.0)
"""Hides the edges of shapes that are cut there; wider than any of them is drawn."""

_BEYOND: Final = 7.0
"""How far the line runs past the wall on paper, mm."""

_ZIGZAG: Final[tuple[Point, ...]] = ((0.0, 1.6), (1.5, 2.4), (-1.5, 4.0), (0.0, 4.8))
"""From the end of the wall outwards on paper, mm."""


def break_groups(face: Face, part: WallPart, scale: float) -> tuple[Group, ...]:
    """Lines over the wall where a part of it ends; none for a whole wall."""
    found = [(x, *_heights(face, x)) for x in part.breaks]
    if not found:
        return ()
    blanks = tuple(Line((x, low), (x, high)) for x, low, high in found)
    lines = tuple(Polyline(tuple(_points(x, low, high, scale))) for x, low, high in found)
    return Group("break-blank", _BLANK, blanks), Group("break", BREAK, lines)


def _heights(face: Face, x: float) -> tuple[float, float]:
    """Foot and top of the outline at a place; openings do not part it."""
    runs = Region((face.outline,)).heights_at(ticks(x))
    return (
        (millimetres(runs[0][0]), millimetres(runs[-1][1])) if runs else (millimetres(face.foot), millimetres(face.top))
    )


def _points(x: float, low: float, high: float, scale: float) -> Iterator[Point]:
    """From below upwards."""
    yield x, low - _BEYOND * scale
    for aside, out in reversed(_ZIGZAG):
        yield x + aside * scale, low - out * scale
    for aside, out in _ZIGZAG:
        yield x + aside * scale, high + out * scale
    yield x, high + _BEYOND * scale


def break_entry() -> Entry:
    """A break as a legend shows it."""
    line = ((0.0, 0.0), (3.6, 0.0), (4.4, 1.5), (5.6, -1.5), (6.4, 0.0), (SYMBOL, 0.0))
    return Entry((("break", BREAK, Strokes(tuple(pairwise(line)))),), "break: the wall goes on")
