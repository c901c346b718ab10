"""Where each material of a section lies: the cells of its mesh gathered again into as few rectangles as its edges ask for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.drawings.cut_edges import Segment
from storeyrod.drawings.display_list import Box, Point

NOTHING: Final = -1
"""Number of a cell that no material fills."""


@dataclass(frozen=True, slots=True)
class Regions:
    """Numbers of materials by cell, rows from below, between lines in mm at which some material begins or ends."""

    xs: Sequence[float]
    ys: Sequence[float]
    cells: Sequence[Sequence[int]]

    @property
    def box(self) -> Box:
        """Box around all material."""
        return self.xs[0], self.ys[0], self.xs[-1], self.ys[-1]

    def at(self, point: Point) -> int:
        """Material at a point; on an edge that above or to the right of it."""
        column, row = (_interval(lines, value) for lines, value in zip((self.xs, self.ys), point, strict=True))
        return NOTHING if column is None or row is None else self.cells[row][column]

    def is_empty(self, box: Box) -> bool:
        """Whether no material lies in a box."""
        rows, columns = (_overlapped(lines, box[axis], box[axis + 2]) for lines, axis in ((self.ys, 1), (self.xs, 0)))
        return all(cell == NOTHING for cells in self.cells[rows] for cell in cells[columns])

    def borders(self, material: int) -> Iterator[Segment]:
        """Sides of cells between a material and anything else."""
        for low, high, one, other in self._sides():
            if (one == material) != (other == material):
                yield low, high

    def seams(self) -> Iterator[Segment]:
        """Lines between different materials, each as long as it runs straight."""
        between = [
            (low, high) for low, high, one, other in self._sides() if one != other and NOTHING not in (one, other)
        ]
        yield from _joined(between)

    def boxes(self, material: int) -> Iterator[Box]:
        """Rectangles of a material, each as long as it runs in a row of cells and as wide as the row: level ones, then upright."""
        yield from self.level_boxes(material)
        for column, cells in enumerate(zip(*self.cells, strict=True)):
            for start, end in _runs(cells, material):
                yield self.xs[column], self.ys[start], self.xs[column + 1], self.ys[end]

    def level_boxes(self, material: int) -> Iterator[Box]:
        """Rectangles of a material, none over another, that together are all of it."""
        for row, cells in enumerate(self.cells):
            for start, end in _runs(cells, material):
                yield self.xs[start], self.ys[row], self.xs[end], self.ys[row + 1]

    def _sides(self) -> Iterator[tuple[Point, Point, int, int]]:
        """Every side of a cell with the materials at both hands of it: level ones row by row, then upright ones."""
        empty = [NOTHING] * (len(self.xs) - 1)
        for y, below, above in zip(self.ys, [empty, *self.cells], [*self.cells, empty], strict=True):
            for column, (one, other) in enumerate(zip(below, above, strict=True)):
                yield (self.xs[column], y), (self.xs[column + 1], y), one, other
        columns = list(zip(*self.cells, strict=True))
        nothing = [NOTHING] * (len(self.ys) - 1)
        for x, left, right in zip(self.xs, [nothing, *columns], [*columns, nothing], strict=True):
            for row, (one, other) in enumerate(zip(left, right, strict=True)):
                yield (x, self.ys[row]), (x, self.ys[row + 1]), one, other


def regions_of(xs: NDArray[np.float64], ys: NDArray[np.float64], cells: NDArray[np.int32]) -> Regions:
    """Gather cells whose lines no material begins or ends at."""
    columns = _kept((cells[:, 1:] != cells[:, :-1]).any(axis=0))
    rows = _kept((cells[1:] != cells[:-1]).any(axis=1))
    gathered = cells[rows[:-1]][:, columns[:-1]].tolist()
    return Regions(xs[columns].tolist(), ys[rows].tolist(), gathered)


def _kept(changes: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Lines kept: both ends, and those at which something changes."""
    return np.concatenate(([0], np.flatnonzero(changes) + 1, [len(changes) + 1]))


def _interval(lines: Sequence[float], value: float) -> int | None:
    """Interval between lines that holds a value."""
    place = int(np.searchsorted(lines, value, side="right")) - 1
    return place if 0 <= place < len(lines) - 1 else None


def _overlapped(lines: Sequence[float], low: float, high: float) -> slice:
    """Intervals between lines that a span runs into."""
    first = int(np.searchsorted(lines, low, side="right")) - 1
    last = int(np.searchsorted(lines, high, side="left"))
    return slice(max(first, 0), max(min(last, len(lines) - 1), 0))


def _runs(cells: Sequence[int], material: int) -> Iterator[tuple[int, int]]:
    """First and one past last of neighbouring cells of a material."""
    start = 0
    for same, run in groupby(cells, key=lambda cell: cell == material):
        end = start + len(list(run))
        if same:
            yield start, end
        start = end


def _joined(segments: Sequence[Segment]) -> Iterator[Segment]:
    """Segments that continue one another along a line, as one."""
    start: Point | None = None
    end: Point = (0.0, 0.0)
    for low, high in segments:
        straight = start is not None and low == end and (start[0] == high[0] or start[1] == high[1])
        if not straight:
            if start is not None:
                yield start, end
            start = low
        end = high
    if start is not None:
        yield start, end
