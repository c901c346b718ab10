"""Characteristic resistance to pull-out from tests on the site, by the rule that the request names."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal

from storeyrod.fasteners.tolerance_factors import prediction_factor, tolerance_factor
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Trace, formula
from storeyrod.wall.fastener_models import PullOut

FRACTILE: Final = 0.05
"""Characteristic resistances are 5 % fractiles (EN 1990, 4.2(3))."""

LOWEST_COUNTED: Final = 5
LEAST_TESTS: Final = 15
LEAST_FOR_SCATTER: Final = 3

MOST_HELD_KN: Final = 20.0
"""House: a steel core of 8 mm tears at 20.1 kN (400 N/mm2, class 4.6 of ISO 898-1, from memory), and a wall lets go of it long before."""

_INSULATION: Final = Clause(
    "ETAG 014", "Annex D: 0.6 of the mean of the five lowest of at least 15, at most 1.5 kN", "memory"
)
_GENERAL: Final = Clause(
    "ETAG 020", "Annex B: 0.5 of the mean of the five lowest of at least 15, at most the declared value", "memory"
)
_PREDICTION: Final = Clause("EN 1990", "Annex D, D.7.2, scatter unknown", "memory")
_TOLERANCE: Final = Clause("NIST handbook", "7.2.6.3, one-sided tolerance limit for a normal distribution", "memory")

Short = Literal["load-impossible", "tests-few", "declared-missing", "scatter-too-large"]
"""Why tests give no value."""


@dataclass(frozen=True, slots=True)
class TestRule:
    """A rule for tests: its clause, least number of tests, factor on the mean of the lowest, and cap in kN."""

    __test__ = False

    clause: Clause
    least: int
    factor: float | None = None
    cap: float | None = None


RULES: Final[Mapping[str, TestRule]] = MappingProxyType(
    {
        "insulation_fixing": TestRule(_INSULATION, LEAST_TESTS, 0.6, 1.5),
        "general_fixing": TestRule(_GENERAL, LEAST_TESTS, 0.5),
        "prediction": TestRule(_PREDICTION, LEAST_FOR_SCATTER),
        "tolerance": TestRule(_TOLERANCE, LEAST_FOR_SCATTER),
    }
)


@dataclass(frozen=True, slots=True)
class Characteristic:
    """A characteristic resistance in kN, or why there is none; the mean of the tests that counted, and their number."""

    clause: Clause
    tests: int
    value: float | None = None
    mean: float | None = None
    short: Short | None = None


# Factors and caps bring the clause of their rule as looked-up steps; the arithmetic is the same for all.
@formula(
    symbol="N_1",
    expression="S/n",
    unit="kn",
    inputs={"S": "kn", "n": "count"},
    clause=GEOMETRY,
)
def mean_load(*, S: float, n: float) -> float:  # noqa: N803  symbol of the formula
    """Mean of n ultimate loads with the sum S."""
    return S / n


@formula(
    symbol="N_Rk",
    expression="Min(k*N_1, N_cap)",
    unit="kn",
    inputs={"k": "count", "N_1": "kn", "N_cap": "kn"},
    clause=GEOMETRY,
)
def capped_share(*, k: float, N_1: float, N_cap: float) -> float:  # noqa: N803  symbols of the guideline
    """Characteristic resistance from the mean of the lowest tests, no more than its cap."""
    return min(k * N_1, N_cap)


@formula(
    symbol="s",
    expression="sqrt(Q/(n - one))",
    unit="kn",
    inputs={"Q": "kn2", "n": "count", "one": "count"},
    clause=GEOMETRY,
)
def standard_deviation(*, Q: float, n: float, one: float) -> float:  # noqa: N803  symbol of the formula
    """Standard deviation from the sum Q of squared deviations."""
    return math.sqrt(Q / (n - one))


@formula(
    symbol="N_Rk",
    expression="m - k*s",
    unit="kn",
    inputs={"m": "kn", "k": "count", "s": "kn"},
    clause=GEOMETRY,
)
def fractile_of_tests(*, m: float, k: float, s: float) -> float:
    """Fractile under the mean m of tests with standard deviation s."""
    return m - k * s


def characteristic_of(pull_out: PullOut, pointer: str, trace: Trace) -> Characteristic:
    """Characteristic resistance of the tests of a request; equal loads all count, and their order does not."""
    rule, loads = RULES[pull_out.rule], sorted(pull_out.tests_kn)
    if loads[-1] > MOST_HELD_KN:
        return Characteristic(rule.clause, len(loads), short="load-impossible")
    if len(loads) < rule.least:
        return Characteristic(rule.clause, len(loads), short="tests-few")
    if rule.factor is None:
        return _from_scatter(pull_out, rule, pointer, trace)
    if rule.cap is None and pull_out.characteristic_kn is None:
        return Characteristic(rule.clause, len(loads), short="declared-missing")
    lowest = _first_places(pull_out.tests_kn)[:LOWEST_COUNTED]
    total = trace.measure("S", "kn", [("ultimate load", load, f"{pointer}/tests_kn/{at}") for load, at in lowest])
    mean = trace.call(mean_load, S=total, n=trace.lookup("n", float(LOWEST_COUNTED), "count", rule.clause))
    factor = trace.lookup("k", rule.factor, "count", rule.clause)
    value = trace.call(capped_share, k=factor, N_1=mean, N_cap=_cap(pull_out, rule, pointer, trace))
    return Characteristic(rule.clause, len(loads), value, mean)


def _cap(pull_out: PullOut, rule: TestRule, pointer: str, trace: Trace) -> float:
    """The lower of the rule's cap and the declared value."""
    declared = pull_out.characteristic_kn
    if declared is not None and (rule.cap is None or declared < rule.cap):
        return trace.given(declared, f"{pointer}/characteristic_kn")
    return trace.lookup("N_cap", rule.cap or 0.0, "kn", rule.clause)


def _from_scatter(pull_out: PullOut, rule: TestRule, pointer: str, trace: Trace) -> Characteristic:
    """A fractile under the mean; none where it would not be above zero. A declared value caps it."""
    number = len(pull_out.tests_kn)
    rows = [("ultimate load", load, f"{pointer}/tests_kn/{at}") for load, at in _first_places(pull_out.tests_kn)]
    count = trace.lookup("n", float(number), "count", rule.clause)
    mean = trace.call(mean_load, S=trace.measure("S", "kn", rows), n=count)
    squares = [(f"square of the deviation of {load:g} kN", (load - float(mean)) ** 2, at) for _, load, at in rows]
    scatter = trace.call(
        standard_deviation,
        Q=trace.measure("Q", "kn2", squares),
        n=count,
        one=trace.lookup("one", 1.0, "count", rule.clause),
    )
    factor = trace.lookup("k", _scatter_factor(pull_out, number), "count", rule.clause)
    value = trace.call(fractile_of_tests, m=mean, k=factor, s=scatter)
    if value <= 0.0:
        return Characteristic(rule.clause, number, mean=mean, short="scatter-too-large")
    if pull_out.characteristic_kn is not None:
        cap = trace.given(pull_out.characteristic_kn, f"{pointer}/characteristic_kn")
        one = trace.lookup("k", 1.0, "count", rule.clause)
        value = trace.call(capped_share, k=one, N_1=value, N_cap=cap)
    return Characteristic(rule.clause, number, value, mean)


def _scatter_factor(pull_out: PullOut, number: int) -> float:
    if pull_out.rule == "prediction":
        return prediction_factor(number, FRACTILE)
    return tolerance_factor(number, FRACTILE, pull_out.confidence_fraction)


def _first_places(loads: Sequence[float]) -> list[tuple[float, int]]:
    """Loads from the lowest, each with its place in the request."""
    return sorted((load, at) for at, load in enumerate(loads))
