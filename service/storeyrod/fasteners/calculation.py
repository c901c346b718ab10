"""Fasteners of a request: lay the boards, set the pattern on every piece, and count by stage."""

from storeyrod.answer import Answer, assumptions_of, refuse_cautions, unique
from storeyrod.boards.chosen_layout import chosen_layout
from storeyrod.fasteners.face_fasteners import FaceFasteners, PieceFasteners
from storeyrod.fasteners.loads import Loads
from storeyrod.fasteners.models import (
    ElevationFasteners,
    FastenerPosition,
    FastenerScheduleRequest,
    FastenerScheduleResult,
)
from storeyrod.fasteners.pattern import density, full_board_count
from storeyrod.fasteners.schedule import FastenerSchedule, set_fasteners
from storeyrod.fasteners.stages import STAGES
from storeyrod.findings import Finding
from storeyrod.geometry.ticks import TICKS_PER_MM, square_metres
from storeyrod.movement_joints.assumed import joint_assumptions
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.options import Options
from storeyrod.site.reminders import fire_reminders
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.wall import wall_of

NOT_CHECKED = (
    "The pattern of fasteners is common practice and has no source: wind, pull-out from the substrate, pull-through and weight "
    "were not checked. Whoever is responsible under the local code must check them and decide the number and kind.",
    "Lengths of fasteners, the substrate and what it needs (tests, edge distances, unsound render) were not looked at.",
    "The least spacing is kept inside a piece; across a seam only the two edge distances keep fasteners apart.",
)


def calculate(request: FastenerScheduleRequest, trace: Trace = SILENT) -> Answer[FastenerScheduleResult]:
    """Fasteners of every piece of board: where they go, and at which stage of the work.

    Rules are in ``places`` and ``stages``.
    """
    wall = wall_of(request.elevations, request.system)
    plans = joint_plans(wall, trace)
    layout = chosen_layout(wall, plans, request.options.effort)
    schedule = set_fasteners(wall, layout, loads_of(request), trace)
    result = fastener_result(schedule, request.options, trace)
    joint_findings = [item for plan in plans for item in plan.findings]
    findings = unique([*_fire(request), *wall.findings, *joint_findings, *layout.findings, *schedule.findings])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [*assumptions_of(request), *joint_assumptions(wall, plans)]
    return Answer(result, findings, assumptions, list(NOT_CHECKED))


def _fire(request: FastenerScheduleRequest) -> list[Finding]:
    """Reminders of fire codes, where a site is given."""
    if request.site is None:
        return []
    board = request.system.board
    return fire_reminders(request.site, "/site", board.reaction_to_fire, board.thickness_mm)


def loads_of(request: FastenerScheduleRequest) -> Loads:
    """What acts on the fasteners of a request."""
    return Loads(request.wind, request.substrate, request.partial_factors)


def fastener_result(schedule: FastenerSchedule, options: Options, trace: Trace = SILENT) -> FastenerScheduleResult:
    """Counts by elevation and stage and, unless a summary is asked for, every position."""
    totals = [_total(face, trace) for face in schedule.faces]
    rows = [_elevation(face, count, trace) for face, count in zip(schedule.faces, totals, strict=True)]
    total = trace.sum("n", "count", totals)
    area = trace.sum("A", "m2", [row["piece_area_m2"] for row in rows])
    result: FastenerScheduleResult = {
        "fasteners_count": int(total),
        "first_count": sum(row["first_count"] for row in rows),
        "rest_count": sum(row["rest_count"] for row in rows),
        "after_trim_count": sum(row["after_trim_count"] for row in rows),
        "density_per_m2": _density(total, area, trace),
        "full_board_count": int(full_board_count(schedule.system, trace)),
        "elevations": rows,
    }
    if options.detail == "pieces":
        pieces = [piece for face in schedule.faces for piece in face.pieces]
        result["pieces"] = [{"piece": one.piece.id, "fasteners_count": len(one.places)} for one in pieces]
        result["positions"] = [position for one in pieces for position in _positions(one)]
    return result


def _total(face: FaceFasteners, trace: Trace) -> float:
    pointer = face.face.pointer
    return trace.count("n", [(stage, face.count_of(stage), pointer) for stage in STAGES])


def _density(total: float, area: float, trace: Trace) -> float:
    """Nothing where no board stands, as on a face that an internal corner or linings take up."""
    return trace.call(density, n=total, A=area) if area else trace.sum("rho", "per_m2", [])


def _elevation(face: FaceFasteners, total: float, trace: Trace) -> ElevationFasteners:
    pointer = face.face.pointer
    first, rest, after_trim = (face.count_of(stage) for stage in STAGES)
    whole = square_metres(sum(one.piece.part.area for one in face.pieces))
    area = trace.measure("A", "m2", [("pieces of board", whole, pointer)])
    return {
        "elevation": face.face.id,
        "fasteners_count": int(total),
        "first_count": first,
        "rest_count": rest,
        "after_trim_count": after_trim,
        "piece_area_m2": area,
        "density_per_m2": _density(total, area, trace),
    }


def _positions(fasteners: PieceFasteners) -> list[FastenerPosition]:
    name = fasteners.piece.id
    return [
        {"piece": name, "x_mm": x / TICKS_PER_MM, "y_mm": y / TICKS_PER_MM, "stage": stage}
        for (x, y), stage in zip(fasteners.places, fasteners.stages, strict=True)
    ]
