"""The section cut along every edge of every rectangle: which material fills each cell, and where its outline runs.

Here the section is held against what it must be: rectangles that do not overlap, no hole, one body, and one boundary
everywhere along the outline.
"""

from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
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

_DIRECTIONS: Final[tuple[Direction, Direction]] = ("upright", "level")

_Step = tuple[Direction, int, int]
"""A side of a cell on the outline: direction, line across and step along."""


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

    def holds(self, x: float, y: float) -> bool:
        """Whether a point in ticks lies in or on some material."""
        return bool((self.patch[_touched(self.y, y), _touched(self.x, x)] != VOID).any())


def partition_of(section: Section) -> Partition:
    """Cut the section along all its lines, and refuse what is no section.

    Refuses ``axis-crossed``, ``axis-open``, ``rectangles-overlap``, ``section-hole``, ``section-apart``, ``boundary-off-outline``,
    ``boundary-twice`` and ``boundary-missing``, each at the member that is at fault.
    """
    if section.geometry == "axisymmetric":
        _refuse_axis(section)
    x = _lines([value for patch in section.patches for value in (patch.left, patch.right)], section.edges, upright=True)
    y = _lines(
        [value for patch in section.patches for value in (patch.bottom, patch.top)], section.edges, upright=False
    )
    patch = _painted(section, x, y)
    _refuse_holes(section, x, y, patch)
    return Partition(x, y, patch, tuple(_bounded(section, x, y, patch)))


def _refuse_axis(section: Section) -> None:
    for patch in section.patches:
        if patch.left < 0.0:
            raise refuse(
                "axis-crossed",
                patch.pointer,
                f"x is the distance from the axis, and this rectangle begins at x {_mm(patch.left)} mm; start it at 0 or beyond",
            )
    for one in section.edges:
        if one.environment is not None and one.x_from == one.x_to == 0.0:
            raise refuse(
                "axis-open",
                one.pointer,
                "the axis has no area, so no heat passes there; leave this boundary out, or make it adiabatic",
            )


def _lines(corners: list[float], edges: tuple[Edge, ...], *, upright: bool) -> NDArray[np.float64]:
    ends = [value for edge in edges for value in ((edge.x_from, edge.x_to) if upright else (edge.y_from, edge.y_to))]
    low, high = min(corners), max(corners)
    return np.array(sorted({*corners, *(end for end in ends if low <= end <= high)}))


def _touched(lines: NDArray[np.float64], at: float) -> slice:
    """Intervals in which a value lies: one, two where it lies on a line, none beyond them all."""
    return slice(max(int(np.searchsorted(lines, at, "left")) - 1, 0), int(np.searchsorted(lines, at, "right")))


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
        f"overlaps the rectangle at {other.pointer} from x {_mm(left)} to {_mm(right)} mm and from y "
        f"{_mm(bottom)} to {_mm(top)} mm; cut one of them back, or let later_covers say which counts"
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
            f"nothing fills the area inside the section at x {_mm(x[column])} to {_mm(x[column + 1])} mm, y "
            f"{_mm(y[row])} to {_mm(y[row + 1])} mm; fill it, a cavity with its equivalent conductivity",
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
    held: dict[_Step, int] = {}
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
    missing: list[_Step] = []
    for direction in _DIRECTIONS:
        for line, step in free[direction]:
            if (direction, line, step) in held:
                yield Side(direction, line, step, held[direction, line, step])
            elif not (section.geometry == "axisymmetric" and direction == "upright" and x[line] == 0.0):
                missing.append((direction, line, step))
    if missing:
        raise refuse("boundary-missing", section.pointer, _missing(missing, x, y))


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
        f"the segment from {_mm(edge.x_from)}, {_mm(edge.y_from)} to {_mm(edge.x_to)}, "
        f"{_mm(edge.y_to)} mm does not lie on the outline of the rectangles along its whole length"
    )


def _missing(steps: Sequence[_Step], x: NDArray[np.float64], y: NDArray[np.float64]) -> str:
    """What is said of stretches without boundary: the whole of the first, and how many more there are."""
    runs = list(_runs(steps))
    direction, line, first, last = runs[0]
    across, along = (x, y) if direction == "upright" else (y, x)
    at, reach = _mm(across[line]), f"{_mm(along[first])} to {_mm(along[last + 1])} mm"
    where = f"x {at}, y {reach}" if direction == "upright" else f"y {at}, x {reach}"
    more = f", nor for {len(runs) - 1} more stretches" if len(runs) > 1 else ""
    return f"no boundary is given for the outline at {where}{more}; give a temperature with its surface resistance, or adiabatic"


def _runs(steps: Sequence[_Step]) -> Iterator[tuple[Direction, int, int, int]]:
    """Steps that follow one another on a line, joined: direction, line, first and last step."""
    ordered = sorted(steps)
    for _, joined in groupby(enumerate(ordered), key=lambda row: (row[1][:2], row[1][2] - row[0])):
        run = [step for _, step in joined]
        yield *run[0][:2], run[0][2], run[-1][2]


def _mm(ticks: float) -> str:
    """A length in millimetres, to the tick."""
    return f"{millimetres(ticks):.10g}"
