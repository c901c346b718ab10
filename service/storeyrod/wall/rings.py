"""Rings of a request: corners in ticks, checked to enclose one area."""

from collections.abc import Sequence
from typing import Final

from storeyrod.findings import refuse
from storeyrod.geometry.plane import Ring, is_simple, signed_area, tidy
from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.wall.models import Point

SMALLEST_OUTLINE: Final = 1000.0 * TICKS_PER_MM**2
"""Square ticks: an outline below 1000 mm2 is taken for a slip of the unit."""


def checked_ring(points: Sequence[Point], pointer: str) -> Ring:
    """Ring through the points; raises ``geometry-self-intersecting`` and ``outline-too-small``."""
    ring = tidy([(ticks(point.x_mm), ticks(point.y_mm)) for point in points])
    if len(ring) < 3:
        raise refuse("outline-too-small", pointer, "The corners lie on one line; give at least three that do not.")
    if not is_simple(ring):
        raise refuse(
            "geometry-self-intersecting", pointer, "The line crosses or touches itself; list the corners in order."
        )
    if signed_area(ring) < SMALLEST_OUTLINE:
        detail = f"The corners enclose {signed_area(ring) / TICKS_PER_MM**2:.10g} mm2, under 1000 mm2; coordinates are millimetres."
        raise refuse("outline-too-small", pointer, detail)
    return ring
