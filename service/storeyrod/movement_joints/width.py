"""Width of a movement joint and depth of its sealant, as formulas."""

import math
from typing import Final

from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Trace, formula
from storeyrod.wall.system import System

WIDTH_PER_SPACING: Final = Clause("BDA movement guide", "width in mm of about 1.3 times the spacing in m", "published")
SEALANT_DEPTH: Final = Clause("detailing textbook", "depth half the width, not under 6 mm nor over 13 mm", "published")

SEALED_WIDTH: Final = Clause("detailing textbook", "sealed joints are 6 to 25 mm wide", "published")

LEAST_WIDTH_MM: Final = 6.0
"""A joint narrower than this cannot be sealed; it applies only where no width is given."""

WIDTH_PER_METRE_OF_BAY: Final = 1.3
"""mm per m; a rule for masonry leaves, used only where no width is given."""

LEAST_SEALANT_DEPTH_MM: Final = 6.0
GREATEST_SEALANT_DEPTH_MM: Final = 13.0


@formula(
    symbol="n_least",
    expression="Max(0, ceiling((L + w)/(s + w) - tolerance) - 1)",
    unit="count",
    inputs={"L": "mm", "s": "mm", "w": "mm", "tolerance": "count"},
    clause=GEOMETRY,
)
def least_joints(*, L: float, s: float, w: float, tolerance: float) -> float:  # noqa: N803  symbol of the formula
    """Fewest joints of width w that leave no clear bay over s in a length L."""
    return max(0, math.ceil((L + w) / (s + w) - tolerance) - 1)


@formula(
    symbol="s",
    expression="Min(s_max, n*l_b)",
    unit="mm",
    inputs={"s_max": "mm", "n": "count", "l_b": "mm"},
    clause=GEOMETRY,
)
def longest_bay(*, s_max: float, n: float, l_b: float) -> float:
    """Longest permitted bay: by length or by number of boards, whichever is less."""
    return min(s_max, n * l_b)


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


@formula(
    symbol="d",
    expression="Min(d_max, Max(d_min, w/2))",
    unit="mm",
    inputs={"w": "mm", "d_min": "mm", "d_max": "mm"},
    clause=SEALANT_DEPTH,
)
def sealant_depth(*, w: float, d_min: float, d_max: float) -> float:
    """Depth of sealant for a joint of width w."""
    return min(d_max, max(d_min, w / 2))


@formula(
    symbol="V",
    expression="L*w*d*litres",
    unit="l",
    inputs={"L": "m", "w": "m", "d": "m", "litres": "l_per_m3"},
    clause=GEOMETRY,
)
def sealant_volume(*, L: float, w: float, d: float, litres: float) -> float:  # noqa: N803  symbol of the formula
    """Sealant in a joint of length L, width w and depth d."""
    return L * w * d * litres


def longest_bay_of(system: System, trace: Trace) -> float:
    """Longest permitted bay of a system in mm."""
    return trace.call(
        longest_bay,
        s_max=trace.given(system.movement_joint.max_spacing_mm, "/system/movement_joint/max_spacing_mm"),
        n=trace.given(system.movement_joint.max_boards_count, "/system/movement_joint/max_boards_count"),
        l_b=trace.given(system.board.cover_length_mm, "/system/board/cover_length_mm"),
    )


def width_of(system: System, longest_bay_m: float, trace: Trace) -> float:
    """Width of a joint in mm: as given, or by the rule of thumb for the longest bay."""
    if system.movement_joint.width_mm is not None:
        return trace.given(system.movement_joint.width_mm, "/system/movement_joint/width_mm")
    return trace.call(
        width_for_spacing,
        k=trace.lookup("k", WIDTH_PER_METRE_OF_BAY, "mm_per_m", WIDTH_PER_SPACING),
        s=longest_bay_m,
        w_least=trace.lookup("w_least", LEAST_WIDTH_MM, "mm", SEALED_WIDTH),
        one=trace.lookup("one", 1.0, "mm", GEOMETRY),
        tolerance=trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY),
    )


def sealant_depth_of(system: System, width_mm: float, trace: Trace) -> float:
    """Depth of sealant in mm: as given, or half the width within its limits."""
    if system.movement_joint.sealant_depth_mm is not None:
        return trace.given(system.movement_joint.sealant_depth_mm, "/system/movement_joint/sealant_depth_mm")
    return depth_by_rule(width_mm, trace)


def depth_by_rule(width_mm: float, trace: Trace) -> float:
    """Depth of sealant in mm for a width: half of it within its limits."""
    return trace.call(
        sealant_depth,
        w=width_mm,
        d_min=trace.lookup("d_min", LEAST_SEALANT_DEPTH_MM, "mm", SEALANT_DEPTH),
        d_max=trace.lookup("d_max", GREATEST_SEALANT_DEPTH_MM, "mm", SEALANT_DEPTH),
    )
