"""Base trim on level runs: where wall stands on them, where the trim steps, and where else it ends."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from storeyrod.geometry.intervals import Interval, clip
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps
from storeyrod.setting_out.stepped_base import LevelRun
from storeyrod.setting_out.wall_levels import ON_COURSE
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge

STOP_ENDS_AT_STEP = 2
"""One closes the lower run, one the upper."""

Trim = tuple[float, float, float]
"""Left, right and height of a length of trim, in ticks."""


@dataclass(frozen=True, slots=True)
class TrimEnds:
    """Stop ends at steps, other ends to be closed, and heights of the steps in ticks."""

    at_steps: int
    others: int
    rises: tuple[float, ...]


def wall_at(face: Face, level: float) -> list[Interval]:
    """Where wall stands just over a level; a threshold that lies on it within the limit of a course counts as opening."""
    return face.region.clear_runs(level + ON_COURSE, level + ON_COURSE + HAIRLINE)


def trims_on(face: Face, runs: Sequence[LevelRun], gauge: Gauge) -> list[list[Trim]]:
    """Trims of each run."""
    made = []
    for run in runs:
        level = gauge.bottom(run.course)
        stands = clip(wall_at(face, level), run.left, run.right)
        made.append([(left, right, level) for left, right in stands if right - left >= HAIRLINE])
    return made


def ends_of(trims: Sequence[Trim], face: Face) -> TrimEnds:
    """Ends of trims in their order from left to right.

    Where one ends and the next goes on at another height, both are closed. Every other end is closed too, at jambs and free ends;
    at corners the trim turns, and at an abutment it butts.
    """
    meeting = [(before, after) for before, after in pairwise(trims) if abs(before[1] - after[0]) < HAIRLINE]
    rises = tuple(after[2] - before[2] for before, after in meeting if before[2] != after[2])
    others = 2 * len(trims) - 2 * len(meeting) - sum(1 for trim in trims for _ in _carried_on(trim, face))
    return TrimEnds(STOP_ENDS_AT_STEP * len(rises), others, rises)


def _carried_on(trim: Trim, face: Face) -> Iterator[bool]:
    """Ends of a trim that lie at an end of the face which is not free."""
    if abs(trim[0] - face.left) < HAIRLINE and face.edge("left").kind != "free_end":
        yield True
    if abs(trim[1] - face.right) < HAIRLINE and face.edge("right").kind != "free_end":
        yield True


def perp_before(out: FaceSetOut, course: int, limit: float, level: float, *, rising: bool) -> float:
    """Nearest place on the lower side of a step's limit where the course on the upper level starts with a unit.

    That is the end of a perp, or where the wall itself starts; the limit stands where no wall does, as in a doorway.
    """
    runs = wall_at(out.face, level)
    if rising:
        return _start_before(out.bays, course, limit, runs)
    mirrored = [(-right, -left) for left, right in reversed(runs)]
    return -_start_before([bay.mirrored() for bay in reversed(out.bays)], course, -limit, mirrored)


def _start_before(bays: Sequence[BayPerps], course: int, limit: float, runs: Sequence[Interval]) -> float:
    wall = next((run for run in runs if run[0] <= limit < run[1]), None)
    if wall is None:
        return limit
    starts = [wall[0]]
    for bay in bays:
        for stretch in bay.patterns[course % len(bay.patterns)]:
            low, high = max(stretch.left, wall[0]), min(stretch.right, limit)
            back = high - stretch.grid.period - stretch.grid.perp
            starts += [
                min(right, limit)
                for _, right, kind in stretch.grid.columns(back, high)
                if kind is None and low <= right <= high + HAIRLINE
            ]
    return max(starts)
