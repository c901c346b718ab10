"""Resistance of an unventilated air layer: convection and radiation side by side."""

from math import sqrt
from typing import Final

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.models import AirLayer, Element
from storeyrod.thermal.radiation import SIGMA, absolute_temperature, black_radiation
from storeyrod.thermal.tabulated import AIR_LAYERS, Tabulated
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_AIR_LAYER = Clause("ISO 6946", "Annex D", "memory")
_LARGE_DIFFERENCE = Clause("ISO 6946", "Annex D, over 5 K", "memory")
_SMALL_VOID = Clause("ISO 6946", "Annex D, small voids", "memory")

THICKEST_MM: Final = 300.0
"""Greatest thickness for which the standard gives a resistance."""

_CONDUCTION: Final = AIR_LAYERS["air_conductivity"]
_TEMPERATURE: Final = AIR_LAYERS["mean_temperature"]
_REFERENCE: Final = AIR_LAYERS["reference_thickness"]
_CONVECTION: Final[dict[Element, Tabulated]] = {
    "wall": AIR_LAYERS["convection_horizontal"],
    "roof": AIR_LAYERS["convection_up"],
    "floor": AIR_LAYERS["convection_down"],
}
_CONVECTION_BY_DIFFERENCE: Final[dict[Element, Tabulated]] = {
    "wall": AIR_LAYERS["convection_horizontal_large"],
    "roof": AIR_LAYERS["convection_up_large"],
    "floor": AIR_LAYERS["convection_down_large"],
}
_REFERENCE_DIFFERENCE: Final = AIR_LAYERS["reference_difference"]
_SMALL_DIFFERENCE: Final = AIR_LAYERS["small_difference"]
_SMALL_VOID_RATIO: Final = AIR_LAYERS["small_void_ratio"]


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
    symbol="h_a",
    expression="Max(lambda_a / d, h_c * (DT / DT_ref)**(1/3))",
    unit="w_per_m2_k",
    inputs={"lambda_a": "w_per_m_k", "d": "m", "h_c": "w_per_m2_k", "DT": "k", "DT_ref": "k"},
    clause=_LARGE_DIFFERENCE,
    validity={"d": (0.0, 0.3)},
)
def convection_by_difference(*, lambda_a: float, d: float, h_c: float, DT: float, DT_ref: float) -> float:  # noqa: N803
    """Conduction and convection in an air layer, heat flowing level or up, over 5 K across the layer."""
    return max(lambda_a / d, h_c * float((DT / DT_ref) ** (1 / 3)))


@formula(
    symbol="h_a",
    expression="Max(lambda_a / d, h_c * (DT / DT_ref)**0.187 * (d / d_ref)**(-0.44))",
    unit="w_per_m2_k",
    inputs={"lambda_a": "w_per_m_k", "d": "m", "h_c": "w_per_m2_k", "DT": "k", "DT_ref": "k", "d_ref": "m"},
    clause=_LARGE_DIFFERENCE,
    validity={"d": (0.0, 0.3)},
)
def convection_downwards_by_difference(
    *,
    lambda_a: float,
    d: float,
    h_c: float,
    DT: float,  # noqa: N803  symbols of the standard
    DT_ref: float,  # noqa: N803
    d_ref: float,
) -> float:
    """Conduction and convection in an air layer, heat flowing down, over 5 K across the layer."""
    return max(lambda_a / d, h_c * float((DT / DT_ref) ** 0.187) / float((d / d_ref) ** 0.44))


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
    """Resistance of a void that is narrower than ten times its thickness."""
    return 1.0 / (h_a + e_12 * h_r0 * (1.0 + sqrt(1.0 + d**2 / b**2) - d / b) / 2.0)


@formula(
    symbol="b_wide",
    expression="ratio * d",
    unit="m",
    inputs={"ratio": "fraction", "d": "m"},
    clause=_SMALL_VOID,
)
def wide_from(*, ratio: float, d: float) -> float:
    """Width from which on a void is a wide layer."""
    return ratio * d


def is_wide_void(layer: AirLayer) -> bool:
    """Whether a void is ten times as wide as thick, or more, as the request gives it: so too where inputs move."""
    return layer.void_width_mm is not None and layer.void_width_mm >= _SMALL_VOID_RATIO.value * layer.thickness_mm


def void_ratio(layer: AirLayer) -> tuple[float, float]:
    """Width of a void over its thickness, and from which ratio on it is a wide layer."""
    return (layer.void_width_mm or 0.0) / layer.thickness_mm, _SMALL_VOID_RATIO.value


def air_resistance(layer: AirLayer, pointer: str, element: Element, trace: Trace) -> float:
    """Resistance in m2.K/W of an air layer, as if unventilated; refuses one thicker than 300 mm."""
    d = trace.given(_thickness_m(layer, pointer), f"{pointer}/thickness_mm")
    h_a = _convection(layer, d, pointer, element, trace)
    h_r0 = trace.call(black_radiation, sigma=SIGMA.read(trace), T=_mean_temperature(layer, pointer, trace))
    e_12 = trace.call(
        emittance_between,
        e_1=trace.given(layer.emissivity_inner, f"{pointer}/emissivity_inner"),
        e_2=trace.given(layer.emissivity_outer, f"{pointer}/emissivity_outer"),
    )
    if layer.void_width_mm is None:
        return trace.call(air_layer, h_a=h_a, e_12=e_12, h_r0=h_r0)
    b = trace.given(layer.void_width_mm * METRES_PER_MILLIMETRE, f"{pointer}/void_width_mm")
    limit = trace.call(wide_from, ratio=_SMALL_VOID_RATIO.read(trace), d=d)
    if not trace.check("b", b, limit, "m", _SMALL_VOID, holds=not is_wide_void(layer)):
        return trace.call(air_layer, h_a=h_a, e_12=e_12, h_r0=h_r0)
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


def _mean_temperature(layer: AirLayer, pointer: str, trace: Trace) -> float:
    if layer.temperature_mean_deg_c is None:
        return _TEMPERATURE.read(trace)
    return absolute_temperature(layer.temperature_mean_deg_c, f"{pointer}/temperature_mean_deg_c", trace)


def _convection(layer: AirLayer, d: float, pointer: str, element: Element, trace: Trace) -> float:
    lambda_a, difference = _CONDUCTION.read(trace), layer.temperature_difference_k
    if difference is not None and difference > _SMALL_DIFFERENCE.value:
        given = trace.given(difference, f"{pointer}/temperature_difference_k")
        return _convection_by_difference(d, lambda_a, given, element, trace)
    h_c = _CONVECTION[element].read(trace)
    if element == "floor":
        return trace.call(convection_downwards, lambda_a=lambda_a, d=d, h_c=h_c, d_ref=_REFERENCE.read(trace))
    return trace.call(convection, lambda_a=lambda_a, d=d, h_c=h_c)


def _convection_by_difference(d: float, lambda_a: float, difference: float, element: Element, trace: Trace) -> float:
    h_c, unit = _CONVECTION_BY_DIFFERENCE[element].read(trace), _REFERENCE_DIFFERENCE.read(trace)
    if element != "floor":
        return trace.call(convection_by_difference, lambda_a=lambda_a, d=d, h_c=h_c, DT=difference, DT_ref=unit)
    return trace.call(
        convection_downwards_by_difference,
        lambda_a=lambda_a,
        d=d,
        h_c=h_c,
        DT=difference,
        DT_ref=unit,
        d_ref=_REFERENCE.read(trace),
    )
