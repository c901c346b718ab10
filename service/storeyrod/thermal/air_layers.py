"""Resistance of an unventilated air layer: convection and radiation side by side."""

from math import sqrt
from typing import Final

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.models import AirLayer, Element
from storeyrod.thermal.tabulated import AIR_LAYERS, Tabulated
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_AIR_LAYER = Clause("ISO 6946", "Annex D", "memory")
_SMALL_VOID = Clause("ISO 6946", "Annex D, small voids", "memory")

THICKEST_MM: Final = 300.0
"""Greatest thickness for which the standard gives a resistance."""

_CONDUCTION: Final = AIR_LAYERS["air_conductivity"]
_SIGMA: Final = AIR_LAYERS["stefan_boltzmann"]
_TEMPERATURE: Final = AIR_LAYERS["mean_temperature"]
_REFERENCE: Final = AIR_LAYERS["reference_thickness"]
_CONVECTION: Final[dict[Element, Tabulated]] = {
    "wall": AIR_LAYERS["convection_horizontal"],
    "roof": AIR_LAYERS["convection_up"],
    "floor": AIR_LAYERS["convection_down"],
}


@formula(
    symbol="h_a",
    expression="Max(lambda_a / d, h_c)",
    unit="w_per_m2_k",
    inputs={"lambda_a": "w_per_m_k", "d": "m", "h_c": "w_per_m2_k"},
    clause=_AIR_LAYER,
    validity={"d": (0.0, 0.3)},
)
def convection(*, lambda_a: float, d: float, h_c: float) -> float:
    """Conduction and convection in an air layer, heat flowing level or up, up to 5 K across the layer."""
    return max(lambda_a / d, h_c)


@formula(
    symbol="h_a",
    expression="Max(lambda_a / d, h_c * (d / d_ref)**(-0.44))",
    unit="w_per_m2_k",
    inputs={"lambda_a": "w_per_m_k", "d": "m", "h_c": "w_per_m2_k", "d_ref": "m"},
    clause=_AIR_LAYER,
    validity={"d": (0.0, 0.3)},
)
def convection_downwards(*, lambda_a: float, d: float, h_c: float, d_ref: float) -> float:
    """Conduction and convection in an air layer, heat flowing down, up to 5 K across the layer."""
    return max(lambda_a / d, h_c / float((d / d_ref) ** 0.44))


@formula(
    symbol="h_r0",
    expression="4 * sigma * T**3",
    unit="w_per_m2_k",
    inputs={"sigma": "w_per_m2_k4", "T": "k"},
    clause=_AIR_LAYER,
)
def black_radiation(*, sigma: float, T: float) -> float:  # noqa: N803  symbol of the standard
    """Radiative coefficient of black surfaces at the mean temperature."""
    return 4.0 * sigma * T**3


@formula(
    symbol="e_12",
    expression="1 / (1 / e_1 + 1 / e_2 - 1)",
    unit="fraction",
    inputs={"e_1": "fraction", "e_2": "fraction"},
    clause=_AIR_LAYER,
    validity={"e_1": (0.0, 1.0), "e_2": (0.0, 1.0)},
)
def emittance_between(*, e_1: float, e_2: float) -> float:
    """Emittance between two parallel faces."""
    return 1.0 / (1.0 / e_1 + 1.0 / e_2 - 1.0)


@formula(
    symbol="R_g",
    expression="1 / (h_a + e_12 * h_r0)",
    unit="m2_k_per_w",
    inputs={"h_a": "w_per_m2_k", "e_12": "fraction", "h_r0": "w_per_m2_k"},
    clause=_AIR_LAYER,
)
def air_layer(*, h_a: float, e_12: float, h_r0: float) -> float:
    """Resistance of a wide unventilated air layer."""
    return 1.0 / (h_a + e_12 * h_r0)


@formula(
    symbol="R_g",
    expression="1 / (h_a + e_12 * h_r0 * (1 + sqrt(1 + d**2 / b**2) - d / b) / 2)",
    unit="m2_k_per_w",
    inputs={"h_a": "w_per_m2_k", "e_12": "fraction", "h_r0": "w_per_m2_k", "d": "m", "b": "m"},
    clause=_SMALL_VOID,
)
def small_void(*, h_a: float, e_12: float, h_r0: float, d: float, b: float) -> float:
    """Resistance of a void whose width is not large against its thickness; tends to the wide layer as it widens."""
    return 1.0 / (h_a + e_12 * h_r0 * (1.0 + sqrt(1.0 + d**2 / b**2) - d / b) / 2.0)


def air_resistance(layer: AirLayer, pointer: str, element: Element, trace: Trace) -> float:
    """Resistance in m2.K/W of an air layer, as if unventilated; refuses one thicker than 300 mm."""
    d = trace.given(_thickness_m(layer, pointer), f"{pointer}/thickness_mm")
    h_a = _convection(d, element, trace)
    h_r0 = trace.call(black_radiation, sigma=_SIGMA.read(trace), T=_TEMPERATURE.read(trace))
    e_12 = trace.call(
        emittance_between,
        e_1=trace.given(layer.emissivity_inner, f"{pointer}/emissivity_inner"),
        e_2=trace.given(layer.emissivity_outer, f"{pointer}/emissivity_outer"),
    )
    if layer.void_width_mm is None:
        return trace.call(air_layer, h_a=h_a, e_12=e_12, h_r0=h_r0)
    b = trace.given(layer.void_width_mm * METRES_PER_MILLIMETRE, f"{pointer}/void_width_mm")
    return trace.call(small_void, h_a=h_a, e_12=e_12, h_r0=h_r0, d=d, b=b)


def _thickness_m(layer: AirLayer, pointer: str) -> float:
    # Checked here and not only by the formulas' ranges: a silent trace knows no pointers.
    if layer.thickness_mm > THICKEST_MM:
        raise refuse(
            "outside-validity",
            f"{pointer}/thickness_mm",
            f"an air layer of {layer.thickness_mm:g} mm is thicker than the {THICKEST_MM:g} mm of {_AIR_LAYER}; "
            "give a layer of kind resistance, or calculate with a room's heat balance",
        )
    return layer.thickness_mm * METRES_PER_MILLIMETRE


def _convection(d: float, element: Element, trace: Trace) -> float:
    lambda_a, h_c = _CONDUCTION.read(trace), _CONVECTION[element].read(trace)
    if element == "floor":
        return trace.call(convection_downwards, lambda_a=lambda_a, d=d, h_c=h_c, d_ref=_REFERENCE.read(trace))
    return trace.call(convection, lambda_a=lambda_a, d=d, h_c=h_c)
