"""The grid of a course: units and joints that repeat along a line, and the stretches of a bay that share one."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import exact_ticks
from storeyrod.setting_out.bond import Bond, CoursePattern, Kind
from storeyrod.wall.grid import header_of
from storeyrod.wall.system import System

Arrangement = Literal["nominal", "equalised", "closers_at_ends", "broken_bond_at_centre"]
"""How a bay is made to come out: as drawn, by its perps, by equal cuts at both ends, or by cuts in its middle."""

HAIRLINE: Final = 1.0
"""Ticks: what is narrower is rounding, and counts as joint."""


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

    def columns(self, low: float, high: float) -> list[tuple[float, float, Kind | None]]:
        """Units, and perps as None, that meet an interval, from left to right: (left, right, kind), not clipped."""
        met: list[tuple[float, float, Kind | None]] = []
        for index in range(
            math.floor((low - self.origin) / self.period), math.ceil((high - self.origin) / self.period)
        ):
            start = self.origin + index * self.period
            for unit in self.units:
                left = start + unit.offset
                right = left + unit.width
                if left < high and right > low:
                    met.append((left, right, unit.kind))
                if right < high and right + self.perp > low:
                    met.append((right, right + self.perp, None))
        return met

    def width_of(self, kind: Kind) -> float:
        """Length of a whole unit of a kind that the repeat holds."""
        return next(unit.width for unit in self.units if unit.kind == kind)

    @property
    def has_headers(self) -> bool:
        """Whether headers are among its units."""
        return any(unit.kind == "header" for unit in self.units)

    def mirrored(self) -> "CourseGrid":
        """The grid seen in the mirror of x = 0."""
        length = self.period - self.perp
        units = tuple(Unit(unit.kind, length - unit.offset - unit.width, unit.width) for unit in reversed(self.units))
        return CourseGrid(-self.origin - length, self.period, units, self.perp)


def repeats(start: float, width: float, period: float, run: Interval) -> tuple[float, int, list[Interval]]:
    """Where a width repeated from a start falls in a run: left end of the first whole one, how many, and the parts that the
    run's ends cut off.
    """
    low, high = run
    first = math.ceil((low - start - HAIRLINE) / period)
    last = math.floor((high - width - start + HAIRLINE) / period)
    parts = []
    for index in (first - 1, last + 1) if last + 1 != first - 1 else (last + 1,):
        left = start + index * period
        right = min(high, left + width)
        left = max(low, left)
        if right > left:
            parts.append((left, right))
    return start + first * period, max(0, last - first + 1), parts


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


@dataclass(frozen=True, slots=True)
class Stretch:
    """Part of a bay whose units repeat on one grid; units that reach past its ends are cut there. Ticks."""

    left: float
    right: float
    grid: CourseGrid


@dataclass(frozen=True, slots=True)
class BayPerps:
    """How one bay of a face is set out: for each course pattern of the bond its stretches from left to right, in ticks.

    The stretches of a pattern fill the bay without gap or overlap.
    """

    left: float
    right: float
    patterns: tuple[tuple[Stretch, ...], ...]
    arrangement: Arrangement

    @property
    def has_stretchers(self) -> bool:
        """Whether stretchers are among the units of its courses."""
        return any(unit.kind == "stretcher" for pattern in self.patterns for one in pattern for unit in one.grid.units)

    def mirrored(self) -> "BayPerps":
        """The bay seen in the mirror of x = 0."""
        patterns = tuple(
            tuple(Stretch(-one.right, -one.left, one.grid.mirrored()) for one in reversed(pattern))
            for pattern in self.patterns
        )
        return BayPerps(-self.right, -self.left, patterns, self.arrangement)


def half_modules(length: float, module: Module) -> Fraction:
    """Nearest whole number of half modules of a length, in modules."""
    return Fraction(round(length / (module.length / 2.0)), 2)


def shortest_piece(bond: Bond, module: Module, shortest: float, widest_perp: float) -> float:
    """Least piece that is no sliver: a bond with headers brings queen closers of a quarter module by itself. Ticks."""
    if not any("header" in course.units for course in bond.courses):
        return shortest
    return min(shortest, module.length / 4.0 - widest_perp)


def widest_perp(bays: Sequence[BayPerps]) -> float:
    """Widest perp of all bays."""
    return max(stretch.grid.perp for bay in bays for pattern in bay.patterns for stretch in pattern)


def end_piece(stretch: Stretch, side: Literal["left", "right"], module: Module) -> float:
    """Length of the unit nearest to an end of a stretch, as far as it lies in it. Ticks."""
    low, high = (
        (stretch.left, stretch.left + module.length)
        if side == "left"
        else (stretch.right - module.length, stretch.right)
    )
    units = [
        min(right, stretch.right) - max(left, stretch.left)
        for left, right, kind in stretch.grid.columns(low, high)
        if kind is not None and min(right, stretch.right) - max(left, stretch.left) > HAIRLINE
    ]
    return (units[0] if side == "left" else units[-1]) if units else 0.0
