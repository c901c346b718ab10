"""Surface resistances by convection and radiation, for other winds, emissivities and temperatures than the conventional."""

from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.thermal.models import Element, SurfaceConditions
from storeyrod.thermal.radiation import SIGMA, absolute_temperature, black_radiation
from storeyrod.thermal.tabulated import SURFACES, Tabulated
from storeyrod.trace import Trace, formula

_SURFACE = Clause("ISO 6946", "Annex C", "memory")
_WIND = Clause("ISO 6946", "Annex C, external surfaces", "memory")

_CONVECTION: Final[dict[Element, Tabulated]] = {
    "wall": SURFACES["convection_internal_horizontal"],
    "roof": SURFACES["convection_internal_up"],
    "floor": SURFACES["convection_internal_down"],
}


@formula(
    symbol="h_c",
    expression="h_0 + h_v * v / v_ref",
    unit="w_per_m2_k",
    inputs={"h_0": "w_per_m2_k", "h_v": "w_per_m2_k", "v": "m_per_s", "v_ref": "m_per_s"},
    clause=_WIND,
)
def wind_convection(*, h_0: float, h_v: float, v: float, v_ref: float) -> float:
    """Convection at an external surface in wind."""
    return h_0 + h_v * v / v_ref


@formula(
    symbol="R_s",
    expression="1 / (h_c + epsilon * h_r0)",
    unit="m2_k_per_w",
    inputs={"h_c": "w_per_m2_k", "epsilon": "fraction", "h_r0": "w_per_m2_k"},
    clause=_SURFACE,
)
def surface_resistance(*, h_c: float, epsilon: float, h_r0: float) -> float:
    """Resistance of a surface."""
    return 1.0 / (h_c + epsilon * h_r0)


def internal_surface(conditions: SurfaceConditions, pointer: str, element: Element, trace: Trace) -> float:
    """Internal surface resistance in m2.K/W."""
    radiation = _radiation(conditions.temperature_internal_deg_c, f"{pointer}/temperature_internal_deg_c", trace)
    epsilon = trace.given(conditions.emissivity_internal, f"{pointer}/emissivity_internal")
    return trace.call(surface_resistance, h_c=_CONVECTION[element].read(trace), epsilon=epsilon, h_r0=radiation)


def external_surface(conditions: SurfaceConditions, pointer: str, trace: Trace) -> float:
    """External surface resistance in m2.K/W."""
    convection = trace.call(
        wind_convection,
        h_0=SURFACES["convection_external_still"].read(trace),
        h_v=SURFACES["convection_external_wind"].read(trace),
        v=trace.given(conditions.wind_speed_m_per_s, f"{pointer}/wind_speed_m_per_s"),
        v_ref=SURFACES["reference_wind"].read(trace),
    )
    radiation = _radiation(conditions.temperature_external_deg_c, f"{pointer}/temperature_external_deg_c", trace)
    epsilon = trace.given(conditions.emissivity_external, f"{pointer}/emissivity_external")
    return trace.call(surface_resistance, h_c=convection, epsilon=epsilon, h_r0=radiation)


def _radiation(celsius: float, pointer: str, trace: Trace) -> float:
    return trace.call(black_radiation, sigma=SIGMA.read(trace), T=absolute_temperature(celsius, pointer, trace))
