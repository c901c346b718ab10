"""Cutting without a solver: blanks are filled one after the other, first fit by falling size, and each pattern is repeated."""

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from storeyrod.cutting.filling import Filler, Split
from storeyrod.cutting.pattern import Cutting, Pattern
from storeyrod.cutting.stock import Blank, Item, Saw

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


def greedy_cuttings(
    shapes: Sequence[Item], counts: Sequence[int], blanks: Sequence[Blank], saw: Saw
) -> Iterator[Cutting]:
    """One cutting for each way; pieces that need factory edges come first, while there are any."""
    for order, split in WAYS:
        ranked = sorted(range(len(shapes)), key=lambda shape: (-sum(shapes[shape].needs), *order(shapes[shape])))
        yield greedy(Filler(shapes, saw, split), ranked, counts, blanks)


def greedy(filler: Filler, order: Sequence[int], counts: Sequence[int], blanks: Sequence[Blank]) -> Cutting:
    """Offcuts are filled first, the largest of them before others, then as many boards as it takes."""
    left = list(counts)
    used: list[tuple[Pattern, int]] = []
    offcuts = sorted(range(1, len(blanks)), key=lambda index: -blanks[index].width * blanks[index].height)
    for index in (*offcuts, 0):
        used += _from_blank(filler, index, blanks[index], order, left)
    return Cutting(used)


def _from_blank(
    filler: Filler, index: int, blank: Blank, order: Sequence[int], left: list[int]
) -> Iterator[tuple[Pattern, int]]:
    """Patterns cut from one kind of blank until there are no more of it, or nothing is wanted that it can give."""
    at_hand = blank.count
    while at_hand is None or at_hand > 0:
        order = [shape for shape in order if left[shape]]
        pattern = filler.filled(index, blank, order, left)
        if pattern is None:
            return
        times = pattern.times(left) if at_hand is None else min(at_hand, pattern.times(left))
        at_hand = None if at_hand is None else at_hand - times
        for shape, count in pattern.uses.items():
            left[shape] -= times * count
        yield pattern, times
