"""Temperatures of the planes between layers, from surface to surface."""

from collections.abc import Sequence
from itertools import accumulate
from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.thermal.heat_layers import name_of
from storeyrod.thermal.question_models import AirTemperatures, PlaneTemperature
from storeyrod.thermal.u_value import Component
from storeyrod.trace import Trace, formula

_PLANES: Final = Clause("ISO 13788", "temperatures of planes in proportion to resistance", "memory")


@formula(
    symbol="theta",
    expression="theta_i - (theta_i - theta_e) * R_in / R_T",
    unit="deg_c",
    inputs={"theta_i": "deg_c", "theta_e": "deg_c", "R_in": "m2_k_per_w", "R_T": "m2_k_per_w"},
    clause=_PLANES,
)
def plane_temperature(*, theta_i: float, theta_e: float, R_in: float, R_T: float) -> float:  # noqa: N803  symbols
    """Temperature of a plane, by the resistance between it and the air inside."""
    return theta_i - (theta_i - theta_e) * R_in / R_T


def interface_temperatures(resistances: Sequence[float], internal_deg_c: float, external_deg_c: float) -> list[float]:
    """Temperatures in degrees Celsius between consecutive resistances in m2.K/W, from inside to outside.

    The resistances begin and end with the surfaces, so the first temperature is that of the internal surface and the last
    that of the external one.
    """
    total = sum(resistances)
    drop = internal_deg_c - external_deg_c
    return [internal_deg_c - drop * inside / total for inside in accumulate(resistances[:-1])]


def plane_temperatures(component: Component, air: AirTemperatures, trace: Trace) -> list[PlaneTemperature]:
    """Temperature of both surfaces and of every plane between; of bridged layers by the resistance of the lower limit."""
    inside = trace.given(air.internal_deg_c, "/temperatures/internal_deg_c")
    outside = trace.given(air.external_deg_c, "/temperatures/external_deg_c")
    resistances = [component.resistance.internal, *[layer.resistance for layer in component.layers]]
    total = trace.sum("R_T", "m2_k_per_w", [*resistances, component.resistance.external], _PLANES)
    rows: list[PlaneTemperature] = []
    for index in range(len(resistances)):
        within = trace.sum("R_in", "m2_k_per_w", resistances[: index + 1], _PLANES)
        theta = trace.call(plane_temperature, theta_i=inside, theta_e=outside, R_in=within, R_T=total)
        rows.append({"index": index, "name": _name(component, index), "temperature_deg_c": float(theta)})
    return rows


def _name(component: Component, index: int) -> str:
    if index == 0:
        return "internal surface"
    if index == len(component.layers):
        return "external surface"
    return f"between {name_of(component.layers[index - 1].layer)} and {name_of(component.layers[index].layer)}"
