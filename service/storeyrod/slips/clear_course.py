"""Units of a course where the whole height of the course lies in the wall: they repeat along the line and are counted."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from storeyrod.geometry.intervals import Interval, clip
from storeyrod.geometry.parts import plain_part
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, CourseGrid, Stretch, repeats
from storeyrod.slips.courses import Cut, LaidCourse, Run


@dataclass(slots=True)
class ClearUnits:
    """Units and joints collected run by run; joints and overrun are lengths along the course. Ticks."""

    runs: list[Run] = field(default_factory=list)
    cuts: list[tuple[float, float, Kind]] = field(default_factory=list)
    joint: float = 0.0
    perps: float = 0.0
    overrun: float = 0.0

    def add(self, grid: CourseGrid, run: Interval) -> None:
        """Lay one run on a grid; a cut narrower than a hairline is rounding, and counts as joint."""
        for unit in grid.units:
            first, count, parts = repeats(grid.origin + unit.offset, unit.width, grid.period, run)
            for left, right in parts:
                if right - left > HAIRLINE:
                    self.cuts.append((left, right, unit.kind))
                else:
                    self.joint += right - left
            if count:
                laid = Run(first, count, grid.period, unit.width, unit.kind)
                self.runs.append(laid)
                self.overrun += max(0.0, run[0] - first) + max(0.0, laid.right - run[1])
            if grid.perp:
                self._add_perps(grid, grid.origin + unit.offset + unit.width, run)

    def _add_perps(self, grid: CourseGrid, start: float, run: Interval) -> None:
        first, count, parts = repeats(start, grid.perp, grid.period, run)
        length = count * grid.perp
        for left, right in parts:
            length += right - left
        if count:
            last = first + (count - 1) * grid.period + grid.perp
            length -= max(0.0, run[0] - first) + max(0.0, last - run[1])
        self.joint += length
        self.perps += length / grid.perp

    def course(self, height: float) -> LaidCourse:
        """The course of that height."""
        return LaidCourse(
            height,
            tuple(sorted(self.runs, key=lambda run: run.x)),
            tuple(Cut(plain_part(left, 0.0, right, height), kind) for left, right, kind in sorted(self.cuts)),
            self.joint * height,
            self.perps * height,
            self.overrun * height,
        )


def clear_units(clear: Sequence[Interval], bays: Sequence[BayPerps], pattern: int) -> ClearUnits:
    """Units of a course of the bond in the clear runs of a wall."""
    units = ClearUnits()
    for stretch in stretches_of(bays, pattern):
        for run in clip(clear, stretch.left, stretch.right):
            units.add(stretch.grid, run)
    return units


def stretches_of(bays: Sequence[BayPerps], pattern: int) -> Iterator[Stretch]:
    """Stretches of a course of the bond, from left to right."""
    for bay in bays:
        yield from bay.patterns[pattern]
