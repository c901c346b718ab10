"""What is said of bays that exceed a limit of the chosen profile, and of changes of height without a joint."""

import math
from collections.abc import Sequence
from typing import Final

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import ROUNDING_GUARD, millimetres, square_metres, ticks
from storeyrod.movement_joints.panels import Measured, Storey, measured
from storeyrod.movement_joints.positions import Step, near_step, steps_of
from storeyrod.movement_joints.spacing import BayLimits, step_clause
from storeyrod.movement_joints.stretch import area_kept
from storeyrod.wall.face import Face
from storeyrod.wall.system import System

LENGTH_GUARD: Final = ticks(0.001)
"""Rounding of a bay's length to the grid."""


def is_over(value: float, limit: float) -> bool:
    """Whether an area or ratio exceeds its limit by more than rounding."""
    return value > limit * (1.0 + ROUNDING_GUARD)


def bay_findings(
    face: Face, bays: Sequence[Interval], limits: BayLimits, storeys: Sequence[Storey], *, designed: bool
) -> tuple[bool, list[Finding]]:
    """Whether a joint is missing because it has no legal position, and the findings on bays that exceed a limit."""
    kept, found, stuck = bool(area_kept(storeys, limits)), list[Finding](), False
    for left, right in bays:
        bay = measured(storeys, left, right) if storeys else Measured(left, right, 0.0, 0.0, 0.0, 1.0)
        long, large = bay.length > limits.length + LENGTH_GUARD, is_over(bay.largest, limits.area)
        if not designed and (long or (large and kept)):
            stuck = True
            found.append(_withheld(face, bay, limits, long=long))
            continue
        if long:
            found.append(_over("bay-too-long", face, bay, millimetres(bay.length), millimetres(limits.length), "mm"))
        if large:
            found.append(_over("bay-area", face, bay, square_metres(bay.largest), square_metres(limits.area), "m2"))
        if is_over(bay.ratio, limits.ratio):
            found.append(_over("bay-ratio", face, bay, bay.ratio, limits.ratio, "count"))
    return stuck, found


def place_of(face: Face, left: float, right: float) -> Where:
    """A bay of a face."""
    return {"pointer": face.pointer, "elevation": face.id, "x_mm": millimetres(left), "x_to_mm": millimetres(right)}


def _over(code: str, face: Face, bay: Measured, value: float, limit: float, unit: str) -> Finding:
    return finding(code, place_of(face, bay.left, bay.right), value=value, limit=limit, unit=unit)


def _withheld(face: Face, bay: Measured, limits: BayLimits, *, long: bool) -> Finding:
    """The finding of a bay in which no joint may stand, with the openings that bind it: widest first, then from the left."""
    where = place_of(face, bay.left, bay.right)
    binding = sorted(
        (opening for opening in face.openings if opening.left < bay.right and bay.left < opening.right),
        key=lambda opening: (opening.left - opening.right, opening.left, opening.id),
    )
    if binding:
        where["opening"] = binding[0].id
        where["openings"] = [opening.id for opening in binding]
    if long:
        value, limit, unit = millimetres(bay.length), millimetres(limits.length), "mm"
    else:
        value, limit, unit = square_metres(bay.largest), square_metres(limits.area), "m2"
    return finding("no-legal-joint-position", where, value=value, limit=limit, unit=unit)


def step_findings(face: Face, strips: Sequence[Interval], system: System) -> list[Finding]:
    """Changes of height at which the profile wants a joint, and none stands."""
    if step_clause(system) is None:
        return []
    return [
        finding("change-of-height-unjointed", {**_at(face), "x_mm": millimetres(step.x)})
        for step in unjointed_steps(face, strips, system)
    ]


def _at(face: Face) -> Where:
    return {"pointer": face.pointer, "elevation": face.id}


def unjointed_steps(face: Face, strips: Sequence[Interval], system: System) -> list[Step]:
    """Changes of height without a joint, whose strip is given, within half a module."""
    near = near_step(system)
    return [
        step
        for step in steps_of(face, system)
        if min((max(left - step.x, step.x - right, 0.0) for left, right in strips), default=math.inf) > near
    ]
