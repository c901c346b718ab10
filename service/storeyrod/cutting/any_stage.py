"""Pricing: the most valuable way to cut a blank in any number of stages, for given values of pieces.

The value of a rectangle is that of the best piece in it, or of the best two rectangles that one cut makes of it. Values are whole
numbers below 2^24, so that sums in single precision are exact and what they bound is proved (recursion of P. C. Gilmore, R. E. Gomory,
The theory and computation of knapsack functions, Operations Research 14, 1966; from memory).
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.cutting.spans import Axis, Batch, Numbers, Values
from storeyrod.cutting.tree import Join, Tree

EXACT: Final = 2.0**24
"""Whole numbers up to here are exact in single precision (IEEE 754)."""


@dataclass(frozen=True)
class AnyStage:
    """Both axes for a list of shapes."""

    across: Axis
    up: Axis

    @cached_property
    def _starts(self) -> tuple[Numbers, Numbers, Numbers]:
        """Shape and both spans, for every smallest rectangle that holds a shape."""
        rows = [
            (shape, width, height)
            for shape, (widths, heights) in enumerate(zip(self.across.entries, self.up.entries, strict=True))
            for width in widths
            for height in heights
        ]
        table = np.array(rows, np.intp).reshape(-1, 3).T
        return table[0], table[1], table[2]

    @cached_property
    def known(self) -> NDArray[np.bool_]:
        """Shapes that both axes know: what is left out has no place in a pattern, and may have no value in a bound."""
        both = zip(self.across.entries, self.up.entries, strict=True)
        return np.array([bool(widths and heights) for widths, heights in both], np.bool_)

    @property
    def weight(self) -> float:
        """Work of one pricing: rectangles by ways to part them."""
        return self.across.weight * self.up.size + self.up.weight * self.across.size

    def priced(self, values: Values) -> "Priced":
        """Best values of all rectangles."""
        shape, width, height = self._starts
        table = np.zeros((self.across.size, self.up.size), np.float32)
        np.maximum.at(table, (width, height), values[shape])
        for run in self.across.runs:
            np.maximum.accumulate(table[run], axis=0, out=table[run])
        for run in self.up.runs:
            np.maximum.accumulate(table[:, run], axis=1, out=table[:, run])
        base = table.copy()
        for batch in self.across.batches:
            table[batch.spans] = self._parted(table, batch)
        return Priced(self, values, base, table)

    def _parted(self, table: Values, batch: Batch) -> Values:
        """Rectangles of a batch of widths: parted beside each other, then, lowest first, one above the other."""
        columns = np.ascontiguousarray(np.maximum(table[batch.spans], batch.parted(table)).T)
        for level in self.up.batches:
            columns[level.spans] = np.maximum(columns[level.spans], level.parted(columns))
        return columns.T


@dataclass(frozen=True)
class Priced:
    """Best values of rectangles (``base``: of a single piece), and the patterns that have them."""

    stages: AnyStage
    values: Values
    base: Values
    table: Values

    def most(self, blank: int) -> float:
        """Value of the best pattern of a blank."""
        return float(self.table[self.stages.across.roots[blank], self.stages.up.roots[blank]])

    def best(self, blank: int) -> Tree:
        """The best pattern of a blank."""
        return self._tree(self.stages.across.roots[blank], self.stages.up.roots[blank])

    def with_each(self, blank: int, above: float, at_most: int) -> Iterator[Tree]:
        """Best patterns that begin with a certain piece in a corner, each worth more than ``above``, best first."""
        shelves, columns = self._corner_values(blank)
        worth = np.maximum(shelves, columns)
        for shape in np.argsort(-worth, kind="stable")[:at_most]:
            if worth[shape] <= above:
                return
            yield self._corner(blank, int(shape), shelf=bool(shelves[shape] >= columns[shape]))

    def _corner_values(self, blank: int) -> tuple[Values, Values]:
        """Value with each shape in a corner: its shelf cut off first, or its column."""
        across, up = self.stages.across, self.stages.up
        width, height = across.roots[blank], up.roots[blank]
        own_x, rest_x, own_y, rest_y = across.own[blank], across.rest[blank], up.own[blank], up.rest[blank]
        shelves = self.values + self.table[rest_x, own_y] + self.table[width, rest_y]
        columns = self.values + self.table[own_x, rest_y] + self.table[rest_x, height]
        fits = (own_x >= 0) & (own_y >= 0)
        return np.where(fits, shelves, 0.0), np.where(fits, columns, 0.0)

    def _corner(self, blank: int, shape: int, *, shelf: bool) -> Tree:
        across, up = self.stages.across, self.stages.up
        rest_x, rest_y = int(across.rest[blank, shape]), int(up.rest[blank, shape])
        if shelf:
            row = _joined(True, shape, self._tree(rest_x, int(up.own[blank, shape])), turned=across.at_end[shape])
            return _joined(False, row, self._tree(across.roots[blank], rest_y), turned=up.at_end[shape])
        column = _joined(False, shape, self._tree(int(across.own[blank, shape]), rest_y), turned=up.at_end[shape])
        return _joined(True, column, self._tree(rest_x, up.roots[blank]), turned=across.at_end[shape])

    def _tree(self, width: int, height: int) -> Tree:
        """The pattern behind the value of a rectangle."""
        known = self._known
        if (width, height) not in known:
            known[width, height] = self._found(width, height)
        return known[width, height]

    @cached_property
    def _known(self) -> dict[tuple[int, int], Tree]:
        return {}

    def _found(self, width: int, height: int) -> Tree:
        value = self.table[width, height]
        if value == 0.0:
            return None
        if self.base[width, height] == value:
            return self._piece(width, height, float(value))
        lower, upper = self.stages.across.parts(width)
        hits = np.flatnonzero(self.table[lower, height] + self.table[upper, height] == value)
        if len(hits):
            return Join(True, self._tree(int(lower[hits[0]]), height), self._tree(int(upper[hits[0]]), height))
        lower, upper = self.stages.up.parts(height)
        hits = np.flatnonzero(self.table[width, lower] + self.table[width, upper] == value)
        return Join(False, self._tree(width, int(lower[hits[0]])), self._tree(width, int(upper[hits[0]])))

    def _piece(self, width: int, height: int, value: float) -> Tree:
        """The first shape of that value that the rectangle holds by itself."""
        across, up = self.stages.across, self.stages.up
        for shape in np.flatnonzero(self.values == value):
            if across.holds(width, int(shape)) and up.holds(height, int(shape)):
                return int(shape)
        return None


def _joined(upright: bool, first: Tree, second: Tree, *, turned: bool) -> Tree:
    return Join(upright, second, first) if turned else Join(upright, first, second)
