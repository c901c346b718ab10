"""Perps of a run: nominal, or equalised inside their limits."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from storeyrod.setting_out.arrangements import RunBond
from storeyrod.setting_out.bond import CoursePattern
from storeyrod.setting_out.course_grid import HAIRLINE, CourseGrid, Module


def nominal_grids(courses: Sequence[CoursePattern], module: Module, origin: float) -> tuple[CourseGrid, ...]:
    """The grid of each course of a bond, laid on the module from an origin."""
    return tuple(module.grid(pattern, origin - float(pattern.shift * Fraction(module.length))) for pattern in courses)


@dataclass(frozen=True, slots=True)
class _Spread:
    """Grids of a run with equal perps, the greatest change of a perp, and the shortest unit. Ticks."""

    grids: tuple[CourseGrid, ...]
    deviation: float
    shortest: float
    within: bool


def equalised_grids(run: RunBond, parity: int | None = None) -> tuple[CourseGrid, ...] | None:
    """Equal perps in every course of a run that make it come out in half modules.

    Of the whole numbers of half modules near the length, the best one inside the limits is taken; with none inside, the
    nearest. None when the run is shorter than two units. ``parity`` asks for an even (0) or odd (1) number.
    """
    half = run.module.length / 2.0
    nearest = round((run.length + run.module.perp) / half)
    counts = [halves for halves in (nearest, nearest - 1, nearest + 1) if parity is None or halves % 2 == parity]
    tried = [spread for halves in counts if (spread := _spread(run, halves))]
    within = [spread for spread in tried if spread.within]
    if within:
        return min(within, key=lambda one: (one.shortest < run.limits.shortest, one.deviation)).grids
    return min(tried, key=lambda one: one.deviation).grids if tried else None


def _spread(run: RunBond, halves: int) -> _Spread | None:
    nominal = halves * run.module.length / 2.0 - run.module.perp
    if halves < 2 or nominal <= 0:
        return None
    made = [_spread_course(pattern, run, nominal) for pattern in run.courses]
    spread = [course for course in made if course is not None]
    if len(spread) < len(made):
        return None
    grids = tuple(grid for grid, _ in spread)
    deviation = max(abs(grid.perp - run.module.perp) for grid in grids)
    within = all(run.limits.holds(grid.perp) for grid in grids)
    return _Spread(grids, deviation, min(shortest for _, shortest in spread), within)


def _spread_course(pattern: CoursePattern, run: RunBond, nominal: float) -> tuple[CourseGrid, float] | None:
    """One course laid nominally over a length that comes out, its perps then spread over the run."""
    module = run.module
    grid = module.grid(pattern, 0.0)
    left = float((run.phase + pattern.shift) % pattern.modules * Fraction(module.length))
    columns = list(grid.columns(left + HAIRLINE, left + nominal - HAIRLINE))
    if len(columns) < 3 or columns[0][2] is None or columns[-1][2] is None:
        return None
    count = len(columns) // 2
    perp = module.perp + (run.length - nominal) / count
    first = min(
        range(len(grid.units)), key=lambda index: abs(_in_repeat(columns[0][0], grid) - grid.units[index].offset)
    )
    stretched = module.grid(pattern, 0.0, perp)
    origin = run.run[0] - (left - columns[0][0]) - stretched.units[first].offset
    shortest = min(columns[0][1] - left, left + nominal - columns[-1][0])
    return module.grid(pattern, origin, perp), shortest


def _in_repeat(x: float, grid: CourseGrid) -> float:
    return (x + HAIRLINE) % grid.period - HAIRLINE
