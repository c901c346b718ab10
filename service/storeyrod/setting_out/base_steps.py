"""The foot of an elevation: as it is drawn, and in whole courses over its ground."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from storeyrod.findings import Finding, finding, refuse
from storeyrod.geometry.intervals import total
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres, square_metres, ticks
from storeyrod.reference.documents import GEOMETRY
from storeyrod.setting_out.base_trims import Trim, ends_of, perp_before, trims_on
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.setting_out.level_models import BaseRun, BaseStep, ElevationBase
from storeyrod.setting_out.stepped_base import LevelRun, courses_of, foot_line, stepped_runs
from storeyrod.setting_out.stepped_outline import SteppedWall, stepped_wall
from storeyrod.setting_out.wall_levels import ON_COURSE
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.checks import least_clearance
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.ground import Stretch, ground_of
from storeyrod.wall.wall import Wall

MOST_STEPS: Final = 10_000
"""House limit: course lines that the ground of one elevation crosses."""


@formula(
    symbol="x_step",
    expression="x_1 + (y - c - y_1)*(x_2 - x_1)/(y_2 - y_1)",
    unit="mm",
    inputs={"x_1": "mm", "y_1": "mm", "x_2": "mm", "y_2": "mm", "y": "mm", "c": "mm"},
    clause=GEOMETRY,
)
def step_limit(*, x_1: float, y_1: float, x_2: float, y_2: float, y: float, c: float) -> float:
    """Where ground from (x_1, y_1) to (x_2, y_2) comes closer than c to a base at level y."""
    return x_1 + (y - c - y_1) * (x_2 - x_1) / (y_2 - y_1)


def elevation_base(
    face: Face, wall: Wall, out: FaceSetOut, trace: Trace = SILENT
) -> tuple[ElevationBase, list[Finding]]:
    """Runs, steps and trims of the foot as drawn and, where ground is given, of the lowest base in whole courses over it.

    Raises ``size-limit`` for ground that would need more than 10 000 steps.
    """
    trims = face.base_runs()
    ends = ends_of(trims, face)
    row: ElevationBase = {
        "elevation": face.id,
        "as_drawn": _drawn_runs(face, trims, wall.gauge),
        "as_drawn_trim_mm": _length(trims, face, trace),
        "as_drawn_stop_ends_count": ends.at_steps,
        "as_drawn_other_ends_count": ends.others,
        "as_drawn_upright_trim_mm": _upright(ends.rises, face, trace),
    }
    ground = ground_of(face)
    if not ground:
        return row, []
    closest = least_clearance(face, ground)
    if closest is not None:
        row["least_clearance_mm"] = millimetres(closest[0])
    return row, _step(row, face, wall, out, ground, trace)


def _drawn_runs(face: Face, trims: Sequence[Trim], gauge: Gauge) -> list[BaseRun]:
    edges = pairwise((*face.outline, face.outline[0]))
    return [
        {
            "course": _course_at(gauge, height),
            "level_mm": millimetres(height),
            "x_from_mm": millimetres(left),
            "x_to_mm": millimetres(right),
            "trim_mm": millimetres(total((a, b) for a, b, at in trims if at == height and left <= a and b <= right)),
        }
        for left, right, height in sorted((a[0], b[0], a[1]) for a, b in edges if a[1] == b[1] and a[0] < b[0])
    ]


def _course_at(gauge: Gauge, level: float) -> int:
    return gauge.nearest(level) if abs(gauge.off_course(level)) <= ON_COURSE else gauge.standing_at(level)


def _length(trims: Sequence[Trim], face: Face, trace: Trace) -> float:
    terms = [(f"trim at {millimetres(y):g} mm", millimetres(right - left), face.pointer) for left, right, y in trims]
    return trace.measure("L_base", "mm", terms)


def _upright(rises: Sequence[float], face: Face, trace: Trace) -> float:
    return trace.measure("L_upright", "mm", [("step", millimetres(abs(rise)), face.pointer) for rise in rises])


def _step(
    row: ElevationBase, face: Face, wall: Wall, out: FaceSetOut, ground: Sequence[Stretch], trace: Trace
) -> list[Finding]:
    """Fill in the base over the ground."""
    runs = _lowest(face, wall.gauge, ground)
    trims = trims_on(face, runs, wall.gauge)
    together = [trim for part in trims for trim in part]
    limits = [_limit(face, pair, wall.gauge, ground, trace) for pair in pairwise(runs)]
    ends = ends_of(together, face)
    row["runs"] = _run_rows(runs, trims, limits, wall.gauge)
    row["steps"] = [_step_row(pair, limit, wall.gauge, out) for pair, limit in zip(pairwise(runs), limits, strict=True)]
    row["trim_mm"] = _length(together, face, trace)
    row["stop_ends_count"], row["other_ends_count"] = ends.at_steps, ends.others
    row["upright_trim_mm"] = _upright(ends.rises, face, trace)
    stepped = stepped_wall(face, runs, wall.gauge)
    return [] if stepped is None else _stepped(row, stepped, face, trace)


def _lowest(face: Face, gauge: Gauge, ground: Sequence[Stretch]) -> list[LevelRun]:
    foot = foot_line(face.outline)
    courses = courses_of(foot, face.top, gauge)
    crossed = courses.crossed(ground)
    if crossed > MOST_STEPS:
        detail = f"The ground crosses {crossed} courses, over {MOST_STEPS}; give fewer points."
        raise refuse("size-limit", f"{face.members_pointer}/base/ground", detail)
    base = face.elevation.base
    return stepped_runs(foot, ground, ticks(base.clearance_mm) if base is not None else 0.0, courses)


def _limit(face: Face, pair: tuple[LevelRun, LevelRun], gauge: Gauge, ground: Sequence[Stretch], trace: Trace) -> float:
    """Place of a step in mm: where the ground slopes up to the lower run, by its formula; else at a corner of foot or ground."""
    before, after = pair
    place, lower = before.right, gauge.bottom(min(before.course, after.course))
    base = face.elevation.base
    clearance = base.clearance_mm if base is not None else 0.0
    for (x1, y1), (x2, y2) in ground:
        if y1 == y2 or not x1 <= place <= x2:
            continue
        if abs(x1 + (lower - ticks(clearance) - y1) * (x2 - x1) / (y2 - y1) - place) < HAIRLINE:
            pointer = f"{face.members_pointer}/base/ground"
            return trace.call(
                step_limit,
                x_1=trace.given(millimetres(x1), pointer),
                y_1=trace.given(millimetres(y1), pointer),
                x_2=trace.given(millimetres(x2), pointer),
                y_2=trace.given(millimetres(y2), pointer),
                y=trace.lookup("y", millimetres(lower), "mm", GEOMETRY),
                c=trace.given(clearance, f"{face.members_pointer}/base/clearance_mm"),
            )
    return millimetres(place)


def _run_rows(
    runs: Sequence[LevelRun], trims: Sequence[Sequence[Trim]], limits: Sequence[float], gauge: Gauge
) -> list[BaseRun]:
    ends = pairwise([millimetres(runs[0].left), *limits, millimetres(runs[-1].right)])
    return [
        {
            "course": run.course,
            "level_mm": millimetres(gauge.bottom(run.course)),
            "x_from_mm": left,
            "x_to_mm": right,
            "trim_mm": millimetres(sum(trim[1] - trim[0] for trim in part)),
        }
        for run, part, (left, right) in zip(runs, trims, ends, strict=True)
    ]


def _step_row(pair: tuple[LevelRun, LevelRun], limit_mm: float, gauge: Gauge, out: FaceSetOut) -> BaseStep:
    before, after = pair
    rising = after.course > before.course
    upper = max(before.course, after.course)
    start, end = gauge.bottom(before.course), gauge.bottom(after.course)
    perp = perp_before(out, upper, before.right, gauge.bottom(upper), rising=rising)
    return {
        "from_level_mm": millimetres(start),
        "to_level_mm": millimetres(end),
        "limit_x_mm": limit_mm,
        "at_perp_x_mm": limit_mm if perp == before.right else millimetres(perp),
        "rise_mm": millimetres(end - start),
        "courses_count": abs(after.course - before.course),
    }


def _stepped(row: ElevationBase, stepped: SteppedWall, face: Face, trace: Trace) -> list[Finding]:
    """Fill in the wall over the base; what no outline can hold is reported."""
    area = square_metres(stepped.net_area)
    row["stepped_net_area_m2"] = trace.measure("A_net", "m2", [("wall over the base", area, face.pointer)])
    if stepped.outline is None:
        return [finding("stepped-base-unfit", {"pointer": f"{face.members_pointer}/base", "elevation": face.id})]
    row["stepped_outline"] = [{"x_mm": x / TICKS_PER_MM, "y_mm": y / TICKS_PER_MM} for x, y in stepped.outline]
    return []
