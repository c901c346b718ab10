"""Where each material of a section lies: the cells of its mesh gathered again into as few rectangles as its edges ask for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.drawings.cut_edges import Segment
from storeyrod.drawings.display_list import Box, Point

NOTHING: Final = -1
"""Number of a cell that no material fills."""

Numbers = NDArray[np.int32]


@dataclass(frozen=True)
class Regions:
    """Numbers of materials by cell, rows from below, between lines in mm at which some material begins or ends."""

    xs: Sequence[float]
    ys: Sequence[float]
    cells: Numbers

    @property
    def box(self) -> Box:
        """Box around all material."""
        return self.xs[0], self.ys[0], self.xs[-1], self.ys[-1]

    def at(self, point: Point) -> int:
        """Material at a point; on an edge that above or to the right of it."""
        column, row = (_interval(lines, value) for lines, value in zip((self.xs, self.ys), point, strict=True))
        return NOTHING if column is None or row is None else int(self.cells[row, column])

    def is_empty(self, box: Box) -> bool:
        """Whether no material lies in a box."""
        rows, columns = (_overlapped(lines, box[axis], box[axis + 2]) for lines, axis in ((self.ys, 1), (self.xs, 0)))
        return bool((self.cells[rows, columns] == NOTHING).all())

    def borders(self, material: int) -> Sequence[Segment]:
        """Sides of cells between a material and anything else."""
        return self._borders.get(material, [])

    def seams(self) -> Iterator[Segment]:
        """Lines between different materials, each as long as it runs straight."""
        yield from _joined([side for side, one, other in self._sides() if NOTHING not in (one, other)])

    def level_boxes(self, material: int) -> Sequence[Box]:
        """Rectangles of a material, none over another, that together are all of it."""
        return self._level_boxes.get(material, [])

    def boxes(self, material: int) -> Sequence[Box]:
        """Rectangles of a material, each as long as it runs in a row of cells and as wide as the row: level ones, then upright."""
        return [*self.level_boxes(material), *self._upright_boxes.get(material, [])]

    @cached_property
    def _borders(self) -> dict[int, list[Segment]]:
        found: dict[int, list[Segment]] = {}
        for side, one, other in self._sides():
            for material in (one, other):
                found.setdefault(material, []).append(side)
        return found

    @cached_property
    def _level_boxes(self) -> dict[int, list[Box]]:
        found: dict[int, list[Box]] = {}
        for row, start, end, material in _runs(self.cells):
            box = self.xs[start], self.ys[row], self.xs[end], self.ys[row + 1]
            found.setdefault(material, []).append(box)
        return found

    @cached_property
    def _upright_boxes(self) -> dict[int, list[Box]]:
        found: dict[int, list[Box]] = {}
        for column, start, end, material in _runs(self.cells.T):
            box = self.xs[column], self.ys[start], self.xs[column + 1], self.ys[end]
            found.setdefault(material, []).append(box)
        return found

    def _sides(self) -> Iterator[tuple[Segment, int, int]]:
        """Sides of cells at which the material changes, with those at both hands: level ones row by row, then upright ones."""
        for row, column, one, other in _changes(self.cells):
            y = self.ys[row]
            yield ((self.xs[column], y), (self.xs[column + 1], y)), one, other
        for column, row, one, other in _changes(self.cells.T):
            x = self.xs[column]
            yield ((x, self.ys[row]), (x, self.ys[row + 1])), one, other


def regions_of(xs: NDArray[np.float64], ys: NDArray[np.float64], cells: Numbers) -> Regions:
    """Gather cells whose lines no material begins or ends at."""
    columns = _kept((cells[:, 1:] != cells[:, :-1]).any(axis=0))
    rows = _kept((cells[1:] != cells[:-1]).any(axis=1))
    return Regions(xs[columns].tolist(), ys[rows].tolist(), cells[np.ix_(rows[:-1], columns[:-1])])


def _kept(changes: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Lines kept: both ends, and those at which something changes."""
    return np.concatenate(([0], np.flatnonzero(changes) + 1, [len(changes) + 1]))


def _changes(cells: Numbers) -> Iterator[tuple[int, int, int, int]]:
    """Places where a column of cells changes from one row to the next, nothing lying below and above: row, column, both numbers."""
    nothing = np.full((1, cells.shape[1]), NOTHING, dtype=cells.dtype)
    before, after = np.concatenate([nothing, cells]), np.concatenate([cells, nothing])
    rows, columns = np.nonzero(before != after)
    ones, others = before[rows, columns], after[rows, columns]
    yield from zip(rows.tolist(), columns.tolist(), ones.tolist(), others.tolist(), strict=True)


def _runs(cells: Numbers) -> Iterator[tuple[int, int, int, int]]:
    """Neighbouring cells of one material along each row: row, first, one past last, material."""
    for row, numbers in enumerate(cells):
        ends = _kept(numbers[1:] != numbers[:-1]).tolist()
        for start, end in pairwise(ends):
            if numbers[start] != NOTHING:
                yield row, start, end, int(numbers[start])


def _interval(lines: Sequence[float], value: float) -> int | None:
    """Interval between lines that holds a value."""
    place = int(np.searchsorted(lines, value, side="right")) - 1
    return place if 0 <= place < len(lines) - 1 else None


def _overlapped(lines: Sequence[float], low: float, high: float) -> slice:
    """Intervals between lines that a span runs into."""
    first = int(np.searchsorted(lines, low, side="right")) - 1
    last = int(np.searchsorted(lines, high, side="left"))
    return slice(max(first, 0), max(min(last, len(lines) - 1), 0))


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
