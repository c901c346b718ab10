"""Joints whose place is given: those of the structure, the designer's own, and changes of height where a profile asks for them."""

from collections.abc import Sequence
from typing import Final

from storeyrod.findings import refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.movement_joints.positions import Place, Positions, near_step
from storeyrod.movement_joints.spacing import step_clause
from storeyrod.wall.face import Face
from storeyrod.wall.system import System

SAME_JOINT_MM: Final = 0.5
"""House limit: a joint of the designer that near repeats one of the structure."""


def fixed_places(face: Face, system: System, positions: Positions) -> list[Place]:
    """Places that are taken before all others, from left to right.

    Raises ``joint-outside-outline`` and ``existing-joint-bridged``.
    """
    existing = _given(face, "existing_joints_x_mm", face.elevation.existing_joints_x_mm)
    if face.elevation.joints_x_mm is not None:
        return _designed(face, existing)
    places = [Place(x, "existing") for x in existing]
    if step_clause(system) is not None:
        near = max(near_step(system), positions.width)
        for _, step in positions.others:
            taken = [place.centre for place in places]
            if step.reason == "height_change" and _is_free(face, step, taken, near, positions.width):
                places.append(step)
    return sorted(places, key=lambda place: place.centre)


def _is_free(face: Face, step: Place, taken: Sequence[float], near: float, width: float) -> bool:
    """Whether no joint stands so near that it serves the change of height too."""
    inside = face.left + width <= step.centre - width / 2.0 and step.centre + width / 2.0 <= face.right - width
    return inside and all(abs(x - step.centre) > near for x in taken)


def _designed(face: Face, existing: Sequence[float]) -> list[Place]:
    """The designer's joints; those that repeat a joint of the structure lie exactly on it."""
    own = _given(face, "joints_x_mm", face.elevation.joints_x_mm or ())
    same = ticks(SAME_JOINT_MM)
    for x in existing:
        nearest = min(own, key=lambda one: abs(one - x), default=None)
        if nearest is None or abs(nearest - x) > same:
            away = "none is given" if nearest is None else f"the nearest is {millimetres(abs(nearest - x)):g} mm away"
            detail = (
                f"The structure has a joint at {millimetres(x):g} mm; among joints_x_mm {away}, and {SAME_JOINT_MM:g} mm is the "
                "limit. Add the joint, or leave out joints_x_mm."
            )
            raise refuse("existing-joint-bridged", f"{face.members_pointer}/joints_x_mm", detail)
    new = [Place(x, "designer") for x in own if all(abs(x - one) > same for one in existing)]
    return sorted([*new, *(Place(x, "existing") for x in existing)], key=lambda place: place.centre)


def _given(face: Face, member: str, places_mm: Sequence[float]) -> list[float]:
    centres = []
    for index, x_mm in enumerate(places_mm):
        centre = ticks(x_mm)
        if not face.left < centre < face.right:
            span = f"{millimetres(face.left):g} to {millimetres(face.right):g} mm"
            raise refuse(
                "joint-outside-outline",
                f"{face.members_pointer}/{member}/{index}",
                f"{x_mm:g} mm is not inside the face, {span}; give the joint in the coordinates of the elevation.",
            )
        centres.append(centre)
    return sorted(set(centres))
