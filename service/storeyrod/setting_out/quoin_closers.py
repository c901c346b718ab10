"""Queen closers beside quoins and reveals: a header ends the course there, and the closer stands next to it.

In bonds with headers the grid leaves a piece narrower than a header at the end of some courses. The old rule of bonding puts it
next to the first header, in alternate courses, at angles and jambs only (bricklaying texts); the pieces are the same.
"""

from typing import NamedTuple

from storeyrod.geometry.intervals import Interval
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, CourseGrid


class EndUnit(NamedTuple):
    """A unit that ends a run or stands next to the one that does: its ends, its kind, and whether it is whole. Ticks."""

    left: float
    right: float
    kind: Kind
    whole: bool


class ClosedRun(NamedTuple):
    """The units at the ends of a run, with the perps between them, and what of the run is left between those ends."""

    units: tuple[EndUnit, ...]
    perps: int
    rest: Interval


def with_closers(grid: CourseGrid, run: Interval) -> ClosedRun:
    """A run whose ends are closed by headers; a run too short for both of its closers keeps its ends."""
    low, high = run
    left = _at_left(grid, run)
    turned = _at_left(grid.mirrored(), (-high, -low))
    right = tuple(EndUnit(-unit.right, -unit.left, unit.kind, unit.whole) for unit in reversed(turned))
    if left and right and right[0].left < left[-1].right + grid.perp - HAIRLINE:
        return ClosedRun((), 0, run)
    rest = left[-1].right if left else low, right[0].left if right else high
    return ClosedRun((*left, *right), bool(left) + bool(right), rest)


def _at_left(grid: CourseGrid, run: Interval) -> tuple[EndUnit, ...]:
    """The header and the closer behind it, where the grid has them the other way round; nothing where it has not."""
    low, high = run
    first = [
        column for column in grid.columns(low, min(high, low + grid.period + grid.perp)) if column[1] > low + HAIRLINE
    ]
    if len(first) < 3:
        return ()
    (left, right, kind), (_, _, joint), (header, end, next_kind) = first[:3]
    width, narrow = end - header, right - low
    is_closer = kind is not None and joint is None and left < low - HAIRLINE and narrow < width - HAIRLINE
    if kind is None or not is_closer or next_kind != "header" or end > high + HAIRLINE:
        return ()
    return (
        EndUnit(low, low + width, "header", whole=True),
        EndUnit(end - narrow, end, kind, whole=False),
    )
