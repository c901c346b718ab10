"""From fractions of patterns to whole ones: whole parts are taken, the rest is solved again or cut greedily; the best answer counts."""

import math
from dataclasses import dataclass

import numpy as np

from storeyrod.cutting.bounds import NOISE
from storeyrod.cutting.generation import Generation
from storeyrod.cutting.greedy import Greedy
from storeyrod.cutting.job import Wanted
from storeyrod.cutting.master import Relaxed
from storeyrod.cutting.pattern import Cutting, Pattern


@dataclass(frozen=True, slots=True)
class Rest:
    """How the rest is cut that fractions leave: greedily, in some of the ways."""

    greedy: Greedy
    ways: tuple[int, ...]

    def cut(self, wanted: Wanted) -> list[tuple[Pattern, int]]:
        """Patterns for what is still wanted."""
        return self.greedy.best(wanted, self.ways).used if any(wanted.pieces) else []


def dived(generation: Generation, rest: Rest, best: Cutting, relaxed: Relaxed, up: float) -> Cutting:
    """Take whole patterns step by step until everything is cut, or no better answer than the best can come of it.

    ``up`` is what shares may lack of a whole blank.
    """
    aim = generation.bound + generation.limits.spared(generation.bound)
    dive = _Dive(generation.job.all_wanted, [])
    while any(dive.wanted.pieces) and best.bought > aim and not generation.spent:
        if dive.bought + math.ceil(relaxed.boards - NOISE) >= best.bought:
            break
        dive.take(relaxed, generation.master.patterns, up)
        best = min(best, dive.ended(rest, generation.job.all_wanted), key=Cutting.rank)
        generation.master.want(dive.wanted)
        relaxed = generation.master.solve()
        for _ in range(generation.limits.dive_pricings):
            if not generation.add_columns(relaxed):
                break
            relaxed = generation.master.solve()
    return best


@dataclass(slots=True)
class _Dive:
    """What is still wanted after the patterns taken."""

    wanted: Wanted
    taken: list[tuple[Pattern, int]]

    @property
    def bought(self) -> int:
        """Boards taken."""
        return sum(count for pattern, count in self.taken if pattern.blank == 0)

    def take(self, relaxed: Relaxed, patterns: list[Pattern], up: float) -> None:
        """The whole part of every share; where there is none, one of the largest share."""
        whole = np.floor(relaxed.shares + up + NOISE).astype(int)
        if not whole.any():
            whole[int(np.argmax(relaxed.shares))] = 1
        for index in np.flatnonzero(whole):
            pattern = patterns[index]
            times = self.wanted.less(pattern.uses, pattern.blank, int(whole[index]))
            if times:
                self.taken.append((pattern, times))

    def ended(self, rest: Rest, all_wanted: Wanted) -> Cutting:
        """A whole answer, with the rest of what is wanted."""
        return Cutting([*self.taken, *rest.cut(self.wanted)]).trimmed(all_wanted.pieces)
