"""Movement joints of a request: place them, then measure what must be sealed."""

from collections.abc import Sequence

from storeyrod.answer import Answer, assumptions_of, refuse_cautions, unique
from storeyrod.geometry.intervals import Interval, total
from storeyrod.geometry.plane import Region
from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.movement_joints.assumed import joint_assumptions, sealant_assumptions
from storeyrod.movement_joints.bay_rows import bay_rows, measured_bays
from storeyrod.movement_joints.models import (
    ElevationJoints,
    MovementJointsRequest,
    MovementJointsResult,
    PlacedJoint,
)
from storeyrod.movement_joints.panels import Measured
from storeyrod.movement_joints.placement import JointPlan, Slot
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.movement_joints.profile_checks import disagreements, profile_checks
from storeyrod.movement_joints.sealant import seal_of, sealed_volume
from storeyrod.movement_joints.storey_rows import placed_storey_joints, storey_joint_totals, storey_seal
from storeyrod.movement_joints.width_working import joint_seal, unchecked_width, width_working
from storeyrod.trace import SILENT, Trace
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import Face
from storeyrod.wall.wall import Wall, wall_of

NOT_CHECKED = (
    "Movement joints are placed by a spacing rule only; the designer's joints and the local code come first.",
)

NO_LEVEL_JOINTS = (
    "Level movement joints were not placed: none were asked for, or no storey level has wall below and above."
)


def calculate(request: MovementJointsRequest, trace: Trace = SILENT) -> Answer[MovementJointsResult]:
    """Movement joints of every elevation: positions, bays between them, and lengths to be sealed.

    How positions are chosen is in ``placement``.
    """
    wall = wall_of(request.elevations, request.system)
    plans = joint_plans(wall, trace)
    result = joints_result(wall, plans, trace)
    found = [*wall.findings, *(item for plan in plans for item in plan.findings)]
    findings = unique([*found, *disagreements(result["profiles"], wall)])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [
        *assumptions_of(request),
        *joint_assumptions(wall, plans),
        *sealant_assumptions(request.system),
    ]
    return Answer(result, findings, assumptions, [*NOT_CHECKED, *unchecked_joints(wall)])


def unchecked_joints(wall: Wall) -> list[str]:
    """What joints of this wall leave to others, besides what they always leave."""
    return [*([] if wall.storey_joints else [NO_LEVEL_JOINTS]), unchecked_width(wall.system)]


def joints_result(wall: Wall, plans: Sequence[JointPlan], trace: Trace = SILENT) -> MovementJointsResult:
    """Joints with their sealed lengths, per elevation and in total."""
    bays = {face.id: measured_bays(wall, face, plan) for face, plan in zip(wall.faces, plans, strict=True)}
    elevations = [
        _elevation(face, plan, bays[face.id], wall, trace) for face, plan in zip(wall.faces, plans, strict=True)
    ]
    return {
        "elevations": elevations,
        "joints_count": sum(len(row["joints"]) for row in elevations),
        "trim_cuts_count": sum(joint["trim_cuts_count"] for row in elevations for joint in row["joints"]),
        "profiles": profile_checks(wall, bays),
        "sealed_length_m": trace.sum("L_sealed", "m", [row["sealed_length_m"] for row in elevations]),
        "sealant_l": trace.sum("V", "l", [row["sealant_l"] for row in elevations if row["joints"]]),
        "storey_joints": storey_joint_totals(wall.storey_joints, [row["storey_joints"] for row in elevations]),
        "storey_sealed_length_m": trace.sum(
            "L_level", "m", [row["storey_sealed_length_m"] for row in elevations if row["storey_joints"]]
        ),
        "storey_sealant_l": trace.sum(
            "V_level", "l", [row["storey_sealant_l"] for row in elevations if row["storey_joints"]]
        ),
    }


def _elevation(face: Face, plan: JointPlan, bays: Sequence[Measured], wall: Wall, trace: Trace) -> ElevationJoints:
    system = wall.system
    joints = [_joint(face, slot, number) for number, slot in enumerate(plan.slots, start=1)]
    length = trace.measure("L_sealed", "m", [(joint["id"], joint["sealed_length_m"], face.pointer) for joint in joints])
    seal = seal_of(system, trace.given(joints[0]["width_mm"], face.pointer), trace) if joints else None
    row: ElevationJoints = {
        "elevation": face.id,
        "joints": joints,
        "bays": bay_rows(wall, face, plan, bays),
        "joints_lower_bound_count": plan.least_count,
        "longest_bay_limit_mm": millimetres(plan.limit),
        "sealed_length_m": length,
        "joint_area_m2": sum(joint["area_m2"] for joint in joints),
        "sealant_width_mm": 0.0 if seal is None else seal.width,
        "sealant_depth_mm": 0.0 if seal is None else seal.depth,
        "sealant_l": 0.0 if seal is None else sealed_volume(seal, length, trace),
        "storey_joints": [],
        "storey_sealed_length_m": 0.0,
        "storey_sealant_l": 0.0,
    }
    if seal is not None:
        row["seal"] = joint_seal(system, seal, length)
    if seal is not None and system.movement_joint.movement is not None:
        bay = trace.given(millimetres(plan.moving) * METRES_PER_MILLIMETRE, face.pointer)
        row["width_working"] = width_working(system.movement_joint.movement, bay, seal.width, trace)
    if plan.withheld:
        row["withheld"] = True
    _add_level_joints(row, face, plan, wall, trace)
    return row


def _add_level_joints(row: ElevationJoints, face: Face, plan: JointPlan, wall: Wall, trace: Trace) -> None:
    row["storey_joints"] = placed = placed_storey_joints(face, plan, wall.storey_joints)
    if not placed:
        return
    terms = [(joint["id"], joint["sealed_length_m"], face.pointer) for joint in placed]
    row["storey_sealed_length_m"] = length = trace.measure("L_level", "m", terms)
    seal = storey_seal(wall.system, trace)
    row["storey_sealant_l"] = sealed_volume(seal, length, trace)
    row["storey_seal"] = joint_seal(wall.system, seal, length)


def _joint(face: Face, slot: Slot, number: int) -> PlacedJoint:
    heights = face.joint_heights(slot.centre)
    (parts,) = face.region.cells(face.foot, face.top, [(slot.left, slot.right)])
    return {
        "id": f"{face.id}:joint-{number}",
        "x_mm": millimetres(slot.centre),
        "width_mm": millimetres(slot.width),
        "existing": slot.existing,
        "reason": slot.reason,
        "segments": [{"y_from_mm": millimetres(low), "y_to_mm": millimetres(high)} for low, high in heights],
        "sealed_length_m": millimetres(total(heights)) * METRES_PER_MILLIMETRE,
        "area_m2": square_metres(sum(part.area for part in parts)),
        "trim_cuts_count": _trim_cuts(face, slot, heights),
    }


def _trim_cuts(face: Face, slot: Slot, heights: Sequence[Interval]) -> int:
    """Ends of a joint that lie on the outline, where trims run through, and not at an opening."""
    edges = {y for run in Region((face.outline,)).heights_at(slot.centre) for y in run}
    return sum(y in edges for run in heights for y in run)
