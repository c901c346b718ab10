"""Closers beside quoins and reveals, in bonds that lay headers over stretchers.

The grid leaves a piece narrower than a header at the end of some courses. The old rule of bonding puts it next to the first header,
in alternate courses, at angles and jambs only (bricklaying texts). Where that would bring a perp over one of the next course, as
over a half bat, header and closer are one three-quarter bat, or stay as drawn with nominal perps.
"""

from collections.abc import Sequence
from typing import Final, NamedTuple

from storeyrod.geometry.intervals import Interval
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, CourseGrid

LEAST_SHIFT: Final = 1 / 5
"""House limit: perps of neighbouring courses at least this share of a module apart; a quarter, less what equal perps move them."""


class EndUnit(NamedTuple):
    """A unit at the end of a run: its ends, its kind, and whether it is whole. Ticks."""

    left: float
    right: float
    kind: Kind
    whole: bool


class Neighbourhood(NamedTuple):
    """Grids of the courses below and above, and whether a header and its closer may be joined into one bat.

    A bond as drawn keeps the pieces that are drawn.
    """

    grids: tuple[CourseGrid, ...]
    may_join: bool

    def mirrored(self) -> "Neighbourhood":
        """Seen in the mirror of x = 0."""
        return Neighbourhood(tuple(grid.mirrored() for grid in self.grids), self.may_join)


class ClosedRun(NamedTuple):
    """The units at the ends of a run, the perps inside these ends, and what of the run is left between them. Ticks."""

    units: tuple[EndUnit, ...]
    perps: tuple[Interval, ...]
    rest: Interval


def neighbourhood_of(bay: BayPerps, pattern: int) -> Neighbourhood:
    """What lies round a course of a bay; nothing in a bond without stretchers, whose ends stay as they are."""
    if not bay.has_stretchers:
        return Neighbourhood((), may_join=False)
    patterns = bay.patterns
    grids = tuple(one.grid for step in (-1, 1) for one in patterns[(pattern + step) % len(patterns)])
    return Neighbourhood(grids, bay.arrangement != "nominal")


def with_closers(grid: CourseGrid, run: Interval, near: Neighbourhood) -> ClosedRun:
    """A run whose ends are closed by headers or three-quarter bats; a run too short for both of its closers keeps its ends."""
    if not near.grids or not grid.has_headers:
        return ClosedRun((), (), run)
    low, high = run
    left = _at_left(grid, run, near)
    turned = _at_left(grid.mirrored(), (-high, -low), near.mirrored())
    right = tuple(EndUnit(-unit.right, -unit.left, unit.kind, unit.whole) for unit in reversed(turned))
    if left and right and right[0].left < left[-1].right + grid.perp - HAIRLINE:
        return ClosedRun((), (), run)
    rest = left[-1].right if left else low, right[0].left if right else high
    perps = tuple((pair[0].right, pair[1].left) for pair in (left, right) if len(pair) == 2)
    return ClosedRun((*left, *right), perps, rest)


def _at_left(grid: CourseGrid, run: Interval, near: Neighbourhood) -> tuple[EndUnit, ...]:
    """The units of a left end that the grid closes with a narrow piece before a header; nothing for any other end."""
    low, high = run
    columns = grid.columns(low, min(high, low + grid.period + grid.perp))
    first = [column for column in columns if column[1] > low + HAIRLINE]
    if len(first) < 3:
        return ()
    (left, right, kind), (_, _, joint), (header, end, next_kind) = first[:3]
    width, narrow = end - header, right - low
    is_closer = joint is None and left < low - HAIRLINE and narrow < width - HAIRLINE
    if kind is None or not is_closer or next_kind != "header" or end > high + HAIRLINE:
        return ()
    stretcher = max(unit.width for one in (grid, *near.grids) for unit in one.units)
    if _is_clear(low + width + grid.perp / 2.0, (stretcher + grid.perp) * LEAST_SHIFT, near.grids):
        return (EndUnit(low, low + width, "header", whole=True), EndUnit(end - narrow, end, kind, whole=False))
    return (EndUnit(low, end, "stretcher", whole=False),) if near.may_join and end - low < stretcher else ()


def _is_clear(x: float, least: float, neighbours: Sequence[CourseGrid]) -> bool:
    """Whether no perp of the neighbouring courses stands near a place."""
    perps = (
        (left + right) / 2.0
        for grid in neighbours
        for left, right, kind in grid.columns(x - least - grid.perp, x + least + grid.perp)
        if kind is None
    )
    return all(abs(perp - x) >= least for perp in perps)
