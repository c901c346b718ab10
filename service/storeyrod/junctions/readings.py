"""What is read from a field: temperatures at points, and the coldest place of a surface."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from storeyrod.geometry.ticks import TICKS_PER_MM
from storeyrod.junctions.conduction import Solution
from storeyrod.junctions.mesh import Mesh
from storeyrod.units import METRES_PER_MILLIMETRE

Temperatures = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SurfacePoint:
    """A point of a surface: where it lies in mm, and its temperature in °C."""

    x_mm: float
    y_mm: float
    temperature: float


def temperature_at(mesh: Mesh, field: Temperatures, x_mm: float, y_mm: float) -> float | None:
    """Temperature in °C at a point, linear each way inside a cell; none outside every material."""
    for row, up in _places(mesh.y, y_mm):
        for column, along in _places(mesh.x, x_mm):
            if mesh.conductivity[row, column] > 0.0:
                corners = field[row : row + 2, column : column + 2]
                level = corners[:, 0] * (1.0 - along) + corners[:, 1] * along
                return float(level[0] * (1.0 - up) + level[1] * up)
    return None


def coldest(solution: Solution, field: Temperatures, edges: Sequence[bool]) -> SurfacePoint:
    """The coldest node of the edges that are marked; the first of equals from below, then from the left."""
    sides = solution.mesh.sides
    faces = np.array(edges)[sides.edge]
    rows = np.concatenate([sides.row_from[faces], sides.row_to[faces]])
    columns = np.concatenate([sides.column_from[faces], sides.column_to[faces]])
    temperatures = field[rows, columns]
    at = np.lexsort((columns, rows, temperatures))[0]
    mesh = solution.mesh
    return SurfacePoint(_millimetres(mesh.x[columns[at]]), _millimetres(mesh.y[rows[at]]), float(temperatures[at]))


def _millimetres(metres: float) -> float:
    return round(float(metres) / METRES_PER_MILLIMETRE * TICKS_PER_MM) / TICKS_PER_MM


def _places(lines: NDArray[np.float64], at_mm: float) -> list[tuple[int, float]]:
    """Intervals in which a point lies, each with its share along it: one, or two where it lies on a line."""
    at = round(at_mm * TICKS_PER_MM) / TICKS_PER_MM * METRES_PER_MILLIMETRE
    tolerance = METRES_PER_MILLIMETRE / TICKS_PER_MM / 2.0
    found = []
    first = int(np.searchsorted(lines, at - tolerance))
    for interval in (first - 1, first):
        if 0 <= interval < len(lines) - 1 and lines[interval] - tolerance <= at <= lines[interval + 1] + tolerance:
            share = (at - lines[interval]) / (lines[interval + 1] - lines[interval])
            found.append((interval, min(max(float(share), 0.0), 1.0)))
    return found
