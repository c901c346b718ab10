"""The graded mesh: lines on every edge of the section, closest where materials and boundaries meet."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, TypeVar

import numpy as np
from numpy.typing import NDArray

from storeyrod.geometry.ticks import TICKS_PER_MM
from storeyrod.junctions.partition import VOID, Cells, Partition
from storeyrod.junctions.section import Section
from storeyrod.units import METRES_PER_MILLIMETRE

Lines = NDArray[np.float64]
Point = tuple[float, float]
Number = TypeVar("Number", np.int32, np.float64)

_ADDED: Final = 3
"""Lines that points may add to an interval of so few lines that none can be spared."""

_METRES_PER_TICK: Final = METRES_PER_MILLIMETRE / TICKS_PER_MM


@dataclass(frozen=True)
class Sides:
    """Sides of cells on the outline: their two nodes as (row, column), length across the heat flow, and edge."""

    row_from: NDArray[np.intp]
    column_from: NDArray[np.intp]
    row_to: NDArray[np.intp]
    column_to: NDArray[np.intp]
    edge: NDArray[np.intp]


@dataclass(frozen=True)
class Mesh:
    """Lines in metres, the patch and conductivity in W/(m.K) of each cell (nought in a void), and the outline."""

    x: Lines
    y: Lines
    patch: Cells
    conductivity: NDArray[np.float64]
    sides: Sides

    @property
    def nodes_count(self) -> int:
        """Crossings of its lines."""
        return len(self.x) * len(self.y)


def mesh_of(
    section: Section,
    partition: Partition,
    *,
    finest_share: float,
    growth: float,
    coarsest_share: float = 1.0,
    points: Sequence[Point] = (),
) -> Mesh:
    """The mesh whose cells begin at ``finest_share`` of the section's size at every line and grow to ``coarsest_share``.

    ``points``, in ticks, become nodes as far as lines can be moved there and the mesh stays graded; the first ones go first.
    """
    size = max(float(np.ptp(partition.x)), float(np.ptp(partition.y)))
    grading = _Grading(finest_share * size, growth, max(finest_share, coarsest_share) * size)
    x, columns = _graded(partition.x, grading, dict.fromkeys(x for x, _ in points))
    y, rows = _graded(partition.y, grading, dict.fromkeys(y for _, y in points))
    patch = np.repeat(np.repeat(partition.patch, rows, axis=0), columns, axis=1)
    return Mesh(
        x * _METRES_PER_TICK,
        y * _METRES_PER_TICK,
        patch,
        _conductivities(section)[patch],
        _sides(partition, np.concatenate(([0], np.cumsum(columns))), np.concatenate(([0], np.cumsum(rows)))),
    )


def halved(mesh: Mesh) -> Mesh:
    """The same mesh with every cell cut into four: its subdivisions doubled."""
    sides = mesh.sides
    starts = np.concatenate([sides.row_from * 2, sides.row_from + sides.row_to])
    ends = np.concatenate([sides.row_from + sides.row_to, sides.row_to * 2])
    left = np.concatenate([sides.column_from * 2, sides.column_from + sides.column_to])
    right = np.concatenate([sides.column_from + sides.column_to, sides.column_to * 2])
    return Mesh(
        _between(mesh.x),
        _between(mesh.y),
        _quartered(mesh.patch),
        _quartered(mesh.conductivity),
        Sides(starts, left, ends, right, np.tile(sides.edge, 2)),
    )


def _between(lines: Lines) -> Lines:
    made = np.empty(2 * len(lines) - 1)
    made[::2] = lines
    made[1::2] = (lines[:-1] + lines[1:]) / 2.0
    return made


def _quartered(cells: NDArray[Number]) -> NDArray[Number]:
    return np.repeat(np.repeat(cells, 2, axis=0), 2, axis=1)


def _conductivities(section: Section) -> NDArray[np.float64]:
    """Conductivities by patch; the last stands for ``VOID``, which indexes it."""
    assert VOID == -1
    return np.array([*(patch.conductivity for patch in section.patches), 0.0])


@dataclass(frozen=True, slots=True)
class _Grading:
    """Cells at lines, in ticks, by how much each next one is larger, and where they stop growing."""

    finest: float
    growth: float
    coarsest: float


def _graded(lines: Lines, grading: _Grading, through: Collection[float]) -> tuple[Lines, NDArray[np.intp]]:
    """Lines with those between them, some of which run through given places, and how many cells each interval became."""
    made = [lines[:1]]
    counts = []
    for start, end in pairwise(lines):
        within = start + _interval(float(end - start), grading)[:-1]
        wanted = [place for place in through if start < place < end]
        made += [_moved(within, wanted) if wanted else within, np.array([end])]
        counts.append(len(made[-2]) + 1)
    return np.concatenate(made), np.array(counts)


def _moved(lines: Lines, wanted: Sequence[float]) -> Lines:
    """Lines of which the nearest have gone to the places wanted: half of them at most, so that the mesh stays graded."""
    free, half = lines.tolist(), len(lines) // 2
    met = wanted[: max(half, _ADDED)]
    for place in met:
        if len(free) > half:
            free.remove(min(free, key=lambda line: abs(line - place)))
    return np.array(sorted({*free, *met}))


def _interval(length: float, grading: _Grading) -> Lines:
    """Ends of cells in an interval from nought, growing from both its ends to the middle."""
    if length <= grading.finest:
        return np.array([length])
    half, sizes, reach = length / 2.0, [grading.finest], grading.finest
    while reach < half:
        sizes.append(min(sizes[-1] * grading.growth, grading.coarsest))
        reach += sizes[-1]
    grown = np.cumsum(sizes) * (half / reach)
    return np.concatenate([grown, length - grown[-2::-1], [length]])


def _sides(partition: Partition, columns: NDArray[np.intp], rows: NDArray[np.intp]) -> Sides:
    """Sides of the partition cut where the mesh cuts them; ``columns`` and ``rows`` are where its lines went."""
    nodes: list[tuple[int, int, int, int, int]] = []
    for side in partition.sides:
        upright = side.direction == "upright"
        along, across = (rows, columns) if upright else (columns, rows)
        at = int(across[side.line])
        for step in range(int(along[side.step]), int(along[side.step + 1])):
            nodes.append((step, at, step + 1, at, side.edge) if upright else (at, step, at, step + 1, side.edge))
    return Sides(*(np.array(column, dtype=np.intp) for column in zip(*nodes, strict=True)))
