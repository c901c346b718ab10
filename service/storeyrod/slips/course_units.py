"""Units of a course, collected run by run and piece by piece.

Where the whole height of a course lies in the wall, units repeat along the line and are counted; elsewhere they are clipped.
"""

from collections.abc import Iterator, Sequence
from operator import attrgetter, itemgetter

from storeyrod.geometry.intervals import Interval, clip
from storeyrod.geometry.parts import Part, made
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, CourseGrid, Stretch, repeats
from storeyrod.setting_out.quoin_closers import ClosedRun, neighbourhood_of, with_closers
from storeyrod.slips.courses import Cut, LaidCourse, Run


class CourseUnits:
    """Units and upright joints of a course as they are collected. Ticks."""

    def __init__(self, height: float) -> None:
        self.height = height
        self._runs: list[Run] = []
        self._cuts: list[Cut] = []
        self._full = 0
        self._area = 0.0
        self._perp_area = 0.0
        self._perp_length = 0.0

    def lay_run(self, grid: CourseGrid, run: Interval) -> None:
        """Lay a clear run on a grid; a cut narrower than a hairline is rounding, and counts as joint."""
        low, high = run
        period, perp, height = grid.period, grid.perp, self.height
        for unit in grid.units:
            start, width = grid.origin + unit.offset, unit.width
            first, count, parts = repeats(start, width, period, run)
            for left, right in parts:
                area = (right - left) * height
                if right - left > HAIRLINE:
                    self._cuts.append(made(Cut, (made(Part, (left, 0.0, right, height, area, ())), unit.kind)))
                    self._area += area
                else:
                    self._perp_area += area
            if count:
                self._runs.append(Run(first, count, period, width, unit.kind))
                last = first + (count - 1) * period + width
                # Units that reach past the run by less than a hairline count as whole, not as larger.
                overrun = max(0.0, low - first) + max(0.0, last - high)
                self._full += count
                self._area += (count * width - overrun) * height
            if perp:
                perps = _perps(grid, high - start - width) - _perps(grid, low - start - width)
                self._perp_area += perps * height
                self._perp_length += perps / perp * height

    def lay_closed(self, grid: CourseGrid, closed: ClosedRun) -> None:
        """Lay a run with the units that close its ends."""
        for left, right, kind, whole in closed.units:
            area = (right - left) * self.height
            if whole:
                self._runs.append(Run(left, 1, grid.period, right - left, kind))
                self._full += 1
            else:
                self._cuts.append(Cut(Part(left, 0.0, right, self.height, area), kind))
            self._area += area
        for left, right in closed.perps:
            self._perp_area += (right - left) * self.height
            self._perp_length += self.height if right > left else 0.0
        self.lay_run(grid, closed.rest)

    def lay_parts(self, grid: CourseGrid, kind: Kind | None, parts: Sequence[Part]) -> None:
        """Lay what the wall has of one unit, or of the perp beside it as kind None."""
        for part in parts:
            left, bottom, right, top, area, shape = part
            width, rise = right - left, top - bottom
            if kind is None or width <= HAIRLINE or rise <= HAIRLINE:
                self._perp_area += area
                self._perp_length += area / grid.perp if grid.perp else 0.0
                continue
            self._area += area
            if rise >= self.height - HAIRLINE and not shape and width >= grid.width_of(kind) - HAIRLINE:
                self._runs.append(Run(left, 1, grid.period, width, kind))
                self._full += 1
            else:
                self._cuts.append(made(Cut, (part, kind)))

    def laid(self) -> LaidCourse:
        """The course of what was collected."""
        return LaidCourse(
            self.height,
            tuple(sorted(self._runs, key=attrgetter("x"))),
            tuple(sorted(self._cuts, key=itemgetter(0))),
            self._full,
            self._area,
            self._perp_area,
            self._perp_length,
        )


def _perps(grid: CourseGrid, reach: float) -> float:
    """Length of the perps behind one unit of the repeat, from the first of them up to a distance from its left end."""
    periods, rest = divmod(reach, grid.period)
    return periods * grid.perp + min(rest, grid.perp)


def lay_clear(units: CourseUnits, clear: Sequence[Interval], bays: Sequence[BayPerps], pattern: int) -> None:
    """Lay the clear runs of a course of the bond, with its closers."""
    for bay in bays:
        stretches = bay.patterns[pattern]
        near = neighbourhood_of(bay, pattern) if stretches[0].grid.has_headers else None
        for stretch in stretches:
            for run in clip(clear, stretch.left, stretch.right):
                if near is not None:
                    units.lay_closed(stretch.grid, with_closers(stretch.grid, run, near))
                else:
                    units.lay_run(stretch.grid, run)


def stretches_of(bays: Sequence[BayPerps], pattern: int) -> Iterator[Stretch]:
    """Stretches of a course of the bond, from left to right."""
    for bay in bays:
        yield from bay.patterns[pattern]
