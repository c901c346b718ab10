"""Perps: the repeating places of units and joints along a course, nominal or equalised inside their limits."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import TICKS_PER_MM
from storeyrod.slips.bond import Bond, CoursePattern, Kind
from storeyrod.wall.grid import header_of
from storeyrod.wall.system import System

HAIRLINE: Final = 1.0
"""Ticks: what is narrower is rounding, and counts as joint."""


def exact_ticks(length_mm: float) -> float:
    """A length in ticks without rounding to whole ones, so that repeating it does not add up an error."""
    return round(length_mm * TICKS_PER_MM, 6)


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of the repeat: kind, distance from the start of the repeat, and length."""

    kind: Kind
    offset: float
    width: float


@dataclass(frozen=True, slots=True)
class CourseGrid:
    """Units repeated along a line from an origin; the gap behind each unit is a perp. Ticks."""

    origin: float
    period: float
    units: tuple[Unit, ...]
    perp: float

    def columns(self, low: float, high: float) -> Iterator[tuple[float, float, Kind | None]]:
        """Units, and perps as None, that meet an interval, from left to right: (left, right, kind), not clipped."""
        for index in range(
            math.floor((low - self.origin) / self.period), math.ceil((high - self.origin) / self.period)
        ):
            start = self.origin + index * self.period
            for unit in self.units:
                left = start + unit.offset
                right = left + unit.width
                if left < high and right > low:
                    yield left, right, unit.kind
                if right < high and right + self.perp > low:
                    yield right, right + self.perp, None


@dataclass(frozen=True, slots=True)
class Repeats:
    """Whole repeats of a width inside a run, and the parts that its ends cut off."""

    first: float
    count: int
    parts: tuple[Interval, ...]

    def covered(self, width: float) -> float:
        """Length covered in the run."""
        return self.count * width + sum(right - left for left, right in self.parts)


def repeats(start: float, width: float, period: float, run: Interval) -> Repeats:
    """Where a width repeated from a start falls in a run."""
    low, high = run
    first = math.ceil((low - start - HAIRLINE) / period)
    last = math.floor((high - width - start + HAIRLINE) / period)
    parts = []
    for index in sorted({first - 1, last + 1}):
        left = max(low, start + index * period)
        right = min(high, start + index * period + width)
        if right > left:
            parts.append((left, right))
    return Repeats(start + first * period, max(0, last - first + 1), tuple(parts))


@dataclass(frozen=True, slots=True)
class Module:
    """Lengths of units and perp in ticks."""

    stretcher: float
    header: float
    perp: float

    @property
    def length(self) -> float:
        """Stretcher and perp."""
        return self.stretcher + self.perp

    def width(self, kind: Kind) -> float:
        """Length of a unit."""
        return self.stretcher if kind == "stretcher" else self.header

    def grid(self, pattern: CoursePattern, origin: float, perp: float | None = None) -> CourseGrid:
        """The repeat of a course pattern from an origin, with the nominal perp or another one."""
        gap = self.perp if perp is None else perp
        units, offset = [], 0.0
        for kind in pattern.units:
            units.append(Unit(kind, offset, self.width(kind)))
            offset += self.width(kind) + gap
        return CourseGrid(origin, offset, tuple(units), gap)


def module_lengths(system: System) -> Module:
    """Unit lengths of a system."""
    return Module(exact_ticks(system.slip.length_mm), exact_ticks(header_of(system)), exact_ticks(system.joint.perp_mm))


def nominal_grids(bond: Bond, module: Module, left: float, start: Fraction) -> tuple[CourseGrid, ...]:
    """The grid of each course pattern, laid on the module from the left end; ``start`` shifts all, in modules."""
    return tuple(
        module.grid(pattern, left - float((pattern.shift + start) * Fraction(module.length)))
        for pattern in bond.courses
    )


@dataclass(frozen=True, slots=True)
class PerpLimits:
    """Least and widest perp, and the shortest unit that is no sliver. Ticks."""

    least: float
    widest: float
    shortest: float


@dataclass(frozen=True, slots=True)
class Equalised:
    """Grids of a bay with equal perps, or the perp that would have been needed and was outside the limits."""

    grids: tuple[CourseGrid, ...]
    perps: tuple[float, ...]
    shortest: float
    within: bool


def equalised_grids(bond: Bond, module: Module, bay: Interval, phase: Fraction, limits: PerpLimits) -> Equalised | None:
    """Equal perps in every course of a bay that make it come out in half modules.

    ``phase`` is the place of the bay's left end on the module. Of the whole numbers of half modules near the length, the
    best one inside the limits is taken; with none inside, the nearest is returned as not within. None when the bay is
    shorter than two units.
    """
    half = module.length / 2.0
    nearest = round((bay[1] - bay[0] + module.perp) / half)
    tried = [
        spread
        for halves in (nearest, nearest - 1, nearest + 1)
        if (spread := _spread(bond, module, bay, phase, halves, limits))
    ]
    within = [spread for spread in tried if spread.within]
    if within:
        return min(within, key=lambda one: (one.shortest < limits.shortest, _deviation(one, module)))
    return min(tried, key=lambda one: _deviation(one, module), default=None)


def _deviation(spread: Equalised, module: Module) -> float:
    return max(abs(perp - module.perp) for perp in spread.perps)


def _spread(
    bond: Bond, module: Module, bay: Interval, phase: Fraction, halves: int, limits: PerpLimits
) -> Equalised | None:
    nominal = halves * module.length / 2.0 - module.perp
    if halves < 2 or nominal <= 0:
        return None
    made = [_spread_course(pattern, module, bay, phase, nominal) for pattern in bond.courses]
    courses = [course for course in made if course is not None]
    if len(courses) < len(made):
        return None
    perps = tuple(grid.perp for grid, _ in courses)
    within = all(limits.least - HAIRLINE <= perp <= limits.widest + HAIRLINE for perp in perps)
    return Equalised(tuple(grid for grid, _ in courses), perps, min(shortest for _, shortest in courses), within)


def _spread_course(
    pattern: CoursePattern, module: Module, bay: Interval, phase: Fraction, nominal: float
) -> tuple[CourseGrid, float] | None:
    """One course laid nominally over a length that comes out, its perps then spread over the bay."""
    grid = module.grid(pattern, 0.0)
    left = float((phase + pattern.shift) % pattern.modules * Fraction(module.length))
    columns = list(grid.columns(left + HAIRLINE, left + nominal - HAIRLINE))
    if len(columns) < 3 or columns[0][2] is None or columns[-1][2] is None:
        return None
    count = len(columns) // 2
    perp = module.perp + (bay[1] - bay[0] - nominal) / count
    first = min(
        range(len(grid.units)), key=lambda index: abs(_in_repeat(columns[0][0], grid) - grid.units[index].offset)
    )
    stretched = module.grid(pattern, 0.0, perp)
    origin = bay[0] - (left - columns[0][0]) - stretched.units[first].offset
    shortest = min(columns[0][1] - left, left + nominal - columns[-1][0])
    return module.grid(pattern, origin, perp), shortest


def _in_repeat(x: float, grid: CourseGrid) -> float:
    return (x + HAIRLINE) % grid.period - HAIRLINE


@dataclass(frozen=True, slots=True)
class BayPerps:
    """How one bay of a face is set out: the grid of each course pattern between two positions, in ticks."""

    left: float
    right: float
    grids: tuple[CourseGrid, ...]
    equalised: bool


def half_modules(length: float, module: Module) -> Fraction:
    """Nearest whole number of half modules of a length, in modules."""
    return Fraction(round(length / (module.length / 2.0)), 2)


def widest_perp(bays: Sequence[BayPerps]) -> float:
    """Widest perp of all bays."""
    return max(grid.perp for bay in bays for grid in bay.grids)
