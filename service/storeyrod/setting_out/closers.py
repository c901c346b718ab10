"""Closers at both ends: the bond is moved until it is symmetrical to the middle of the run, and cut alike at either end.

Every course keeps its place in the bond, so laps stay as they are. Bonds of third and quarter lap have no line to which all
their courses are symmetrical, and get no such closers.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import gcd, lcm

from storeyrod.geometry.intervals import Interval
from storeyrod.setting_out.arrangements import Arranged, RunBond, pieces, plain
from storeyrod.setting_out.bond import CoursePattern
from storeyrod.setting_out.course_grid import HAIRLINE, CourseGrid, Module


@dataclass(frozen=True, slots=True)
class _Axis:
    """A line of symmetry of a course: the middle of one of its units, or of the perp before it."""

    unit: int
    on_unit: bool


def closers_at_ends(run: RunBond) -> Arranged | None:
    """The run with equal pieces at both ends of every course, none of them a sliver; nominal perps where they will do.

    The course that begins with the longest piece keeps doing so, as the bond was carried to that end.
    """
    made = []
    for axes in _common_axes(run.courses):
        perp = _perp(run, axes)
        if perp is not None:
            grids = [_grid(run, course, axis, perp) for course, axis in zip(run.courses, axes, strict=True)]
            made.append(plain(run, "closers_at_ends", grids))
    kept = [
        one for one in made if one.within and one.sliver_free and _is_cut_all_round(one) and _begins_alike(run, one)
    ]
    return min(kept, key=lambda one: (one.deviation, one.cuts), default=None)


def _is_cut_all_round(one: Arranged) -> bool:
    """Whether every end piece is a cut one: with whole ones the run comes out by its perps."""
    ends = {edge for stretches in one.patterns for edge in (stretches[0].left, stretches[-1].right)}
    return all(
        not whole
        for stretches in one.patterns
        for left, right, whole in pieces(stretches)
        if left in ends or right in ends
    )


def _begins_alike(run: RunBond, one: Arranged) -> bool:
    """Whether the courses that would begin with the longest piece still do."""
    firsts = [_rest_of_unit(course, start) for course, start in zip(run.courses, run.starts(), strict=True)]
    longest = max(firsts)
    long = [ends[0] for first, ends in zip(firsts, one.ends, strict=True) if first == longest]
    short = [ends[0] for first, ends in zip(firsts, one.ends, strict=True) if first < longest]
    return min(long) >= max(short, default=0.0) - HAIRLINE


def _rest_of_unit(course: CoursePattern, start: Fraction) -> Fraction:
    """What is left of the unit at a place of the repeat, with its perp, in modules."""
    end = Fraction(0)
    for length in course.lengths:
        end += length
        if start < end:
            return end - start
    return end - start


def _common_axes(courses: Sequence[CoursePattern]) -> list[tuple[_Axis, ...]]:
    """Lines of symmetry that all courses of a bond share, each as the axis of every course."""
    known = [_axes(course) for course in courses]
    period = Fraction(
        lcm(*(course.modules.numerator for course in courses)),
        gcd(*(course.modules.denominator for course in courses)),
    )
    places = sorted({(place - courses[0].shift + turn * courses[0].modules) % period
                     for place in known[0] for turn in range(int(period / courses[0].modules))})  # fmt: skip
    shared = []
    for place in places:
        axes = [axes.get((place + course.shift) % course.modules) for course, axes in zip(courses, known, strict=True)]
        found = tuple(axis for axis in axes if axis is not None)
        if len(found) == len(courses) and found not in shared:
            shared.append(found)
    return shared


def _axes(course: CoursePattern) -> dict[Fraction, _Axis]:
    """Lines of symmetry of a course, by their place in its repeat, in modules from the middle of a perp."""
    axes: dict[Fraction, _Axis] = {}
    start, count = Fraction(0), len(course.units)
    for unit, length in enumerate(course.lengths):
        for axis, place in ((_Axis(unit, on_unit=False), start), (_Axis(unit, on_unit=True), start + length / 2)):
            turned = [course.units[(unit - step - (not axis.on_unit)) % count] for step in range(count)]
            if turned == [course.units[(unit + step) % count] for step in range(count)]:
                axes[place] = axis
        start += length
    return axes


def _course_perp(course: CoursePattern, module: Module, perp: float) -> float:
    """Perp of a course that keeps step with stretchers whose perp is given."""
    widths = sum(module.width(kind) for kind in course.units)
    return (float(course.modules) * (module.stretcher + perp) - widths) / len(course.units)


def _grid(run: RunBond, course: CoursePattern, axis: _Axis, perp: float) -> CourseGrid:
    made = run.module.grid(course, 0.0, _course_perp(course, run.module, perp))
    unit = made.units[axis.unit]
    place = unit.offset + unit.width / 2.0 if axis.on_unit else unit.offset - made.perp / 2.0
    return run.module.grid(course, (run.run[0] + run.run[1]) / 2.0 - place, made.perp)


def _perp(run: RunBond, axes: Sequence[_Axis]) -> float | None:
    """Perp nearest to the nominal one at which every course ends in a piece that is neither a sliver nor too long."""
    allowed: list[Interval] = [(run.limits.least, run.limits.widest)]
    for course, axis in zip(run.courses, axes, strict=True):
        spans = list(_perps_that_end_well(run, course, axis))
        allowed = [(max(a, c), min(b, d)) for (a, b), (c, d) in product(allowed, spans) if max(a, c) <= min(b, d)]
    nominal = run.module.perp
    nearest = (min(max(nominal, low), high) for low, high in allowed)
    return min(nearest, key=lambda perp: (abs(perp - nominal), perp), default=None)


def _perps_that_end_well(run: RunBond, course: CoursePattern, axis: _Axis) -> Iterator[Interval]:
    """Perps at which the run ends inside a unit of the course, as spans of the stretchers' perp.

    From the axis outwards the inner edge of each unit lies at the units passed, plus the perp times the number passed.
    """
    module, half = run.module, run.length / 2.0
    step, base = _perp_line(course, module)
    passed, perps, unit = 0.0, 0.5, axis.unit
    if axis.on_unit:
        first = module.width(course.units[unit])
        if run.limits.shortest / 2.0 <= half <= first / 2.0:
            yield run.limits.least, run.limits.widest
        passed, perps, unit = first / 2.0, 1.0, unit + 1
    while passed + run.limits.shortest <= half:
        width = module.width(course.units[unit % len(course.units)])
        if width <= HAIRLINE:  # slips as short as their perp have no header
            return
        low, high = (half - passed - width) / perps, (half - passed - run.limits.shortest) / perps
        if low <= high:
            yield (low - base) / step, (high - base) / step
        passed, perps, unit = passed + width, perps + 1.0, unit + 1


def _perp_line(course: CoursePattern, module: Module) -> tuple[float, float]:
    """Perp of a course as step times the stretchers' perp plus a base."""
    base = _course_perp(course, module, 0.0)
    return float(course.modules) / len(course.units), base
