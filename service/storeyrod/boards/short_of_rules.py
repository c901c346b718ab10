"""The first width that lacks least where none keeps every rule: a long run past many openings, or a narrow one."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.boards.first_widths import Limits, Run

STEPS_PER_BOARD: Final = 24
"""First widths are tried in steps of a 24th of a board, and where they just clear some place."""

_OVER_ALL: Final = 1.0e4
"""The worst place weighs over the sum of all places: more than a run has."""

_Widths = NDArray[np.float64]


def least_short(run: Run, limits: Limits, plain: float) -> float:
    """Of first widths the one whose seams lack least width of pieces and arms, then least stagger, then least distance from
    opening corners; then the one with fewest pieces, nearest to the plain stagger.
    """
    board = limits.board
    places = [
        run.held[0] + limits.piece,
        run.held[1] - limits.piece,
        run.right,
        *(place - limits.arm for place in run.starts),
        *(place + limits.arm for place in run.ends),
        *(place + side * limits.stagger for place in run.below for side in (-1, 1)),
        *(place + side * limits.corner for place in run.corners for side in (-1, 1)),
    ]
    steps = np.round(np.arange(1, STEPS_PER_BOARD + 1) * (board / STEPS_PER_BOARD))
    folded = (np.array(places) - run.left) % board
    folded[folded == 0.0] = board
    first = np.unique(np.concatenate((steps, folded, [plain])))
    for short in (_of_width, _of_stagger, _of_clearance):
        lack = short(run, limits, first)
        first = first[lack <= lack.min() + 0.5]
    seams = np.ceil((run.right - run.left - first) / board)
    shift = (first - plain) % board
    order = np.lexsort((shift, np.minimum(shift, board - shift), seams))
    return float(first[order[0]])


def _of_width(run: Run, limits: Limits, first: _Widths) -> _Widths:
    board = limits.board
    ends = _ahead(_folded(run, [run.held[1]], board), limits.piece, first)
    ends += _ahead(_turned(run, [run.held[0]], board), limits.piece, -first)
    arms = _ahead(_folded(run, run.starts, board), limits.arm, first, beyond=True)
    return ends + arms + _ahead(_turned(run, run.ends, board), limits.arm, -first, beyond=True)


def _of_stagger(run: Run, limits: Limits, first: _Widths) -> _Widths:
    standing = [seam for seam in run.below if any(low < seam < high for low, high in run.footing)]
    return _beside(run, standing, limits.stagger, limits.board, first)


def _of_clearance(run: Run, limits: Limits, first: _Widths) -> _Widths:
    return _beside(run, run.corners, limits.corner, limits.board, first)


def _beside(run: Run, places: Sequence[float], distance: float, board: float, first: _Widths) -> _Widths:
    """What seams lack of a distance to the nearest place, then to all of them."""
    if not places:
        return np.zeros(len(first))
    folded = _folded(run, places, board)
    around = np.concatenate(([folded[len(places) - 1] - board], folded))
    index = np.searchsorted(around, first)
    nearest = np.minimum(around[index] - first, first - around[index - 1])
    all_of_them = _ahead(folded, distance, first)
    all_of_them += _ahead(_turned(run, places, board), distance, -first, beyond=True)
    return np.asarray(np.maximum(0.0, distance - nearest) * _OVER_ALL + all_of_them)


def _folded(run: Run, places: Sequence[float], board: float) -> _Widths:
    """Places from the left end of a run, folded into one board length, and once more beyond it; sorted."""
    folded = (np.array(places) - run.left) % board
    return np.sort(np.concatenate((folded, folded + board)))


def _turned(run: Run, places: Sequence[float], board: float) -> _Widths:
    """The same places counted the other way, from a board length before the left end on."""
    folded = (run.left - np.array(places)) % board
    return np.sort(np.concatenate((folded - board, folded, folded + board)))


def _ahead(places: _Widths, distance: float, first: _Widths, *, beyond: bool = False) -> _Widths:
    """Sum of what each first width lacks of a distance to the places ahead of it; ``beyond``: not to one at which it stands."""
    if not len(places) or distance == 0.0:
        return np.zeros(len(first))
    total = np.concatenate(([0.0], np.cumsum(places)))
    low, high = np.searchsorted(places, first, "right" if beyond else "left"), np.searchsorted(places, first + distance)
    return np.asarray(np.maximum(high - low, 0) * (distance + first) - (total[np.maximum(low, high)] - total[low]))
