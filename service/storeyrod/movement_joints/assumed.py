"""What is assumed of movement joints where the request is silent."""

from collections.abc import Sequence

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.sealant import SEALANT_DEPTH
from storeyrod.movement_joints.width import WIDTH_PER_SPACING
from storeyrod.movement_joints.width_working import moisture_assumptions
from storeyrod.reference.documents import COMMON_PRACTICE
from storeyrod.wall.system import System


def joint_assumptions(system: System, plans: Sequence[JointPlan]) -> list[Assumption]:
    """Where joints may stand, how they move and, when there are any, how wide they are."""
    made = []
    if system.movement_joint.snap_mm is None:
        rule = Assumed("", COMMON_PRACTICE, "joints stand on half-module perps")
        made.append(stated("/system/movement_joint/snap_mm", "half the slip module", rule))
    movement = system.movement_joint.movement
    if movement is not None:
        made += moisture_assumptions(movement)
    elif system.movement_joint.width_mm is None and any(plan.slots for plan in plans):
        width = Assumed("", WIDTH_PER_SPACING, "a rule for masonry leaves")
        made.append(
            stated("/system/movement_joint/width_mm", "1.3 mm for each metre of the longest bay, at least 6 mm", width)
        )
    return made


def sealant_assumptions(system: System) -> list[Assumption]:
    """How deep sealant is in a joint."""
    if system.movement_joint.sealant_depth_mm is not None:
        return []
    return [stated("/system/movement_joint/sealant_depth_mm", "by the width of the joint", Assumed("", SEALANT_DEPTH))]
