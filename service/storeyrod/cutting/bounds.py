"""Bounds that need no solver: area, and pieces too large to lie beside one another."""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.cutting.plan import Bound
from storeyrod.cutting.stock import Blank, Item, Saw

NOISE: Final = 1.0e-6
"""Boards that a sum of some thousand shares may be too large by rounding: no bound is raised by it."""


def cheap_bound(shapes: Sequence[Item], board: Blank, stock: Sequence[Blank], saw: Saw) -> tuple[int, Bound]:
    """Least boards by area or by large pieces, whichever is more, and which of them it was."""
    area = _area(shapes, board, stock, saw)
    large = _large_pieces(shapes, board, stock, saw)
    return (large, "large_pieces") if large > area else (area, "area")


def whole_boards(boards: float) -> int:
    """A bound in whole boards."""
    return max(0, math.ceil(boards - NOISE))


def _area(shapes: Sequence[Item], board: Blank, stock: Sequence[Blank], saw: Saw) -> int:
    """Every piece takes its area and a kerf beyond it on two sides, which may reach one kerf over the edges of its blank."""
    kerf = saw.kerf
    wanted = sum(shape.count * (shape.width + kerf) * (shape.height + kerf) for shape in shapes)
    at_hand = sum((blank.width + kerf) * (blank.height + kerf) * (blank.count or 0) for blank in stock)
    return whole_boards((wanted - at_hand) / ((board.width + kerf) * (board.height + kerf)))


def _large_pieces(shapes: Sequence[Item], board: Blank, stock: Sequence[Blank], saw: Saw) -> int:
    """Pieces counted by their share of a board after sizes are exaggerated: what is over 1 - e counts as 1, what is under e as 0.

    Sizes so changed still fit wherever the true ones do, on either axis (dual feasible functions; S. P. Fekete, J. Schepers,
    New classes of fast lower bounds for bin packing problems, Mathematical Programming 91, 2001; from memory). An offcut counts as a board.
    """
    if not shapes or any(blank.width > board.width or blank.height > board.height for blank in stock):
        return 0
    counts = np.array([shape.count for shape in shapes], dtype=np.float64)
    across = _exaggerated(np.array([s.width + saw.kerf for s in shapes]), board.width + saw.kerf)
    up = _exaggerated(np.array([s.height + saw.kerf for s in shapes]), board.height + saw.kerf)
    boards = float(((across * counts) @ up.T).max())
    return whole_boards(boards - sum(blank.count or 0 for blank in stock))


def _exaggerated(lengths: NDArray[np.float64], whole: float) -> NDArray[np.float64]:
    """One row for each e up to a half, among the lengths and their complements: shares of the whole."""
    marks = np.unique(np.concatenate((lengths, whole - lengths, [0.0, whole / 2.0])))
    marks = marks[(marks >= 0.0) & (marks <= whole / 2.0)][:, np.newaxis]
    shares: NDArray[np.float64] = np.where(
        lengths > whole - marks, 1.0, np.where(lengths < marks, 0.0, lengths / whole)
    )
    return shares
