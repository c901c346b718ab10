"""Laying the courses of a face: equal ones once, those that meet a corner height, a rake or an arch one by one."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.parts import Part
from storeyrod.geometry.plane import Band, Region
from storeyrod.geometry.slabs import Slab, column_parts, runs_between
from storeyrod.setting_out.course_grid import BayPerps
from storeyrod.slips.course_units import CourseUnits, lay_clear
from storeyrod.slips.courses import EqualCourses, LaidCourse
from storeyrod.slips.ragged_course import Clipper, ragged_course
from storeyrod.slips.raked_closers import ClosedEnd, CutLimits, raked_ends
from storeyrod.wall.gauge import Gauge


def laid_courses(
    region: Region, gauge: Gauge, bays: Sequence[BayPerps], foot: float, top: float, limits: CutLimits | None = None
) -> tuple[EqualCourses, ...]:
    """The courses of a region from the foot upwards; a tip that holds no more than a perp is one too.

    Between two corner heights with plumb edges only, courses of the same pattern of the bond are equal. With limits, raked ends
    are closed so that they hold them.
    """
    laying = _Laying(region, gauge, bays, limits)
    numbers = gauge.numbers(foot, top)
    made: list[EqualCourses] = []
    reached = numbers.start
    for band in region.bands if gauge.is_even else ():
        inside = _inside(band, gauge, range(reached, numbers.stop))
        if inside:
            made += laying.singly(range(reached, inside.start))
            made += laying.alike(band, inside) if band.runs is not None else laying.raked(band, inside)
            reached = inside.stop
    made += laying.singly(range(reached, numbers.stop))
    return tuple(courses for courses in made if courses.laid.has_pieces or courses.laid.perp_area)


def _inside(band: Band, gauge: Gauge, numbers: range) -> range:
    """Courses whose slips lie in a band with all of their height."""
    first = gauge.standing_at(band.low)
    first += gauge.bottom(first) < band.low
    return range(max(first, numbers.start), min(gauge.standing_at(band.high - gauge.height) + 1, numbers.stop))


@dataclass(slots=True)
class _Laying:
    """A face on which courses are laid, and the courses that are known already."""

    region: Region
    gauge: Gauge
    bays: Sequence[BayPerps]
    limits: CutLimits | None
    clear: dict[tuple[int, tuple[Interval, ...]], LaidCourse] = field(default_factory=dict)
    met: dict[tuple[int, float, tuple[Slab, ...]], LaidCourse] = field(default_factory=dict)

    @property
    def patterns(self) -> int:
        """Courses in the repeat of the bond."""
        return len(self.bays[0].patterns)

    def alike(self, band: Band, numbers: range) -> Iterator[EqualCourses]:
        """Courses in a band of plumb edges."""
        runs = band.clear
        for first in numbers[: self.patterns]:
            key = first % self.patterns, runs
            if key not in self.clear:
                units = CourseUnits(self.gauge.height)
                lay_clear(units, runs, self.bays, key[0])
                self.clear[key] = units.laid()
            yield EqualCourses(self.clear[key], range(first, numbers.stop, self.patterns))

    def raked(self, band: Band, numbers: range) -> Iterator[EqualCourses]:
        """Courses in a band with sloping edges: each is another one."""
        height, closed = self.gauge.height, list[ClosedEnd]()
        for number in numbers:
            foot = self.gauge.bottom(number)
            slab = Slab(0.0, height, runs_between(band.edges, foot, foot + height))
            pattern = number % self.patterns
            if self.limits is not None:
                closed = raked_ends(slab.runs, height, self.bays, pattern, self.limits, closed)
            laid = ragged_course([slab], height, self.bays, pattern, slab.parts, closed)
            yield EqualCourses(laid, range(number, number + 1, self.patterns))

    def singly(self, numbers: range) -> Iterator[EqualCourses]:
        """Courses that meet a corner height; equal ones recur where storeys do."""
        for number in numbers:
            foot, head = self.gauge.bottom(number), self.gauge.top(number)
            slabs = tuple(slab.lowered(foot) for slab in self.region.slabs(foot, head))
            key = number % self.patterns, head - foot, slabs
            if key not in self.met:
                self.met[key] = ragged_course(slabs, head - foot, self.bays, key[0], self._clipper(slabs, foot, head))
            yield EqualCourses(self.met[key], range(number, number + 1, self.patterns))

    def _clipper(self, slabs: Sequence[Slab], foot: float, head: float) -> Clipper:
        def clipped(left: float, right: float) -> list[Part]:
            parts = column_parts(slabs, left, right)
            if parts is None:
                parts = [part.lowered(foot) for part in self.region.cells(foot, head, [(left, right)])[0]]
            return parts

        return clipped
