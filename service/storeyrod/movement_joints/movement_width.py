"""Width from movement, by two published conventions, and the longest bay that a width can serve.

Both start from the movement M and the share X of the width that the sealant can follow. The factor alone, M / X, is the form
of sealant-joint design; the other adds the movement itself, so that the joint has that width when it is narrowest.
"""

import math
from typing import Final, NamedTuple

from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.movement_joints.movement import MOVEMENT, JointMovement, Way
from storeyrod.movement_joints.width_models import Direction
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Formula, Trace, formula
from storeyrod.wall.movement import Convention, Movement

FACTOR: Final = Clause(
    "detailing textbook", "width of sealant joints: movement over capability, and a tolerance", "published"
)
FACTOR_PLUS_MOVEMENT: Final = Clause("BS 6093", "least width: movement over capability, and the movement", "memory")
SPACING: Final = Clause("BIA technical note 18A", "spacing of expansion joints", "memory")
SEALED_WIDTH: Final = Clause("detailing textbook", "sealed joints are 6 to 25 mm wide", "published")

LEAST_WIDTH_MM: Final = 6.0
"""A joint narrower than this cannot be sealed; it applies only where no width is given."""

_PERCENT: Final = 100.0
"""Percent of a whole."""


@formula(symbol="w_M", expression="M/X + t", unit="mm", inputs={"M": "mm", "X": "fraction", "t": "mm"}, clause=FACTOR)
def width_by_factor(*, M: float, X: float, t: float) -> float:  # noqa: N803  symbols of the formula
    """Width whose share X is the movement M, and a tolerance."""
    return M / X + t


@formula(
    symbol="w_M",
    expression="M/X + M + t",
    unit="mm",
    inputs={"M": "mm", "X": "fraction", "t": "mm"},
    clause=FACTOR_PLUS_MOVEMENT,
)
def width_with_movement(*, M: float, X: float, t: float) -> float:  # noqa: N803  symbols of the formula
    """The same with the movement added."""
    return M / X + M + t


@formula(
    symbol="w",
    expression="Max(w_least, ceiling(w_M/one - tolerance)*one)",
    unit="mm",
    inputs={"w_M": "mm", "w_least": "mm", "one": "mm", "tolerance": "count"},
    clause=SEALED_WIDTH,
)
def whole_width(*, w_M: float, w_least: float, one: float, tolerance: float) -> float:  # noqa: N803  symbol of the formula
    """Width up to the next millimetre, and never too narrow to seal."""
    return max(w_least, math.ceil(w_M / one - tolerance) * one)


@formula(symbol="M_w", expression="(w - t)*X", unit="mm", inputs={"w": "mm", "t": "mm", "X": "fraction"}, clause=FACTOR)
def movement_by_factor(*, w: float, t: float, X: float) -> float:  # noqa: N803  symbol of the formula
    """Movement that a width serves."""
    return (w - t) * X


@formula(
    symbol="M_w",
    expression="(w - t)/(1/X + 1)",
    unit="mm",
    inputs={"w": "mm", "t": "mm", "X": "fraction"},
    clause=FACTOR_PLUS_MOVEMENT,
)
def movement_with_movement(*, w: float, t: float, X: float) -> float:  # noqa: N803  symbol of the formula
    """Movement that a width serves besides being as wide as that itself."""
    return (w - t) / (1 / X + 1)


@formula(
    symbol="L_w",
    expression="(M_w - n*M_d)/e",
    unit="m",
    inputs={"M_w": "mm", "n": "count", "M_d": "mm", "e": "mm_per_m"},
    clause=SPACING,
)
def spacing_for_width(*, M_w: float, n: float, M_d: float, e: float) -> float:  # noqa: N803  symbols of the formula
    """Longest bay whose movement a width serves; under nothing when drift alone is more."""
    return (M_w - n * M_d) / e


class _Form(NamedTuple):
    """A convention: width for a movement, and movement for a width."""

    width: Formula[...]
    movement: Formula[...]


FORMS: Final[dict[Convention, _Form]] = {
    "factor": _Form(width_by_factor, movement_by_factor),
    "factor_plus_movement": _Form(width_with_movement, movement_with_movement),
}


def governing(given: Movement, moved: JointMovement) -> tuple[Direction, Way]:
    """Movement that the width must serve, by the basis of the capability."""
    if given.sealant.movement_capability.basis == "total":
        return "total", moved.total
    if moved.closing.movement >= moved.opening.movement:
        return "closing", moved.closing
    return "opening", moved.opening


def width_for(movement_mm: float, given: Movement, convention: Convention, trace: Trace) -> float:
    """Width in mm that a movement asks for, not rounded."""
    return trace.call(FORMS[convention].width, M=movement_mm, X=_share(given, trace), t=_tolerance(given, trace))


def rounded_width(width_mm: float, trace: Trace) -> float:
    """Width in whole mm, and at least what can be sealed."""
    return trace.call(
        whole_width,
        w_M=width_mm,
        w_least=trace.lookup("w_least", LEAST_WIDTH_MM, "mm", SEALED_WIDTH),
        one=trace.lookup("one", 1.0, "mm", GEOMETRY),
        tolerance=trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY),
    )


def longest_bay_for(width_mm: float, given: Movement, way: Way, convention: Convention, trace: Trace) -> float | None:
    """Longest bay in m that a width serves, 0 when drift alone is too much; none when a bay of any length moves no more."""
    if way.strain <= ROUNDING_GUARD:
        return None
    allowed = trace.call(FORMS[convention].movement, w=width_mm, t=_tolerance(given, trace), X=_share(given, trace))
    drift = trace.given(given.drift_mm, f"{MOVEMENT}/drift_mm")
    return max(0.0, trace.call(spacing_for_width, M_w=allowed, n=way.drifts, M_d=drift, e=way.strain))


def _share(given: Movement, trace: Trace) -> float:
    capability = given.sealant.movement_capability.value_percent / _PERCENT
    return trace.given(capability, f"{MOVEMENT}/sealant/movement_capability/value_percent")


def _tolerance(given: Movement, trace: Trace) -> float:
    return trace.given(given.tolerance_mm, f"{MOVEMENT}/tolerance_mm")
