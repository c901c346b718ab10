"""What each input does to a U-value: central differences on the calculation itself."""

import re
from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.thermal.evaluation import BUILD_UP, Evaluation, unit_of
from storeyrod.thermal.models import BridgedLayer
from storeyrod.thermal.parts_in_proportion import with_share
from storeyrod.thermal.question_models import Sensitivity
from storeyrod.trace import Trace, formula
from storeyrod.units import UNITS

_DIFFERENCE: Final = Clause("geometry", "central difference of the U-value", "independent_calculation")
_RAISED: Final = Clause("geometry", "this U-value with the input raised by the step", "independent_calculation")
_LOWERED: Final = Clause("geometry", "this U-value with the input lowered by the step", "independent_calculation")

STEP: Final = 1e-5
"""Share by which an input is raised and lowered, or how much where it is 0: errors of either kind stay under 1e-8."""

_SHARE: Final = re.compile(rf"{BUILD_UP}/layers/(\d+)/parts/(\d+)/fraction")


@formula(
    symbol="E",
    expression="(U_high - U_low) / (2 * step * U)",
    unit="fraction",
    inputs={"U_high": "w_per_m2_k", "U_low": "w_per_m2_k", "step": "fraction", "U": "w_per_m2_k"},
    clause=_DIFFERENCE,
)
def relative_change(*, U_high: float, U_low: float, step: float, U: float) -> float:  # noqa: N803  symbol of the standard
    """Relative change of a U-value over the relative change of an input."""
    return (U_high - U_low) / (2.0 * step * U)


def sensitivities(evaluation: Evaluation, u_value: float, trace: Trace) -> list[Sensitivity]:
    """One row for each input; ``u_value`` is the answer's, linked to its step. Shares in line with others have no row."""
    inputs = evaluation.inputs()
    evaluation.refuse_too_many(2 * len(inputs), "/sensitivity")
    rows = [_row(evaluation, pointer, value, u_value, trace) for pointer, value in inputs.items()]
    return [row for row in rows if row is not None]


def _row(evaluation: Evaluation, pointer: str, value: float, u_value: float, trace: Trace) -> Sensitivity | None:
    step = abs(value) * STEP or STEP
    raised, lowered = (_changed(evaluation, pointer, value + change) for change in (step, -step))
    if raised is None or lowered is None:
        return None
    high, low, own = evaluation.u_value(raised), evaluation.u_value(lowered), evaluation.at(pointer)
    relative = 0.0
    change = (high - low) / (2.0 * step)
    if value != 0.0:
        relative = trace.call(
            relative_change,
            U_high=trace.lookup("U_high", high, "w_per_m2_k", _RAISED),
            U_low=trace.lookup("U_low", low, "w_per_m2_k", _LOWERED),
            step=trace.lookup("step", STEP if value > 0.0 else -STEP, "fraction", _DIFFERENCE),
            U=u_value,
        )
        change = relative * u_value / own
    return {
        "input": pointer,
        "value": float(own),
        "unit": UNITS[unit_of(pointer)].ucum,
        "u_value_change_w_per_m2_k": float(change),
        "relative_change_fraction": float(relative),
    }


def _changed(evaluation: Evaluation, pointer: str, value: float) -> dict[str, float] | None:
    """Values that change with one input; none where it cannot change by itself."""
    share = _SHARE.fullmatch(pointer)
    if share is None:
        return {pointer: value}
    index, part = int(share[1]), int(share[2])
    layers = evaluation.request.build_up.layers
    layer = layers[index]
    assert isinstance(layer, BridgedLayer)
    if layer.in_line_with is not None or layer.parts[part].fraction == 1.0:
        return None
    return with_share(layers, index, part, value, f"{BUILD_UP}/layers")
