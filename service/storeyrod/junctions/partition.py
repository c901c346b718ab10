"""The section cut along every edge of every rectangle: which material fills each cell, and where its outline runs.

Here the section is held against what it must be: rectangles that do not overlap, no hole, one body, and one boundary
everywhere along the outline.
"""

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from storeyrod.findings import refuse
from storeyrod.geometry.ticks import millimetres
from storeyrod.junctions.section import Edge, Patch, Section

Cells = NDArray[np.int32]

VOID: Final = -1
"""Material of a cell in which there is none."""

Direction = Literal["upright", "level"]


@dataclass(frozen=True, slots=True)
class Side:
    """One side of one cell on the outline: ``line`` across, ``step`` along, and the edge that bounds it.

    An upright side lies on the ``line``-th x and spans the ``step``-th interval of y; a level one the other way round.
    """

    direction: Direction
    line: int
    step: int
    edge: int


@dataclass(frozen=True)
class Partition:
    """Lines in ticks, the patch that fills each cell (row by row from below, ``VOID`` where none does), and the outline."""

    x: NDArray[np.float64]
    y: NDArray[np.float64]
    patch: Cells
    sides: tuple[Side, ...]

    @property
    def nodes_count(self) -> int:
        """Crossings of its lines."""
        return len(self.x) * len(self.y)


def partition_of(section: Section) -> Partition:
    """Cut the section along all its lines, and refuse what is no section.

    Refuses ``rectangles-overlap``, ``section-hole``, ``section-apart``, ``axis-crossed``, ``boundary-off-outline``,
    ``boundary-twice`` and ``boundary-missing``, each at the member that is at fault.
    """
    x = _lines([value for patch in section.patches for value in (patch.left, patch.right)], section.edges, upright=True)
    y = _lines(
        [value for patch in section.patches for value in (patch.bottom, patch.top)], section.edges, upright=False
    )
    if section.geometry == "axisymmetric" and x[0] < 0.0:
        raise refuse("axis-crossed", section.pointer, "x is the distance from the axis of the section: no x_mm below 0")
    patch = _painted(section, x, y)
    _refuse_holes(section, x, y, patch)
    return Partition(x, y, patch, tuple(_bounded(section, x, y, patch)))


def _lines(corners: list[float], edges: tuple[Edge, ...], *, upright: bool) -> NDArray[np.float64]:
    ends = [value for edge in edges for value in ((edge.x_from, edge.x_to) if upright else (edge.y_from, edge.y_to))]
    low, high = min(corners), max(corners)
    return np.array(sorted({*corners, *(end for end in ends if low <= end <= high)}))


def _painted(section: Section, x: NDArray[np.float64], y: NDArray[np.float64]) -> Cells:
    patch = np.full((len(y) - 1, len(x) - 1), VOID, dtype=np.int32)
    for index, one in enumerate(section.patches):
        rows = slice(int(np.searchsorted(y, one.bottom)), int(np.searchsorted(y, one.top)))
        columns = slice(int(np.searchsorted(x, one.left)), int(np.searchsorted(x, one.right)))
        covered = patch[rows, columns]
        if not section.later_covers and (covered != VOID).any():
            other = section.patches[int(covered[covered != VOID][0])]
            raise refuse("rectangles-overlap", one.pointer, _overlap(one, other))
        patch[rows, columns] = index
    return patch


def _overlap(one: Patch, other: Patch) -> str:
    left, right = max(one.left, other.left), min(one.right, other.right)
    bottom, top = max(one.bottom, other.bottom), min(one.top, other.top)
    return (
        f"overlaps the rectangle at {other.pointer} from x {millimetres(left):g} to {millimetres(right):g} mm and from y "
        f"{millimetres(bottom):g} to {millimetres(top):g} mm; cut one of them back, or let later_covers say which counts"
    )


def _refuse_holes(section: Section, x: NDArray[np.float64], y: NDArray[np.float64], patch: Cells) -> None:
    framed = np.full((patch.shape[0] + 2, patch.shape[1] + 2), VOID, dtype=np.int32)
    framed[1:-1, 1:-1] = patch
    empty = framed == VOID
    _flood(empty, (0, 0))
    if empty.any():
        row, column = (int(value) - 1 for value in np.argwhere(empty)[0])
        raise refuse(
            "section-hole",
            section.pointer,
            f"nothing fills the area inside the section at x {millimetres(x[column]):g} to {millimetres(x[column + 1]):g} mm, y "
            f"{millimetres(y[row]):g} to {millimetres(y[row + 1]):g} mm; fill it, a cavity with its equivalent conductivity",
        )
    solid = framed != VOID
    first = np.argwhere(solid)[0]
    _flood(solid, (int(first[0]), int(first[1])))
    if solid.any():
        row, column = (int(value) - 1 for value in np.argwhere(solid)[0])
        one = section.patches[int(patch[row, column])]
        raise refuse("section-apart", one.pointer, "touches no other part of the section along a side; close the gap")


def _flood(where: NDArray[np.bool_], start: tuple[int, int]) -> None:
    """Clear every cell that can be reached from the start over sides of cells that are set."""
    rows, columns = where.shape
    where[start] = False
    queue = deque([start])
    while queue:
        row, column = queue.popleft()
        for at in ((row - 1, column), (row + 1, column), (row, column - 1), (row, column + 1)):
            if 0 <= at[0] < rows and 0 <= at[1] < columns and where[at]:
                where[at] = False
                queue.append(at)


def _bounded(section: Section, x: NDArray[np.float64], y: NDArray[np.float64], patch: Cells) -> Iterator[Side]:
    free = {"upright": _outline(patch), "level": _outline(patch.T)}
    held: dict[tuple[Direction, int, int], int] = {}
    for index, edge in enumerate(section.edges):
        for direction, line, step in _spanned(edge, x, y):
            if not free[direction].get((line, step)):
                raise refuse("boundary-off-outline", edge.pointer, _off_outline(edge))
            other = held.setdefault((direction, line, step), index)
            if other != index:
                raise refuse(
                    "boundary-twice",
                    edge.pointer,
                    f"shares a stretch of the outline with the boundary at {section.edges[other].pointer}; end one where the other begins",
                )
    for direction in ("upright", "level"):
        for line, step in free[direction]:
            if (direction, line, step) in held:
                yield Side(direction, line, step, held[direction, line, step])
            elif not (section.geometry == "axisymmetric" and direction == "upright" and x[line] == 0.0):
                raise refuse("boundary-missing", section.pointer, _missing(direction, line, step, x, y))


def _outline(patch: Cells) -> dict[tuple[int, int], bool]:
    """Upright sides between a filled and an empty cell, as (line, step)."""
    solid = np.zeros((patch.shape[0], patch.shape[1] + 2), dtype=bool)
    solid[:, 1:-1] = patch != VOID
    return {(int(line), int(step)): True for step, line in np.argwhere(solid[:, 1:] != solid[:, :-1])}


def _spanned(edge: Edge, x: NDArray[np.float64], y: NDArray[np.float64]) -> Iterator[tuple[Direction, int, int]]:
    """Sides of cells along an edge; the edge must lie on lines of the section."""
    across, along = (x, y) if edge.upright else (y, x)
    at, start, end = (edge.x_from, edge.y_from, edge.y_to) if edge.upright else (edge.y_from, edge.x_from, edge.x_to)
    slanted = edge.x_from != edge.x_to and edge.y_from != edge.y_to
    line = int(np.searchsorted(across, at))
    if slanted or start == end or line == len(across) or across[line] != at or start < along[0] or end > along[-1]:
        raise refuse("boundary-off-outline", edge.pointer, _off_outline(edge))
    direction: Direction = "upright" if edge.upright else "level"
    for step in range(int(np.searchsorted(along, start)), int(np.searchsorted(along, end))):
        yield direction, line, step


def _off_outline(edge: Edge) -> str:
    return (
        f"the segment from {millimetres(edge.x_from):g}, {millimetres(edge.y_from):g} to {millimetres(edge.x_to):g}, "
        f"{millimetres(edge.y_to):g} mm does not lie on the outline of the rectangles along its whole length"
    )


def _missing(direction: Direction, line: int, step: int, x: NDArray[np.float64], y: NDArray[np.float64]) -> str:
    across, along = (x, y) if direction == "upright" else (y, x)
    start, end = millimetres(along[step]), millimetres(along[step + 1])
    at = millimetres(across[line])
    where = f"x {at:g}, y {start:g} to {end:g} mm" if direction == "upright" else f"y {at:g}, x {start:g} to {end:g} mm"
    return (
        f"no boundary is given for the outline at {where}; give a temperature with its surface resistance, or adiabatic"
    )
