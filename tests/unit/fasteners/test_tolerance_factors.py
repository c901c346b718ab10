"""Factors under the mean of a sample, against scipy, a closed approximation, printed tables and the plain normal limit."""

import math
from statistics import NormalDist

import pytest
from scipy import stats

from storeyrod.fasteners.tolerance_factors import prediction_factor, t_distribution, t_quantile, tolerance_factor

NORMAL = NormalDist()

TABLE_D1 = {3: 3.37, 4: 2.63, 5: 2.33, 6: 2.18, 8: 2.00, 10: 1.92, 20: 1.76, 30: 1.73}
"""EN 1990, Table D.1, 5 % fractile, scatter unknown: from memory. Some are cut off instead of rounded, so they hold to 0.02."""

NUMBERS = [3, 4, 5, 6, 8, 10, 15, 20, 30, 100, 1000]
CONFIDENCES = [0.5, 0.75, 0.9, 0.95, 0.99, 0.999]


@pytest.mark.parametrize(("number", "printed"), TABLE_D1.items())
def test_the_prediction_factor_is_the_printed_one(number: int, printed: float) -> None:
    assert prediction_factor(number, 0.05) == pytest.approx(printed, abs=0.02)


@pytest.mark.parametrize("number", NUMBERS)
def test_the_prediction_factor_is_that_of_students_distribution(number: int) -> None:
    expected = stats.t.ppf(0.95, number - 1) * math.sqrt(1.0 + 1.0 / number)
    assert prediction_factor(number, 0.05) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("confidence", CONFIDENCES)
@pytest.mark.parametrize("number", NUMBERS)
def test_the_tolerance_factor_is_that_of_the_noncentral_distribution(number: int, confidence: float) -> None:
    shift = stats.norm.ppf(0.95) * math.sqrt(number)
    expected = stats.nct.ppf(confidence, number - 1, shift) / math.sqrt(number)
    assert tolerance_factor(number, 0.05, confidence) == pytest.approx(expected, rel=1e-8)


@pytest.mark.parametrize(
    ("number", "confidence", "factor"),
    [
        *((3, 0.75, 3.152), (10, 0.75, 2.104), (15, 0.75, 1.991), (30, 0.75, 1.869)),
        *((3, 0.95, 7.656), (5, 0.95, 4.203), (10, 0.95, 2.911), (30, 0.95, 2.220)),
    ],
)
def test_tolerance_factors_are_those_of_an_independent_calculation(
    number: int, confidence: float, factor: float
) -> None:
    assert tolerance_factor(number, 0.05, confidence) == pytest.approx(factor, abs=5e-4)


def natrella(number: int, fractile: float, confidence: float) -> float:
    """The closed approximation beside the exact factor in the NIST handbook, 7.2.6.3, from memory."""
    z_p, z_c = NORMAL.inv_cdf(1.0 - fractile), NORMAL.inv_cdf(confidence)
    a = 1.0 - z_c**2 / (2.0 * (number - 1))
    b = z_p**2 - z_c**2 / number
    return (z_p + math.sqrt(z_p**2 - a * b)) / a


def test_the_handbooks_example_has_its_exact_factor_and_its_approximation() -> None:
    """43 observations, 90 % of the population, confidence 0.99: 1.8740, and 1.8752 by the approximation, from memory."""
    assert tolerance_factor(43, 0.10, 0.99) == pytest.approx(1.8740, abs=5e-5)
    assert natrella(43, 0.10, 0.99) == pytest.approx(1.8752, abs=5e-5)


def test_with_many_tests_both_factors_come_down_to_the_normal_quantile() -> None:
    assert prediction_factor(100_000, 0.05) == pytest.approx(1.6449, abs=1e-4)
    assert tolerance_factor(100_000, 0.05, 0.75) == pytest.approx(1.6449, abs=5e-3)


@pytest.mark.parametrize("shift", [0.0, 1.0, 5.0])
def test_a_quantile_has_its_probability(shift: float) -> None:
    assert t_distribution(t_quantile(0.9, 7, shift), 7, shift) == pytest.approx(0.9, abs=1e-9)


def test_one_degree_of_freedom_is_cauchys_distribution() -> None:
    """Its distribution function is 1/2 + atan(x)/pi."""
    assert t_distribution(2.0, 1) == pytest.approx(0.5 + math.atan(2.0) / math.pi, abs=1e-6)
