"""Valid but hostile build-ups are answered or refused, never an error; malformed ones never reach the calculation."""

import math

import pytest
from pydantic import ValidationError

from storeyrod.findings import Refusal
from storeyrod.thermal.models import UValueRequest
from thermal_requests import SHANK, air, answer_of, body, bridged, remarked, resistance, result_of, solid


def finite(value) -> bool:
    if isinstance(value, dict):
        return all(map(finite, value.values()))
    if isinstance(value, list):
        return all(map(finite, value))
    return value is not None and (not isinstance(value, float) or math.isfinite(value))


EXTREMES = {
    "thinnest and most conductive": body(
        solid(0.01, 500.0), surface_internal_m2_k_per_w=0.0, surface_external_m2_k_per_w=0.0
    ),
    "thickest and least conductive": body(*[solid(3000.0, 0.001)] * 50),
    "a tiny part": body(bridged((1e-9, 0.00001), (0.999999999, 100.0))),
    "one part": body(bridged((1.0, 0.00001))),
    "fifty parts": body(bridged(*[(0.02, 0.1 + i) for i in range(50)]), bridged(*[(0.02, 0.1 + i) for i in range(50)])),
    "shiny air": body(air(0.1, emissivity_inner=0.01, emissivity_outer=0.01)),
    "a void narrower than thick": body(air(300.0, void_width_mm=1.0)),
    "fifty slightly ventilated layers": body(*[air(300.0, "slight", opening_mm2_per_m=1000.0)] * 50),
    "slight innermost without inner surface": body(
        air(25.0, "slight", opening_mm2_per_m=1500.0), resistance(1.0), surface_internal_m2_k_per_w=0.0
    ),
    "zero resistance as insulation": body(
        resistance(0.0), resistance(1.0), corrections={"insulation_layer": 0, "air_gap_level": 2}
    ),
    "fastener longer than the insulation": body(
        solid(10.0, 0.03),
        corrections={"fasteners": {**SHANK, "recessed": True, "length_in_insulation_mm": 20.0, "area_mm2": 10000.0}},
    ),
}


@pytest.mark.parametrize("document", EXTREMES.values(), ids=EXTREMES)
def test_extremes_inside_the_bounds_give_finite_answers(document):
    result = remarked(document).result
    assert finite(result)
    assert 0.0 < result["r_lower_m2_k_per_w"] <= result["r_upper_m2_k_per_w"] * (1 + 1e-12)


def test_ventilated_cases_and_paths_are_limited_together():
    layers = [bridged((0.5, 1.0), (0.5, 0.9))] * 10 + [air(25.0, "slight", opening_mm2_per_m=1000.0)] * 4
    with pytest.raises(Refusal, match="size-limit"):
        answer_of(body(*layers))


@pytest.mark.parametrize(
    "change",
    [
        {"thickness_mm": 0.0},
        {"thickness_mm": math.nan},
        {"thickness_mm": "100"},
        {"thickness_mm": True},
        {"conductivity_w_per_m_k": 0.0},
        {"conductivity_w_per_m_k": math.inf},
        {"kind": "brick"},
        {"colour": "red"},
    ],
    ids=str,
)
def test_a_malformed_layer_does_not_validate(change):
    with pytest.raises(ValidationError):
        UValueRequest.model_validate(body({**solid(100.0, 0.04), **change}))


@pytest.mark.parametrize("level", [3, -1, True, "1", 1.5, None])
def test_an_air_gap_level_outside_0_to_2_does_not_validate(level):
    with pytest.raises(ValidationError):
        UValueRequest.model_validate(body(resistance(1.0), corrections={"air_gap_level": level}))


def test_an_air_gap_level_of_1_point_0_is_a_whole_number():
    assert result_of(resistance(1.0), corrections={"air_gap_level": 1.0})["corrections"][0]["kind"] == "air_gap"


@pytest.mark.parametrize("layers", [[], [resistance(1.0)] * 51], ids=["none", "fifty-one"])
def test_no_layers_or_over_fifty_do_not_validate(layers):
    with pytest.raises(ValidationError):
        UValueRequest.model_validate(body(*layers))


def test_vapour_fields_are_taken_and_change_nothing():
    dry = solid(100.0, 0.04)
    damp = {**dry, "vapour_resistance_factor": 60.0, "vapour_sd_m": 6.0, "density_kg_per_m3": 20.0}
    assert result_of(damp) == result_of(dry)
