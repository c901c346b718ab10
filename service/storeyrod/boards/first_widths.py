"""First widths of a run that keep every rule: what seams must keep clear of, folded into one board length.

Inside a run all boards but the first and the last are whole, so the first width, counted from the left end, decides every seam:
they stand at it and at whole boards beyond. A place that no seam may come near therefore forbids an open interval of first
widths, wherever it lies in the run.
"""

from collections.abc import Iterable, Iterator, Sequence
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


def width_limits(run: Run, limits: Limits) -> Iterator[Interval]:
    """Where a seam would leave a piece or an arm under its least width."""
    yield run.left, run.held[0] + limits.piece
    yield run.held[1] - limits.piece, run.right
    for place in run.starts:
        yield place - limits.arm, place
    for place in run.ends:
        yield place, place + limits.arm


def stagger_limits(run: Run, limits: Limits) -> Iterator[Interval]:
    """Where a seam would come too close to one of the row below, where the wall goes through from row to row."""
    distance = limits.stagger
    if not run.below or distance == 0.0:
        return
    if len(run.footing) == 1 and run.footing[0][0] <= run.left and run.footing[0][1] >= run.right:
        for seam in run.below:
            yield seam - distance, seam + distance
        return
    for seam in run.below:
        for low, high in run.footing:
            if low < seam + distance and high > seam - distance:
                yield max(low, seam - distance), min(high, seam + distance)


def corner_limits(run: Run, limits: Limits) -> Iterator[Interval]:
    """Where a seam would come too close to the corner of an opening."""
    for place in run.corners:
        yield place - limits.corner, place + limits.corner


def allowed(run: Run, limits: Limits, forbidden: Iterable[Interval]) -> list[Interval]:
    """First widths, over 0 and up to a board, with no seam inside a forbidden open interval; closed intervals, sorted."""
    board, left, right = limits.board, run.left, run.right
    folded: list[Interval] = []
    for low, high in forbidden:
        start, stop = max(low, left), min(high, right)
        if stop <= start:
            continue
        if stop - start > board:
            return []
        begin = (start - left) % board
        end = begin + stop - start
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
