"""Courses beside an elevation: a rod at either end with a tick for every course and a number where there is room."""

import math
from collections.abc import Collection
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Group, Item, Line, Polygon, Text
from storeyrod.drawings.lettering import number, width_of
from storeyrod.drawings.line_styles import COURSE, DATUM, LETTERING, LETTERS_SMALL, LETTERS_SMALLEST
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.storey_joints import StoreyJoint

ROD_AWAY: Final = 4.0
"""Distance of the rod from the wall on paper, mm."""

_SHORT_TICK: Final = 1.2
_LONG_TICK: Final = 2.4
NUMBER_AWAY: Final = 7.2
"""Distance of the numbers from the wall on paper, mm."""

_LEAST_TICK_PITCH: Final = 0.35
_LEAST_NUMBER_PITCH: Final = 3.0
_EVERY: Final = (4, 8, 12, 20, 40, 100, 200, 400, 1000)
"""Courses from number to number: every fourth, or a multiple of it."""

_GUARD: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Rod:
    """Courses as the storey rod has them, in mm, and the level joints of the wall."""

    gauge: Gauge
    joints: tuple[StoreyJoint, ...] = ()

    @property
    def datum(self) -> float:
        """Foot of course 0."""
        return millimetres(self.gauge.datum)

    @property
    def pitch(self) -> float:
        """Height of a course."""
        return millimetres(self.gauge.pitch)

    def foot_of(self, course: int) -> float:
        """Level of the foot of a course."""
        return self.datum + course * self.pitch + millimetres(self.gauge.shift(course))

    def standing(self, foot: float, top: float) -> range:
        """Courses whose feet lie between two heights, both included."""
        first, last = self.gauge.nearest(ticks(foot)), self.gauge.nearest(ticks(top))
        return range(first + (self.foot_of(first) < foot - _GUARD), last + (self.foot_of(last) <= top + _GUARD))


def course_groups(
    left: float, right: float, foot: float, top: float, courses: Rod, scale: float, marked: Collection[int] = ()
) -> tuple[Group, ...]:
    """Rods left and right of a wall that stands from ``foot`` to ``top``; courses count from the datum. All mm.

    ``marked`` courses are numbered where they can be, and push out the regular numbers beside them.
    """
    numbered = set(numbered_courses(foot, top, courses, scale, marked))
    every = next((n for n in (1, 2, *_EVERY) if n * courses.pitch / scale >= _LEAST_TICK_PITCH), _EVERY[-1])
    lines: list[Item] = []
    texts: list[Item] = []
    for side, x in ((-1.0, left), (1.0, right)):
        rod = x + side * ROD_AWAY * scale
        lines.append(Line((rod, foot), (rod, top)))
        for course in courses.standing(foot, top):
            y = courses.foot_of(course)
            if course in numbered:
                lines.append(Line((rod, y), (rod + side * _LONG_TICK * scale, y)))
                at = (x + side * NUMBER_AWAY * scale, y)
                texts.append(Text(at, str(course), LETTERS_SMALL, "end" if side < 0 else "start", middle=True))
            elif course % every == 0:
                lines.append(Line((rod, y), (rod + side * _SHORT_TICK * scale, y)))
    return Group("courses", COURSE, tuple(lines)), Group("course-numbers", LETTERING, tuple(texts))


def numbered_courses(foot: float, top: float, courses: Rod, scale: float, marked: Collection[int] = ()) -> list[int]:
    """Courses with a number on the rod: those marked, from the bottom, and every fourth or a multiple of it between them."""
    standing = courses.standing(foot, top)
    apart = math.ceil(_LEAST_NUMBER_PITCH * scale / courses.pitch - _GUARD)
    chosen: list[int] = []
    for course in sorted(course for course in marked if course in standing):
        if not chosen or course - chosen[-1] >= apart:
            chosen.append(course)
    step = next((every for every in _EVERY if every >= apart), _EVERY[-1])
    taken = {course + near for course in chosen for near in range(1 - apart, apart)}
    return sorted([*chosen, *(course for course in standing if course % step == 0 and course not in taken)])


def datum_groups(x: float, y: float, scale: float) -> tuple[Group, ...]:
    """Level mark of the datum, the foot of course 0: a filled triangle that stands on it, with its line, left of ``x``."""
    half, high, long = 1.6 * scale, 2.6 * scale, 12.0 * scale
    mark = Polygon((((x - long, y), (x - long + half, y + high), (x - long - half, y + high)),))
    line = Line((x - long - 2 * half, y), (x, y))
    level = "±0" if y == 0.0 else f"{'+' if y > 0.0 else '-'}{number(abs(y))}"
    words = f"datum {level}"
    letters = LETTERS_SMALL if width_of(words, LETTERS_SMALL) * scale <= long + 2 * half else LETTERS_SMALLEST
    at = (x - long - 2 * half, y - 1.0 * scale - LETTERS_SMALL * scale)
    name = Text(at, words, letters)
    return Group("datum", DATUM, (mark, line)), Group("datum-name", LETTERING, (name,))
