"""Cautions of the combined method: one case that triggers each, one just inside."""

import pytest

from storeyrod.findings import Refusal
from thermal_requests import WALL, air, answer_of, body, bridged, codes_of, remarked, resistance, solid


def half_and_half(good: float, poor: float) -> dict:
    """A wall of one layer, half good and half poor, whose surfaces hardly count."""
    return body(bridged((0.5, good), (0.5, poor)), bridged((0.5, poor), (0.5, good)))


def limits_ratio(document) -> float:
    result = remarked(document).result
    return result["r_upper_m2_k_per_w"] / result["r_lower_m2_k_per_w"]


@pytest.mark.parametrize(("good", "expected"), [(9.289, []), (9.307, ["combined-method-limit"])])
def test_limits_further_apart_than_one_and_a_half_are_reported(good, expected):
    document = half_and_half(good, 1.0)
    assert (limits_ratio(document) > 1.5) is bool(expected)
    assert limits_ratio(document) == pytest.approx(1.5, rel=0.01)
    assert codes_of(document) == expected


def test_the_ratio_and_its_limit_stand_in_the_finding():
    document = half_and_half(20.0, 1.0)
    found = remarked(document).findings[0]
    assert (found["value"], found["limit"]) == (pytest.approx(limits_ratio(document)), 1.5)


def test_a_case_behind_slight_ventilation_counts_for_the_caution_too():
    """Well ventilated, the limits are over 1.5 apart; mixed with the unventilated case they are not."""
    layers = half_and_half(20.0, 1.0)["build_up"]["layers"]
    document = body(*layers, air(25.0, "slight", opening_mm2_per_m=600.0), resistance(50.0))
    assert limits_ratio(document) < 1.5
    assert codes_of(document) == ["combined-method-limit"]


@pytest.mark.parametrize(("poor", "expected"), [(0.0301, []), (0.0299, ["metal-bridge"])])
def test_a_part_over_a_hundred_times_as_conductive_as_another_is_reported(poor, expected):
    document = body(bridged((0.9999, 3.0), (0.0001, poor)))
    assert codes_of(document) == expected


def test_limits_further_apart_than_one_and_a_half_are_refused_by_a_u_value():
    with pytest.raises(Refusal, match="limits-too-far-apart") as caught:
        answer_of(half_and_half(9.307, 1.0))
    assert caught.value.faults[0].pointer == "/build_up/layers"
    assert "1.5" in caught.value.detail
    assert "numerically" in caught.value.detail


def test_metal_through_insulation_is_refused_by_a_u_value():
    document = body(solid(100.0, 0.1), bridged((0.9999, 3.0), (0.0001, 0.0299)))
    with pytest.raises(Refusal, match="metal-bridges-insulation") as caught:
        answer_of(document)
    assert caught.value.faults[0].pointer == "/build_up/layers/1/parts"
    assert "fasteners" in caught.value.detail


def test_plain_layers_need_no_caution():
    assert codes_of(body(*WALL)) == []


def test_the_answer_says_what_was_not_checked():
    remarks = " ".join(answer_of(body(solid(100.0, 0.1), air())).not_checked)
    assert "Junctions" in remarks
    assert "condensation" in remarks
    assert "Air layers" in remarks
    assert "local code" in remarks


def conducting(*parts: tuple[float, float]) -> dict:
    rows = [{"name": "part", "fraction": share, "conductivity_w_per_m_k": value} for share, value in parts]
    return body({"kind": "bridged", "name": "bridged", "thickness_mm": 100.0, "parts": rows})


@pytest.mark.parametrize(
    ("metal", "beside", "expected"),
    [
        (17.0, 0.18, ["metal-bridge"]),
        (50.0, 0.55, ["metal-bridge"]),
        (10.0, 0.99, ["metal-bridge"]),
        (9.99, 0.99, []),
        (10.0, 1.0, []),
    ],
    ids=["stainless steel", "steel", "at the limit", "no metal", "beside concrete"],
)
def test_a_part_that_conducts_as_metal_does_is_reported_whatever_the_ratio(metal, beside, expected):
    assert codes_of(conducting((0.002, metal), (0.998, beside))) == expected


def test_a_part_that_conducts_as_metal_does_is_refused_with_the_limit():
    with pytest.raises(Refusal, match="metal-bridges-insulation") as caught:
        answer_of(conducting((0.002, 17.0), (0.998, 0.18)))
    assert "limit 10 W/(m.K)" in caught.value.detail
