"""Lines of equal value on a grid of rectangles: marching squares, joined end to end.

Each cell is looked at once for each level: its corners lie above the level or not, the line enters and leaves through the sides
whose ends differ, and places on a side are interpolated. Lines end where the grid has no material.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.drawings.display_list import Point

_BELOW, _RIGHT, _ABOVE, _LEFT = range(4)
"""Sides of a cell."""

_CUT_SIDES: Final = (
    (), ((_LEFT, _BELOW),), ((_BELOW, _RIGHT),), ((_LEFT, _RIGHT),),
    ((_RIGHT, _ABOVE),), (), ((_BELOW, _ABOVE),), ((_LEFT, _ABOVE),),
    ((_ABOVE, _LEFT),), ((_ABOVE, _BELOW),), (), ((_ABOVE, _RIGHT),),
    ((_RIGHT, _LEFT),), ((_RIGHT, _BELOW),), ((_BELOW, _LEFT),), (),
)  # fmt: skip
"""Sides joined in a cell, by its corners above the level: 1 lower left, 2 lower right, 4 upper right, 8 upper left."""

_SADDLES: Final = (5, 10)
"""Opposite corners above the level."""

_CUTS_OFF_RIGHT: Final = ((_BELOW, _RIGHT), (_ABOVE, _LEFT))
_CUTS_OFF_LEFT: Final = ((_LEFT, _BELOW), (_RIGHT, _ABOVE))

Side = tuple[bool, int, int]
"""A side between two nodes: whether it is upright, its row and its column."""


@dataclass(frozen=True, slots=True)
class Field:
    """Values at the nodes of a grid: row j stands at ``ys[j]``, column i at ``xs[i]``, at any distance from one another.

    ``filled`` says of each cell, one fewer in both directions, whether there is material; values elsewhere are not read.
    """

    xs: NDArray[np.float64]
    ys: NDArray[np.float64]
    values: NDArray[np.float64]
    filled: NDArray[np.bool_]

    @property
    def range(self) -> tuple[float, float]:
        """Lowest and highest value at the corners of filled cells."""
        found = self.values[_touched(self.filled)]
        return float(found.min()), float(found.max())


def _touched(filled: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Nodes at a corner of a filled cell."""
    nodes = np.zeros((filled.shape[0] + 1, filled.shape[1] + 1), dtype=bool)
    for rows in (slice(None, -1), slice(1, None)):
        for columns in (slice(None, -1), slice(1, None)):
            nodes[rows, columns] |= filled
    return nodes


def contours(field: Field, level: float, tolerance: float) -> list[tuple[Point, ...]]:
    """Lines of a level, each from end to end, a closed one back to its first point; straightened by ``tolerance`` at most.

    Work grows with the cells of the grid, and with those that the level crosses.
    """
    joined = _neighbours(field, level)
    chains = _chains(joined)
    return [straightened([_place(field, level, side) for side in chain], tolerance) for chain in chains]


def _neighbours(field: Field, level: float) -> dict[Side, list[Side]]:
    """For each side that is crossed, the sides to which the line runs on through the cells at it: two at most."""
    above = field.values >= level
    corners = above[:-1, :-1] + 2 * above[:-1, 1:] + 4 * above[1:, 1:] + 8 * above[1:, :-1]
    crossed = np.nonzero(field.filled & (corners > 0) & (corners < 15))
    found: dict[Side, list[Side]] = {}
    for row, column in zip(*(indices.tolist() for indices in crossed), strict=True):
        for first, second in _cuts(field, level, row, column, int(corners[row, column])):
            start, end = _side(row, column, first), _side(row, column, second)
            found.setdefault(start, []).append(end)
            found.setdefault(end, []).append(start)
    return found


def _cuts(field: Field, level: float, row: int, column: int, corners: int) -> Sequence[tuple[int, int]]:
    """Pairs of sides that the line joins; in a saddle the mean of the corners says which two it cuts off."""
    if corners not in _SADDLES:
        return _CUT_SIDES[corners]
    high = float(field.values[row : row + 2, column : column + 2].mean()) >= level
    return _CUTS_OFF_RIGHT if high == (corners == _SADDLES[0]) else _CUTS_OFF_LEFT


def _side(row: int, column: int, which: int) -> Side:
    match which:
        case 0:
            return (False, row, column)
        case 1:
            return (True, row, column + 1)
        case 2:
            return (False, row + 1, column)
        case _:
            return (True, row, column)


def _place(field: Field, level: float, side: Side) -> Point:
    """Where the level stands on a side."""
    upright, row, column = side
    x, y = float(field.xs[column]), float(field.ys[row])
    start, end = float(field.values[row, column]), float(field.values[row + upright, column + (not upright)])
    share = (level - start) / (end - start)
    if upright:
        return x, y + share * (float(field.ys[row + 1]) - y)
    return x + share * (float(field.xs[column + 1]) - x), y


def _chains(joined: dict[Side, list[Side]]) -> Iterator[list[Side]]:
    """Sides in the order of the line: first lines with ends, then closed ones."""
    left = set(joined)
    ends = sorted(side for side, others in joined.items() if len(others) == 1)
    for start in [*ends, *sorted(joined)]:
        if start in left:
            chain = _walked(joined, left, start)
            closed = start in joined[chain[-1]] and len(chain) > 2
            yield [*chain, start] if closed else chain


def _walked(joined: dict[Side, list[Side]], left: set[Side], start: Side) -> list[Side]:
    """Sides from a start on, as far as there are any that no line has taken."""
    chain = [start]
    left.remove(start)
    while ahead := [side for side in joined[chain[-1]] if side in left]:
        chain.append(min(ahead))
        left.remove(chain[-1])
    return chain


def straightened(points: Sequence[Point], tolerance: float) -> tuple[Point, ...]:
    """The line without points that lie closer than the tolerance to what is left."""
    kept, spans = {0, len(points) - 1}, [(0, len(points) - 1)]
    while spans:
        first, last = spans.pop()
        far = max(range(first + 1, last), key=lambda index: _off(points, first, last, index), default=None)
        if far is not None and _off(points, first, last, far) > tolerance:
            kept.add(far)
            spans += [(first, far), (far, last)]
    return tuple(points[index] for index in sorted(kept))


def _off(points: Sequence[Point], first: int, last: int, index: int) -> float:
    """Distance of a point from the chord between two others."""
    (x0, y0), (x1, y1), (x, y) = points[first], points[last], points[index]
    along_x, along_y = x1 - x0, y1 - y0
    square = along_x**2 + along_y**2
    share = ((x - x0) * along_x + (y - y0) * along_y) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.hypot(x - x0 - share * along_x, y - y0 - share * along_y)
