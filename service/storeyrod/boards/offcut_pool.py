"""Offcuts at hand while boards are laid, as a gang has them: the next row starts with what the last one left, where it fits.

The pool weighs first widths of a run by the boards that its end pieces take and by what they leave: an offcut is worth its share of
a board, less a discount, and nothing under the least piece. It only guides the layout; how boards are really cut is planned
afterwards.
"""

from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final, NamedTuple

from storeyrod.boards.first_widths import Limits

MOST_TRIED: Final = 24
"""Offcuts that are tried as end pieces of a run: the widest ones of different width."""


_STIRRED: Final = 0.2
"""Greatest change of cost, in boards (found by trial)."""

_GOLDEN: Final = 0.6180339887498949
_SILVER: Final = 0.4142135623730950


class Need(NamedTuple):
    """An end piece: its width in ticks, and whether its left or right side has to be a factory edge."""

    width: float
    left: bool
    right: bool


@dataclass(slots=True)
class OffcutPool:
    """Offcuts of whole height by the factory edges that they keep, as sorted widths.

    ``worth`` is the share of its area at which an offcut is counted; ``handed``: sides are profiled, so that a side at a seam has to
    be a factory edge. ``stir`` numbers a fixed sequence of small changes of cost, so that one wall is laid in many ways; 0 for none.
    """

    limits: Limits
    kerf: float
    handed: bool
    worth: float
    stir: int = 0
    _asked: int = 0
    _widths: dict[tuple[bool, bool], list[float]] = field(default_factory=dict)
    _done: list[tuple[bool, list[float], float]] = field(default_factory=list)
    """What was done since a cost was last asked for: kept or taken, where, and which width."""

    def cost(self, first: float, last: float) -> float:
        """Boards that the two end pieces of a run take, less what the pool gains in worth; the pool stays as it is."""
        self._done.clear()
        cost = self.take(Need(first, False, True)) + self.take(Need(last, True, False))
        for is_new, widths, width in reversed(self._done):
            if is_new:
                del widths[bisect_left(widths, width)]
            else:
                insort(widths, width)
        return cost + self._stirred()

    def _stirred(self) -> float:
        """The next change of cost: fractions of multiples of an irrational number, which fill their range evenly."""
        self._asked += 1
        return _STIRRED * (self._asked * (_GOLDEN + self.stir * _SILVER) % 1.0) if self.stir else 0.0

    def take(self, need: Need) -> float:
        """Cut a piece from the tightest offcut that gives it, else from a new board; its cost as in ``cost``."""
        if need.width >= self.limits.board:
            return 1.0
        width = float(round(need.width))  # the end of a piece under a rake may be out by calculation
        need = Need(width, need.left, need.right) if self.handed else Need(width, False, False)
        found = self._tightest(need)
        if found is None:
            return 1.0 - self._keep(self.limits.board, need, (self.handed, self.handed))
        edges, index = found
        widths = self._widths[edges]
        width = widths.pop(index)
        self._done.append((False, widths, width))
        return self._worth_of(width) - self._keep(width, need, edges)

    def widths(self) -> Sequence[float]:
        """Widths at hand that go as end pieces."""
        found = {width for widths in self._widths.values() for width in widths}
        return sorted(found, reverse=True)[:MOST_TRIED]

    def _tightest(self, need: Need) -> tuple[tuple[bool, bool], int] | None:
        best: tuple[float, int, tuple[bool, bool], int] | None = None
        for edges, widths in self._widths.items():
            if need.left > edges[0] or need.right > edges[1]:
                continue
            index = bisect_left(widths, need.width)
            if index < len(widths):
                option = (widths[index], sum(edges), edges, index)
                best = option if best is None or option < best else best
        return None if best is None else (best[2], best[3])

    def _keep(self, width: float, need: Need, edges: tuple[bool, bool]) -> float:
        """Put what a cut leaves into the pool, and say what it is worth."""
        rest = width - need.width - self.kerf
        if rest < self.limits.piece or rest <= 0.0:
            return 0.0
        from_right = need.right or (edges[0] and not edges[1] and not need.left)
        kept = (edges[0], False) if from_right else (False, edges[1])
        widths = self._widths.setdefault(kept, [])
        insort(widths, rest)
        self._done.append((True, widths, rest))
        return self._worth_of(rest)

    def _worth_of(self, width: float) -> float:
        return self.worth * width / self.limits.board
