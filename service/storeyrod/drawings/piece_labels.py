"""Labels of pieces: the lines that fit, in the largest lettering that stands inside the piece and clear of its marks."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from storeyrod.drawings.display_list import Box, Point, Polygon, Rings, Text, upright_box
from storeyrod.drawings.lettering import box_around, fits, is_clear, width_of
from storeyrod.drawings.line_styles import LETTERS, LETTERS_SMALL, LETTERS_SMALLEST

Lines = tuple[str, ...]

_WAYS: Final = (
    (LETTERS, False),
    (LETTERS_SMALL, False),
    (LETTERS, True),
    (LETTERS_SMALL, True),
    (LETTERS_SMALLEST, False),
    (LETTERS_SMALLEST, True),
)
"""Heights of lettering, level or turned, in the order in which they are tried."""

_FINE_SCALE: Final = 20.0
"""Beyond this scale ids start at the middle height, so that neighbours look alike."""

_LEADING: Final = 1.6
"""Distance of two lines over their height."""

_MARGIN: Final = 0.22
"""Clear space around lettering over its height."""

_STEPS: Final = (-1.0, -0.75, -0.5, -0.25, 0.0, 0.25, 0.5, 0.75, 1.0)
_OFFSETS: Final = tuple(
    sorted(((x, y) for x in _STEPS for y in _STEPS), key=lambda at: (math.hypot(*at), abs(at[0]), -at[1], at[0]))
)
"""Shares of the free room, from the middle outwards."""

_COARSE_OFFSETS: Final = tuple((x, y) for x, y in _OFFSETS if x in _STEPS[::2] and y in _STEPS[::2])
"""For shapes with more than a few corners, since every place is held against every corner."""

_FEW_CORNERS: Final = 12


@dataclass(frozen=True, slots=True)
class _Label:
    """Which lines stand about a point, from the middle of the piece, in a box of that width and depth."""

    way: int
    height: float
    turned: bool
    offset: Point
    size: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Lettered:
    """Lettering of one piece: its texts, which of the ways to say it they are, their height, and the box in which they stand."""

    texts: tuple[Text, ...]
    way: int
    height: float
    box: Box


@dataclass(slots=True)
class PieceLabels:
    """Places labels in pieces; equal rectangles with equal marks share one search. ``reach`` is kept clear around marks, mm of the wall, and
    ``inset`` along the sides of a piece.
    """

    scale: float
    reach: float
    inset: float = 0.0
    found: dict[tuple[object, ...], _Label | None] = field(default_factory=dict)

    @property
    def largest(self) -> float:
        """Largest lettering to be tried."""
        return LETTERS if self.scale <= _FINE_SCALE else LETTERS_SMALL

    def of(self, polygon: Polygon, ways: Sequence[Lines], marks: Sequence[Point] = ()) -> Lettered | None:
        """Lettering of one piece in the first of the ways that fits clear of its marks; none where no size of any does."""
        left, bottom, right, top = polygon.box
        if min(right - left, top - bottom) < LETTERS_SMALLEST * (1.0 + 2 * _MARGIN) * self.scale:
            return None
        centre = ((left + right) / 2.0, (bottom + top) / 2.0)
        rings = tuple(tuple((x - centre[0], y - centre[1]) for x, y in ring) for ring in polygon.rings)
        beside = [(round(x - centre[0], 3), round(y - centre[1], 3)) for x, y in marks]
        label = self._label((right - left, top - bottom), rings, ways, beside)
        if label is None:
            return None
        middle = (centre[0] + label.offset[0], centre[1] + label.offset[1])
        texts = tuple(self._texts(label, ways[label.way], middle))
        return Lettered(texts, label.way, label.height, box_around(middle, *label.size))

    def _label(
        self, size: tuple[float, float], rings: Rings, ways: Sequence[Lines], marks: Sequence[Point]
    ) -> _Label | None:
        if upright_box(rings) is None:
            return self._search(rings, ways, marks)
        key = (size, tuple(tuple(map(len, lines)) for lines in ways), tuple(marks))
        if key not in self.found:
            self.found[key] = self._search(rings, ways, marks)
        return self.found[key]

    def _search(self, rings: Rings, ways: Sequence[Lines], marks: Sequence[Point]) -> _Label | None:
        """The first way to say it that stands clear of marks: upright before turned, large before small."""
        for way, lines in enumerate(ways):
            for height, turned in _WAYS:
                if height > self.largest:
                    continue
                place = next(self._places(rings, lines, height, marks, turned=turned), None)
                if place is not None:
                    offset, (left, bottom, right, top) = place
                    return _Label(way, height, turned, offset, (right - left, top - bottom))
        return None

    def _places(
        self, rings: Rings, lines: Lines, height: float, marks: Sequence[Point], *, turned: bool
    ) -> Iterator[tuple[Point, Box]]:
        """Places inside the rings where lines of a height fit clear of marks, from the middle outwards."""
        long = (max(width_of(line, height) for line in lines) + 2 * _MARGIN * height) * self.scale + 2 * self.inset
        high = (height * (1.0 + _LEADING * (len(lines) - 1) + 2 * _MARGIN)) * self.scale + 2 * self.inset
        width, depth = (high, long) if turned else (long, high)
        half_width, half_height = max(x for x, _ in rings[0]), max(y for _, y in rings[0])
        if width > 2 * half_width or depth > 2 * half_height:
            return
        plain = upright_box(rings) is not None
        for across, up in _OFFSETS if sum(map(len, rings)) <= _FEW_CORNERS else _COARSE_OFFSETS:
            offset = (across * (half_width - width / 2.0), up * (half_height - depth / 2.0))
            box = box_around(offset, width, depth)
            # Marks are few and quickly looked at, corners of a shape are not.
            if is_clear(box, marks, self.reach) and (plain or fits(box, rings)):
                yield offset, box

    def _texts(self, label: _Label, lines: Lines, middle: Point) -> Iterator[Text]:
        x, y = middle
        pitch = label.height * _LEADING * self.scale
        for index, words in enumerate(lines):
            down = (index - (len(lines) - 1) / 2.0) * pitch
            at = (x + down, y) if label.turned else (x, y - down)
            yield Text(at, words, label.height, "middle", middle=True, turned=label.turned)
