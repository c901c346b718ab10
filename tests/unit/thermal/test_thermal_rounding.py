"""Stated figures: ties go up as a reader of the decimal expects."""

import pytest

from storeyrod.thermal.rounding import rounded, significant
from thermal_requests import answer_of, body, resistance


@pytest.mark.parametrize(
    ("value", "expected"), [(2.675, 2.68), (2.674999, 2.67), (0.005, 0.01), (4.0, 4.0), (99.995, 100.0)]
)
def test_a_tie_of_decimals_goes_up(value, expected):
    assert rounded(value, 2) == expected


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (0.305, 0.31),
        (0.3049, 0.30),
        (0.0996, 0.10),
        (0.01005, 0.010),
        (12.5, 13.0),
        (5.882352941176471, 5.9),
        (1e-05, 1e-05),
    ],
)
def test_a_tie_of_significant_figures_goes_up(value, expected):
    assert significant(value, 2) == expected


def test_a_total_resistance_of_2_675_is_stated_as_2_68():
    """2.505 and the surfaces of a wall, 0.13 and 0.04."""
    assert answer_of(body(resistance(2.505))).result["r_total_declared_m2_k_per_w"] == 2.68
