"""What each input does to a U-value: central differences on the calculation itself."""

import re
from collections.abc import Callable
from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.thermal.evaluation import BUILD_UP, Evaluation, unit_of
from storeyrod.thermal.models import BridgedLayer
from storeyrod.thermal.parts_in_proportion import with_share
from storeyrod.thermal.question_models import Sensitivity
from storeyrod.trace import Trace, formula

_DIFFERENCE: Final = Clause("geometry", "central difference of the U-value", "independent_calculation")
_RAISED: Final = Clause("geometry", "this U-value with the input one step farther from 0", "independent_calculation")
_LOWERED: Final = Clause("geometry", "this U-value with the input one step nearer to 0", "independent_calculation")

STEP: Final = 1e-5
"""Share by which an input is raised and lowered, or how much it is raised where it is 0: errors stay under 1e-8."""

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
    share = _SHARE.fullmatch(pointer)
    if share is not None:
        at = int(share[1]), int(share[2])
        if not _moves_by_itself(evaluation, *at):
            return None
        change, relative = _around(lambda to: evaluation.u_value(_share(evaluation, *at, to)), value, u_value, trace)
    else:
        change, relative = _around(lambda to: evaluation.u_value({pointer: to}), value, u_value, trace)
    own = evaluation.at(pointer)
    return {
        "input": pointer,
        "value": float(own),
        "unit": unit_of(pointer),
        "u_value_change_w_per_m2_k": float(change * (value / own if own else 1.0)),
        "relative_change_fraction": float(relative),
    }


def _around(by: Callable[[float], float], value: float, u_value: float, trace: Trace) -> tuple[float, float]:
    """Change of the U-value for one more of an input in SI, and relative change over relative change."""
    if value == 0.0:
        return _from_nothing(by), 0.0
    relative = trace.call(
        relative_change,
        U_high=trace.lookup("U_high", by(value * (1.0 + STEP)), "w_per_m2_k", _RAISED),
        U_low=trace.lookup("U_low", by(value * (1.0 - STEP)), "w_per_m2_k", _LOWERED),
        step=trace.lookup("step", STEP, "fraction", _DIFFERENCE),
        U=u_value,
    )
    return relative * u_value / value, relative


def _from_nothing(by: Callable[[float], float]) -> float:
    """Slope at 0 from above, by the parabola through three values: less than nothing there is not."""
    return (4.0 * by(STEP) - by(2.0 * STEP) - 3.0 * by(0.0)) / (2.0 * STEP)


def _moves_by_itself(evaluation: Evaluation, index: int, part: int) -> bool:
    layer = evaluation.request.build_up.layers[index]
    assert isinstance(layer, BridgedLayer)
    return layer.in_line_with is None and layer.parts[part].fraction * (1.0 + STEP) < 1.0


def _share(evaluation: Evaluation, index: int, part: int, share: float) -> dict[str, float]:
    return with_share(evaluation.request.build_up.layers, index, part, share, f"{BUILD_UP}/layers")
