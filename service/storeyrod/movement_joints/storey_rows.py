"""Rows of the answer for level joints, per elevation and round the building, and their seal."""

from collections.abc import Sequence

from storeyrod.geometry.intervals import total
from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.sealant import Seal, seal_of
from storeyrod.movement_joints.storey_models import LevelJoint, PlacedStoreyJoint, StoreyJointTotal
from storeyrod.movement_joints.storey_strips import StoreyStrip, storey_strips
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import Face
from storeyrod.wall.storey_joints import StoreyJoint
from storeyrod.wall.system import System


def placed_storey_joints(face: Face, plan: JointPlan, joints: Sequence[StoreyJoint]) -> list[PlacedStoreyJoint]:
    """Level joints of an elevation from the lowest."""
    slots = [(slot.left, slot.right) for slot in plan.slots]
    return [_placed(face, strip, slots, number) for number, strip in enumerate(storey_strips(face, joints), start=1)]


def _placed(face: Face, strip: StoreyStrip, slots: Sequence[tuple[float, float]], number: int) -> PlacedStoreyJoint:
    area = sum(
        part.area
        for left, bottom, right, top in strip.boxes(slots)
        for parts in face.region.cells(bottom, top, [(left, right)])
        for part in parts
    )
    return {
        **_level(strip.joint),
        "id": f"{face.id}:storey-joint-{number}",
        "segments": [{"x_from_mm": millimetres(left), "x_to_mm": millimetres(right)} for left, right in strip.runs],
        "sealed_length_m": sealed_length(strip),
        "area_m2": square_metres(area),
    }


def sealed_length(strip: StoreyStrip) -> float:
    """Length of a level joint to seal on one elevation, in m."""
    return millimetres(total(strip.runs)) * METRES_PER_MILLIMETRE


def _level(joint: StoreyJoint) -> LevelJoint:
    return {
        "course": joint.course,
        "level_mm": millimetres(joint.level),
        "existing": joint.existing,
        "moved_mm": millimetres(joint.moved),
        "y_from_mm": millimetres(joint.bottom),
        "y_to_mm": millimetres(joint.top),
        "width_mm": millimetres(joint.width),
        "shift_mm": millimetres(joint.lift),
    }


def storey_joint_totals(
    joints: Sequence[StoreyJoint], faces: Sequence[Sequence[PlacedStoreyJoint]]
) -> list[StoreyJointTotal]:
    """Level joints of the building from the lowest, with what is sealed of them on all elevations."""
    placed = [row for rows in faces for row in rows]
    return [
        {
            **_level(joint),
            "sealed_length_m": sum(row["sealed_length_m"] for row in placed if row["course"] == joint.course),
        }
        for joint in joints
    ]


def storey_seal(system: System, trace: Trace) -> Seal:
    """What fills level joints, all of which are equally wide."""
    asked = system.movement_joint.storey_width_mm
    if asked is not None:
        return seal_of(system, trace.given(asked, "/system/movement_joint/storey_width_mm"), trace)
    return seal_of(system, trace.given(system.joint.bed_mm, "/system/joint/bed_mm"), trace)
