"""Tapered insulation up to a slope of 5 %: mean U-value of a wedge over a rectangle or a triangle.

R_1 is the greatest resistance of the wedge, R_0 that of everything else with the surfaces.
"""

from math import log
from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.trace import formula

_TAPERED = Clause("ISO 6946", "Annex E", "memory")
_INPUTS: Final = {"R_0": "m2_k_per_w", "R_1": "m2_k_per_w"}


@formula(symbol="U", expression="log(1 + R_1 / R_0) / R_1", unit="w_per_m2_k", inputs=_INPUTS, clause=_TAPERED)
def rectangle(*, R_0: float, R_1: float) -> float:  # noqa: N803  symbols of the standard
    """Wedge over a rectangle."""
    return log(1.0 + R_1 / R_0) / R_1


@formula(
    symbol="U",
    expression="2 / R_1 * ((1 + R_0 / R_1) * log(1 + R_1 / R_0) - 1)",
    unit="w_per_m2_k",
    inputs=_INPUTS,
    clause=_TAPERED,
)
def triangle_thickest_at_apex(*, R_0: float, R_1: float) -> float:  # noqa: N803  symbols of the standard
    """Wedge over a triangle, thickest at the apex."""
    return 2.0 / R_1 * ((1.0 + R_0 / R_1) * log(1.0 + R_1 / R_0) - 1.0)


@formula(
    symbol="U",
    expression="2 / R_1 * (1 - R_0 / R_1 * log(1 + R_1 / R_0))",
    unit="w_per_m2_k",
    inputs=_INPUTS,
    clause=_TAPERED,
)
def triangle_thinnest_at_apex(*, R_0: float, R_1: float) -> float:  # noqa: N803  symbols of the standard
    """Wedge over a triangle, thinnest at the apex."""
    return 2.0 / R_1 * (1.0 - R_0 / R_1 * log(1.0 + R_1 / R_0))
