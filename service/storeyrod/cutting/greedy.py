"""Cutting without a solver: blanks are filled one after the other, first fit by falling size, and each pattern is repeated."""

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from storeyrod.cutting.filling import Filler, Split
from storeyrod.cutting.job import Job, Wanted
from storeyrod.cutting.pattern import Cutting, Pattern
from storeyrod.cutting.stock import Item

Order = Callable[[Item], tuple[float, ...]]

_BY_AREA: Final[Order] = lambda item: (-item.width * item.height, -item.height)  # noqa: E731
_BY_HEIGHT: Final[Order] = lambda item: (-item.height, -item.width)  # noqa: E731
_BY_WIDTH: Final[Order] = lambda item: (-item.width, -item.height)  # noqa: E731

WAYS: Final[tuple[tuple[Order, Split], ...]] = (
    (_BY_HEIGHT, "level"),
    (_BY_AREA, "larger"),
    (_BY_WIDTH, "upright"),
    (_BY_HEIGHT, "larger"),
    (_BY_AREA, "level"),
    (_BY_AREA, "upright"),
)
"""Orders of pieces and ways to split what is left: no one of them is best on every list."""


class Greedy:
    """The ways of cutting a job; pieces that need factory edges come first, while there are any."""

    def __init__(self, job: Job) -> None:
        self.job = job
        shapes = job.shapes
        self._orders = [
            sorted(range(len(shapes)), key=lambda shape: (-sum(shapes[shape].needs), *order(shapes[shape])))
            for order, _ in WAYS
        ]
        self._fillers = [Filler(shapes, job.saw, split) for _, split in WAYS]
        blanks = job.blanks
        self._offcuts = sorted(range(1, len(blanks)), key=lambda index: -blanks[index].width * blanks[index].height)

    def cuttings(self, wanted: Wanted) -> Iterator[Cutting]:
        """One cutting for each way."""
        return (self._cutting(wanted, way) for way in range(len(WAYS)))

    def best(self, wanted: Wanted, ways: Sequence[int]) -> Cutting:
        """The cutting that buys fewest boards by some of the ways, and among those takes fewest offcuts."""
        return min((self._cutting(wanted, way) for way in ways), key=Cutting.rank)

    def _cutting(self, wanted: Wanted, way: int) -> Cutting:
        """Offcuts are cut first, the largest before others, then as many boards as it takes."""
        left = wanted.copy()
        used: list[tuple[Pattern, int]] = []
        for index in (*self._offcuts, 0):
            used += self._from_blank(self._fillers[way], index, self._orders[way], left)
        return Cutting(used)

    def _from_blank(
        self, filler: Filler, index: int, order: Sequence[int], left: Wanted
    ) -> Iterator[tuple[Pattern, int]]:
        """Patterns cut from one kind of blank until there are no more of it, or nothing is wanted that it can give."""
        while left.blanks[index] != 0:
            order = [shape for shape in order if left.pieces[shape]]
            pattern = filler.filled(index, self.job.blanks[index], order, left.pieces)
            if pattern is None:
                return
            yield pattern, left.less(pattern.uses, index, pattern.times(left.pieces))
