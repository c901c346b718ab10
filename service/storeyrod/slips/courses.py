"""Laying courses: where units of the grid fall in the wall, whole or cut, and the joints beside them.

A course is a band of the wall. Where the whole height of the band lies in the wall, units repeat and are counted; only units
that meet a rake, an arch or an edge inside the band are clipped one by one.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

from storeyrod.geometry.intervals import Interval, clip, difference, union
from storeyrod.geometry.plane import Part, Region
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, CourseGrid, Stretch, repeats
from storeyrod.wall.gauge import Gauge

PieceKind = Literal["stretcher", "header", "soldier"]


@dataclass(frozen=True, slots=True)
class Run:
    """Whole units of one kind at equal pitch: left end of the first, how many, pitch and length. Ticks."""

    x: float
    count: int
    pitch: float
    width: float
    kind: PieceKind

    @property
    def right(self) -> float:
        """Right end of the last unit."""
        return self.x + (self.count - 1) * self.pitch + self.width


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut unit: what is left of it in the wall."""

    part: Part
    kind: PieceKind

    @property
    def width(self) -> float:
        """Length of the cut piece, over its bounding box."""
        return self.part.right - self.part.left

    @property
    def height(self) -> float:
        """Height of the cut piece, over its bounding box."""
        return self.part.top - self.part.bottom


@dataclass(slots=True)
class Course:
    """One course of a face: whole units in runs, cut units, and the joints of the course and of the bed above. Ticks.

    ``overrun_area`` is what whole units reach past the wall by less than a hairline: they count as whole, not as larger.
    """

    number: int
    bottom: float
    top: float
    runs: list[Run] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    perp_area: float = 0.0
    perp_length: float = 0.0
    bed_area: float = 0.0
    bed_length: float = 0.0
    overrun_area: float = 0.0

    @property
    def full_count(self) -> int:
        """Whole units."""
        return sum(run.count for run in self.runs)

    @property
    def face_area(self) -> float:
        """Area of all pieces."""
        whole = sum(run.count * run.width for run in self.runs) * (self.top - self.bottom)
        return whole + sum(cut.part.area for cut in self.cuts) - self.overrun_area


@dataclass(frozen=True, slots=True)
class _Clear:
    """What a course gets where its whole height lies in the wall: equal for every course with the same runs and pattern.

    Cuts are (left, right, kind); joints are lengths along the course, in all and counted in perps.
    """

    runs: tuple[Run, ...]
    cuts: tuple[tuple[float, float, Kind], ...]
    joint: float
    perps: float
    overrun: float


def laid_courses(region: Region, gauge: Gauge, bays: Sequence[BayPerps], foot: float, top: float) -> list[Course]:
    """Every course of a region, from the foot upwards; courses without wall in them are left out."""
    courses = []
    known: dict[tuple[int, tuple[Interval, ...]], _Clear] = {}
    for number in gauge.numbers(foot, top):
        course = Course(number, gauge.bottom(number), gauge.top(number))
        above = gauge.bottom(number + 1)
        if above > course.top:
            course.bed_area = sum(slab.area for slab in region.slabs(course.top, above))
            course.bed_length = course.bed_area / (above - course.top)
        _lay(course, region, bays, known)
        if course.runs or course.cuts or course.bed_area or course.perp_area:
            courses.append(course)
    return courses


def _lay(
    course: Course, region: Region, bays: Sequence[BayPerps], known: dict[tuple[int, tuple[Interval, ...]], _Clear]
) -> None:
    clear, ragged = region.clear_and_ragged_runs(course.bottom, course.top)
    pattern = course.number % len(bays[0].patterns)
    if ragged:
        for stretch in _stretches(bays, pattern):
            columns = list(_ragged_columns(stretch, clip(ragged, stretch.left, stretch.right)))
            _lay_ragged(course, region, stretch.grid, columns)
            clear = difference(clear, union((left, right) for left, right, _ in columns))
    key = pattern, tuple(clear)
    if key not in known:
        known[key] = _clear_course(clear, bays, pattern)
    _add_clear(course, known[key])
    if ragged:
        course.runs.sort(key=lambda run: run.x)
        course.cuts.sort(key=lambda cut: (cut.part.left, cut.part.bottom))


def _add_clear(course: Course, laid: _Clear) -> None:
    height = course.top - course.bottom
    course.runs += laid.runs
    course.cuts += [
        Cut(Part(left, course.bottom, right, course.top, (right - left) * height), kind)
        for left, right, kind in laid.cuts
    ]
    course.perp_area += laid.joint * height
    course.perp_length += laid.perps * height
    course.overrun_area += laid.overrun * height


def _clear_course(clear: Sequence[Interval], bays: Sequence[BayPerps], pattern: int) -> _Clear:
    runs: list[Run] = []
    cuts: list[tuple[float, float, Kind]] = []
    joint = perps = overrun = 0.0
    for stretch in _stretches(bays, pattern):
        grid = stretch.grid
        for run in clip(clear, stretch.left, stretch.right):
            overrun += _lay_units(runs, cuts, grid, run)
            gaps = _gaps(grid, run)
            joint += gaps
            perps += gaps / grid.perp if grid.perp else 0.0
    whole = tuple(sorted(runs, key=lambda run: run.x))
    visible = tuple(cut for cut in sorted(cuts) if cut[1] - cut[0] > HAIRLINE)
    hairs = sum(right - left for left, right, _ in cuts if right - left <= HAIRLINE)
    return _Clear(whole, visible, joint + hairs, perps, overrun)


def _lay_units(runs: list[Run], cuts: list[tuple[float, float, Kind]], grid: CourseGrid, run: Interval) -> float:
    """Add the units of one run, and return how far whole ones reach past its ends."""
    overrun = 0.0
    for unit in grid.units:
        units = repeats(grid.origin + unit.offset, unit.width, grid.period, run)
        cuts += [(left, right, unit.kind) for left, right in units.parts]
        if units.count:
            laid = Run(units.first, units.count, grid.period, unit.width, unit.kind)
            runs.append(laid)
            overrun += max(0.0, run[0] - laid.x) + max(0.0, laid.right - run[1])
    return overrun


def _gaps(grid: CourseGrid, run: Interval) -> float:
    """Length of the perps in a run."""
    length = 0.0
    for unit in grid.units:
        perps = repeats(grid.origin + unit.offset + unit.width, grid.perp, grid.period, run)
        length += perps.covered(grid.perp)
        if perps.count:
            last = perps.first + (perps.count - 1) * grid.period + grid.perp
            length -= max(0.0, run[0] - perps.first) + max(0.0, last - run[1])
    return length


def _add_perps(course: Course, grid: CourseGrid, area: float) -> None:
    course.perp_area += area
    if grid.perp:
        course.perp_length += area / grid.perp


def _stretches(bays: Sequence[BayPerps], pattern: int) -> Iterator[Stretch]:
    for bay in bays:
        yield from bay.patterns[pattern]


def _ragged_columns(stretch: Stretch, ragged: Sequence[Interval]) -> Iterator[tuple[float, float, Kind | None]]:
    """Columns of units and perps that meet a ragged stretch, clipped to the stretch, each once."""
    reached = -math.inf
    for low, high in ragged:
        for left, right, kind in stretch.grid.columns(low, high):
            inside = max(left, stretch.left), min(right, stretch.right)
            if inside[0] >= reached - HAIRLINE and inside[1] > inside[0]:
                reached = inside[1]
                yield *inside, kind


def _lay_ragged(
    course: Course, region: Region, grid: CourseGrid, columns: Sequence[tuple[float, float, Kind | None]]
) -> None:
    widths = {unit.kind: unit.width for unit in grid.units}
    height = course.top - course.bottom
    cells = region.cells(course.bottom, course.top, [(left, right) for left, right, _ in columns])
    joint = 0.0
    for (_, _, kind), parts in zip(columns, cells, strict=True):
        for part in parts:
            width = part.right - part.left
            if kind is None or width <= HAIRLINE or part.top - part.bottom <= HAIRLINE:
                joint += part.area
            elif part.is_rectangle and width >= widths[kind] - HAIRLINE and part.top - part.bottom >= height - HAIRLINE:
                course.runs.append(Run(part.left, 1, grid.period, width, kind))
                course.overrun_area += width * height - part.area
            else:
                course.cuts.append(Cut(part, kind))
    _add_perps(course, grid, joint)
