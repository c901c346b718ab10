"""Places of lettering on the paper: the first of those that are tried at which nothing stands yet."""

import math
from collections.abc import Iterable, Iterator
from typing import Final

from storeyrod.drawings.display_list import Box, Point
from storeyrod.drawings.lettering import box_around

_LINE: Final = 0.6
_DENSE: Final = 1.2
"""Side and distance of boxes that stand for a line, mm of paper."""

_SQUARE: Final = 8.0
"""Side of a square, mm of paper."""


class FreeRoom:
    """A field of the paper and the boxes in it that are taken, in mm of paper; these are kept by squares, so that only near ones are looked at."""

    def __init__(self, within: Box) -> None:
        self.within = within
        self._squares: dict[tuple[int, int], list[Box]] = {}

    def is_free(self, box: Box) -> bool:
        """Whether a box lies in the field and over nothing that stands there."""
        left, bottom, right, top = self.within
        if box[0] < left or box[1] < bottom or box[2] > right or box[3] > top:
            return False
        return next(self.taken_in(box), None) is None

    def taken_in(self, box: Box) -> Iterator[Box]:
        """Boxes that stand in a box; large ones may come more than once."""
        return (other for square in _squares(box) for other in self._squares.get(square, ()) if _overlap(box, other))

    def take(self, *boxes: Box) -> None:
        """Keep others out of boxes."""
        for box in boxes:
            for square in _squares(box):
                self._squares.setdefault(square, []).append(box)

    def first(self, tried: Iterable[Box]) -> Box | None:
        """Take the first box that is free; none where none is."""
        found = next(filter(self.is_free, tried), None)
        if found is not None:
            self.take(found)
        return found


def _squares(box: Box) -> Iterator[tuple[int, int]]:
    """Squares that a box touches."""
    left, bottom, right, top = (int(side // _SQUARE) for side in box)
    return ((column, row) for column in range(left, right + 1) for row in range(bottom, top + 1))


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def middle_of(box: Box) -> Point:
    """Middle of a box."""
    return (box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0


def boxes_along(start: Point, end: Point) -> Iterator[Box]:
    """Small boxes that stand for a straight line, so close that no lettering slips between them."""
    parts = max(1, math.ceil(math.dist(start, end) / _DENSE))
    for index in range(parts + 1):
        share = index / parts
        yield box_around((start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])), _LINE, _LINE)


def boxes_beside(point: Point, width: float, height: float, distances: Iterable[float]) -> Iterator[Box]:
    """Boxes round a point at growing distances: at the right and left of it, above and below, then at its corners."""
    x, y = point
    for distance in distances:
        aside, up = width / 2.0 + distance, height / 2.0 + distance
        for right, above in ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)):
            yield box_around((x + right * aside, y + above * up), width, height)
