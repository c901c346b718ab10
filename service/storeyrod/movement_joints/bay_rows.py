"""Bays of a face as they stand in the answer, each with the limit that governs it."""

from collections.abc import Sequence

from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.movement_joints.bay_limits import uses_in_force
from storeyrod.movement_joints.bay_models import Bay, Limited
from storeyrod.movement_joints.panels import Measured, measured, storeys_of
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.spacing import profile_of
from storeyrod.wall.face import Face
from storeyrod.wall.wall import Wall


def measured_bays(wall: Wall, face: Face, plan: JointPlan) -> list[Measured]:
    """Sizes of the bays of a face, from left to right."""
    storeys = storeys_of(face, wall.storey_joints)
    return [measured(storeys, left, right) for left, right in plan.bays]


def bay_rows(wall: Wall, face: Face, plan: JointPlan, bays: Sequence[Measured]) -> list[Bay]:
    """Bays from left to right."""
    rows = []
    for index, bay in enumerate(bays):
        ends = [end for end, at in zip(plan.ends, (0, len(bays) - 1), strict=True) if at == index]
        governs, fraction = _governing(wall, face, bay, min(ends, default=plan.limit), plan.limit)
        rows.append(_row(bay, governs, fraction))
    return rows


def _governing(wall: Wall, face: Face, bay: Measured, end: float, limit: float) -> tuple[Limited, float]:
    """The limit of which a bay takes most; of equal ones the first."""
    uses: list[tuple[Limited, float]] = [
        (use.kind, use.fraction) for use in uses_in_force(profile_of(wall.system), face, bay, wall.system)
    ]
    if end < limit:
        uses.append(("corner", bay.length / end))
    return max(uses, key=lambda row: row[1])


def _row(bay: Measured, governs: Limited, fraction: float) -> Bay:
    return {
        "x_from_mm": millimetres(bay.left),
        "x_to_mm": millimetres(bay.right),
        "length_mm": millimetres(bay.length),
        "height_mm": millimetres(bay.height),
        "gross_area_m2": square_metres(bay.area),
        "largest_area_m2": square_metres(bay.largest),
        "ratio": bay.ratio,
        "governs": governs,
        "limit_fraction": fraction,
    }
