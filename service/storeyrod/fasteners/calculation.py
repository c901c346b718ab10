"""Fasteners of a request: lay the boards, set the pattern on every piece, and count by stage."""

from storeyrod.answer import Answer, Assumed, Assumption, assumptions_of, refuse_cautions, stated, unique
from storeyrod.boards.chosen_layout import chosen_layout
from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.fasteners.lengths import NOT_ASSESSED, length_assumptions, length_of
from storeyrod.fasteners.loads import Loads
from storeyrod.fasteners.models import (
    ElevationFasteners,
    FastenerScheduleRequest,
    FastenerScheduleResult,
)
from storeyrod.fasteners.pattern import density, full_board_count
from storeyrod.fasteners.proof_tests import failure_findings, proof_tests_of
from storeyrod.fasteners.schedule import FastenerSchedule, set_fasteners
from storeyrod.fasteners.schedule_rows import heat_row, piece_rows, position_rows, resistance_row, zone_rows
from storeyrod.fasteners.stages import STAGES
from storeyrod.fasteners.substrate_edges import edge_findings
from storeyrod.findings import Finding
from storeyrod.geometry.ticks import square_metres
from storeyrod.movement_joints.assumed import joint_assumptions
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.options import Options
from storeyrod.reference.documents import HOUSE
from storeyrod.site.occupational import CAUTIONS
from storeyrod.site.reminders import SAID_OF_FIRE, fire_reminders
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.flatness import flatness_row
from storeyrod.wall.substrate_models import Substrate
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of
from storeyrod.wind import calculation as wind

NOT_CHECKED = (
    "The pattern of fasteners is common practice and has no source: it is a minimum and no wind check. Whoever is responsible under "
    "the local code must decide the number and kind.",
    "Bending and shear of fasteners under the weight of the cladding, movement and corrosion were not looked at, nor was the "
    "condition of the substrate: unsound render, voids, cracks, and joints of masonry behind a head.",
    "The least spacing is kept inside a piece; across a seam only the two edge distances keep fasteners apart.",
    *SAID_OF_FIRE,
    *CAUTIONS,
    "The foot of a wall and its ends at abutments, internal corners and movement joints were taken for no edges of the substrate. "
    "Fasteners that stand closer to another edge, for want of room, are named where wind or a resistance is given.",
)

_WITHOUT_WIND = (
    "Wind was not given: no suction, no action and no number of fasteners was worked out, and nothing was held against pull-out or "
    "pull-through."
)
_WITH_WIND = (
    "The action on a piece is shared by its fasteners alike: prying, bending of the board between them, and adhesive behind it were "
    "not counted."
)
_WITHOUT_HEADS = "Pull-through of the boards at the heads of fasteners was not assessed: its resistance was not given."
_WITHOUT_HEAT = "Heat through the fasteners of the schedule was not worked out: fastener.chi_w_per_k was not given."
_HEADS_NEAR_EDGES = (
    "Pull-through was not assessed on pieces with heads near an edge: fastener.pull_through.joint_kn was not given, and nothing is "
    "borrowed from heads away from edges."
)


def not_checked(schedule: FastenerSchedule) -> list[str]:
    """What a schedule leaves to others, by what its request gave."""
    fastener, substrate = schedule.system.fastener, schedule.loads.substrate
    said = [] if fastener.embedment_mm is not None and substrate is not None else [NOT_ASSESSED]
    said += [_WITHOUT_HEAT] if fastener.chi_w_per_k is None else []
    if schedule.wind is None:
        return [_WITHOUT_WIND, *said, *NOT_CHECKED]
    return [_WITH_WIND, *_heads_not_checked(schedule), *said, *NOT_CHECKED]


def _heads_not_checked(schedule: FastenerSchedule) -> list[str]:
    if schedule.system.fastener.pull_through is None:
        return [_WITHOUT_HEADS]
    needs = [kind.need for face in schedule.faces for kind in face.different if kind.need is not None and kind.total]
    return [_HEADS_NEAR_EDGES] if any(need.pull_through is None for need in needs) else []


def calculate(request: FastenerScheduleRequest, trace: Trace = SILENT) -> Answer[FastenerScheduleResult]:
    """Fasteners of every piece of board: where they go, and at which stage of the work.

    Rules are in ``places`` and ``stages``.
    """
    wall = wall_of(request.elevations, request.system)
    plans = joint_plans(wall, trace)
    layout = chosen_layout(wall, plans, request.options.effort)
    schedule = set_fasteners(wall, layout, loads_of(request), trace)
    result = fastener_result(schedule, request.options, trace)
    tests = request.proof_tests
    if tests is not None:
        result["proof_tests"] = proof_tests_of(schedule, tests, trace, named=request.options.detail == "pieces")
    joint_findings = [item for plan in plans for item in plan.findings]
    failed = failure_findings(tests) if tests is not None else []
    findings = unique(
        [*_fire(request), *wall.findings, *joint_findings, *layout.findings, *schedule_findings(schedule), *failed]
    )
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [*assumptions_of(request), *joint_assumptions(wall, plans), *schedule_assumptions(schedule)]
    said = [*not_checked(schedule), *(wind.NOT_CHECKED if request.wind is not None else ())]
    return Answer(result, findings, assumptions, said)


def schedule_findings(schedule: FastenerSchedule) -> list[Finding]:
    """What the schedule found, and fasteners close to edges of the substrate."""
    return [*schedule.findings, *edge_findings(schedule)]


def schedule_assumptions(schedule: FastenerSchedule) -> list[Assumption]:
    """What the schedule filled in by a rule."""
    substrate = schedule.loads.substrate
    return [*_category_assumed(schedule.system, substrate), *length_assumptions(schedule.system, substrate)]


def _category_assumed(system: System, substrate: Substrate | None) -> list[Assumption]:
    """A declared value whose category is not given was taken for that of the substrate."""
    pull_out = system.fastener.pull_out
    known = substrate.category if substrate is not None else None
    if known is None or pull_out is None or pull_out.characteristic_kn is None or pull_out.category is not None:
        return []
    return [stated("/system/fastener/pull_out/category", known, Assumed("", HOUSE, "declared for the substrate given"))]


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
    _add_loads(result, schedule, trace)
    if options.detail == "pieces":
        result["pieces"] = [row for face in schedule.faces for row in piece_rows(face)]
        result["positions"] = [row for face in schedule.faces for row in position_rows(face)]
    return result


def _add_loads(result: FastenerScheduleResult, schedule: FastenerSchedule, trace: Trace) -> None:
    """Totals by zone, resistance and heat, where the request gives what they need."""
    if schedule.wind is not None:
        result["zones"] = [row for face in schedule.faces for row in zone_rows(face, trace)]
    resistance = resistance_row(schedule.resistance) if schedule.resistance is not None else None
    if resistance is not None:
        result["resistance"] = resistance
    length = length_of(schedule.system, schedule.loads.substrate, trace)
    if length is not None:
        result["length"] = length
    substrate = schedule.loads.substrate
    if substrate is not None and substrate.flatness is not None:
        result["flatness"] = flatness_row(substrate.flatness, trace)
    heat = heat_row(schedule, result["density_per_m2"], trace)
    if heat is not None:
        result["heat"] = heat


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
