"""Isotherms of a section at round temperatures, and their figures where these find room on the lines."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from storeyrod.drawings.contours import Field, contours
from storeyrod.drawings.display_list import Box, Group, Point, Polyline, Style, Text, View
from storeyrod.drawings.drawn_lines import DrawnLines
from storeyrod.drawings.free_room import FreeRoom, middle_of
from storeyrod.drawings.lettering import box_around, width_of
from storeyrod.drawings.line_styles import LETTERS_SMALL, MEDIUM
from storeyrod.drawings.round_steps import decimals_of, multiples_between, round_step

MOST: Final = (16, 8, 5)
"""Isotherms on a sheet, tried in turn: the step is the smallest round one that gives no more."""

_LEAST_FIGURED: Final = 2
"""A step is taken if so many of its temperatures stand in figures, or all: others are counted from those."""

_APART: Final = 0.35
"""Isotherms closer than this to others run together, mm of paper."""

_SEEN: Final = 0.5
"""A step is taken if this share of the length of its lines runs apart."""

_EVERY: Final = 4.0
"""Distance of places at which a line is looked at, mm of paper."""

ISOTHERM: Final = Style(MEDIUM)

_STRAIGHT: Final = 0.05
"""By how much a line may be straightened, mm of paper: half its weight goes unseen."""

_SHORTEST: Final = 7.0
"""A line shorter than this has no figure, mm of paper."""

_END: Final = 2.0
"""No figure stands closer to the end of a line, mm of paper."""

_LEVEL: Final = 1e-3
"""Temperatures of a section that differ by less, in K, are one."""

_ROUNDEST: Final = (50, 20, 10, 5, 4, 2, 1)

_BEYOND: Final = 0.6
"""Between the end of a line and its figure beyond it, mm of paper."""

_TOUCHES: Final = 1e-3
_AROUND: Final = 0.6
_CLOSEST: Final = 0.2


@dataclass(frozen=True, slots=True)
class Isotherm:
    """A line of one temperature in °C, in mm of the section and as points on the paper."""

    temperature: float
    points: tuple[Point, ...]
    on_paper: tuple[Point, ...]

    @property
    def long(self) -> float:
        """Length on paper, mm."""
        return sum(math.dist(one, other) for one, other in pairwise(self.on_paper))


def steps_of(field: Field) -> list[float]:
    """Steps between isotherms in K, the closest first; none where the whole section has one temperature."""
    low, high = field.range
    return [] if high - low < _LEVEL else list(dict.fromkeys(round_step(high - low, most) for most in MOST))


def isotherms(field: Field, step: float, view: View) -> list[Isotherm]:
    """All lines at multiples of a step."""
    return [
        Isotherm(level, line, tuple(map(view.on_paper, line)))
        for level in multiples_between(*field.range, step)
        for line in contours(field, level, _STRAIGHT * view.scale)
    ]


def isotherm_groups(lines: Sequence[Isotherm]) -> Iterator[Group]:
    """A group for each temperature, with it in its id."""
    for temperature in dict.fromkeys(line.temperature for line in lines):
        items = tuple(Polyline(line.points) for line in lines if line.temperature == temperature)
        yield Group("isotherm", ISOTHERM, items, id=f"isotherm:{temperature:g}")


def is_legible(lines: Sequence[Isotherm], figured: Sequence[Text], drawn: DrawnLines) -> bool:
    """Whether most of the lines run apart, and enough have figures for the others to be counted from them.

    The lines are the first of those drawn, in the same order.
    """
    temperatures = len({line.temperature for line in lines})
    if len({text.words for text in figured}) < min(_LEAST_FIGURED, temperatures):
        return False
    places = [(number, at) for number, line in enumerate(lines) for at, _ in _places(line)]
    apart = sum(drawn.is_clear(box_around(at, 2 * _APART, 2 * _APART), own=number) for number, at in places)
    return apart >= _SEEN * len(places)


def figures(lines: Sequence[Isotherm], step: float, room: FreeRoom, drawn: DrawnLines, section: Box) -> list[Text]:
    """Figures on the lines, along them as far as lettering turns, clear of others; where lines run too close for that, beyond the
    ends of some of them, the roundest temperatures first. Lines without room have none.

    The lines are the first of those drawn, in the same order; ``section`` is its box on the paper.
    """
    ranked = sorted(enumerate(lines), key=lambda pair: -round(pair[1].long, 3))
    figured = {number: _on(number, line, _words(line, step), drawn, room) for number, line in ranked}
    bare = [number for number, _ in ranked if figured[number] is None]
    for number in sorted(bare, key=lambda number: -_roundness(lines[number].temperature, step)):
        figured[number] = _at_end(lines[number], _words(lines[number], step), room, section)
    return [text for text in figured.values() if text is not None]


def _words(line: Isotherm, step: float) -> str:
    return f"{line.temperature:.{decimals_of(step)}f}"


def _roundness(temperature: float, step: float) -> int:
    """Of a multiple of a step: the greatest of some round numbers of steps that measures it."""
    steps = round(temperature / step)
    return next(one for one in _ROUNDEST if steps % one == 0)


def _on(number: int, line: Isotherm, words: str, drawn: DrawnLines, room: FreeRoom) -> Text | None:
    for at, steep in _places(line):
        box = _box(at, words, turned=steep)
        if room.is_free(box) and drawn.is_clear(box, _CLOSEST, number):
            room.take(box)
            return _text(box, words, turned=steep)
    return None


def _at_end(line: Isotherm, words: str, room: FreeRoom, section: Box) -> Text | None:
    """Beyond an end of the line on the edge of the section."""
    if line.long < _SHORTEST:
        return None
    for end in (line.on_paper[-1], line.on_paper[0]):
        for box, turned in _boxes_beyond(end, words, section):
            if room.first([box]) is not None:
                return _text(box, words, turned=turned)
    return None


def _boxes_beyond(end: Point, words: str, section: Box) -> Iterator[tuple[Box, bool]]:
    """Boxes outside the edge of a section at the end of a line, and whether words are turned there."""
    (x, y), (left, bottom, right, top) = end, section
    off = _BEYOND + (width_of(words, LETTERS_SMALL) + _AROUND) / 2.0
    if min(abs(y - bottom), abs(y - top)) < _TOUCHES:
        yield _box((x, y + off if abs(y - top) < _TOUCHES else y - off), words, turned=True), True
    if min(abs(x - left), abs(x - right)) < _TOUCHES:
        yield _box((x + off if abs(x - right) < _TOUCHES else x - off, y), words, turned=False), False


def _text(box: Box, words: str, *, turned: bool) -> Text:
    return Text(middle_of(box), words, LETTERS_SMALL, "middle", middle=True, turned=turned)


def _places(line: Isotherm) -> Iterator[tuple[Point, bool]]:
    """Places along a line at which it is looked at, from its middle outwards; none along a short one."""
    long = line.long
    if long < _SHORTEST:
        return
    reach = long / 2.0 - _END
    steps = max(1, round(reach / _EVERY))
    for index in range(steps + 1):
        for side in (1.0, -1.0) if index else (1.0,):
            yield _along(line.on_paper, long / 2.0 + side * reach * index / steps)


def _box(at: Point, words: str, *, turned: bool) -> Box:
    long, high = width_of(words, LETTERS_SMALL) + _AROUND, LETTERS_SMALL + _AROUND
    return box_around(at, high, long) if turned else box_around(at, long, high)


def _along(points: Sequence[Point], distance: float) -> tuple[Point, bool]:
    """Place at a distance along a line, and whether it runs steeply there."""
    for start, end in pairwise(points):
        long = math.dist(start, end)
        if long >= distance:
            share = distance / long if long else 0.0
            at = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
            return at, abs(end[1] - start[1]) > abs(end[0] - start[0])
        distance -= long
    return points[-1], False
