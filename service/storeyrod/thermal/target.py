"""How thick a layer must be for a U-value: bisection on the calculation itself."""

from collections.abc import Callable
from typing import Final

from storeyrod.findings import Finding, Refusal, finding, refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.cautions import method_findings
from storeyrod.thermal.evaluation import BUILD_UP, component_with
from storeyrod.thermal.method import method_refusal
from storeyrod.thermal.models import UValueRequest
from storeyrod.thermal.question_models import Target, TargetResult
from storeyrod.thermal.tapered import EVERY_PART, thickness_unused
from storeyrod.thermal.u_value import Component, additions_apply
from storeyrod.thermal.variation import Inputs, Relinked, Varied
from storeyrod.trace import Recorder, Trace
from storeyrod.units import METRES_PER_MILLIMETRE

_SEARCH: Final = Clause("geometry", "bisection until the U-value is the target", "independent_calculation")

THINNEST_MM: Final = 0.01
THICKEST_MM: Final = 3000.0
"""Thicknesses between which is searched: the bounds of the member."""

_HALVINGS: Final = 60
_EQUAL: Final = 1e-12
"""Share by which the U-value of a thickness held may pass the target and still be it: rounding in binary."""


def target_of(request: UValueRequest, target: Target, trace: Trace) -> tuple[TargetResult, list[Finding]]:
    """Thickness at which the target is reached, the next one held, and what must be said about them."""
    _refuse_without_thickness(request, target)

    def u_value(thickness_mm: float) -> tuple[float, bool]:
        return _u_value(request, target, thickness_mm)

    least = u_value(THICKEST_MM)[0]
    if least > target.u_value_w_per_m2_k:
        raise _unreachable(target, least)
    thickness = _least_thickness(u_value, target.u_value_w_per_m2_k)
    for found in _beyond_method(request, target, thickness):
        raise method_refusal(found, "/target", f"at the {thickness:.4g} mm that the target needs ")
    result: TargetResult = {
        "layer": target.layer,
        "thickness_mm": thickness,
        "u_value_w_per_m2_k": u_value(thickness)[0],
    }
    if not _beyond_method(request, target, THICKEST_MM):
        result["u_value_least_w_per_m2_k"] = least
    _record_search(request, target, thickness, trace)
    return result, _held(request, target, result, trace)


def _u_value(request: UValueRequest, target: Target, thickness_mm: float) -> tuple[float, bool]:
    """U-value at a thickness, and whether corrections apply to it."""
    component, trace = _component(request, target, thickness_mm)
    applies = additions_apply(component, trace)
    return component.u_value(trace, applies=applies), applies


def _component(request: UValueRequest, target: Target, thickness_mm: float) -> tuple[Component, Trace]:
    pointer = f"{BUILD_UP}/layers/{target.layer}/thickness_mm"
    trace = Varied({pointer: thickness_mm * METRES_PER_MILLIMETRE})
    return component_with(request, trace), trace


def _beyond_method(request: UValueRequest, target: Target, thickness_mm: float) -> list[Finding]:
    """Why the combined method does not hold at a thickness; nothing where it does."""
    component, _ = _component(request, target, thickness_mm)
    return method_findings(component.layers, component.resistance.cases, BUILD_UP)


def _refuse_without_thickness(request: UValueRequest, target: Target) -> None:
    """Refuse a layer whose thickness does nothing."""
    pointer = f"{BUILD_UP}/layers/{target.layer}/thickness_mm"
    inputs = Inputs()
    layers = component_with(request, inputs).layers
    if pointer not in inputs.values or layers[target.layer].layer.kind == "air":
        raise refuse(
            "target-layer-wrong",
            "/target/layer",
            f"layer {target.layer} has no thickness that a resistance follows from, or is not among the {len(layers)} layers "
            "that count; name a layer by thickness and conductivity",
        )

    if request.tapered is not None and request.tapered.layer == target.layer and thickness_unused(request.tapered):
        raise refuse("target-layer-wrong", "/target/layer", f"{EVERY_PART}; leave those out, or name another layer")


def _least_thickness(u_value: Callable[[float], tuple[float, bool]], most: float) -> float:
    """Least thickness in mm from which on the U-value stays at or under the target.

    It falls with thickness but for one step up, where corrections reach 3 % and begin to count; so both sides of that step
    are searched, the thick one first.
    """
    ends = [(THINNEST_MM, THICKEST_MM)]
    (_, thin), (_, thick) = u_value(THINNEST_MM), u_value(THICKEST_MM)
    if thin != thick:
        below, above = _halved(lambda d: u_value(d)[1] == thick, THINNEST_MM, THICKEST_MM)
        ends = [(above, THICKEST_MM), (THINNEST_MM, below)]
    found = THICKEST_MM
    for low, high in ends:
        if u_value(high)[0] > most:
            return found
        if u_value(low)[0] > most:
            return _halved(lambda d: u_value(d)[0] <= most, low, high)[1]
        found = low
    return found


def _halved(holds: Callable[[float], bool], low: float, high: float) -> tuple[float, float]:
    """Two close numbers between which a statement that is false at ``low`` and true at ``high`` turns true."""
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if holds(middle):
            high = middle
        else:
            low = middle
    return low, high


def _held(request: UValueRequest, target: Target, result: TargetResult, trace: Trace) -> list[Finding]:
    """Write the thinnest thickness held that reaches the target by a method that holds there, or say why there is none."""
    if not target.thicknesses_held_mm:
        return []
    here = "/target/thicknesses_held_mm"
    made: list[Finding] = []
    for thickness, at in sorted((one, at) for at, one in enumerate(target.thicknesses_held_mm)):
        reached, _ = _u_value(request, target, thickness)
        if reached > target.u_value_w_per_m2_k * (1.0 + _EQUAL):
            continue
        if _beyond_method(request, target, thickness):
            made.append(
                finding("held-thickness-beyond-method", {"pointer": f"{here}/{at}"}, value=thickness, unit="mm")
            )
            continue
        result["thickness_held_mm"], result["u_value_held_w_per_m2_k"] = thickness, reached
        _record(request, target, trace.given(thickness * METRES_PER_MILLIMETRE, f"{here}/{at}"), trace)
        return made
    if made:
        return made
    longest, limit = max(target.thicknesses_held_mm), result["thickness_mm"]
    return [finding("held-thickness-short", {"pointer": here}, value=longest, limit=limit, unit="mm")]


def _record_search(request: UValueRequest, target: Target, thickness_mm: float, trace: Trace) -> None:
    _record(request, target, trace.lookup("d", thickness_mm * METRES_PER_MILLIMETRE, "m", _SEARCH), trace)


def _record(request: UValueRequest, target: Target, thickness: float, trace: Trace) -> None:
    """Write the working at a thickness in m that is linked to its origin."""
    if not isinstance(trace, Recorder):
        return
    relinked = Relinked(trace, {f"{BUILD_UP}/layers/{target.layer}/thickness_mm": thickness})
    component = component_with(request, relinked)
    u_value = component.u_value(relinked, applies=additions_apply(component, relinked))
    limit = trace.given(target.u_value_w_per_m2_k, "/target/u_value_w_per_m2_k")
    trace.check("U", u_value, limit, "w_per_m2_k", _SEARCH, holds=u_value <= limit * (1.0 + _EQUAL))


def _unreachable(target: Target, least: float) -> Refusal:
    return refuse(
        "target-unreachable",
        "/target/u_value_w_per_m2_k",
        f"with layer {target.layer} as thick as {THICKEST_MM:g} mm the U-value is still {least:.4g} W/(m2.K), more than "
        f"{target.u_value_w_per_m2_k:g}; name a better insulating layer, or reduce what fasteners and gaps add",
    )
