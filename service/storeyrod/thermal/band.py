"""The band of U-values inside tolerances: its ends, and how likely what lies between is."""

from collections.abc import Mapping, Sequence
from typing import Any, Final, NamedTuple

from storeyrod.findings import Finding, finding, refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.band_ends import End, EndSearch, values_at
from storeyrod.thermal.combined import paths_count
from storeyrod.thermal.evaluation import Evaluation, component_with, formula_unit_of
from storeyrod.thermal.question_models import Band, BandPlace, Tolerances
from storeyrod.thermal.tabulated import U_VALUE_RULES
from storeyrod.thermal.tolerance_inputs import Movement, movements
from storeyrod.thermal.u_value import Component
from storeyrod.thermal.variation import Relinked
from storeyrod.trace import SILENT, Recorder, Trace

SEED: Final = 6946
"""Of the draws: equal requests draw alike."""

_MOST_DRAWS: Final = 10_000_000
"""Draws times heat paths beyond which the band is refused."""

_LOW, _HIGH = 0.05, 0.95
_GREATEST_RATIO: Final = U_VALUE_RULES["greatest_limit_ratio"]
_IGNORED_SHARE: Final = U_VALUE_RULES["ignored_share"]


class _Spread(NamedTuple):
    """Of draws: mean, standard deviation, and the values under which one in twenty and all but one in twenty lie."""

    mean: float
    standard_deviation: float
    low: float
    high: float


def band_of(evaluation: Evaluation, tolerances: Tolerances, trace: Trace) -> tuple[Band, list[Finding]]:
    """Both ends and the spread of the U-value in W/(m2.K), corrections as in the answer itself, and what to know of it."""
    moving = movements(evaluation, tolerances)
    evaluation.refuse_too_many(4 * len(moving), "/tolerances")
    search = EndSearch(evaluation, moving)
    places = _draws(evaluation, len(moving), tolerances.samples_count)
    components = search.components(places)
    drawn = search.u_values(components, tolerances.samples_count)
    low = search.end(-1.0, places[:, int(drawn.argmin())].tolist())
    high = search.end(1.0, places[:, int(drawn.argmax())].tolist())
    _record(evaluation, values_at(moving, low.places), "least", trace)
    _record(evaluation, values_at(moving, high.places), "greatest", trace)
    count = tolerances.samples_count
    spread = _spread(drawn, low.u_value, high.u_value)
    band: Band = {
        "u_value_low_w_per_m2_k": low.u_value,
        "u_value_high_w_per_m2_k": high.u_value,
        "low_at": _rows(moving, low),
        "high_at": _rows(moving, high),
        "ends_settled": search.settled,
        "samples_count": count,
        "u_value_mean_w_per_m2_k": _drawn_figure("U_mean", spread.mean, f"mean of {count}", trace),
        "u_value_standard_deviation_w_per_m2_k": _drawn_figure(
            "s_U", spread.standard_deviation, f"standard deviation of {count}", trace
        ),
        "u_value_p05_w_per_m2_k": _drawn_figure("U_05", spread.low, f"0.05 quantile of {count}", trace),
        "u_value_p95_w_per_m2_k": _drawn_figure("U_95", spread.high, f"0.95 quantile of {count}", trace),
    }
    ends = [evaluation.component(values_at(moving, end.places)) for end in (low, high)]
    return band, _findings(evaluation, [components, *ends])


def _draws(evaluation: Evaluation, inputs: int, count: int) -> Any:  # noqa: ANN401  an array
    """Places of every input in every draw, evenly from -1 to 1."""
    import numpy  # noqa: PLC0415  only a band needs it

    paths = count * paths_count(component_with(evaluation.request, SILENT).layers)
    if paths > _MOST_DRAWS:
        raise refuse(
            "size-limit",
            "/tolerances/samples_count",
            f"draws times heat paths are {paths}, {_MOST_DRAWS} are the most; ask for fewer draws, or merge parts that conduct alike",
        )
    return numpy.random.Generator(numpy.random.PCG64(SEED)).uniform(-1.0, 1.0, (inputs, count))


def _spread(draws: Any, least: float, most: float) -> _Spread:  # noqa: ANN401  an array
    """Spread of draws, whose last bits are kept inside the ends."""
    import numpy  # noqa: PLC0415  only a band needs it

    inside = numpy.clip(draws, least, most)
    low, high = numpy.quantile(inside, (_LOW, _HIGH))
    return _Spread(min(max(float(inside.mean()), least), most), float(inside.std()), float(low), float(high))


def _rows(moving: Sequence[Movement], end: End) -> list[BandPlace]:
    return [
        {"input": movement.pointer, "place_fraction": place} for movement, place in zip(moving, end.places, strict=True)
    ]


def _drawn_figure(symbol: str, value: float, what: str, trace: Trace) -> float:
    clause = Clause(
        "geometry", f"{what} draws of this U-value inside the tolerances, seed {SEED}", "independent_calculation"
    )
    return float(trace.lookup(symbol, value, "w_per_m2_k", clause))


def _record(evaluation: Evaluation, values: Mapping[str, float], which: str, trace: Trace) -> None:
    """Write the working at one end: every member that moves, then the U-value from it."""
    if not isinstance(trace, Recorder):
        return
    linked: dict[str, float] = {}
    for pointer, value in evaluation.inputs().items():
        if pointer in values or pointer in evaluation.assumed:
            clause = Clause("geometry", f"{pointer} where U is {which}", "independent_calculation")
            linked[pointer] = trace.lookup("x", values.get(pointer, value), formula_unit_of(pointer), clause)
    relinked = Relinked(trace, linked)
    component_with(evaluation.request, relinked).u_value(relinked, applies=evaluation.applies)


def _findings(evaluation: Evaluation, components: Sequence[Component]) -> list[Finding]:
    """Where the combined method, or the rule on small corrections, does not hold all over the tolerances."""
    import numpy  # noqa: PLC0415  only a band needs it

    made: list[Finding] = []
    ratios = [
        float(numpy.max(case.upper / case.lower))
        for component in components
        for case in component.resistance.cases
        if case.bridged
    ]
    limit = _GREATEST_RATIO.value
    if ratios and max(ratios) > limit:
        where = "/tolerances"
        made.append(finding("band-beyond-method", {"pointer": where}, value=max(ratios), limit=limit, unit="fraction"))
    shares = [sum(component.additions.all) / component.plain for component in components if component.additions.all]
    if shares:
        share = _IGNORED_SHARE.value
        extreme = min(map(numpy.min, shares)) if evaluation.applies else max(map(numpy.max, shares))
        if (extreme >= share) != evaluation.applies:
            made.append(
                finding(
                    "correction-rule-crossed",
                    {"pointer": "/tolerances"},
                    value=float(extreme),
                    limit=share,
                    unit="fraction",
                )
            )
    return made
