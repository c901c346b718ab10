"""What a request asks beyond the U-value, added to its answer."""

from typing import Final

from storeyrod.answer import Answer
from storeyrod.thermal.band import band_of
from storeyrod.thermal.evaluation import evaluation_of
from storeyrod.thermal.models import AirLayer, UValueRequest, UValueResult
from storeyrod.thermal.sensitivity import sensitivities
from storeyrod.thermal.target import target_of
from storeyrod.thermal.temperatures import plane_temperatures
from storeyrod.thermal.u_value import Component, additions_apply
from storeyrod.trace import SILENT, Trace

_ISOTHERMAL: Final = (
    "Temperatures of planes beside bridged parts and in slightly ventilated layers: planes were taken as even, and such "
    "layers as unventilated."
)
_FROZEN: Final = (
    "Inputs at which corrections would pass 3 % of U: band and sensitivities keep or leave them out as the answer does."
)


def asks_more(request: UValueRequest) -> bool:
    """Whether a request asks for more than the U-value."""
    return (
        request.sensitivity
        or request.temperatures is not None
        or request.target is not None
        or request.tolerances is not None
    )


def with_questions(answer: Answer[UValueResult], request: UValueRequest, component: Component, trace: Trace) -> None:
    """Answer everything else that a request asks."""
    if request.temperatures is not None:
        answer.result["temperatures"] = plane_temperatures(component, request.temperatures, trace)
        if any(layer.sections or isinstance(layer.layer, AirLayer) for layer in component.layers):
            answer.not_checked.append(_ISOTHERMAL)
    if request.target is not None:
        answer.result["target"], findings = target_of(request, request.target, trace)
        answer.findings += findings
    if request.tolerances is not None or request.sensitivity:
        _add_variations(answer, request, component, trace)


def _add_variations(answer: Answer[UValueResult], request: UValueRequest, component: Component, trace: Trace) -> None:
    applies = additions_apply(component, SILENT)
    evaluation = evaluation_of(request, applies=applies)
    if component.additions.all:
        answer.not_checked.append(_FROZEN)
    if request.tolerances is not None:
        answer.result["band"], findings = band_of(evaluation, request.tolerances, trace)
        answer.findings += findings
    if request.sensitivity:
        u_value = component.u_value(trace, applies=applies)
        answer.result["sensitivity"] = sensitivities(evaluation, u_value, trace)
