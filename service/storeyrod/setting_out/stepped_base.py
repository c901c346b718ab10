"""The lowest base in whole courses that keeps clear of the ground.

Over every place the base stands on the lowest course line that is neither below the drawn foot nor closer to the ground than
asked. Going up to the right a step then stands as late as it may, going down as early.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from storeyrod.geometry.plane import Ring
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.setting_out.wall_levels import ON_COURSE
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.ground import Stretch


@dataclass(frozen=True, slots=True)
class LevelRun:
    """A level length of the base: its ends in ticks, and the course that stands on it."""

    left: float
    right: float
    course: int


def foot_line(outline: Ring) -> list[Stretch]:
    """The lower boundary of an outline from left to right: of the edges over a place with wall above them, the lowest."""
    edges = sorted((a, b) for a, b in pairwise((*outline, outline[0])) if a[0] < b[0])
    places = sorted({x for edge in edges for x, _ in edge})
    line: list[Stretch] = []
    active: list[Stretch] = []
    coming = iter(edges)
    upcoming = next(coming, None)
    for left, right in pairwise(places):
        while upcoming is not None and upcoming[0][0] <= left:
            active.append(upcoming)
            upcoming = next(coming, None)
        active = [edge for edge in active if edge[1][0] > left]
        if active:
            middle = (left + right) / 2.0
            lowest = min(active, key=lambda edge: _height(edge, middle))
            line.append(((left, _height(lowest, left)), (right, _height(lowest, right))))
    return line


def _height(edge: Stretch, x: float) -> float:
    (x0, y0), (x1, y1) = edge
    if x in (x0, x1):
        return y0 if x == x0 else y1
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


@dataclass(frozen=True, slots=True)
class Courses:
    """The gauge with the lowest and highest course that a base may have: past the top of the wall none is told from another."""

    gauge: Gauge
    lowest: int
    highest: int

    def over(self, level: float) -> int:
        """Lowest course whose foot is at or above a level."""
        number = self.gauge.nearest(level)
        number = number if self.gauge.bottom(number) >= level else number + 1
        return min(max(number, self.lowest), self.highest)

    def crossed(self, stretches: Sequence[Stretch]) -> int:
        """Course lines that stretches cross, for the size of the answer."""
        return sum(abs(self.over(end[1]) - self.over(start[1])) for start, end in stretches)


def courses_of(foot: Sequence[Stretch], top: float, gauge: Gauge) -> Courses:
    """Courses from the lowest place of a foot to the first line past the top of the wall."""
    lowest = min(y for stretch in foot for _, y in stretch) - ON_COURSE
    return Courses(gauge, gauge.standing_at(lowest), gauge.standing_at(top) + 1)


def stepped_runs(
    foot: Sequence[Stretch], ground: Sequence[Stretch], clearance: float, courses: Courses
) -> list[LevelRun]:
    """Level runs of the lowest base over a foot, from left to right. Ticks."""
    drawn = [run for stretch in foot for run in _over(stretch, -ON_COURSE, courses)]
    clear = [run for stretch in ground for run in _over(stretch, clearance, courses)]
    return _joined(_without_slivers(_joined(_higher(drawn, clear))))


def _over(stretch: Stretch, lift: float, courses: Courses) -> Iterator[LevelRun]:
    """Lowest runs at or above a straight line that is lifted, from left to right."""
    (x0, y0), (x1, y1) = stretch
    if y0 <= y1:
        yield from _rising((x0, y0 + lift), (x1, y1 + lift), courses)
        return
    mirrored = list(_rising((-x1, y1 + lift), (-x0, y0 + lift), courses))
    yield from (LevelRun(-run.right, -run.left, run.course) for run in reversed(mirrored))


def _rising(start: tuple[float, float], end: tuple[float, float], courses: Courses) -> Iterator[LevelRun]:
    (x0, y0), (x1, y1) = start, end
    left, course, last = x0, courses.over(y0), courses.over(y1)
    while course < last:
        right = x0 + (courses.gauge.bottom(course) - y0) * (x1 - x0) / (y1 - y0)
        if right > left:
            yield LevelRun(left, right, course)
            left = right
        course += 1
    if x1 > left:
        yield LevelRun(left, x1, last)


def _higher(drawn: Sequence[LevelRun], clear: Sequence[LevelRun]) -> Iterator[LevelRun]:
    """The higher of two bases at every place of the first; the second may leave places out."""
    places = sorted({x for run in (*drawn, *clear) for x in (run.left, run.right)})
    below, above = iter(drawn), iter(clear)
    first, second = next(below, None), next(above, None)
    for left, right in pairwise(places):
        while first is not None and first.right <= left:
            first = next(below, None)
        while second is not None and second.right <= left:
            second = next(above, None)
        if first is not None and first.left <= left:
            also = second.course if second is not None and second.left <= left else first.course
            yield LevelRun(left, right, max(first.course, also))


def _joined(runs: Iterable[LevelRun]) -> list[LevelRun]:
    joined: list[LevelRun] = []
    for run in runs:
        if joined and joined[-1].course == run.course:
            joined[-1] = LevelRun(joined[-1].left, run.right, run.course)
        else:
            joined.append(run)
    return joined


def _without_slivers(runs: Sequence[LevelRun]) -> list[LevelRun]:
    """The runs without those that rounding leaves between two others: the higher neighbour takes their place."""
    kept = [run for run in runs if run.right - run.left >= HAIRLINE]
    meets = [
        before.right if before.course < after.course and before.right < after.left else after.left
        for before, after in pairwise(kept)
    ]
    ends = [kept[0].left, *meets, kept[-1].right]
    return [LevelRun(left, right, run.course) for run, (left, right) in zip(kept, pairwise(ends), strict=True)]
