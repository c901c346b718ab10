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
class EqualPerps:
    """Grids of a run with equal perps, the greatest change of a perp, the shortest unit, and whether the limits hold. Ticks."""

    grids: tuple[CourseGrid, ...]
    deviation: float
    shortest: float
    within: bool


def equal_perps(run: RunBond, parity: int | None = None) -> EqualPerps | None:
    """Equal perps in every course of a run that make it come out in half modules.

    The nearest whole number of half modules is taken where it holds the limits and leaves no sliver, else the better one of
    its neighbours; with none inside the limits, the least change. None when the run is shorter than two units. ``parity``
    asks for an even (0) or odd (1) number.
    """
    nearest = round((run.length + run.module.perp) / (run.module.length / 2.0))
    tried = []
    for halves in (nearest, nearest - 1, nearest + 1):
        spread = _spread(run, halves) if parity is None or halves % 2 == parity else None
        if spread is None:
            continue
        if halves == nearest and spread.within and spread.shortest >= run.limits.shortest:
            return spread
        tried.append(spread)
    return min(
        tried,
        key=lambda one: (not one.within, one.within and one.shortest < run.limits.shortest, one.deviation),
        default=None,
    )


def _spread(run: RunBond, halves: int) -> EqualPerps | None:
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
    return EqualPerps(grids, deviation, min(shortest for _, shortest in spread), within)


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
    if perp < 0:
        return None
    first = min(
        range(len(grid.units)), key=lambda index: abs(_in_repeat(columns[0][0], grid) - grid.units[index].offset)
    )
    stretched = module.grid(pattern, 0.0, perp)
    origin = run.run[0] - (left - columns[0][0]) - stretched.units[first].offset
    shortest = min(columns[0][1] - left, left + nominal - columns[-1][0])
    return module.grid(pattern, origin, perp), shortest


def _in_repeat(x: float, grid: CourseGrid) -> float:
    return (x + HAIRLINE) % grid.period - HAIRLINE
