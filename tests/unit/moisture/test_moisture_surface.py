"""The internal surface: factor required by months, critical month, factor of the plane element, surface humidity."""

import pytest

from moisture_requests import (
    air,
    answer_of,
    body,
    by_class,
    condensation_of,
    monthly,
    months,
    resistance,
    solid,
    steady,
)
from storeyrod.moisture.surface import required_factor

CONSTANT = monthly({"kind": "constant", **air(20, 0.5)})


def test_a_surface_of_15_3_degrees_has_the_printed_factor_and_fails_the_printed_limit():
    """MUSAAT, sheet 104, example 6.1.9: 15.3, 10.4 and 20 degrees make 0.51, under the 0.52 of zone B."""
    factor = required_factor(theta_si_min=15.3, theta_e=10.4, theta_i=20.0)
    assert round(factor, 2) == 0.51
    assert factor < 0.52


def test_the_plane_element_is_judged_with_still_air_inside():
    """ISO 13788 (from memory): 0.25 inside, so 1 - 0.25 / (0.25 + R + 0.04); wall of the correction vector by hand: 0.9346."""
    layers = [solid(215, 0.77, 10), solid(100, 0.031, 60), solid(25, 0.9, 20)]
    total = 0.25 + 0.215 / 0.77 + 0.1 / 0.031 + 0.025 / 0.9 + 0.04
    factor = condensation_of(layers)["surface_factor"]
    assert factor == pytest.approx(1 - 0.25 / total, rel=1e-12)
    assert round(factor, 4) == 0.9346


def test_the_surface_resistance_for_mould_may_be_given():
    given = {**monthly(), "surface_internal_mould_m2_k_per_w": 0.13}
    assert condensation_of([resistance(0.83, 1.0)], given)["surface_factor"] == pytest.approx(0.87)


def test_the_critical_month_asks_for_the_greatest_factor():
    found = condensation_of([resistance(3.0, 1.0)], CONSTANT)
    asked = {row["month"]: row["surface_factor_required"] for row in found["surface_months"]}
    assert found["critical_month"] == max(asked, key=asked.get) == 2
    assert found["surface_factor_required"] == max(asked.values())


def test_a_month_that_is_not_warmer_inside_asks_for_no_factor():
    outdoor = months()
    outdoor[6] = air(22.0, 0.6)
    found = condensation_of([resistance(3.0, 1.0)], monthly({"kind": "constant", **air(20, 0.5)}, outdoor=outdoor))
    asked = [row["month"] for row in found["surface_months"] if "surface_factor_required" in row]
    assert asked == [1, 2, 3, 4, 5, 6, 8, 9, 10, 11, 12]


def test_a_surface_at_its_least_temperature_has_80_percent_humidity():
    found = condensation_of([resistance(3.0, 1.0)], CONSTANT)["surface_months"][1]
    theta = found["surface_temperature_required_deg_c"]
    factor = (theta + 1.8) / 21.8
    # R that gives the plane element just that factor: 0.25 / (1 - factor) in all.
    exact = [resistance(0.25 / (1 - factor) - 0.25 - 0.04, 1.0)]
    row = condensation_of(exact, CONSTANT)["surface_months"][1]
    assert row["surface_humidity_fraction"] == pytest.approx(0.8, rel=1e-9)
    assert row["surface_temperature_deg_c"] == pytest.approx(theta, rel=1e-9)


def test_a_cold_room_has_no_factor_required():
    found = condensation_of([resistance(3.0, 1.0)], steady(air(-20, 0.8), air(15, 0.7)))
    assert "surface_factor_required" not in found
    assert "critical_month" not in found


def test_more_insulation_mends_a_surface_that_is_too_cold():
    thin, thick = ([one["code"] for one in answer_of(body([resistance(value, 1.0)])).findings] for value in (0.3, 4.0))
    assert "mould-risk" in thin
    assert "mould-risk" not in thick
    assert "junctions-open" in thick


def test_a_wetter_class_asks_for_a_higher_factor():
    asked = [
        condensation_of([resistance(3.0, 1.0)], monthly(by_class(number)))["surface_factor_required"]
        for number in (1, 2, 3, 4)
    ]
    assert asked == sorted(asked)
    assert len(set(asked)) == 4
