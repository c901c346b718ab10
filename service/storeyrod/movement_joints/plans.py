"""Vertical movement joints of a whole wall: corners shared out between faces, then each face planned by itself."""

import math
from dataclasses import replace

from storeyrod.findings import Finding, Where, finding
from storeyrod.movement_joints.corner_bays import corner_findings, end_limits
from storeyrod.movement_joints.placement import JointPlan, planned_joints
from storeyrod.movement_joints.profiles import Profile
from storeyrod.movement_joints.spacing import profile_of
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.wall import Wall


def joint_plans(wall: Wall, trace: Trace = SILENT) -> list[JointPlan]:
    """Joint plans of all faces, in their order; raises what ``planned_joints`` raises."""
    profile = profile_of(wall.system)
    ends = end_limits(profile, wall.corners, wall.faces)
    plans = [
        planned_joints(
            face,
            wall.system,
            trace,
            storey_joints=wall.storey_joints,
            ends=(ends.get(f"{face.id}:left", math.inf), ends.get(f"{face.id}:right", math.inf)),
        )
        for face in wall.faces
    ]
    bays = {face.id: plan.bays for face, plan in zip(wall.faces, plans, strict=True)}
    more: dict[str, list[Finding]] = {face.id: [] for face in wall.faces}
    more[wall.faces[0].id] += _for_masonry(profile)
    for corner in wall.corners:
        for end, found in corner_findings(profile, corner, bays):
            more[end.face.id].append(found)
    return [
        replace(plan, findings=(*plan.findings, *more[face.id])) if more[face.id] else plan
        for face, plan in zip(wall.faces, plans, strict=True)
    ]


def _for_masonry(profile: Profile) -> list[Finding]:
    """That a spacing of masonry of full thickness was asked for."""
    where: Where = {"pointer": "/system/movement_joint/profile"}
    return [] if profile.applies else [finding("profile-for-masonry", where)]
