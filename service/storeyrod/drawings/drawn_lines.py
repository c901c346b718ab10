"""Lines on the paper that lettering keeps clear of: points along them, kept by squares, so that only near ones are looked at."""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final

from storeyrod.drawings.display_list import Box, Point

_SQUARE: Final = 5.0
"""Side of a square, mm of paper."""

_DENSE: Final = 0.6
"""Distance of points along a line, mm of paper: less than lettering is high."""


class DrawnLines:
    """Lines by their numbers, in the order in which they are given."""

    def __init__(self, lines: Iterable[Sequence[Point]] = ()) -> None:
        self._squares: dict[tuple[int, int], list[tuple[float, float, int]]] = {}
        for number, line in enumerate(lines):
            for x, y in _dense(line):
                self._squares.setdefault((int(x // _SQUARE), int(y // _SQUARE)), []).append((x, y, number))

    def is_clear(self, box: Box, margin: float = 0.0, own: int | None = None) -> bool:
        """Whether no line comes into a box or closer than the margin; ``own`` is the number of one that may."""
        left, bottom, right, top = box[0] - margin, box[1] - margin, box[2] + margin, box[3] + margin
        return not any(
            left < x < right and bottom < y < top and number != own
            for column in range(int(left // _SQUARE), int(right // _SQUARE) + 1)
            for row in range(int(bottom // _SQUARE), int(top // _SQUARE) + 1)
            for x, y, number in self._squares.get((column, row), ())
        )


def _dense(points: Sequence[Point]) -> Iterator[Point]:
    for (x, y), (end_x, end_y) in pairwise(points):
        count = max(1, math.ceil(math.hypot(end_x - x, end_y - y) / _DENSE))
        for index in range(count + 1):
            share = index / count
            yield x + share * (end_x - x), y + share * (end_y - y)
