"""Rows of the answer with every piece: equal courses in one row, whole units in runs, cut units one by one."""

from collections.abc import Sequence

from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import TICKS_PER_MM
from storeyrod.slips.courses import Cut, EqualCourses, LaidCourse, Run
from storeyrod.slips.models import PiecePoint, SlipCourse, SlipCut, SlipRun, SoldierPieces
from storeyrod.slips.soldiers import SoldierCourse
from storeyrod.wall.gauge import Gauge


def course_rows(courses: Sequence[EqualCourses], gauge: Gauge) -> list[SlipCourse]:
    """Courses by the lowest of each row; what lies in them is written once, however many rows share it."""
    known: dict[int, tuple[list[SlipRun], list[SlipCut]]] = {}
    rows = []
    for equal in sorted((one for one in courses if one.laid.has_pieces), key=lambda one: one.numbers.start):
        if id(equal.laid) not in known:
            known[id(equal.laid)] = _pieces(equal.laid)
        rows.append(_course(equal, gauge, *known[id(equal.laid)]))
    return rows


def _pieces(laid: LaidCourse) -> tuple[list[SlipRun], list[SlipCut]]:
    return [_run(run) for run in laid.runs], [_cut(cut, 0.0) for cut in laid.cuts]


def _course(equal: EqualCourses, gauge: Gauge, runs: list[SlipRun], cuts: list[SlipCut]) -> SlipCourse:
    numbers = equal.numbers
    return {
        "course": numbers.start,
        "every": numbers.step if len(numbers) > 1 else 1,
        "count": len(numbers),
        "y_mm": gauge.bottom(numbers.start) / TICKS_PER_MM,
        "height_mm": equal.laid.height / TICKS_PER_MM,
        "runs": runs,
        "cuts": cuts,
    }


def _run(run: Run) -> SlipRun:
    return {
        "x_mm": run.x / TICKS_PER_MM,
        "count": run.count,
        "pitch_mm": run.pitch / TICKS_PER_MM,
        "width_mm": run.width / TICKS_PER_MM,
        "kind": run.kind,
    }


def _cut(cut: Cut, foot: float) -> SlipCut:
    (left, bottom, right, top, _, shape), kind = cut
    row: SlipCut = {
        "x_mm": left / TICKS_PER_MM,
        "above_foot_mm": (bottom - foot) / TICKS_PER_MM,
        "width_mm": (right - left) / TICKS_PER_MM,
        "height_mm": (top - bottom) / TICKS_PER_MM,
        "kind": kind,
    }
    if shape:
        row["rings"] = [_ring(ring, foot) for ring in cut.part.rings]
    return row


def _ring(ring: Ring, foot: float) -> list[PiecePoint]:
    return [{"x_mm": x / TICKS_PER_MM, "above_foot_mm": (y - foot) / TICKS_PER_MM} for x, y in ring]


def soldier_pieces(course: SoldierCourse) -> SoldierPieces:
    """The soldiers over one opening."""
    foot = course.zone[1]
    return {
        "opening": course.opening.id,
        "y_mm": foot / TICKS_PER_MM,
        "height_mm": course.height / TICKS_PER_MM,
        "runs": [_run(run) for run in course.whole],
        "cuts": [_cut(cut, foot) for cut in course.cuts],
    }
