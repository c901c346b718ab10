"""Cuts of a board numbered in the order of sawing: a disc at the end of each cut, or on it where it ends inside the board."""

import math
from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.cutting.plan import Cut
from storeyrod.drawings.cut_edges import Segment
from storeyrod.drawings.display_list import Box, Group, Marker, Point, Strokes, Text
from storeyrod.drawings.line_styles import CUT_NUMBER, LETTERING, LETTERS_SMALLEST, SAW_CUT
from storeyrod.geometry.ticks import millimetres

DISC: Final = 3.0
"""Width of a disc on paper, mm."""

_CLEAR: Final = 0.3
_SHARES: Final = (0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6)
"""Where on a cut its disc is tried."""


def cut_line(cut: Cut, width: float, height: float, kerf: float) -> Segment:
    """The middle of a cut, in mm, kept on the board."""
    across = min(max(millimetres(cut.at) + kerf / 2.0, 0.0), width if cut.upright else height)
    start, end = millimetres(cut.start), millimetres(cut.end)
    return ((across, start), (across, end)) if cut.upright else ((start, across), (end, across))


def disc_places(
    lines: Sequence[Segment], rests: Sequence[Box], width: float, height: float, scale: float
) -> list[Point]:
    """Where the disc of each cut stands: clear of other discs and cuts if it can be, else of discs."""
    places: list[Point] = []
    for index, line in enumerate(lines):
        others = [*lines[:index], *lines[index + 1 :]]
        tried = [*_outside(line, width, height, scale), *_beyond(line, rests, scale), *_along(line)]
        free = [at for at in tried if all(math.dist(at, other) >= DISC * scale for other in places)]
        clear = (at for at in free if all(_away(at, other) >= DISC / 2.0 * scale for other in others))
        places.append(next(clear, free[0] if free else tried[0]))
    return places


def _outside(line: Segment, width: float, height: float, scale: float) -> Iterator[Point]:
    """Outside the board: above, below or at the right."""
    (x, y), (end_x, end_y) = line
    away = (DISC / 2.0 + _CLEAR) * scale
    if x == end_x:
        yield from [(x, height + away)] * (end_y >= height)
        yield from [(x, -away)] * (y <= 0.0)
    elif end_x >= width:
        yield width + away, y


def _beyond(line: Segment, rests: Sequence[Box], scale: float) -> Iterator[Point]:
    """Past an end of the cut, where that is in a rest and no piece is covered."""
    (x, y), (end_x, end_y) = line
    half, away = DISC / 2.0 * scale, (DISC / 2.0 + 2 * _CLEAR) * scale
    tried = ((x, y - away), (x, end_y + away)) if x == end_x else ((end_x + away, y), (x - away, y))
    for at in tried:
        if any(
            left <= at[0] - half and at[0] + half <= right and bottom <= at[1] - half and at[1] + half <= top
            for left, bottom, right, top in rests
        ):
            yield at


def _along(line: Segment) -> Iterator[Point]:
    """On the cut."""
    (x, y), (end_x, end_y) = line
    for share in _SHARES:
        yield x + (end_x - x) * share, y + (end_y - y) * share


def _away(at: Point, line: Segment) -> float:
    """Distance of a point from a level or plumb line."""
    (x, y), (end_x, end_y) = line
    return math.dist(at, (min(max(at[0], x), end_x), min(max(at[1], y), end_y)))


def cut_groups(lines: Sequence[Segment], places: Sequence[Point]) -> tuple[Group, ...]:
    """Cuts, discs and numbers."""
    if not lines:
        return ()
    return (
        Group("saw-cut", SAW_CUT, (Strokes(tuple(lines)),)),
        Group("cut-number-disc", CUT_NUMBER, tuple(Marker(at, "ring", DISC) for at in places)),
        Group("cut-numbers", LETTERING, tuple(_number(index, at) for index, at in enumerate(places, start=1))),
    )


def _number(number: int, at: Point) -> Text:
    return Text(at, str(number), LETTERS_SMALLEST, "middle", middle=True, bold=True)
