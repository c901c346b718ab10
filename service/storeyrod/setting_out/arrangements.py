"""Ways to make a run come out, measured alike: perps, cut units, ends, and which of them is to be preferred."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from storeyrod.geometry.intervals import Interval
from storeyrod.setting_out.bond import CoursePattern
from storeyrod.setting_out.course_grid import HAIRLINE, Arrangement, CourseGrid, Module, Stretch

Patterns = tuple[tuple[Stretch, ...], ...]
"""For each course of the bond's repeat its stretches from left to right; they fill the run."""

_ORDER: Final[tuple[Arrangement, ...]] = ("equalised", "broken_bond_at_centre", "closers_at_ends", "nominal")


@dataclass(frozen=True, slots=True)
class PerpLimits:
    """Least and widest perp, and the shortest unit that is no sliver. Ticks."""

    least: float
    widest: float
    shortest: float

    def holds(self, perp: float) -> bool:
        """Whether a perp lies inside its limits."""
        return self.least - HAIRLINE <= perp <= self.widest + HAIRLINE


@dataclass(frozen=True, slots=True)
class RunBond:
    """A run to be made to come out: courses of the bond's repeat, unit lengths, ends, and limits.

    ``phase`` is the place of the left end on the bond, in modules and whole halves of one.
    """

    courses: tuple[CoursePattern, ...]
    module: Module
    run: Interval
    phase: Fraction
    limits: PerpLimits

    @property
    def length(self) -> float:
        """Clear length."""
        return self.run[1] - self.run[0]

    @property
    def has_headers(self) -> bool:
        """Whether headers belong to the bond."""
        return any("header" in course.units for course in self.courses)

    def starts(self) -> list[Fraction]:
        """Where each course starts at the left end, in modules from the beginning of its repeat."""
        return [(self.phase + course.shift) % course.modules for course in self.courses]

    @property
    def shortest_wanted(self) -> float:
        """Least piece that may be chosen without need: a bond with headers brings closers of a quarter module by itself."""
        if not self.has_headers:
            return self.limits.shortest
        return min(self.limits.shortest, self.module.length / 4.0 - self.module.perp)


@dataclass(frozen=True, slots=True)
class Arranged:
    """One way to make a run come out, measured.

    ``within`` says that no perp leaves its limits and no course is left open at an end; ``ends`` are the first and last
    piece of each course. Ticks.
    """

    arrangement: Arrangement
    patterns: Patterns
    perps: tuple[float, ...]
    deviation: float
    cuts: int
    shortest: float
    within: bool
    sliver_free: bool
    ends: tuple[tuple[float, ...], ...]


def pieces(stretches: Sequence[Stretch]) -> Iterator[tuple[float, float, bool]]:
    """Units of a course, clipped by their stretches, from left to right: left, right, and whether they are whole."""
    for stretch in stretches:
        for left, right, kind in stretch.grid.columns(stretch.left, stretch.right):
            low, high = max(left, stretch.left), min(right, stretch.right)
            if kind is not None and high - low > HAIRLINE:
                yield low, high, high - low >= right - left - HAIRLINE


def measured(run: RunBond, arrangement: Arrangement, patterns: Patterns) -> Arranged:
    """Measure one way to lay a run."""
    laid = [list(pieces(stretches)) for stretches in patterns]
    perps = tuple(stretches[0].grid.perp for stretches in patterns)
    low, high = run.run
    closed = all(
        course and course[0][0] <= low + HAIRLINE and course[-1][1] >= high - HAIRLINE for course in laid
    )  # fmt: skip
    shortest = min((right - left for course in laid for left, right, _ in course), default=0.0)
    return Arranged(
        arrangement,
        patterns,
        perps,
        deviation=max(abs(perp - run.module.perp) for perp in perps),
        cuts=sum(not whole for course in laid for _, _, whole in course),
        shortest=shortest,
        within=closed and all(run.limits.holds(perp) for perp in perps),
        sliver_free=shortest >= run.limits.shortest - HAIRLINE,
        ends=tuple(
            tuple(right - left for left, right, _ in (course[0], course[-1])) if course else () for course in laid
        ),
    )


def plain(run: RunBond, arrangement: Arrangement, grids: Sequence[CourseGrid]) -> Arranged:
    """A run with one grid for each course, measured."""
    return measured(run, arrangement, tuple((Stretch(*run.run, grid),) for grid in grids))


def is_wanted(run: RunBond, one: Arranged) -> bool:
    """Whether a run may be left so: inside the limits, and without slivers that its bond does not bring."""
    return one.within and one.shortest >= run.shortest_wanted - HAIRLINE


def preference(run: RunBond, one: Arranged) -> tuple[bool, bool, bool, bool, int, float, int]:
    """Sorts ways to make a run come out, best first.

    What is inside the limits and without slivers comes first; of that, perps alone before any closing bond; then what has
    no piece under a half bat; then the fewest cuts, and the least change of the perps. Where no perp fits, what is drawn
    stays drawn.
    """
    by_itself: Arrangement = "equalised" if one.within else "nominal"
    return (
        not is_wanted(run, one),
        not one.within,
        one.arrangement != by_itself,
        one.shortest < run.module.header - HAIRLINE,
        one.cuts,
        one.deviation,
        _ORDER.index(one.arrangement),
    )
