"""An axis along which a piece may lie anywhere, or has to lie at one end: spans are lengths, each in up to four families.

Pieces are pushed against what lies before them, so that only sums of lengths matter as places of cuts (normal patterns; J. C. Herz,
Recursive computational procedure for two-dimensional stock cutting, IBM Journal of Research and Development 16, 1972; from memory).
Where the sums are many, all steps of an even grid take their place.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from storeyrod.cutting.spans import Axis, Batch, Even, Numbers, listed

FEW_SUMS: Final = 320
"""Sums up to which their parts are written down one by one: beyond it, the even grid is quicker (found by trial)."""

SMALL: Final = 50.0
"""Pieces to a blank from which on a piece is left out of pricing: it would cost many steps and is soon placed in what is left."""


class Ends(NamedTuple):
    """Which ends of a span are factory edges, or are needed by a piece."""

    low: bool
    high: bool


_PLAIN, _LOW, _HIGH, _BOTH = Ends(False, False), Ends(True, False), Ends(False, True), Ends(True, True)


class Stretch(NamedTuple):
    """A length with its ends: of a piece what it needs, of a blank what it has."""

    length: float
    ends: Ends


@dataclass(frozen=True, slots=True)
class _Scale:
    """Lengths of pieces (endless: left out) and blanks, and the positions that cuts may have: 0, and all that matter or an even grid."""

    shapes: tuple[Stretch, ...]
    lengths: tuple[float, ...]
    blanks: tuple[Stretch, ...]
    positions: NDArray[np.float64]
    even: bool
    exact: bool


def sliding_axis(shapes: Sequence[Stretch], blanks: Sequence[Stretch], most: int) -> Axis:
    """Spans for pieces and blanks along an axis, small pieces left out.

    Lengths are rounded down to a grid where it takes more than ``most`` positions: what fits still does, and bounds hold.
    """
    low, high = any(shape.ends.low for shape in shapes), any(shape.ends.high for shape in shapes)
    blanks = [Stretch(blank.length, Ends(blank.ends.low and low, blank.ends.high and high)) for blank in blanks]
    scale = _scale(shapes, blanks, most)
    families = _Families(scale)
    own, rest = families.corners()
    return Axis(
        size=families.size,
        batches=tuple(families.batches()),
        runs=tuple(families.run(ends) for ends in families.starts if ends != _BOTH),
        entries=tuple(tuple(sorted({*families.entries(shape)})) for shape in scale.shapes),
        roots=tuple(families.span(*blank) for blank in scale.blanks),
        own=own,
        rest=rest,
        at_end=tuple(shape.ends.high and not shape.ends.low for shape in scale.shapes),
        exact=scale.exact,
    )


def _scale(shapes: Sequence[Stretch], blanks: Sequence[Stretch], most: int) -> _Scale:
    longest = max(blank.length for blank in blanks)
    lengths = sorted({shape.length for shape in shapes if shape.length * SMALL >= longest}, reverse=True)
    all_kept = all(shape.length in lengths for shape in shapes)
    sums = _sums(lengths, longest, min(most, FEW_SUMS))
    if sums is not None:
        return _scaled(shapes, blanks, lengths, sums, even=False, exact=all_kept)
    step = math.gcd(*(int(length) for length in lengths))
    exact = longest // step <= most
    grid = float(step if exact else math.ceil(longest / most))
    shapes = [Stretch(shape.length // grid, shape.ends) for shape in shapes]
    blanks = [Stretch(blank.length // grid, blank.ends) for blank in blanks]
    lengths = sorted({length // grid for length in lengths})
    return _scaled(shapes, blanks, lengths, np.arange(longest // grid + 1.0), even=True, exact=exact and all_kept)


def _scaled(
    shapes: Sequence[Stretch],
    blanks: Sequence[Stretch],
    lengths: Sequence[float],
    positions: NDArray[np.float64],
    *,
    even: bool,
    exact: bool,
) -> _Scale:
    known = set(lengths)
    kept = tuple(shape if shape.length in known else Stretch(math.inf, shape.ends) for shape in shapes)
    return _Scale(kept, tuple(lengths) or (positions[-1],), tuple(blanks), positions, even, exact)


def _sums(lengths: Sequence[float], longest: float, most: int) -> NDArray[np.float64] | None:
    """0 and every sum of lengths up to the longest; none where there are more than ``most``."""
    sums = np.zeros(1)
    for length in lengths:
        multiples = length * np.arange(longest // length + 1.0)
        grown = (sums[:, np.newaxis] + multiples).ravel()
        sums = np.unique(grown[grown <= longest])
        if len(sums) > most:
            return None
    return sums


class _Families:
    """Spans of every position: with no factory edge, one at either end, or (blanks alone) at both."""

    def __init__(self, scale: _Scale) -> None:
        self.scale = scale
        self.count = len(scale.positions) - 1
        low, high = any(blank.ends.low for blank in scale.blanks), any(blank.ends.high for blank in scale.blanks)
        kinds = (_PLAIN, *(_LOW,) * low, *(_HIGH,) * high, *(_BOTH,) * (low and high))
        self.starts = {ends: 1 + index * self.count for index, ends in enumerate(kinds)}
        self.size = 1 + len(kinds) * self.count
        self.shortest = min(scale.lengths)

    def run(self, ends: Ends) -> slice:
        """All spans of a family."""
        return slice(self.starts[ends], self.starts[ends] + self.count)

    def span(self, length: float, ends: Ends) -> int:
        """The longest span of a family that is not longer than a length; 0 where there is none."""
        place = int(np.searchsorted(self.scale.positions, length, side="right")) - 1
        return self.starts[ends] + place - 1 if place > 0 else 0

    def entries(self, shape: Stretch) -> Iterator[int]:
        """The shortest span of each family that has the ends a piece needs; among whole blanks every one that holds it."""
        needs = shape.ends
        if shape.length > self.scale.positions[-1]:
            return
        for ends in self.starts:
            if ends == _BOTH:
                yield from (
                    self.span(*blank) for blank in self.scale.blanks if blank.ends == _BOTH and _fits(shape, blank)
                )
            elif ends.low >= needs.low and ends.high >= needs.high:
                yield self.span(shape.length, ends)

    def corners(self) -> tuple[Numbers, Numbers]:
        """What every shape takes of every blank at its edge, and what it leaves."""
        own = np.full((len(self.scale.blanks), len(self.scale.shapes)), -1, np.intp)
        rest = np.zeros_like(own)
        for row, blank in enumerate(self.scale.blanks):
            for column, shape in enumerate(self.scale.shapes):
                if _fits(shape, blank):
                    own[row, column], rest[row, column] = self._corner(shape, blank)
        return own, rest

    def _corner(self, shape: Stretch, blank: Stretch) -> tuple[int, int]:
        ends = blank.ends
        if shape.length == blank.length:
            return self.span(*blank), 0
        at_end = shape.ends.high
        own = self.span(shape.length, Ends(ends.low and not at_end, ends.high and at_end))
        return own, self.span(blank.length - shape.length, Ends(ends.low and at_end, ends.high and not at_end))

    def batches(self) -> Iterator[Batch]:
        """Spans that differ by less than the shortest piece do not part into one another."""
        positions = self.scale.positions
        first = 1
        while first < len(positions):
            behind = int(np.searchsorted(positions, positions[first] + self.shortest))
            for ends in self.starts:
                if ends == _BOTH:
                    spans = sorted({self.span(*blank) for blank in self.scale.blanks if blank.ends == _BOTH})
                    places = [span - self.starts[_BOTH] + 1 for span in spans]
                    places = [place for place in places if first <= place < behind]
                else:
                    places = list(range(first, behind))
                if self.scale.even and ends != _BOTH:
                    yield self._even(first, behind, ends)
                elif places:
                    spans = [self.starts[ends] + place - 1 for place in places]
                    yield listed(spans, [self._parts(place, ends) for place in places])
            first = behind

    def _parts(self, place: int, ends: Ends) -> tuple[Numbers, Numbers]:
        """Every way to part a span: the lower part at a position, the upper one rounded down to one."""
        positions = self.scale.positions
        length = positions[place]
        limit = length / 2.0 if ends == _PLAIN else length
        cuts = np.arange(1, int(np.searchsorted(positions, limit, side="right")))
        others = np.searchsorted(positions, length - positions[cuts], side="right") - 1
        kept = others > 0
        lower, upper = self.starts[Ends(ends.low, False)], self.starts[Ends(False, ends.high)]
        return cuts[kept] + (lower - 1), others[kept] + (upper - 1)

    def _even(self, first: int, behind: int, ends: Ends) -> Even:
        """The same for spans on a grid: lower parts are single pieces, or long enough for two."""
        shortest = int(self.shortest)
        limit = (behind - 1) // 2 if ends == _PLAIN else behind - 1 - shortest
        pieces = {int(length) for length in self.scale.lengths}
        cuts = np.array([cut for cut in range(shortest, limit + 1) if cut >= 2 * shortest or cut in pieces], np.intp)
        skipped = np.maximum(0, cuts + shortest - first)
        lower = self.starts[Ends(ends.low, False)] - 1 + cuts
        upper = self.starts[Ends(False, ends.high)] - 1 + first + skipped - cuts
        start = self.starts[ends] - 1
        return Even(slice(start + first, start + behind), lower, upper, skipped, np.where(cuts > 1, lower - 1, 0))


def _fits(shape: Stretch, blank: Stretch) -> bool:
    needs, ends = shape.ends, blank.ends
    if shape.length > blank.length or needs.low > ends.low or needs.high > ends.high:
        return False
    return needs != _BOTH or shape.length == blank.length
