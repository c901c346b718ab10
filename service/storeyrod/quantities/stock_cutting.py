"""Cutting runs from stock lengths: longest first, each from the shortest rest that takes it, else from a new length.

The count is what this rule reaches, not a proved least.
"""

from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stock:
    """One stock length: pieces cut from it and what is left, in ticks."""

    pieces: tuple[float, ...]
    rest: float


@dataclass(frozen=True, slots=True)
class StockPlan:
    """Stock lengths used up, and joints inside runs that are longer than one."""

    stocks: tuple[Stock, ...]
    splices: int


def cut_from_stock(runs: Sequence[float], stock: float, kerf: float) -> StockPlan:
    """Stock lengths for runs, in ticks; a run longer than a stock length starts with whole ones.

    Every cut loses a kerf; where less than a kerf is left behind a piece, nothing is left.
    """
    parts = [divmod(run, stock) for run in runs]
    wholes = sum(int(full) for full, _ in parts)
    splices = sum(int(full) - (rest == 0.0) for full, rest in parts)
    made = [Stock((stock,), 0.0)] * wholes
    return StockPlan((*made, *_packed([rest for _, rest in parts if rest > 0.0], stock, kerf)), splices)


def _packed(pieces: Sequence[float], stock: float, kerf: float) -> list[Stock]:
    cut: list[list[float]] = []
    rests: list[tuple[float, int]] = []
    for piece in sorted(pieces, reverse=True):
        place = bisect_left(rests, (piece, 0))
        if place < len(rests):
            rest, index = rests.pop(place)
        else:
            rest, index = stock, len(cut)
            cut.append([])
        cut[index].append(piece)
        insort(rests, (max(0.0, rest - piece - kerf), index))
    left = {index: rest for rest, index in rests}
    return [Stock(tuple(taken), left[index]) for index, taken in enumerate(cut)]
