"""Where the upright seams of a row stand: the first width of every clear run, chosen from a small set.

Inside a run all boards but the first and the last are whole, so one number decides it. Candidates are weighed in this order:
what pieces and arms lack of the least width, seams of the stagger against the row below, seams of the distance from opening
corners; then by the number of pieces and the distance from the plain half-board stagger. Work goes from the end
where the gang starts (a corner before any other end; of two like ends, that of the bond), in coordinates counted from there, so
that a wall seen in a mirror gets the mirrored seams.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.geometry.intervals import Interval

SHIFTS_PER_BOARD: Final = 24
"""First widths are tried in steps of a 24th of a board: 50 mm on a board of 1200 mm."""

MOST_PLACES: Final = 24
"""Up to so many seams or corners in a run, first widths that just clear one of them are tried too."""


@dataclass(frozen=True, slots=True)
class Limits:
    """What seams must keep, in ticks: length of a board, least width, stagger."""

    board: float
    least: float
    stagger: float


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of a row without an interruption from bottom to top.

    ``held`` is the part of it before the substrate. ``starts`` and ``ends`` are where something inside it begins or stops that
    limits a piece sideways: jambs of openings that reach into the row, and steps. ``corners`` are the opening corners in the
    row or on its lines; ``footing`` is where the run stands on its foot; ``below`` the seams of the row below that meet it. All sorted, in ticks.
    """

    left: float
    right: float
    plain: float
    held: Interval
    starts: Sequence[float]
    ends: Sequence[float]
    corners: Sequence[float]
    footing: Sequence[Interval]
    below: Sequence[float]

    def mirrored(self) -> "Run":
        """The run seen from the other side."""
        return Run(
            -self.right,
            -self.left,
            -self.plain,
            (-self.held[1], -self.held[0]),
            _negated(self.ends),
            _negated(self.starts),
            _negated(self.corners),
            [(-high, -low) for low, high in reversed(self.footing)],
            _negated(self.below),
        )


def _negated(places: Sequence[float]) -> list[float]:
    return [-place for place in reversed(places)]


def seams_of(run: Run, limits: Limits) -> list[float]:
    """Seams strictly inside a run, from left to right; none where one board is long enough."""
    if run.right - run.left <= limits.board:
        return []
    plain = _first(run, run.plain, limits.board)
    firsts = [plain]
    if _count(run, plain, limits) > _fewest(run, limits) or any(
        _least(firsts, run, limits, lack)[1] for lack in _LACKS
    ):
        firsts += _candidates(run, limits)
        for lack in _LACKS:
            firsts, _ = _least(firsts, run, limits, lack)
    best = min(firsts, key=lambda first: (_count(run, first, limits), *_shift(run, first, limits)))
    return list(_seams(run, best, limits.board))


def _first(run: Run, seam: float, board: float) -> float:
    """The first seam of a run whose seams stand whole boards away from a given one: in (left, left + board]."""
    return run.left + board - (run.left - seam) % board


def _seams(run: Run, first: float, board: float) -> Iterator[float]:
    seam = first
    while seam < run.right:
        yield seam
        seam += board


def _candidates(run: Run, limits: Limits) -> list[float]:
    step = limits.board / SHIFTS_PER_BOARD
    seams = [run.plain + round(index * step) for index in range(SHIFTS_PER_BOARD)]
    seams += [run.left, run.right, run.held[0] + limits.least, run.held[1] - limits.least]
    seams += _beside(run.corners, limits.least) + _beside(run.below, limits.stagger)
    return sorted({_first(run, seam, limits.board) for seam in seams})


def _beside(places: Sequence[float], distance: float) -> list[float]:
    """Seams that just keep a distance; in a run with many places no first width suits all of them, and the steps must do."""
    if len(places) > MOST_PLACES:
        return []
    return [place + shift for place in places for shift in (-distance, distance)]


def _fewest(run: Run, limits: Limits) -> int:
    return math.ceil((run.right - run.left) / limits.board) - 1


def _count(run: Run, first: float, limits: Limits) -> int:
    """Number of seams."""
    return math.ceil((run.right - first) / limits.board)


_Lack = Callable[[Run, float, Limits], float]


def _least(firsts: Sequence[float], run: Run, limits: Limits, lack: _Lack) -> tuple[list[float], float]:
    """The first widths whose seams lack least of one limit, and how much that is; each is left as soon as it is beaten."""
    best, kept = math.inf, []
    for first in firsts:
        total = 0.0
        for seam in _seams(run, first, limits.board):
            total += lack(run, seam, limits)
            if total > best:
                break
        if total < best:
            best, kept = total, [first]
        elif total == best:
            kept.append(first)
    return kept, best


def _lack_of_width(run: Run, seam: float, limits: Limits) -> float:
    """What the pieces and arms on both sides of a seam lack of the least width, counted where there is substrate behind."""
    least, (left, right) = limits.least, run.held
    ends = max(0.0, least - seam + left) + max(0.0, least - right + seam)
    return ends + max(0.0, least - _ahead(run.starts, seam)) + max(0.0, least - _behind(run.ends, seam))


def _lack_of_stagger(run: Run, seam: float, limits: Limits) -> float:
    """What a seam lacks of the stagger to the row below, where the wall goes through from row to row."""
    lack = max(0.0, limits.stagger - _nearest(run.below, seam))
    return lack if lack and _stands(run.footing, seam) else 0.0


def _lack_of_clearance(run: Run, seam: float, limits: Limits) -> float:
    """What a seam lacks of the least width to the corners of openings."""
    return max(0.0, limits.least - _nearest(run.corners, seam))


_LACKS: Final[tuple[_Lack, ...]] = (_lack_of_width, _lack_of_stagger, _lack_of_clearance)
"""What a choice is weighed by, the gravest first."""


def _shift(run: Run, first: float, limits: Limits) -> tuple[float, float]:
    """Distance from the plain seams; of two alike, the one towards the start comes last."""
    shift = (first - run.plain) % limits.board
    return min(shift, limits.board - shift), shift


def _ahead(places: Sequence[float], seam: float) -> float:
    """Distance to the next of some places after a seam."""
    index = bisect_right(places, seam)
    return places[index] - seam if index < len(places) else math.inf


def _behind(places: Sequence[float], seam: float) -> float:
    """Distance from the last of some places before a seam."""
    index = bisect_left(places, seam)
    return seam - places[index - 1] if index else math.inf


def _nearest(places: Sequence[float], seam: float) -> float:
    """Distance to the nearest of some places; none where a seam stands on one."""
    index = bisect_left(places, seam)
    ahead = places[index] - seam if index < len(places) else math.inf
    return min(ahead, seam - places[index - 1]) if index else ahead


def _stands(footing: Sequence[Interval], seam: float) -> bool:
    return any(low < seam < high for low, high in footing)
