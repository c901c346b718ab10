"""Broken bond at the centre: the bond goes on from either end with its whole and half units, and what is over is made up in
the middle by one to three equal cut pieces.

Seen in modules, a course is a row of cells, each a unit with its perp. The cells set out from the right end lie ``shift``
beside those set out from the left; the gap between the two is that shift and some whole cells. The rule of thumb that no cut
in facework is narrower than a half brick, and cuts stand in the middle, is common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from typing import Final

from storeyrod.setting_out.arrangements import Arranged, RunBond, measured, preference
from storeyrod.setting_out.bond import CoursePattern
from storeyrod.setting_out.course_grid import HAIRLINE, Stretch

_MOST_PIECES: Final = 3
"""Cut pieces in the middle of one course; with either end whole or half, two and one in turn will do on all but short runs."""

_LEAST_LAP: Final = 0.25
"""Lap in modules that perps of neighbouring courses keep at the cuts, if their bond has as much (common practice)."""


@dataclass(frozen=True, slots=True)
class _Break:
    """Where the bond of a course is broken: place and number of equal cells, from the left end. Ticks."""

    left: float
    cell: float
    count: int

    @property
    def right(self) -> float:
        """Where the cells set out from the right end begin."""
        return self.left + self.count * self.cell

    @property
    def centre(self) -> float:
        """Middle of the cut cells."""
        return (self.left + self.right) / 2.0

    def perps(self, module: float, low: float, high: float) -> Iterator[float]:
        """Ends of the cells between two places."""
        yield from (self.left + index * self.cell for index in range(self.count + 1))
        for step, start in ((-module, self.left), (module, self.right)):
            place = start + step
            while low <= place <= high:
                yield place
                place += step


def broken_bond_at_centre(run: RunBond) -> Arranged | None:
    """The run with its bond broken near the middle, for bonds of stretchers; None where no such course keeps its laps."""
    if run.has_headers:
        return None
    perp = min(max(run.module.perp, run.limits.least), run.limits.widest)
    broken = [_fewest(run, perp, halves) for halves in (0, 1)]
    made = [_arranged(run, perp, breaks) for breaks in broken if breaks is not None]
    kept = [one for one in made if one.within and one.sliver_free]
    return min(kept, key=lambda one: preference(run, one), default=None)


def _fewest(run: RunBond, perp: float, halves: int) -> tuple[_Break, ...] | None:
    """Breaks of the courses with the fewest pieces, then nearest to the middle, that keep their laps.

    ``halves`` says whether the right end has the unit of the left one, or the other.
    """
    module = run.module.stretcher + perp
    shift = (run.length + perp - halves * module / 2.0) % module
    choices = [list(_breaks(run, place, perp, shift)) for place in _first_perps(run, module)]
    middle = (run.length + perp) / 2.0

    def order(breaks: tuple[_Break, ...]) -> tuple[int, int, int, int]:
        off = [round(abs(one.centre - middle)) for one in breaks]
        return sum(one.count for one in breaks), max(off), sum(off), breaks[0].count

    return next((one for one in sorted(product(*choices), key=order) if _keeps_laps(run, one, module)), None)


def _keeps_laps(run: RunBond, breaks: Sequence[_Break], module: float) -> bool:
    for course, one in enumerate(breaks):
        above = (course + 1) % len(breaks)
        least = _least_lap(run.courses[course], run.courses[above]) * module
        if least and _lap(one, breaks[above], module) < least - HAIRLINE:
            return False
    return True


def _least_lap(here: CoursePattern, above: CoursePattern) -> float:
    """Lap in modules that is asked of two neighbouring courses of stretchers: no more than their bond has."""
    shift = float((above.shift - here.shift) % 1)
    return min(shift, 1.0 - shift, _LEAST_LAP)


def _first_perps(run: RunBond, module: float) -> list[float]:
    """Where the first cell of each course ends."""
    return [module * float(1 - start) for start in run.starts()]


def _breaks(run: RunBond, first: float, perp: float, shift: float) -> Iterator[_Break]:
    """Breaks of a course near the middle that leave a unit at either end."""
    module, end = run.module.stretcher + perp, run.length + perp
    for count in range(1, _MOST_PIECES + 1):
        cell = (shift + (count - 1) * module) / count
        if not run.module.header - HAIRLINE <= cell - perp <= run.module.stretcher + HAIRLINE:
            continue
        nearest = round((end / 2.0 - count * cell / 2.0 - first) / module)
        for index in range(max(0, nearest - 1), nearest + 2):
            made = _Break(first + index * module, cell, count)
            if made.right + perp < end - HAIRLINE:
                yield made


def _lap(here: _Break, above: _Break, module: float) -> float:
    """Least distance of the perps of two courses about their cuts."""
    low, high = min(here.left, above.left) - module, max(here.right, above.right) + module
    perps = list(above.perps(module, low, high))
    return min(abs(one - other) for one in here.perps(module, low, high) for other in perps)


def _arranged(run: RunBond, perp: float, breaks: Sequence[_Break]) -> Arranged:
    patterns = (_stretches(run, course, perp, one) for course, one in zip(run.courses, breaks, strict=True))
    return measured(run, "broken_bond_at_centre", tuple(patterns))


def _stretches(run: RunBond, course: CoursePattern, perp: float, broken: _Break) -> tuple[Stretch, ...]:
    """Left part, one stretch for each cut piece, right part."""
    start, end = run.run
    edges = [start + broken.left + index * broken.cell for index in range(broken.count + 1)]
    module = run.module.stretcher + perp
    cut = [Stretch(left, right, run.module.grid(course, right - module, perp)) for left, right in pairwise(edges)]
    return (
        Stretch(start, edges[0], run.module.grid(course, edges[0] - module, perp)),
        *cut,
        Stretch(edges[-1], end, run.module.grid(course, edges[-1], perp)),
    )
