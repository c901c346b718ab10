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


STEEL = [solid(1, 50, vapour_tight=True)]


@pytest.mark.parametrize(
    ("layers", "humidity", "verdict"),
    [(STEEL, 0.5, "condenses"), ([resistance(0.3, 1.0)], 0.5, "mould_risk"), ([resistance(3.0, 1.0)], 0.5, "none")],
)
def test_the_surface_has_a_verdict_of_its_own(layers, humidity, verdict):
    """20 degrees and 50 % saturate at 9.27 degrees and have 80 % at 12.6; outdoors -5. Factors 0.138, 0.576 and 0.924."""
    found = condensation_of(layers, steady(air(20, humidity), air(-5, 0.5), 30))
    assert (found["verdict"], found["surface_verdict"]) == ("none", verdict)


def test_a_bare_sheet_runs_with_water_by_its_own_film_too():
    """0.25 is the surface resistance for mould; with 0.04 there the wall stands at 0.13 all the same: 20 - 25 x 0.13 / 0.17 = 0.88."""
    climate = {**steady(air(20, 0.4), air(-5, 0.5), 30), "surface_internal_mould_m2_k_per_w": 0.04}
    answer = answer_of(body(STEEL, climate))
    assert answer.result["condensation"]["surface_months"][0]["surface_humidity_fraction"] < 1.0
    assert answer.result["condensation"]["surface_verdict"] == "condenses"
    (said,) = [one for one in answer.findings if one["code"] == "surface-condensation"]
    # 40 % of 2336.95 Pa over the 650.8 Pa that saturate at 0.882 degrees.
    assert said["value"] == pytest.approx(934.78 / 650.8, abs=0.001)


def test_water_on_the_surface_behind_a_film_counts_in_the_amounts():
    answer = answer_of(body(STEEL, steady(air(20, 0.5), air(-5, 0.5), 30), surface_vapour={"internal_sd_m": 0.01}))
    found = answer.result["condensation"]
    assert found["surface_verdict"] == "condenses"
    assert found["interfaces"][0]["greatest_accumulated_kg_per_m2"] > 0.0
    (said,) = [one for one in answer.findings if one["code"] == "condensation-in-section"]
    assert said["advice"].startswith("On the internal surface")


def test_saturated_outdoor_air_that_meets_a_cooler_surface_is_said():
    """A cool room: 30 - 10 x 0.04 / 2.67 = 29.85 degrees outside, where 4204.2 Pa saturate; the air has 4240.5."""
    answer = answer_of(body([resistance(2.5, 1.0)], steady(air(20, 0.5), air(30, 1.0), 30)))
    (said,) = [one for one in answer.findings if one["code"] == "external-surface-condensation"]
    assert said["value"] == pytest.approx(4240.5 / 4204.2, abs=0.0001)
    assert answer.result["condensation"]["interfaces"][-1]["months"][0]["vapour_pressure_pa"] == pytest.approx(
        4204.2, abs=0.1
    )
