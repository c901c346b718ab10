"""Perps of a bay: nominal, or equalised inside their limits."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from storeyrod.geometry.intervals import Interval
from storeyrod.setting_out.bond import CoursePattern
from storeyrod.setting_out.course_grid import HAIRLINE, CourseGrid, Module


def nominal_grids(courses: Sequence[CoursePattern], module: Module, origin: float) -> tuple[CourseGrid, ...]:
    """The grid of each course of a bond, laid on the module from an origin."""
    return tuple(module.grid(pattern, origin - float(pattern.shift * Fraction(module.length))) for pattern in courses)


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


def equalised_grids(
    courses: Sequence[CoursePattern], module: Module, bay: Interval, phase: Fraction, limits: PerpLimits
) -> Equalised | None:
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
        if (spread := _spread(courses, module, bay, phase, halves, limits))
    ]
    within = [spread for spread in tried if spread.within]
    if within:
        return min(within, key=lambda one: (one.shortest < limits.shortest, _deviation(one, module)))
    return min(tried, key=lambda one: _deviation(one, module), default=None)


def _deviation(spread: Equalised, module: Module) -> float:
    return max(abs(perp - module.perp) for perp in spread.perps)


def _spread(
    courses: Sequence[CoursePattern], module: Module, bay: Interval, phase: Fraction, halves: int, limits: PerpLimits
) -> Equalised | None:
    nominal = halves * module.length / 2.0 - module.perp
    if halves < 2 or nominal <= 0:
        return None
    made = [_spread_course(pattern, module, bay, phase, nominal) for pattern in courses]
    spread = [course for course in made if course is not None]
    if len(spread) < len(made):
        return None
    perps = tuple(grid.perp for grid, _ in spread)
    within = all(limits.least - HAIRLINE <= perp <= limits.widest + HAIRLINE for perp in perps)
    return Equalised(tuple(grid for grid, _ in spread), perps, min(shortest for _, shortest in spread), within)


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
