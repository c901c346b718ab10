"""Setting out of a request: planes, datum and gauge, base, bays and perps, corners and the way round the building."""

from collections.abc import Sequence

from storeyrod.answer import Answer, assumptions_of, refuse_cautions, unique
from storeyrod.findings import Finding
from storeyrod.movement_joints.assumed import joint_assumptions
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.setting_out.base_steps import elevation_base
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.bond_models import ElevationSetOut
from storeyrod.setting_out.coordination import coordinating_sizes
from storeyrod.setting_out.corners import corner_rows
from storeyrod.setting_out.datum import chosen_level, datum_result
from storeyrod.setting_out.lap import bond_lap
from storeyrod.setting_out.loop import bond_loops
from storeyrod.setting_out.models import SettingOutRequest, SettingOutResult
from storeyrod.setting_out.planes import finished_face
from storeyrod.setting_out.runs import bay_set_outs
from storeyrod.setting_out.set_out import set_out
from storeyrod.setting_out.stacks import opening_stacks
from storeyrod.setting_out.storeys import storey_rows
from storeyrod.setting_out.tolerances import size_tolerances
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.wall import Wall, wall_of

NOT_CHECKED = (
    "Setting out follows the survey as given: plumb, level and plane of the wall behind were not checked.",
    "Courses, perps and levels are for slips of their work sizes; measure a delivery before marking the storey rod.",
    "Which corner is seen least was judged by its kind and by the lengths beside it, not by where people stand.",
    "Ground levels and clearance are the caller's: damp-proofing and drainage at the base follow the local code.",
)


def calculate(request: SettingOutRequest, trace: Trace = SILENT) -> Answer[SettingOutResult]:
    """What a gang marks on the wall before the first board: finished faces, the datum with its rivals and the gauge table,
    the base over its ground, perps and closers of every run, marks to carry up and down, and the bond round the building.

    Each part is worked out in the file of its name, beside this one.
    """
    wall = _on_datum(request)
    plans = joint_plans(wall, trace)
    outs = set_out(wall, plans, request.options)
    given = request.system.course_datum_mm
    datum, datum_findings = datum_result(wall, request.datum, trace, given_mm=given)
    bases = [elevation_base(out.face, wall, out, trace) for out in outs]
    rows = [_elevation(out, wall, trace) for out in outs]
    loops, loop_findings = bond_loops(wall, plans, outs, request.options, trace)
    result: SettingOutResult = {
        "faces": [finished_face(face, wall.system, trace) for face in wall.faces],
        "datum": datum,
        "bases": [base for base, _ in bases],
        "elevations": [row for row, _ in rows],
        "corners": corner_rows(wall, {out.face.id: out for out in outs}),
        "loops": loops,
        "coordinating_sizes": coordinating_sizes(wall.system, trace),
        "lap": bond_lap(wall.system, trace),
        "size_tolerances": size_tolerances(wall.system, trace),
    }
    laid = [item for found in (plans, outs) for one in found for item in one.findings]
    parts = [item for _, found in (*bases, *rows) for item in found]
    findings = unique([*wall.findings, *laid, *datum_findings, *parts, *loop_findings])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [*assumptions_of(request), *joint_assumptions(wall, plans)]
    return Answer(result, findings, assumptions, list(NOT_CHECKED))


def _on_datum(request: SettingOutRequest) -> Wall:
    """The wall of the request on the datum that it asks for."""
    wall = wall_of(request.elevations, request.system, settled=request.datum is None)
    level = chosen_level(wall, request.datum)
    if request.datum is None:
        return wall
    return wall_of(request.elevations, request.system.model_copy(update={"course_datum_mm": level}))


def _elevation(out: FaceSetOut, wall: Wall, trace: Trace) -> tuple[ElevationSetOut, Sequence[Finding]]:
    bays, bay_findings = bay_set_outs(out, wall)
    stacks, stack_findings = opening_stacks(out, wall)
    storeys, storey_findings = storey_rows(out.face, wall, trace)
    row: ElevationSetOut = {
        "elevation": out.face.id,
        "bond_from": out.start.side,
        "bond_start": "half" if out.start.half else "full",
        "bays": bays,
        "stacks": stacks,
        "storeys": storeys,
    }
    if out.start.carried_from is not None:
        row["carried_from"] = out.start.carried_from
    return row, [*bay_findings, *stack_findings, *storey_findings]
