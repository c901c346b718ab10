"""What is assumed of movement joints where the request is silent."""

from collections.abc import Sequence

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.sealant import SEALANT_DEPTH
from storeyrod.movement_joints.spacing import profile_of
from storeyrod.movement_joints.width import WIDTH_PER_SPACING
from storeyrod.movement_joints.width_working import moisture_assumptions
from storeyrod.reference.documents import COMMON_PRACTICE, HOUSE
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall


def joint_assumptions(wall: Wall, plans: Sequence[JointPlan]) -> list[Assumption]:
    """How far apart joints stand and where, how they move and, when there are any, how wide they are."""
    system, made = wall.system, [*_spacing(wall.system), *_level_joints(wall)]
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


def _spacing(system: System) -> list[Assumption]:
    """Limits that are those of the profile."""
    asked, rules = system.movement_joint, profile_of(system).rules
    members = {
        "max_spacing_mm": (asked.max_spacing_mm, "length"),
        "max_boards_count": (asked.max_boards_count, "boards"),
        "max_area_m2": (asked.max_area_m2, "area"),
        "max_ratio": (asked.max_ratio, "ratio"),
    }
    silent = [(name, rules[kind]) for name, (given, kind) in members.items() if given is None and kind in rules]
    return [
        stated(f"/system/movement_joint/{name}", rule.value, Assumed(rule.unit, rule.clause, rule.note))
        for name, rule in silent
    ]


def _level_joints(wall: Wall) -> list[Assumption]:
    """How wide level joints are."""
    if not wall.storey_joints or wall.system.movement_joint.storey_width_mm is not None:
        return []
    rule = Assumed("mm", HOUSE, "as wide as a bed")
    return [stated("/system/movement_joint/storey_width_mm", wall.system.joint.bed_mm, rule)]


def sealant_assumptions(system: System) -> list[Assumption]:
    """How deep sealant is in a joint."""
    if system.movement_joint.sealant_depth_mm is not None:
        return []
    return [stated("/system/movement_joint/sealant_depth_mm", "by the width of the joint", Assumed("", SEALANT_DEPTH))]
