"""Tapered insulation up to a slope of 5 %: mean U-value of wedges over rectangles and triangles.

R_1 is the greatest resistance of the wedge, R_0 that of everything else with the surfaces.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log1p
from typing import Final, NamedTuple

from storeyrod.findings import Refusal, refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.declared_models import DeclaredLayer
from storeyrod.thermal.heat_layers import LEAST_RESISTANCE
from storeyrod.thermal.models import MaterialLayer, SolidLayer
from storeyrod.thermal.question_models import Shape, Tapered, TaperedPart, TaperedResult
from storeyrod.thermal.resistance import HeatLayer, homogeneous
from storeyrod.thermal.tabulated import U_VALUE_RULES
from storeyrod.thermal.variation import on_other_inputs
from storeyrod.trace import Formula, Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_TAPERED = Clause("ISO 6946", "Annex E", "memory")

EVERY_PART: Final = "every part of the tapered layer has a thickness of its own"
"""Why the thickness of a tapered layer does nothing."""

_STEEPEST: Final = U_VALUE_RULES["steepest_slope"]
_INPUTS: Final = {"R_0": "m2_k_per_w", "R_1": "m2_k_per_w"}


@formula(symbol="U", expression="log(1 + R_1 / R_0) / R_1", unit="w_per_m2_k", inputs=_INPUTS, clause=_TAPERED)
def rectangle(*, R_0: float, R_1: float) -> float:  # noqa: N803  symbols of the standard
    """Wedge over a rectangle."""
    return log1p(R_1 / R_0) / R_1


@formula(
    symbol="U",
    expression="2 / R_1 * ((1 + R_0 / R_1) * log(1 + R_1 / R_0) - 1)",
    unit="w_per_m2_k",
    inputs=_INPUTS,
    clause=_TAPERED,
)
def triangle_thickest_at_apex(*, R_0: float, R_1: float) -> float:  # noqa: N803  symbols of the standard
    """Wedge over a triangle, thickest at the apex."""
    return 2.0 / R_1 * ((1.0 + R_0 / R_1) * log1p(R_1 / R_0) - 1.0)


@formula(
    symbol="U",
    expression="2 / R_1 * (1 - R_0 / R_1 * log(1 + R_1 / R_0))",
    unit="w_per_m2_k",
    inputs=_INPUTS,
    clause=_TAPERED,
)
def triangle_thinnest_at_apex(*, R_0: float, R_1: float) -> float:  # noqa: N803  symbols of the standard
    """Wedge over a triangle, thinnest at the apex."""
    return 2.0 / R_1 * (1.0 - R_0 / R_1 * log1p(R_1 / R_0))


@formula(symbol="H", expression="A * U", unit="w_per_k", inputs={"A": "m2", "U": "w_per_m2_k"}, clause=_TAPERED)
def part_conductance(*, A: float, U: float) -> float:  # noqa: N803  symbols of the standard
    """Heat through one part per kelvin."""
    return A * U


@formula(symbol="U", expression="H / A", unit="w_per_m2_k", inputs={"H": "w_per_k", "A": "m2"}, clause=_TAPERED)
def mean_over_parts(*, H: float, A: float) -> float:  # noqa: N803  symbols of the standard
    """Mean U-value of the parts."""
    return H / A


@formula(symbol="R_T", expression="1 / U", unit="m2_k_per_w", inputs={"U": "w_per_m2_k"}, clause=_TAPERED)
def resistance_of_mean(*, U: float) -> float:  # noqa: N803  symbol of the standard
    """Total resistance of a component with a tapered layer."""
    return 1.0 / U


_SHAPES: Final[dict[Shape, Formula[...]]] = {
    "rectangle": rectangle,
    "triangle_thickest_at_apex": triangle_thickest_at_apex,
    "triangle_thinnest_at_apex": triangle_thinnest_at_apex,
}


class WedgePart(NamedTuple):
    """A part of a tapered layer: its greatest resistance in m2.K/W and its mean U-value in W/(m2.K)."""

    part: TaperedPart
    resistance: float
    u_value: float


@dataclass(frozen=True, slots=True)
class Wedge:
    """A tapered layer over the rest of a build-up: mean U-value in W/(m2.K), its inverse, resistance of the rest, parts."""

    u_value: float
    total: float
    rest: float
    parts: tuple[WedgePart, ...]


def all_but_wedge(layers: Sequence[HeatLayer], tapered: Tapered) -> tuple[HeatLayer, ...]:
    """The layers without the tapered one; refuses a slope or a layer for which the method does not hold."""
    if tapered.slope_percent > _STEEPEST.value:
        raise refuse(
            "outside-validity",
            "/tapered/slope_percent",
            f"a slope of {tapered.slope_percent:g} % is steeper than the {_STEEPEST.value:g} % of {_STEEPEST.clause}; "
            "calculate the section numerically",
        )
    if tapered.layer >= len(layers):
        raise _wrong(f"layer {tapered.layer} is not among the {len(layers)} layers that count")
    if not isinstance(layers[tapered.layer].layer, SolidLayer | MaterialLayer | DeclaredLayer):
        raise _wrong(f"layer {tapered.layer} is not of one material with a thickness, as a tapered layer must be")
    return tuple(layer for layer in layers if layer.index != tapered.layer)


def wedge_over(layers: Sequence[HeatLayer], tapered: Tapered, rest: float, trace: Trace) -> Wedge:
    """The tapered layer on a rest of a resistance in m2.K/W."""
    if not on_other_inputs(trace) and rest <= LEAST_RESISTANCE:
        raise _wrong("nothing but the tapered layer resists, so its thin edge would conduct without end")
    heats, areas, parts = [], [], []
    for at, part in enumerate(tapered.parts):
        here = f"/tapered/parts/{at}"
        wedge = _greatest_resistance(layers[tapered.layer], part, here, trace)
        u_value = trace.call(_SHAPES[part.shape], R_0=rest, R_1=wedge)
        area = trace.given(part.area_m2, f"{here}/area_m2")
        areas.append(area)
        heats.append(trace.call(part_conductance, A=area, U=u_value))
        parts.append(WedgePart(part, wedge, u_value))
    heat, area = trace.sum("H", "w_per_k", heats, _TAPERED), trace.sum("A", "m2", areas, _TAPERED)
    mean = trace.call(mean_over_parts, H=heat, A=area)
    return Wedge(mean, trace.call(resistance_of_mean, U=mean), rest, tuple(parts))


def thickness_unused(tapered: Tapered) -> bool:
    """Whether every part has a thickness of its own, so that the layer's does nothing."""
    return all(part.thickness_mm is not None for part in tapered.parts)


def tapered_result(wedge: Wedge, layer: int) -> TaperedResult:
    """What is answered of a tapered layer."""
    return {
        "layer": layer,
        "r_rest_m2_k_per_w": float(wedge.rest),
        "parts": [
            {
                "shape": one.part.shape,
                "area_m2": one.part.area_m2,
                "r_wedge_m2_k_per_w": float(one.resistance),
                "u_value_w_per_m2_k": float(one.u_value),
            }
            for one in wedge.parts
        ],
    }


def _greatest_resistance(layer: HeatLayer, part: TaperedPart, pointer: str, trace: Trace) -> float:
    if part.thickness_mm is None or layer.conductivity is None:
        return layer.resistance
    thickness = trace.given(part.thickness_mm * METRES_PER_MILLIMETRE, f"{pointer}/thickness_mm")
    return trace.call(homogeneous, d=thickness, lambda_=layer.conductivity)


def _wrong(why: str) -> Refusal:
    return refuse(
        "tapered-contradictory",
        "/tapered/layer",
        f"{why}; name a layer by thickness and conductivity, over others that resist",
    )
