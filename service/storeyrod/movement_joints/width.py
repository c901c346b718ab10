"""Width of movement joints: as given, or what movement asks for, or by the rule of thumb.

A joint takes the movement of half the bay on each side, so the longest bay bounds what comes to any joint of a face; all
joints of a face have that width. A bay that is held at its far end, at an abutment, brings all of its movement to one joint:
that is for the designer to add.
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.movement_joints.movement import joint_movement
from storeyrod.movement_joints.movement_width import LEAST_WIDTH_MM, SEALED_WIDTH, governing, rounded_width, width_for
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Trace, formula
from storeyrod.wall.system import System

WIDTH_PER_SPACING: Final = Clause("BDA movement guide", "width in mm of about 1.3 times the spacing in m", "published")

WIDTH_PER_METRE_OF_BAY: Final = 1.3
"""mm per m; a rule for masonry leaves, used only where no width is given."""


@formula(
    symbol="w",
    expression="Max(w_least, ceiling(k*s/one - tolerance)*one)",
    unit="mm",
    inputs={"k": "mm_per_m", "s": "m", "w_least": "mm", "one": "mm", "tolerance": "count"},
    clause=WIDTH_PER_SPACING,
)
def width_for_spacing(*, k: float, s: float, w_least: float, one: float, tolerance: float) -> float:
    """Width by the rule of thumb of so many mm for each metre of bay, up to the next millimetre, and never too narrow."""
    return max(w_least, math.ceil(k * s / one - tolerance) * one)


def moving_length(places: Sequence[float], limit: float) -> float:
    """Length that moves into a joint, from the ends of a face and its joints between them: the longest bay, within the limit."""
    return min(limit, max(after - before for before, after in pairwise(places)))


def width_of(system: System, longest_bay_m: float, trace: Trace) -> float:
    """Width of a joint in mm: as given, or what movement of the longest bay asks for, or by the rule of thumb for it.

    Raises ``temperatures-contradictory`` and ``expansion-unclear`` where movement is given.
    """
    joint = system.movement_joint
    if joint.width_mm is not None:
        return trace.given(joint.width_mm, "/system/movement_joint/width_mm")
    if joint.movement is not None:
        _, way = governing(joint.movement, joint_movement(joint.movement, longest_bay_m, trace))
        needed = width_for(way.movement, joint.movement, joint.movement.convention, trace)
        return rounded_width(needed, trace)
    return trace.call(
        width_for_spacing,
        k=trace.lookup("k", WIDTH_PER_METRE_OF_BAY, "mm_per_m", WIDTH_PER_SPACING),
        s=longest_bay_m,
        w_least=trace.lookup("w_least", LEAST_WIDTH_MM, "mm", SEALED_WIDTH),
        one=trace.lookup("one", 1.0, "mm", GEOMETRY),
        tolerance=trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY),
    )
