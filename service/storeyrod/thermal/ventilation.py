"""Slightly ventilated air layers: between the unventilated and the well-ventilated case."""

from collections.abc import Sequence
from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.thermal.combined import Limits, limits, paths_count, refuse_too_many_paths
from storeyrod.thermal.models import AirLayer, Element
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.surfaces import still_air
from storeyrod.thermal.tabulated import AIR_LAYERS
from storeyrod.trace import Trace, formula

_SLIGHT = Clause("ISO 6946", "6.9.3", "memory")

_FROM: Final = AIR_LAYERS["opening_unventilated"]
_TO: Final = AIR_LAYERS["opening_well_ventilated"]


@formula(
    symbol="R_T",
    expression="((A_to - A_v) * R_u + (A_v - A_from) * R_v) / (A_to - A_from)",
    unit="m2_k_per_w",
    inputs={
        "A_v": "mm2_per_m",
        "R_u": "m2_k_per_w",
        "R_v": "m2_k_per_w",
        "A_from": "mm2_per_m",
        "A_to": "mm2_per_m",
    },
    clause=_SLIGHT,
    validity={"A_v": (500.0, 1500.0)},
)
def slightly_ventilated(*, A_v: float, R_u: float, R_v: float, A_from: float, A_to: float) -> float:  # noqa: N803
    """Total resistance between the unventilated and the well-ventilated case, by area of openings."""
    return ((A_to - A_v) * R_u + (A_v - A_from) * R_v) / (A_to - A_from)


def ventilated_limits(
    layers: Sequence[HeatLayer], internal: float, external: float, element: Element, pointer: str, trace: Trace
) -> tuple[Limits, list[Limits]]:
    """Limits of the component, and those of every case it was mixed from.

    Several slightly ventilated layers are taken from the outside inwards: the case in which an inner one is unventilated
    still holds the outer ones.
    """
    slight = [layer for layer in layers if isinstance(layer.layer, AirLayer) and layer.layer.ventilation == "slight"]
    parts = [tuple(inner for inner in layers if inner.index < layer.index) for layer in slight]
    refuse_too_many_paths(sum([paths_count(each) for each in (layers, *parts)]), pointer)
    mixed = limits(layers, internal, external, trace)
    cases = [mixed]
    for layer, inside in zip(reversed(slight), reversed(parts), strict=True):
        vented = limits(inside, internal, still_air(element, trace), trace)
        cases.append(vented)
        mixed = _mix(layer, mixed, vented, trace)
    return mixed, cases


def _mix(layer: HeatLayer, unventilated: Limits, vented: Limits, trace: Trace) -> Limits:
    assert isinstance(layer.layer, AirLayer)
    opening = trace.given(layer.layer.opening_mm2_per_m or 0.0, f"{layer.pointer}/opening_mm2_per_m")
    ends = {"A_v": opening, "A_from": _FROM.read(trace), "A_to": _TO.read(trace)}
    lower = trace.call(slightly_ventilated, R_u=unventilated.lower, R_v=vented.lower, **ends)
    if not unventilated.bridged:
        return Limits(lower, lower, bridged=False)
    upper = trace.call(slightly_ventilated, R_u=unventilated.upper, R_v=vented.upper, **ends)
    return Limits(upper, lower, bridged=True)
