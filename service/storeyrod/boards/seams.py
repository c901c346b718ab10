"""Where the upright seams of a row stand: the first width of every clear run.

Of the first widths that keep every rule the one is taken that needs fewest pieces and lies nearest to the plain half-board
stagger; with a pool of offcuts, the one whose end pieces cost least. Where none keeps every rule, what a choice lacks is weighed:
width of pieces and arms before stagger, and that before distance from opening corners. Work goes from the end where the gang
starts (a corner before any other end; of two like ends, that of the bond), in coordinates counted from there, so that a wall seen
in a mirror gets the mirrored seams.
"""

import math
from bisect import bisect_left
from collections.abc import Sequence
from typing import Final

from storeyrod.boards.first_widths import Limits, Run, allowed
from storeyrod.boards.offcut_pool import OffcutPool
from storeyrod.boards.short_of_rules import least_short
from storeyrod.geometry.intervals import Interval

STEPS_PER_BOARD: Final = 24
"""With a pool, first widths are tried in steps of a 24th of a board too: 50 mm on a board of 1200 mm."""


def seams_of(run: Run, limits: Limits, pool: OffcutPool | None = None) -> list[float]:
    """Seams strictly inside a run, from left to right; none where one board is long enough."""
    if run.right - run.left <= limits.board:
        return []
    plain = limits.board - (run.left - run.plain) % limits.board
    free = allowed(run, limits)
    if free and pool is not None:
        first = _cheapest(run, limits, free, plain, pool)
    elif free:
        first = _nearest(run, limits, free, plain)
    else:
        first = least_short(run, limits, plain)
    seams, seam = [], run.left + first
    while seam < run.right:
        seams.append(seam)
        seam += limits.board
    return seams


def _nearest(run: Run, limits: Limits, free: Sequence[Interval], plain: float) -> float:
    """The first width with fewest pieces, then nearest to the plain one; of two as near, the one away from the start."""
    length, board = run.right - run.left, limits.board
    least = length - (math.ceil(length / board) - 1) * board
    best, first = (math.inf, math.inf), plain
    for low, high in _few(free, least):
        if low <= plain <= high:
            return plain
        for end in (low, high):
            shift = _shift(end, plain, board)
            if shift < best:
                best, first = shift, end
    return first


def _few(free: Sequence[Interval], least: float) -> Sequence[Interval]:
    """First widths of at least so much, so that no piece is needed more than the length asks for; all where there are none."""
    if free[0][0] >= least:
        return free
    return [(max(low, least), high) for low, high in free if high >= least] or free


def _shift(first: float, plain: float, board: float) -> tuple[float, float]:
    """Distance from the plain seams; of two alike, the one towards the start comes last."""
    shift = (first - plain) % board
    return min(shift, board - shift), shift


def _cheapest(run: Run, limits: Limits, free: Sequence[Interval], plain: float, pool: OffcutPool) -> float:
    """The first width whose first and last piece cost least together with the whole boards between them."""
    board, length = limits.board, run.right - run.left
    options = {first for low, high in free for first in (low, high)}
    options.add(_nearest(run, limits, free, plain))
    step = board / STEPS_PER_BOARD
    tried = [float(round(index * step)) for index in range(1, STEPS_PER_BOARD + 1)]
    for width in (*tried, *pool.widths()):
        options |= {first for first in (width, (length - width) % board or board) if _holds(free, first)}

    def cost(first: float) -> tuple[float, int, float, float]:
        seams = math.ceil((length - first) / board)
        last = length - first - (seams - 1) * board
        return (round(seams - 1 + pool.cost(first, last), 9), seams, *_shift(first, plain, board))

    return min(sorted(options), key=cost)


def _holds(free: Sequence[Interval], first: float) -> bool:
    index = bisect_left(free, (first, math.inf)) - 1
    return index >= 0 and free[index][0] <= first <= free[index][1]
