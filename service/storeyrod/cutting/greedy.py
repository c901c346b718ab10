"""Cutting without a solver: blanks are filled one after the other, first fit by falling size, and each pattern is repeated."""

from collections.abc import Callable, Iterator, Sequence
from typing import Final

import numpy as np

from storeyrod.cutting.filling import Filler, Numbers, Split
from storeyrod.cutting.job import Job, Wanted
from storeyrod.cutting.pattern import Cutting, Pattern
from storeyrod.cutting.stock import Item

Order = Callable[[Item], tuple[float, ...]]


def _by_area(item: Item) -> tuple[float, ...]:
    return -item.width * item.height, -item.height


def _by_height(item: Item) -> tuple[float, ...]:
    return -item.height, -item.width


def _by_width(item: Item) -> tuple[float, ...]:
    return -item.width, -item.height


WAYS: Final[tuple[tuple[Order, Split], ...]] = (
    (_by_height, "level"),
    (_by_area, "larger"),
    (_by_width, "upright"),
    (_by_height, "larger"),
    (_by_area, "level"),
    (_by_area, "upright"),
)
"""Orders of pieces and ways to split what is left: no one of them is best on every list."""


_GOLDEN: Final = (5.0**0.5 - 1.0) / 2.0


def _ranked(shapes: Sequence[Item], order: Order) -> Numbers:
    """Shapes that need factory edges first, while there are any."""
    ranked = sorted(range(len(shapes)), key=lambda shape: (-sum(shapes[shape].needs), *order(shapes[shape])))
    return np.array(ranked, np.intp)


class Greedy:
    """The ways of cutting a job."""

    def __init__(self, job: Job) -> None:
        self.job = job
        shapes = job.shapes
        self._orders = [_ranked(shapes, order) for order, _ in WAYS]
        self._fillers = [Filler(shapes, job.saw, split) for _, split in WAYS]
        blanks = job.blanks
        self._offcuts = sorted(range(1, len(blanks)), key=lambda index: -blanks[index].width * blanks[index].height)

    def cuttings(self, wanted: Wanted) -> Iterator[Cutting]:
        """One cutting for each way."""
        return (self._cutting(wanted, way) for way in range(len(WAYS)))

    def best(self, wanted: Wanted, ways: Sequence[int]) -> Cutting:
        """The cutting that buys fewest boards by some of the ways, and among those takes fewest offcuts."""
        return min((self._cutting(wanted, way) for way in ways), key=Cutting.rank)

    def stirred(self, wanted: Wanted, number: int) -> Cutting:
        """One of endlessly many other cuttings: by area, but with sizes taken for up to twice what they are.

        Multiples of the golden section spread the factors evenly without chance (D. E. Knuth's multiplicative hashing; from memory).
        """
        shapes = self.job.shapes
        factors = 1.0 + (_GOLDEN * (1.0 + np.arange(len(shapes))) * (number + 1.0)) % 1.0
        areas = np.array([shape.width * shape.height for shape in shapes]) * factors
        return self._in_order(wanted, np.argsort(-areas, kind="stable"), self._fillers[number % len(WAYS)])

    def _cutting(self, wanted: Wanted, way: int) -> Cutting:
        return self._in_order(wanted, self._orders[way], self._fillers[way])

    def _in_order(self, wanted: Wanted, order: Numbers, filler: Filler) -> Cutting:
        """Offcuts are cut first, the largest before others, then as many boards as it takes."""
        left = wanted.copy()
        order = order[np.array(left.pieces)[order] > 0]
        used: list[tuple[Pattern, int]] = []
        for index in (*self._offcuts, 0):
            while left.blanks[index] != 0:
                pattern = filler.filled(index, self.job.blanks[index], order, left.pieces)
                if pattern is None:
                    break
                used.append((pattern, left.less(pattern.uses, index, pattern.times(left.pieces))))
                for shape, _ in pattern.uses:
                    if not left.pieces[shape]:
                        order = order[order != shape]
        return Cutting(used)
