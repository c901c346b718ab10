"""Piers of a bay: runs of whole courses between two plumb lines, short of the whole bay."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from storeyrod.geometry.intervals import Interval, difference, union
from storeyrod.geometry.plane import Box
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps
from storeyrod.setting_out.plumb_lines import End, JambLine, PlumbLines
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge

ClearCourses = Mapping[int, Sequence[Interval]]
"""Where the whole height of each course's slips stands in the wall, by its number."""


@dataclass(frozen=True, slots=True)
class Pier:
    """A run between two plumb lines: its ends in ticks, its courses from the lowest, and the jambs among its ends."""

    ends: Interval
    courses: tuple[int, ...]
    jambs: tuple[JambLine, ...]

    @property
    def kind(self) -> Literal["pier", "end_pier"]:
        """Between two openings, or between one and an end."""
        return "pier" if {jamb.ends_run for jamb in self.jambs} == {"left", "right"} else "end_pier"


def clear_courses(face: Face, gauge: Gauge, upright: Sequence[Box] = ()) -> ClearCourses:
    """Where the courses of a face stand with their whole height, features and zones of upright slips left out."""
    clear: dict[int, Sequence[Interval]] = {}
    for number in gauge.numbers(face.foot, face.top):
        low, high = gauge.bottom(number), gauge.top(number)
        standing = union((left, right) for left, foot, right, top in upright if foot < high and low < top)
        runs = difference(face.slip_region.clear_runs(low, high), standing)
        if runs:
            clear[number] = runs
    return clear


def piers_of(bay: BayPerps, clear: ClearCourses, lines: PlumbLines, gauge: Gauge) -> list[Pier]:
    """The piers of a bay from the bottom, then from the left; what ends at a rake or an arch is left out."""
    courses: dict[Interval, list[int]] = {}
    jambs: dict[Interval, list[JambLine]] = {}
    for number, runs in clear.items():
        band = gauge.bottom(number), gauge.top(number)
        for run in runs:
            if run[1] - run[0] <= HAIRLINE or spans(bay, run):
                continue
            found = [_end(bay, run, end, band, lines) for end in _ENDS]
            if None not in found:
                courses.setdefault(run, []).append(number)
                met = jambs.setdefault(run, [])
                met += [one for one in found if isinstance(one, JambLine) and one not in met]
    made = [Pier(run, tuple(numbers), tuple(jambs[run])) for run, numbers in courses.items()]
    return sorted(made, key=lambda pier: (pier.courses[0], pier.ends))


_ENDS: tuple[End, End] = ("left", "right")


def spans(bay: BayPerps, run: Interval) -> bool:
    """Whether a run is the whole bay."""
    return run[0] <= bay.left + HAIRLINE and run[1] >= bay.right - HAIRLINE


def _end(bay: BayPerps, run: Interval, end: End, band: Interval, lines: PlumbLines) -> JambLine | Literal["end"] | None:
    """What stands at an end of a run: a jamb, a plumb end of the wall, or nothing plumb."""
    x, limit = (run[0], bay.left) if end == "left" else (run[1], bay.right)
    jamb = lines.jamb_at(x, end, band)
    if jamb is not None:
        return jamb
    return "end" if x == limit or lines.is_plumb(x, band) else None
