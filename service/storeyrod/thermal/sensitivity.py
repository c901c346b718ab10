"""What each input does to a U-value: central differences on the calculation itself."""

import re
from collections.abc import Callable
from typing import Final, NamedTuple

from storeyrod.reference.documents import Clause
from storeyrod.thermal.evaluation import BUILD_UP, Evaluation, unit_of
from storeyrod.thermal.models import BridgedLayer
from storeyrod.thermal.parts_in_proportion import with_share
from storeyrod.thermal.question_models import Sensitivity
from storeyrod.trace import Trace, formula

_DIFFERENCE: Final = Clause("geometry", "central difference of the U-value", "independent_calculation")
_FROM_ABOVE: Final = Clause("geometry", "slope by the parabola through three U-values", "independent_calculation")

STEP: Final = 1e-5
"""Share by which an input is raised and lowered, or how much in SI one next to nothing is raised: errors stay under 1e-7."""

_LONG_STEP: Final = 1e-3
"""The same share for an input that moves the U-value so little that its last bits would show."""

_SEEN: Final = 1e-9
"""Share of a U-value by which a step must move it to stand out of rounding."""

_NEXT_TO_NOTHING: Final = 1e-3
"""In SI: how small an input may be raised by a step that has nothing to do with its size."""

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


@formula(
    symbol="E",
    expression="(4 * U_near - U_far - 3 * U_at) / (2 * step * U)",
    unit="fraction",
    inputs={
        "U_near": "w_per_m2_k",
        "U_far": "w_per_m2_k",
        "U_at": "w_per_m2_k",
        "step": "fraction",
        "U": "w_per_m2_k",
    },
    clause=_FROM_ABOVE,
)
def relative_change_from_above(*, U_near: float, U_far: float, U_at: float, step: float, U: float) -> float:  # noqa: N803
    """Relative change of a U-value over that of an input next to nothing, which is only raised."""
    return (4.0 * U_near - U_far - 3.0 * U_at) / (2.0 * step * U)


def sensitivities(evaluation: Evaluation, u_value: float, trace: Trace) -> list[Sensitivity]:
    """One row for each input; ``u_value`` is the answer's, linked to its step. Shares in line with others have no row."""
    inputs = evaluation.inputs()
    evaluation.refuse_too_many(2 * len(inputs), "/sensitivity")
    rows = [_row(evaluation, pointer, value, u_value, trace) for pointer, value in inputs.items()]
    return [row for row in rows if row is not None]


def _row(evaluation: Evaluation, pointer: str, value: float, u_value: float, trace: Trace) -> Sensitivity | None:
    by = _mover(evaluation, pointer)
    if by is None:
        return None
    change, relative = _around(by, value, u_value, _Noted(trace, pointer))
    own = evaluation.at(pointer)
    return {
        "input": pointer,
        "value": float(own),
        "unit": unit_of(pointer),
        "u_value_change_w_per_m2_k": float(change * (value / own if own else 1.0)),
        "relative_change_fraction": float(relative),
    }


def _mover(evaluation: Evaluation, pointer: str) -> Callable[[float], float] | None:
    """U-value by one input in SI; nothing for a share that does not move by itself."""
    share = _SHARE.fullmatch(pointer)
    if share is None:
        return lambda to: evaluation.u_value({pointer: to})
    index, part = int(share[1]), int(share[2])
    if not _moves_by_itself(evaluation, index, part):
        return None
    return lambda to: evaluation.u_value(_share(evaluation, index, part, to))


class _Noted(NamedTuple):
    """Writes U-values of other inputs into a working, with the member that moved."""

    trace: Trace
    pointer: str

    def u_value(self, symbol: str, value: float, how: str) -> float:
        """A U-value in W/(m2.K) with the member moved."""
        clause = Clause("geometry", f"this U-value with {self.pointer} {how}", "independent_calculation")
        return self.trace.lookup(symbol, value, "w_per_m2_k", clause)

    def step(self, share: float, clause: Clause) -> float:
        """By which share the member moved."""
        return self.trace.lookup("step", share, "fraction", clause)


def _around(by: Callable[[float], float], value: float, u_value: float, noted: _Noted) -> tuple[float, float]:
    """Change of the U-value for one more of an input in SI, and relative change over relative change."""
    if value == 0.0:
        return _from_nothing(by), 0.0
    for share in (STEP, _LONG_STEP):
        high, low = by(value * (1.0 + share)), by(value * (1.0 - share))
        if abs(high - low) >= _SEEN * u_value:
            break
    else:
        if abs(value) < _NEXT_TO_NOTHING:
            relative = _from_above(by, value, u_value, noted)
            return relative * u_value / value, relative
    relative = noted.trace.call(
        relative_change,
        U_high=noted.u_value("U_high", high, "one step farther from 0"),
        U_low=noted.u_value("U_low", low, "one step nearer to 0"),
        step=noted.step(share, _DIFFERENCE),
        U=u_value,
    )
    return relative * u_value / value, relative


def _from_above(by: Callable[[float], float], value: float, u_value: float, noted: _Noted) -> float:
    return noted.trace.call(
        relative_change_from_above,
        U_near=noted.u_value("U_near", by(value + STEP), "raised by one step"),
        U_far=noted.u_value("U_far", by(value + 2.0 * STEP), "raised by two steps"),
        U_at=noted.u_value("U_at", by(value), "as given"),
        step=noted.step(STEP / value, _FROM_ABOVE),
        U=u_value,
    )


def _from_nothing(by: Callable[[float], float]) -> float:
    """Slope at 0 from above, by the parabola through three values: less than nothing there is not."""
    return (4.0 * by(STEP) - by(2.0 * STEP) - 3.0 * by(0.0)) / (2.0 * STEP)


def _moves_by_itself(evaluation: Evaluation, index: int, part: int) -> bool:
    layer = evaluation.request.build_up.layers[index]
    assert isinstance(layer, BridgedLayer)
    return layer.in_line_with is None and layer.parts[part].fraction * (1.0 + STEP) < 1.0


def _share(evaluation: Evaluation, index: int, part: int, share: float) -> dict[str, float]:
    return with_share(evaluation.request.build_up.layers, index, part, share, f"{BUILD_UP}/layers")
