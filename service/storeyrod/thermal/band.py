"""The band of U-values inside tolerances: its ends, and how likely what lies between is."""

from collections.abc import Sequence
from typing import Any, Final, NamedTuple

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.combined import paths_count
from storeyrod.thermal.evaluation import Evaluation, component_with
from storeyrod.thermal.question_models import Band, Tolerances
from storeyrod.thermal.tolerance_inputs import Movement, movements
from storeyrod.thermal.variation import Samples
from storeyrod.trace import SILENT, Trace

_ENDS: Final = Clause("geometry", "this U-value with every toleranced input at one end", "independent_calculation")

SEED: Final = 6946
"""Of the draws: equal requests draw alike."""

_ROUNDS: Final = 8
_MOST_DRAWS: Final = 10_000_000
"""Draws times heat paths beyond which the band is refused."""

_LOW, _HIGH = 0.05, 0.95


class _Spread(NamedTuple):
    """Of draws: mean, standard deviation, and the values under which one in twenty and all but one in twenty lie."""

    mean: float
    standard_deviation: float
    low: float
    high: float


def band_of(evaluation: Evaluation, tolerances: Tolerances, trace: Trace) -> Band:
    """Both ends and the spread of the U-value in W/(m2.K), corrections as in the answer itself."""
    moving = movements(evaluation, tolerances)
    evaluation.refuse_too_many(4 * len(moving), "/tolerances")
    low, high = _end(evaluation, moving, -1.0), _end(evaluation, moving, 1.0)
    spread = _spread(_drawn(evaluation, moving, tolerances.samples_count))
    return {
        "u_value_low_w_per_m2_k": float(trace.lookup("U_low", low, "w_per_m2_k", _ENDS)),
        "u_value_high_w_per_m2_k": float(trace.lookup("U_high", high, "w_per_m2_k", _ENDS)),
        "samples_count": tolerances.samples_count,
        "u_value_mean_w_per_m2_k": spread.mean,
        "u_value_standard_deviation_w_per_m2_k": spread.standard_deviation,
        "u_value_p05_w_per_m2_k": spread.low,
        "u_value_p95_w_per_m2_k": spread.high,
    }


def _end(evaluation: Evaluation, moving: Sequence[Movement], sign: float) -> float:
    """Least U-value for a sign of -1, greatest for 1.

    A U-value rises or falls all the way with any one input, so an end lies where each input is at one of its own. Inputs are
    turned to the other end one by one until none gains: at once, unless corrections make inputs pull on one another.
    """
    places = [sign] * len(moving)
    best = sign * evaluation.u_value(_at(moving, places))
    for _ in range(_ROUNDS):
        before = best
        for index in range(len(moving)):
            places[index] = -places[index]
            turned = sign * evaluation.u_value(_at(moving, places))
            if turned > best:
                best = turned
            else:
                places[index] = -places[index]
        if best == before:
            break
    return sign * best


def _at(moving: Sequence[Movement], places: Any) -> dict[str, Any]:  # noqa: ANN401  numbers, or rows of draws
    values: dict[str, Any] = {}
    for movement, place in zip(moving, places, strict=True):
        values |= movement.values(place)
    return values


def _drawn(evaluation: Evaluation, moving: Sequence[Movement], count: int) -> Any:  # noqa: ANN401  an array
    """U-values of many draws at once."""
    import numpy  # noqa: PLC0415  only a band needs it

    paths = count * paths_count(component_with(evaluation.request, SILENT).layers)
    if paths > _MOST_DRAWS:
        raise refuse(
            "size-limit",
            "/tolerances/samples_count",
            f"draws times heat paths are {paths}, {_MOST_DRAWS} are the most; ask for fewer draws, or merge parts that conduct alike",
        )
    places = numpy.random.Generator(numpy.random.PCG64(SEED)).uniform(-1.0, 1.0, (len(moving), count))
    trace = Samples(_at(moving, places))
    u_values = component_with(evaluation.request, trace).u_value(trace, applies=evaluation.applies)
    return numpy.broadcast_to(u_values, count)


def _spread(draws: Any) -> _Spread:  # noqa: ANN401  an array
    import numpy  # noqa: PLC0415  only a band needs it

    low, high = numpy.quantile(draws, (_LOW, _HIGH))
    return _Spread(float(draws.mean()), float(draws.std()), float(low), float(high))
