"""What is marked on a bay: the two courses from which perps are spaced, and the plumb lines carried up and down from them.

The gang spaces the perps of two neighbouring courses at the middle of a board's height, where all of a board is in reach, and
plumbs the other courses from them (common practice, no source). Every fourth perp gets a line; the trade has every fourth or
fifth.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final, Literal

from storeyrod.geometry.intervals import Interval, clip, intersection, total
from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.setting_out.bond_models import PerpMark, SetOutCourse
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, CourseGrid, widest_perp
from storeyrod.setting_out.piers import ClearCourses, spans
from storeyrod.setting_out.plumb_lines import PlumbLines
from storeyrod.setting_out.quoin_closers import neighbourhood_of, with_closers
from storeyrod.wall.face import Face, Side
from storeyrod.wall.wall import Wall

MARKED: Final = 4
"""Every so many perps get a plumb line (house; trade habit is every fourth or fifth)."""

Carry = Literal["up", "down", "up_and_down"]


def set_out_courses(face: Face, bay: BayPerps, clear: ClearCourses, wall: Wall) -> list[int]:
    """The two courses from which the perps of a bay are spaced, lower one first; fewer where the bay has fewer.

    ``clear`` is where courses stand in the bay. Boards stand from the lowest course of the wall. The lowest row of them is taken in which both courses at its middle run
    across the bay, else the one where they run farthest; a bay that no such row meets takes the pair that runs farthest.
    """
    for pairs in (_middles_of_rows(face, wall), pairwise(clear)):
        best = _farthest(bay, clear, pairs)
        if best:
            return best
    return list(clear)[:1]


def _middles_of_rows(face: Face, wall: Wall) -> Iterator[tuple[int, int]]:
    """For each row of boards, from the lowest, the courses below and above the course line nearest to its middle.

    Rows end at level joints and start anew over them; one of a single course has no such pair.
    """
    gauge, height = wall.gauge, ticks(wall.system.board.cover_height_mm)
    foot = gauge.bottom(gauge.standing_at(wall.foot))
    while foot < face.top:
        joint = next((one for one in wall.storey_joints if foot < one.bottom <= foot + height), None)
        head = joint.bottom if joint is not None else foot + height
        upper = gauge.nearest((foot + head) / 2.0)
        if gauge.bottom(upper - 1) >= foot:
            yield upper - 1, upper
        foot = joint.top if joint is not None else head


def _farthest(bay: BayPerps, clear: ClearCourses, pairs: Iterable[tuple[int, int]]) -> list[int]:
    """The first pair that runs across the bay, or the first of those that run farthest; none if none has wall."""
    best, farthest = [], HAIRLINE
    for lower, upper in pairs:
        both = intersection(clear.get(lower, ()), clear.get(upper, ()))
        if any(spans(bay, run) for run in both):
            return [lower, upper]
        if total(both) > farthest + HAIRLINE:
            best, farthest = [lower, upper], total(both)
    return best


def set_out_rows(bay: BayPerps, numbers: Sequence[int], clear: ClearCourses, wall: Wall) -> list[SetOutCourse]:
    """Rows of the answer for those courses."""
    return [
        {
            "course": number,
            "y_mm": (wall.gauge.bottom(number) + wall.gauge.top(number)) / 2.0 / TICKS_PER_MM,
            "perps_x_mm": [x / TICKS_PER_MM for x in middles_of_perps(bay, number, clear)],
        }
        for number in numbers
    ]


def middles_of_perps(bay: BayPerps, number: int, clear: ClearCourses) -> list[float]:
    """Middles of the perps of a course that stand in the wall, each from the origin of its grid, in ticks."""
    runs = clear.get(number, ())
    found = []
    pattern = number % len(bay.patterns)
    near = neighbourhood_of(bay, pattern)
    for stretch in bay.patterns[pattern]:
        for run in clip(runs, stretch.left, stretch.right):
            closed = with_closers(stretch.grid, run, near)
            found += [(left + right) / 2.0 for left, right in closed.perps]
            found += _middles(stretch.grid, closed.rest)
    return sorted(found)


def _middles(grid: CourseGrid, run: Interval) -> Iterator[float]:
    low, high = run
    for left, right, kind in grid.columns(low, high):
        middle = (left + right) / 2.0
        if kind is None and low < middle < high:
            yield middle


def _inside(x: float, runs: Sequence[Interval]) -> bool:
    return any(low < x < high for low, high in runs)


def plumb_marks(
    bay: BayPerps, rows: Sequence[SetOutCourse], clear: ClearCourses, lines: PlumbLines, start: Side
) -> list[PerpMark]:
    """Plumb lines of a bay from left to right: its ends, its jambs, and every fourth perp of the even set-out course.

    Perps are counted from the end where the bond starts; one beside a jamb or end needs no line of its own. Each line goes the
    way in which whole courses stand beyond the set-out ones; one that has none either way is left out.
    """
    if not rows:
        return []
    below = [runs for number, runs in clear.items() if number < rows[0]["course"]]
    above = [runs for number, runs in clear.items() if number > rows[-1]["course"]]
    width = widest_perp([bay])
    marks: dict[float, PerpMark] = {}
    for x, beside, what in _places(bay, rows, lines, start):
        carry = _carry(
            up=any(_inside(beside, runs) for runs in above), down=any(_inside(beside, runs) for runs in below)
        )
        beside_another = what == "perp" and any(abs(x - other) <= width for other in marks)
        if carry is not None and x not in marks and not beside_another:
            marks[x] = {"x_mm": x / TICKS_PER_MM, "what": what, "carry": carry}
    return [marks[x] for x in sorted(marks)]


def _places(
    bay: BayPerps, rows: Sequence[SetOutCourse], lines: PlumbLines, start: Side
) -> Iterator[tuple[float, float, Literal["perp", "jamb", "end"]]]:
    """Places of the marks, a place in the wall beside each, and what they mark; ends before jambs before perps."""
    yield bay.left, bay.left + HAIRLINE, "end"
    yield bay.right, bay.right - HAIRLINE, "end"
    for jamb in lines.jambs:
        if bay.left < jamb.x < bay.right:
            yield jamb.x, jamb.x + (HAIRLINE if jamb.ends_run == "left" else -HAIRLINE), "jamb"
    even = next((row for row in rows if row["course"] % 2 == 0), rows[0])
    perps = even["perps_x_mm"][:: -1 if start == "right" else 1]
    for x_mm in perps[MARKED - 1 :: MARKED]:
        yield x_mm * TICKS_PER_MM, x_mm * TICKS_PER_MM, "perp"


def _carry(*, up: bool, down: bool) -> Carry | None:
    if up and down:
        return "up_and_down"
    return "up" if up else "down" if down else None
