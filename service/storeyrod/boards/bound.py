"""The least boards that any layout needs, by area."""

import math
from typing import Final

from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.system import System

ROUNDING_GUARD: Final = 1e-9
"""A quotient that close to a whole number is that number."""


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


def least_boards_of(system: System, area_m2: float, trace: Trace) -> int:
    """Boards of a system that an area takes at least."""
    board = system.board
    return int(
        trace.call(
            least_boards,
            A=area_m2,
            l=trace.given(board.cover_length_mm * METRES_PER_MILLIMETRE, "/system/board/cover_length_mm"),
            h=trace.given(board.cover_height_mm * METRES_PER_MILLIMETRE, "/system/board/cover_height_mm"),
            tolerance=trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY),
        )
    )
