"""The least boards that any layout needs, by area."""

import math

from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.system import System


@formula(
    symbol="n_least",
    expression="ceiling(A/(l*h) - tolerance)",
    unit="count",
    inputs={"A": "m2", "l": "m", "h": "m", "tolerance": "count"},
    clause=GEOMETRY,
)
def least_boards(*, A: float, l: float, h: float, tolerance: float) -> float:  # noqa: E741, N803  symbols of the formula
    """Boards of l by h that an area A takes at least."""
    return math.ceil(A / (l * h) - tolerance)


@formula(
    symbol="A_waste",
    expression="n*l*h - A",
    unit="m2",
    inputs={"n": "count", "l": "m", "h": "m", "A": "m2"},
    clause=GEOMETRY,
)
def waste_area(*, n: float, l: float, h: float, A: float) -> float:  # noqa: E741, N803  symbols of the formula
    """Area of n boards of l by h less what is laid of them: kerfs, offcuts and waste."""
    return n * l * h - A


def waste_area_of(system: System, boards: float, area_m2: float, trace: Trace) -> float:
    """Area of boards of a system that is not laid, in m2."""
    length, height = _sizes(system, trace)
    return trace.call(waste_area, n=boards, l=length, h=height, A=area_m2)


def _sizes(system: System, trace: Trace) -> tuple[float, float]:
    """Cover length and height of a board in m."""
    board = system.board
    return (
        trace.given(board.cover_length_mm * METRES_PER_MILLIMETRE, "/system/board/cover_length_mm"),
        trace.given(board.cover_height_mm * METRES_PER_MILLIMETRE, "/system/board/cover_height_mm"),
    )


def least_boards_of(system: System, area_m2: float, trace: Trace) -> int:
    """Boards of a system that an area takes at least."""
    length, height = _sizes(system, trace)
    tolerance = trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY)
    return int(trace.call(least_boards, A=area_m2, l=length, h=height, tolerance=tolerance))
