"""Stretches of a blank along one axis, as pricing sees them: each can be parted into two others, and holds some pieces by itself.

A span is a number; 0 is the span that holds nothing. Lengths contain one kerf, as those of pieces do.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Final, Protocol

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.intp]
Values = NDArray[np.float32]

_CELLS: Final = 30_000
"""Values that are compared at a time, so that they stay in the cache (found by trial)."""


_LONGER_FOR_NOTHING: Final = 10.0
"""Lower parts on a grid to each one that is worth more than a shorter one, about (found by trial)."""


class Batch(Protocol):
    """Spans that do not part into one another."""

    @property
    def spans(self) -> slice | Numbers:
        """Their numbers."""

    @property
    def weight(self) -> float:
        """Ways to part them that are compared."""

    def parted(self, table: Values) -> Values:
        """Best value of each of them in two parts, for every column of a table with a row for each span."""

    def parts(self, span: int) -> tuple[Numbers, Numbers]:
        """Lower and upper part for every way to part one of them."""


@dataclass(frozen=True, slots=True)
class Listed:
    """Spans whose parts are written down: a column for each span, a row for each way, filled up with parts that hold nothing."""

    spans: Numbers | slice
    numbers: tuple[int, ...]
    lower: Numbers
    upper: Numbers

    @property
    def weight(self) -> float:
        """See ``Batch``."""
        return float(self.lower.size)

    def parted(self, table: Values) -> Values:
        """See ``Batch``."""
        ways, spans = self.lower.shape
        best = np.zeros((spans, table.shape[1]), np.float32)
        step = max(1, _CELLS // best.size)
        for start in range(0, ways, step):
            both = table.take(self.lower[start : start + step], axis=0)
            both += table.take(self.upper[start : start + step], axis=0)
            np.maximum(best, both.max(axis=0), out=best)
        return best

    def parts(self, span: int) -> tuple[Numbers, Numbers]:
        """See ``Batch``."""
        column = self.numbers.index(span)
        return self.lower[:, column], self.upper[:, column]


def listed(spans: Sequence[int], parts: Sequence[tuple[Numbers, Numbers]]) -> Listed:
    """Spans with their ways to part them."""
    longest = max((len(lower) for lower, _ in parts), default=0)
    table = np.zeros((2, longest, len(spans)), np.intp)
    for column, (lower, upper) in enumerate(parts):
        table[0, : len(lower), column] = lower
        table[1, : len(upper), column] = upper
    in_turn = all(after == before + 1 for before, after in pairwise(spans))
    numbers = slice(spans[0], spans[-1] + 1) if in_turn else np.array(spans, np.intp)
    return Listed(numbers, tuple(spans), table[0], table[1])


@dataclass(frozen=True, slots=True)
class Even:
    """Spans that follow one another on an even grid: the same lower part leaves an upper part that grows with the span.

    ``lower`` and ``upper`` are those of the span number ``skipped`` of the batch, the first that is long enough for both. A lower part that
    is worth no more than the one a step shorter need not be tried.
    """

    spans: slice
    lower: Numbers
    upper: Numbers
    skipped: Numbers
    shorter: Numbers

    @property
    def weight(self) -> float:
        """See ``Batch``."""
        count = int(self.spans.stop) - int(self.spans.start)
        return float(self.lower.size) * count / _LONGER_FOR_NOTHING

    def parted(self, table: Values) -> Values:
        """See ``Batch``."""
        count = self.spans.stop - self.spans.start
        best = np.zeros((count, table.shape[1]), np.float32)
        both = np.empty_like(best)
        worth_more = (table[self.lower] > table[self.shorter]).any(axis=1)
        ways = (self.lower[worth_more], self.upper[worth_more], self.skipped[worth_more])
        for lower, upper, skipped in zip(*(numbers.tolist() for numbers in ways), strict=True):
            some, target = both[skipped:], best[skipped:]
            np.add(table[upper : upper + count - skipped], table[lower], out=some)
            np.maximum(target, some, out=target)
        return best

    def parts(self, span: int) -> tuple[Numbers, Numbers]:
        """See ``Batch``."""
        behind = span - self.spans.start - self.skipped
        kept = behind >= 0
        return self.lower[kept], (self.upper + behind)[kept]


@dataclass(frozen=True)
class Axis:
    """All spans along an axis.

    ``batches`` come shortest first. ``runs`` are spans of growing length, each of which holds what the one before does. ``entries`` are
    the spans that hold a shape (of a run, the first). ``roots`` are whole blanks. ``own`` and ``rest``, a row for each blank and a column for
    each shape, are the span a shape takes at the edge of a blank and what is left there (own is -1 where it does not fit); ``at_end``
    tells the shapes that lie at the far edge. ``exact`` says that nothing was rounded or left out.
    """

    size: int
    batches: tuple[Batch, ...]
    runs: tuple[slice, ...]
    entries: tuple[tuple[int, ...], ...]
    roots: tuple[int, ...]
    own: Numbers
    rest: Numbers
    at_end: tuple[bool, ...]
    exact: bool

    @property
    def weight(self) -> float:
        """Ways to part all spans."""
        return sum(batch.weight for batch in self.batches)

    def parts(self, span: int) -> tuple[Numbers, Numbers]:
        """Lower and upper part for every way to part a span."""
        owner = int(self._owners[span])
        nothing = np.empty(0, np.intp)
        return (nothing, nothing) if owner < 0 else self.batches[owner].parts(span)

    @cached_property
    def _owners(self) -> Numbers:
        owners = np.full(self.size, -1, np.intp)
        for number, batch in enumerate(self.batches):
            owners[batch.spans] = number
        return owners

    def holds(self, span: int, shape: int) -> bool:
        """Whether a span holds a shape by itself: it is an entry, or longer than one in its run."""
        entries = self.entries[shape]
        if span in entries:
            return True
        start = next((run.start for run in self.runs if run.start <= span < run.stop), span)
        return any(start <= entry <= span for entry in entries)
