"""Surface resistances by wind, emissivity and temperature: tables of ISO 6946 Annex C from memory, which calculation confirms."""

from typing import Any

import pytest

from storeyrod.thermal.radiation import SIGMA, absolute, black_radiation
from thermal_requests import answer_of, body, resistance


def surfaces(element: str = "wall", given: dict[str, Any] | None = None, **conditions: Any) -> dict[str, float]:
    document = body(resistance(1.0), element=element)
    document["build_up"] |= {"surface_conditions": conditions, **(given or {})}
    return answer_of(document).result["surfaces"]


# Table of h_r0 in W/(m2.K), from memory; two more digits by independent calculation.
@pytest.mark.parametrize(
    ("celsius", "printed", "calculated"),
    [(-10, 4.1, 4.133), (0, 4.6, 4.622), (10, 5.1, 5.149), (20, 5.7, 5.714), (30, 6.3, 6.319)],
)
def test_the_radiative_coefficient_of_black_surfaces(celsius, printed, calculated):
    value = black_radiation(sigma=SIGMA.value, T=absolute(theta=celsius, T_0=273.15))
    assert round(value, 1) == printed
    assert value == pytest.approx(calculated, abs=5e-4)


# Table of R_se by wind, from memory, and the same to four digits by independent calculation with h_r0 rounded to 4.6.
@pytest.mark.parametrize(
    ("wind", "printed", "calculated"),
    [
        (1, 0.08, 0.0824), (2, 0.06, 0.0620), (3, 0.05, 0.0497), (4, 0.04, 0.0414), (5, 0.04, 0.0355), (7, 0.03, 0.0277),
        (10, 0.02, 0.0208),
    ],
)  # fmt: skip
def test_the_external_resistance_by_wind(wind, printed, calculated):
    value = surfaces(wind_speed_m_per_s=float(wind))["external_m2_k_per_w"]
    assert round(value, 2) == printed
    assert value == pytest.approx(calculated, abs=2e-4)


@pytest.mark.parametrize(("element", "expected"), [("roof", 0.10), ("wall", 0.13), ("floor", 0.17)])
def test_the_internal_resistance_by_direction(element, expected):
    assert round(surfaces(element)["internal_m2_k_per_w"], 2) == expected


def test_a_shiny_internal_surface_resists_more():
    """1/(2.5 + 0.05 * 5.714): 0.3590."""
    assert surfaces(emissivity_internal=0.05)["internal_m2_k_per_w"] == pytest.approx(0.3590, abs=5e-5)


def test_a_resistance_that_is_given_stays():
    given = {"surface_external_m2_k_per_w": 0.03}
    assert surfaces(given=given, wind_speed_m_per_s=1.0)["external_m2_k_per_w"] == 0.03


def test_conditions_left_to_defaults_come_back_as_assumptions():
    document = body(resistance(1.0))
    document["build_up"]["surface_conditions"] = {"wind_speed_m_per_s": 2.0}
    fields = {row["field"] for row in answer_of(document).assumptions}
    here = "/build_up/surface_conditions"
    assert {f"{here}/emissivity_internal", f"{here}/temperature_external_deg_c"} <= fields
    assert f"{here}/wind_speed_m_per_s" not in fields
    assert "/build_up/surface_external_m2_k_per_w" not in fields
