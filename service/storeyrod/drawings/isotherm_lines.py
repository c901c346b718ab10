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

FIGURED: Final = 0.4
"""A step is taken if this share of its lines finds room for their figures."""

ISOTHERM: Final = Style(MEDIUM)

_STRAIGHT: Final = 0.05
"""By how much a line may be straightened, mm of paper: half its weight goes unseen."""

_SHORTEST: Final = 7.0
"""A line shorter than this has no figure, mm of paper."""

_SHARES: Final = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88, 0.05, 0.95)
"""Where along a line its figure is tried."""

_LEVEL: Final = 1e-3
"""Temperatures of a section that differ by less, in K, are one."""

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


def figures(lines: Sequence[Isotherm], step: float, room: FreeRoom, drawn: DrawnLines) -> list[Text]:
    """Figures on the lines, along them as far as lettering turns, clear of others; lines without room have none.

    The lines are the first of those drawn, in the same order.
    """
    ranked = sorted(enumerate(lines), key=lambda pair: -round(pair[1].long, 3))
    tried = (_figure(number, line, f"{line.temperature:.{decimals_of(step)}f}", drawn, room) for number, line in ranked)
    return [text for text in tried if text is not None]


def _figure(number: int, line: Isotherm, words: str, drawn: DrawnLines, room: FreeRoom) -> Text | None:
    long = line.long
    if long < _SHORTEST:
        return None
    for share in _SHARES:
        at, steep = _along(line.on_paper, share * long)
        box = _box(at, words, turned=steep)
        if room.is_free(box) and drawn.is_clear(box, _CLOSEST, number):
            room.take(box)
            return Text(middle_of(box), words, LETTERS_SMALL, "middle", middle=True, turned=steep)
    return None


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
