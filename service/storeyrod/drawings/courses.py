"""Courses beside an elevation: a rod at either end with a tick for every course and a number where there is room."""

import math
from typing import Final

from storeyrod.drawings.display_list import Group, Item, Line, Polygon, Text
from storeyrod.drawings.line_styles import COURSE, DATUM, LETTERING, LETTERS_SMALL

ROD_AWAY: Final = 4.0
"""Distance of the rod from the wall on paper, mm."""

_SHORT_TICK: Final = 1.2
_LONG_TICK: Final = 2.4
_NUMBER_AWAY: Final = 3.2
_LEAST_TICK_PITCH: Final = 0.35
_LEAST_NUMBER_PITCH: Final = 3.0
_EVERY: Final = (4, 8, 12, 20, 40, 100, 200, 400, 1000)
"""Courses from number to number: every fourth, or a multiple of it."""

_GUARD: Final = 1e-6


def course_groups(left: float, right: float, foot: float, top: float, pitch: float, scale: float) -> tuple[Group, ...]:
    """Rods left and right of a wall that stands from ``foot`` to ``top``; courses count from the datum, y = 0. All mm."""
    first, last = math.ceil(foot / pitch - _GUARD), math.floor(top / pitch + _GUARD)
    step = _numbered(pitch, scale)
    every = next((n for n in (1, 2, *_EVERY) if n * pitch / scale >= _LEAST_TICK_PITCH), _EVERY[-1])
    lines: list[Item] = []
    texts: list[Item] = []
    for side, x in ((-1.0, left), (1.0, right)):
        rod = x + side * ROD_AWAY * scale
        lines.append(Line((rod, foot), (rod, top)))
        for course in range(first, last + 1):
            if course % step == 0:
                lines.append(Line((rod, course * pitch), (rod + side * _LONG_TICK * scale, course * pitch)))
                at = (rod + side * _NUMBER_AWAY * scale, course * pitch)
                texts.append(Text(at, str(course), LETTERS_SMALL, "end" if side < 0 else "start", middle=True))
            elif course % every == 0:
                lines.append(Line((rod, course * pitch), (rod + side * _SHORT_TICK * scale, course * pitch)))
    return Group("courses", COURSE, tuple(lines)), Group("course-numbers", LETTERING, tuple(texts))


def _numbered(pitch: float, scale: float) -> int:
    return next((every for every in _EVERY if every * pitch / scale >= _LEAST_NUMBER_PITCH), _EVERY[-1])


def datum_groups(x: float, scale: float) -> tuple[Group, ...]:
    """Level mark of the datum, y = 0: a filled triangle that stands on it, with its line, at the left of ``x``."""
    half, high, long = 1.6 * scale, 2.6 * scale, 12.0 * scale
    mark = Polygon((((x - long, 0.0), (x - long + half, high), (x - long - half, high)),))
    line = Line((x - long - 2 * half, 0.0), (x, 0.0))
    words = Text((x - long - 2 * half, -1.0 * scale - LETTERS_SMALL * scale), "datum ±0", LETTERS_SMALL)
    return Group("datum", DATUM, (mark, line)), Group("datum-name", LETTERING, (words,))
