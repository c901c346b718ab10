"""The exact grid of geometry: whole numbers of 0.0001 mm, exact for metric sizes and for sixteenths of an inch.

Positions are floats that hold whole ticks, so that sums and differences of axis-aligned work are exact (a float holds whole
numbers up to 2**53; a kilometre is 10**10 ticks). Points on rakes and arcs may lie between ticks.
"""

from typing import Final

TICKS_PER_MM: Final = 10_000
SQUARE_METRES_PER_SQUARE_TICK: Final = 1.0e-6 / TICKS_PER_MM**2

ROUNDING_GUARD: Final = 1e-9
"""A quotient that close to a whole number is that number: what is counted in lengths off the grid is rounded with it."""


def ticks(length_mm: float) -> float:
    """Nearest whole tick of a length in millimetres."""
    return float(round(length_mm * TICKS_PER_MM))


def exact_ticks(length_mm: float) -> float:
    """A length in ticks without rounding to whole ones, so that repeating it does not add up an error."""
    return round(length_mm * TICKS_PER_MM, 6)


def millimetres(length_ticks: float) -> float:
    """Millimetres of a length in ticks."""
    return length_ticks / TICKS_PER_MM


def square_metres(area_ticks: float) -> float:
    """Square metres of an area in square ticks."""
    return area_ticks * SQUARE_METRES_PER_SQUARE_TICK
