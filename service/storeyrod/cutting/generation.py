"""Column generation: patterns are priced and added until the bound shows that no pattern can lower the boards any more.

Values of pieces that no pattern sums to more than one board are a bound, whatever else is cut (duality; A. A. Farley, A note on bounding a
class of linear programming problems, including cutting stock problems, Operations Research 38, 1990; from memory). Only this bound of the
pricing is quoted: the master itself knows but the patterns found so far. Values are smoothed towards those of the best bound (P. Wentges,
Weighted Dantzig-Wolfe decomposition for linear mixed-integer programming, International Transactions in Operational Research 4, 1997;
from memory).
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from storeyrod.cutting.any_stage import EXACT, AnyStage, Priced
from storeyrod.cutting.bounds import NOISE
from storeyrod.cutting.effort import Limits
from storeyrod.cutting.job import Job
from storeyrod.cutting.master import Floats, Master, Relaxed
from storeyrod.cutting.pattern import Pattern
from storeyrod.cutting.tree import Tree, drawn

_UNIT: Final = 2.0**20
"""Value of a board: duals are rounded down to whole millionths or so, and a board of 16 such values is still exact."""

_SHAPES_TO_A_COLUMN: Final = 8
"""One pricing may add a pattern for every so many shapes, however few the limits allow: long lists need many (found by trial)."""

_SMOOTHING: Final = 0.5
"""Weight of the values of the best bound (found by trial)."""


@dataclass(slots=True)
class Generation:
    """A run of column generation: the bound so far in whole boards, and pricings done."""

    job: Job
    stages: AnyStage
    master: Master
    limits: Limits
    bound: int = 0
    pricings: int = 0
    _best: float = 0.0
    _centre: Floats | None = field(default=None)

    def run(self, target: int) -> Relaxed:
        """Go on until the bound reaches ``target`` or cannot be raised, no pattern is found, or the limits are reached."""
        relaxed = self.master.solve()
        while self._goes_on(relaxed, target):
            smooth = relaxed.pieces if self._centre is None else self._mixed(relaxed.pieces, self._centre)
            priced = self._price(smooth)
            self._raise_bound(priced)
            if self.master.add(self._worth(priced, relaxed)):
                relaxed = self.master.solve()
            elif self._centre is None or np.array_equal(smooth, relaxed.pieces):
                break
            else:
                self._centre = None
        return relaxed

    def add_columns(self, relaxed: Relaxed) -> int:
        """Price the values of a relaxed answer as they are, for the sake of patterns alone."""
        return self.master.add(self._worth(self._price(relaxed.pieces), relaxed))

    @property
    def spent(self) -> bool:
        """Whether the limits of linear programmes or of pricing are reached."""
        limits = self.limits
        return self.master.cells >= limits.cells or self.pricings * self.stages.weight >= limits.weight

    def _goes_on(self, relaxed: Relaxed, target: int) -> bool:
        limits = self.limits
        if self.spent or self.pricings >= limits.pricings or len(self.master.patterns) >= limits.columns:
            return False
        reachable = min(target, math.ceil(relaxed.boards - NOISE))
        return self.bound < reachable - limits.spared(self.bound)

    def _mixed(self, pieces: Floats, centre: Floats) -> Floats:
        return _SMOOTHING * centre + (1.0 - _SMOOTHING) * pieces

    def _price(self, pieces: Floats) -> Priced:
        self.pricings += 1
        values = np.where(self.stages.known, np.floor(pieces * _UNIT), 0.0)
        return self.stages.priced(values.astype(np.float32))

    def _raise_bound(self, priced: Priced) -> None:
        """In whole numbers throughout: what is wanted less what offcuts can give, over the most that a board gives."""
        most = [priced.most(index) for index in range(len(self.job.blanks))]
        if max(most) >= EXACT or most[0] <= 0.0:
            return
        values = priced.values.astype(np.int64).tolist()
        wanted = sum(value * shape.count for value, shape in zip(values, self.job.shapes, strict=True))
        offcuts = zip(most[1:], self.job.blanks[1:], strict=True)
        wanted -= sum(int(value) * (blank.count or 0) for value, blank in offcuts)
        self.bound = max(self.bound, -(-wanted // int(most[0])))
        if wanted / most[0] > self._best:
            self._best = wanted / most[0]
            self._centre = priced.values.astype(np.float64) / most[0]

    def _worth(self, priced: Priced, relaxed: Relaxed) -> Iterator[Pattern]:
        """Patterns that would lower the boards of the master."""
        for index, blank in enumerate(self.job.blanks):
            cost = 1.0 if index == 0 else -float(relaxed.offcuts[index - 1])
            for tree in self._trees(priced, index, cost):
                pattern = drawn(tree, index, blank, self.job.shapes, self.job.saw)
                if pattern is not None and sum(relaxed.pieces[s] * n for s, n in pattern.uses) > cost + NOISE:
                    yield pattern

    def _trees(self, priced: Priced, index: int, cost: float) -> Iterator[Tree]:
        if priced.most(index) > cost * _UNIT:
            yield priced.best(index)
        if index == 0:
            at_most = max(self.limits.columns_each, len(self.job.shapes) // _SHAPES_TO_A_COLUMN)
            yield from priced.with_each(0, cost * _UNIT, at_most)
