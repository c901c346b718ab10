"""First widths of a run that keep every rule: what seams must keep clear of, folded into one board length.

Inside a run all boards but the first and the last are whole, so the first width, counted from the left end, decides every seam:
they stand at it and at whole boards beyond. A place that no seam may come near therefore forbids an open interval of first
widths, wherever it lies in the run.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from storeyrod.geometry.intervals import Interval


@dataclass(frozen=True, slots=True)
class Limits:
    """What seams must keep, in ticks: length of a board, least piece, least arm, stagger, clearance from opening corners."""

    board: float
    piece: float
    arm: float
    stagger: float
    corner: float


class Run(NamedTuple):
    """A stretch of a row without an interruption from bottom to top.

    ``plain`` is a seam of the plain stagger. ``held`` is the part of it before the substrate. ``starts`` and ``ends`` are where
    something inside it begins or stops that limits a piece sideways: jambs of openings that reach into the row, and steps.
    ``corners`` are the opening corners in the row or on its lines; ``footing`` is where the run stands on the row below; ``below``
    the seams of that row that meet it; ``height`` that of the row. All sorted, in ticks.
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
    height: float

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
            self.height,
        )


def _negated(places: Sequence[float]) -> list[float]:
    return [-place for place in reversed(places)]


def width_limits(run: Run, limits: Limits) -> list[Interval]:
    """Where a seam would leave a piece or an arm under its least width."""
    arm = limits.arm
    found = [(run.left, run.held[0] + limits.piece), (run.held[1] - limits.piece, run.right)]
    if run.starts:
        found += [(place - arm, place) for place in run.starts]
    if run.ends:
        found += [(place, place + arm) for place in run.ends]
    return found


def stagger_limits(run: Run, limits: Limits) -> Iterator[Interval]:
    """Where a seam would come too close to one of the row below, where the wall goes through from row to row.

    Seams whole boards apart, far from the ends of the run, forbid the same first widths: one of them speaks for all.
    """
    distance, board = limits.stagger, limits.board
    if not run.below or distance == 0.0:
        return
    if len(run.footing) == 1 and run.footing[0][0] <= run.left and run.footing[0][1] >= run.right:
        inner_left, inner_right, seen = run.left + distance, run.right - distance, set[float]()
        for seam in run.below:
            if inner_left <= seam <= inner_right:
                folded = seam % board
                if folded in seen:
                    continue
                seen.add(folded)
            yield seam - distance, seam + distance
        return
    for seam in run.below:
        for low, high in run.footing:
            if low < seam + distance and high > seam - distance:
                yield max(low, seam - distance), min(high, seam + distance)


def corner_limits(run: Run, limits: Limits) -> list[Interval]:
    """Where a seam would come too close to the corner of an opening."""
    distance = limits.corner
    return [(place - distance, place + distance) for place in run.corners]


def allowed(run: Run, limits: Limits) -> list[Interval]:
    """First widths, over 0 and up to a board, that keep every rule: closed intervals, sorted."""
    board, left, right = limits.board, run.left, run.right
    folded: list[Interval] = []
    for rule in (width_limits, stagger_limits, corner_limits):
        for low, high in rule(run, limits):
            start, stop = low if low > left else left, high if high < right else right
            length = stop - start
            if length <= 0.0:
                continue
            if length > board:
                return []
            begin = (start - left) % board
            end = begin + length
            if end <= board:
                folded.append((begin, end))
            else:
                folded.append((begin, board + 1.0))
                folded.append((-1.0, end - board))
    folded.sort()
    free: list[Interval] = []
    reached = 1.0
    for begin, end in folded:
        if begin >= reached:
            free.append((reached, begin))
        reached = max(reached, end)
    if reached <= board:
        free.append((reached, board))
    return free
