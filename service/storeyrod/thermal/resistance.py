"""Resistance of every layer of a build-up, as far out as it counts."""

from dataclasses import dataclass

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.air_layers import air_resistance
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
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_HOMOGENEOUS = Clause("ISO 6946", "6.7.1", "memory")
_LOWER_LIMIT = Clause("ISO 6946", "6.7.2.4", "memory")

FRACTION_TOLERANCE = 1e-6
_FLOAT_NOISE = 1e-12
"""0.333333 three times is 1e-6 short of 1, and a hair more in binary."""


@dataclass(frozen=True, slots=True)
class Section:
    """A part of a bridged layer: share of the area and resistance in m2.K/W."""

    fraction: float
    resistance: float


@dataclass(frozen=True, slots=True)
class HeatLayer:
    """A layer that counts: its resistance in m2.K/W, and its parts when bridged."""

    index: int
    layer: Layer
    pointer: str
    resistance: float
    sections: tuple[Section, ...] = ()


@formula(
    symbol="R",
    expression="d / lambda_",
    unit="m2_k_per_w",
    inputs={"d": "m", "lambda_": "w_per_m_k"},
    clause=_HOMOGENEOUS,
)
def homogeneous(*, d: float, lambda_: float) -> float:
    """Resistance of a homogeneous layer."""
    return d / lambda_


@formula(
    symbol="f_q",
    expression="f / f_sum",
    unit="fraction",
    inputs={"f": "fraction", "f_sum": "fraction"},
    clause=_LOWER_LIMIT,
)
def scaled_fraction(*, f: float, f_sum: float) -> float:
    """Share of a part, scaled so that the parts of its layer add up to exactly 1."""
    return f / f_sum


@formula(
    symbol="h_q",
    expression="f_q / R_q",
    unit="w_per_m2_k",
    inputs={"f_q": "fraction", "R_q": "m2_k_per_w"},
    clause=_LOWER_LIMIT,
)
def section_conductance(*, f_q: float, R_q: float) -> float:  # noqa: N803  symbol of the standard
    """Conductance that a section adds to the whole area."""
    return f_q / R_q


@formula(symbol="R", expression="1 / h", unit="m2_k_per_w", inputs={"h": "w_per_m2_k"}, clause=_LOWER_LIMIT)
def parallel_resistance(*, h: float) -> float:
    """Resistance of sections side by side, from the sum of their conductances."""
    return 1.0 / h


def side_by_side(sections: tuple[Section, ...], trace: Trace) -> float:
    """Resistance in m2.K/W of sections side by side between planes of one temperature."""
    conductances = [trace.call(section_conductance, f_q=part.fraction, R_q=part.resistance) for part in sections]
    return trace.call(parallel_resistance, h=trace.sum("h", "w_per_m2_k", conductances, _LOWER_LIMIT))


def counted_layers(build_up: BuildUp, pointer: str, trace: Trace) -> tuple[HeatLayer, ...]:
    """Layers with their resistance, from the inside as far as the first well-ventilated air layer."""
    made: list[HeatLayer] = []
    for index, layer in enumerate(build_up.layers):
        here = f"{pointer}/layers/{index}"
        if isinstance(layer, AirLayer):
            _check_ventilation(layer, here)
            if layer.ventilation == "strong":
                break
        made.append(_heat_layer(index, layer, here, build_up.element, trace))
    if not any(layer.resistance > 0.0 for layer in made):
        raise refuse(
            "layers-missing", f"{pointer}/layers", "no layer inside the ventilated part has a thermal resistance"
        )
    return tuple(made)


def name_of(layer: Layer) -> str:
    """What a layer is, for the reader."""
    if isinstance(layer, MaterialLayer):
        return MATERIALS[layer.material]["name"] if layer.material in MATERIALS else layer.material
    return "air layer" if isinstance(layer, AirLayer) else layer.name


def _heat_layer(index: int, layer: Layer, pointer: str, element: Element, trace: Trace) -> HeatLayer:
    if isinstance(layer, SolidLayer):
        lambda_ = trace.given(layer.conductivity_w_per_m_k, f"{pointer}/conductivity_w_per_m_k")
        return HeatLayer(
            index, layer, pointer, trace.call(homogeneous, d=_thickness(layer, pointer, trace), lambda_=lambda_)
        )
    if isinstance(layer, MaterialLayer):
        lambda_ = conductivity_of(layer.material, f"{pointer}/material").read(trace)
        return HeatLayer(
            index, layer, pointer, trace.call(homogeneous, d=_thickness(layer, pointer, trace), lambda_=lambda_)
        )
    if isinstance(layer, ResistanceLayer):
        return HeatLayer(
            index, layer, pointer, trace.given(layer.resistance_m2_k_per_w, f"{pointer}/resistance_m2_k_per_w")
        )
    if isinstance(layer, AirLayer):
        return HeatLayer(index, layer, pointer, air_resistance(layer, pointer, element, trace))
    sections = _sections(layer, pointer, trace)
    return HeatLayer(index, layer, pointer, side_by_side(sections, trace), sections)


def _thickness(layer: SolidLayer | MaterialLayer | BridgedLayer, pointer: str, trace: Trace) -> float:
    return trace.given(layer.thickness_mm * METRES_PER_MILLIMETRE, f"{pointer}/thickness_mm")


def _sections(layer: BridgedLayer, pointer: str, trace: Trace) -> tuple[Section, ...]:
    fractions = [trace.given(part.fraction, f"{pointer}/parts/{at}/fraction") for at, part in enumerate(layer.parts)]
    total = sum(fractions)
    if abs(total - 1.0) > FRACTION_TOLERANCE + _FLOAT_NOISE:
        raise refuse(
            "fractions-do-not-add-up",
            f"{pointer}/parts",
            f"the fractions of the parts add up to {total:.9g}; they must make 1",
        )
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
    return trace.call(homogeneous, d=_thickness(layer, pointer, trace), lambda_=lambda_)


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


_OPENINGS = {"none": (0.0, 500.0), "slight": (500.0, 1500.0), "strong": (1500.0, float("inf"))}
