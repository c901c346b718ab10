"""Layers of a build-up read into resistances, from the inside as far out as they count."""

from collections.abc import Sequence
from typing import Final

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.air_layers import air_resistance
from storeyrod.thermal.alignment import check_alignment
from storeyrod.thermal.conversion import design_conductivity
from storeyrod.thermal.declared_models import DeclaredLayer
from storeyrod.thermal.materials import MATERIALS, conductivity_of
from storeyrod.thermal.models import (
    AirLayer,
    BridgedLayer,
    BridgedPart,
    BuildUp,
    Element,
    Layer,
    MaterialLayer,
    ResistanceLayer,
    SolidLayer,
)
from storeyrod.thermal.resistance import HeatLayer, Section, homogeneous, scaled_fraction, side_by_side
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE

_LOWER_LIMIT = Clause("ISO 6946", "6.7.2.4", "memory")

FRACTION_TOLERANCE: Final = 1e-6
_FLOAT_NOISE: Final = 1e-12
"""0.333333 three times is 1e-6 short of 1, and a hair more in binary."""

LEAST_RESISTANCE: Final = 1e-9
"""In m2.K/W: less counts as none. A hundredth of a millimetre of metal has more."""

_OPENINGS: Final = {"none": (0.0, 500.0), "slight": (500.0, 1500.0), "strong": (1500.0, float("inf"))}


def counted_layers(build_up: BuildUp, pointer: str, trace: Trace) -> tuple[HeatLayer, ...]:
    """Layers with their resistance, from the inside as far as the first well-ventilated air layer."""
    made: list[HeatLayer] = []
    for index, layer in enumerate(build_up.layers):
        here = f"{pointer}/layers/{index}"
        if isinstance(layer, AirLayer):
            _check_ventilation(layer, here)
            if layer.ventilation == "strong":
                break
        elif isinstance(layer, BridgedLayer) and layer.in_line_with is not None:
            check_alignment(build_up.layers, index, here)
        made.append(_heat_layer(index, layer, here, build_up.element, trace))
    return tuple(made)


def refuse_without_resistance(layers: Sequence[HeatLayer], given: int, pointer: str) -> None:
    """Refuse ``layers-missing`` when none of the layers that count, of those given, resists."""
    if not any(layer.resistance > LEAST_RESISTANCE for layer in layers):
        which = "no layer inside the well-ventilated one" if len(layers) < given else "no layer"
        raise refuse(
            "layers-missing",
            f"{pointer}/layers",
            f"{which} has a thermal resistance over {LEAST_RESISTANCE:g} m2.K/W; give one that has",
        )


def name_of(layer: Layer) -> str:
    """What a layer is, for the reader."""
    if isinstance(layer, MaterialLayer):
        return MATERIALS[layer.material]["name"] if layer.material in MATERIALS else layer.material
    return "air layer" if isinstance(layer, AirLayer) else layer.name


def _heat_layer(index: int, layer: Layer, pointer: str, element: Element, trace: Trace) -> HeatLayer:
    if isinstance(layer, SolidLayer):
        lambda_ = trace.given(layer.conductivity_w_per_m_k, f"{pointer}/conductivity_w_per_m_k")
        return HeatLayer(index, layer, pointer, _homogeneous(layer, lambda_, pointer, trace), conductivity=lambda_)
    if isinstance(layer, AirLayer):
        return HeatLayer(index, layer, pointer, air_resistance(layer, pointer, element, trace))
    if isinstance(layer, ResistanceLayer):
        given = trace.given(layer.resistance_m2_k_per_w, f"{pointer}/resistance_m2_k_per_w")
        return HeatLayer(index, layer, pointer, given)
    if isinstance(layer, MaterialLayer):
        lambda_ = conductivity_of(layer.material, f"{pointer}/material").read(trace)
        return HeatLayer(index, layer, pointer, _homogeneous(layer, lambda_, pointer, trace), conductivity=lambda_)
    if isinstance(layer, DeclaredLayer):
        lambda_ = design_conductivity(layer, pointer, trace)
        return HeatLayer(index, layer, pointer, _homogeneous(layer, lambda_, pointer, trace), conductivity=lambda_)
    sections = _sections(layer, pointer, trace)
    return HeatLayer(index, layer, pointer, side_by_side(sections, trace), sections)


def _homogeneous(
    layer: SolidLayer | MaterialLayer | DeclaredLayer | BridgedLayer, lambda_: float, pointer: str, trace: Trace
) -> float:
    thickness = trace.given(layer.thickness_mm * METRES_PER_MILLIMETRE, f"{pointer}/thickness_mm")
    return trace.call(homogeneous, d=thickness, lambda_=lambda_)


def _sections(layer: BridgedLayer, pointer: str, trace: Trace) -> tuple[Section, ...]:
    total = sum(part.fraction for part in layer.parts)
    if abs(total - 1.0) > FRACTION_TOLERANCE + _FLOAT_NOISE:
        raise refuse(
            "fractions-do-not-add-up",
            f"{pointer}/parts",
            f"the fractions of the parts add up to {total:.9g}; they must make 1 within {FRACTION_TOLERANCE:g}",
        )
    fractions = [trace.given(part.fraction, f"{pointer}/parts/{at}/fraction") for at, part in enumerate(layer.parts)]
    if total != 1.0:
        f_sum = trace.sum("f_sum", "fraction", fractions, _LOWER_LIMIT)
        fractions = [trace.call(scaled_fraction, f=f, f_sum=f_sum) for f in fractions]
    return tuple(
        Section(fraction, _part_resistance(layer, part, pointer, f"{pointer}/parts/{at}", trace))
        for at, (part, fraction) in enumerate(zip(layer.parts, fractions, strict=True))
    )


def _part_resistance(layer: BridgedLayer, part: BridgedPart, pointer: str, here: str, trace: Trace) -> float:
    if (part.conductivity_w_per_m_k is None) == (part.resistance_m2_k_per_w is None):
        raise refuse(
            "bridged-part-contradictory",
            here,
            "give conductivity_w_per_m_k or resistance_m2_k_per_w: one of the two, not both",
        )
    if part.resistance_m2_k_per_w is not None:
        return trace.given(part.resistance_m2_k_per_w, f"{here}/resistance_m2_k_per_w")
    assert part.conductivity_w_per_m_k is not None
    lambda_ = trace.given(part.conductivity_w_per_m_k, f"{here}/conductivity_w_per_m_k")
    return _homogeneous(layer, lambda_, pointer, trace)


def _check_ventilation(layer: AirLayer, pointer: str) -> None:
    opening = layer.opening_mm2_per_m
    if opening is None:
        if layer.ventilation == "slight":
            raise refuse(
                "ventilation-contradictory",
                f"{pointer}/ventilation",
                "a slightly ventilated layer needs opening_mm2_per_m, from 500 to 1500 mm2 per m",
            )
        return
    low, high = _OPENINGS[layer.ventilation]
    if not low <= opening <= high:
        raise refuse(
            "ventilation-contradictory",
            f"{pointer}/opening_mm2_per_m",
            f"openings of {opening:g} mm2 per m do not belong to ventilation {layer.ventilation}: "
            "none is up to 500, slight from 500 to 1500, strong from 1500",
        )
