"""Layers and the combined method: expected values by hand from R = d / lambda, and by an independent section model."""

from itertools import product
from math import prod

import pytest

from storeyrod.findings import Refusal
from thermal_requests import WALL, answer_of, body, bridged, resistance, result_of, solid


def refusal_of(document) -> tuple[str, str]:
    with pytest.raises(Refusal) as caught:
        answer_of(document)
    return caught.value.slug, caught.value.faults[0].pointer


def test_a_plain_layer_adds_thickness_over_conductivity():
    assert result_of(solid(100.0, 0.04))["r_total_m2_k_per_w"] == pytest.approx(0.13 + 2.5 + 0.04, rel=1e-14)


@pytest.mark.parametrize(("element", "internal"), [("wall", 0.13), ("roof", 0.10), ("floor", 0.17)])
def test_surfaces_follow_the_element(element, internal):
    assert result_of(resistance(1.0), element=element)["surfaces"] == {
        "internal_m2_k_per_w": internal,
        "external_m2_k_per_w": 0.04,
    }


def test_given_surfaces_replace_those_of_the_element():
    result = result_of(resistance(1.0), surface_internal_m2_k_per_w=0.25, surface_external_m2_k_per_w=0.0)
    assert result["r_total_m2_k_per_w"] == pytest.approx(1.25, rel=1e-14)


def test_absent_surfaces_come_back_as_assumptions_with_their_source():
    fields = {row["field"]: row for row in answer_of(body(resistance(1.0))).assumptions}
    assert fields["/build_up/surface_internal_m2_k_per_w"]["status"] == "published"
    assert fields["/build_up/surface_external_m2_k_per_w"]["value"] == 0.04


def test_given_surfaces_are_not_assumed():
    document = body(resistance(1.0), surface_internal_m2_k_per_w=0.13, surface_external_m2_k_per_w=0.04)
    assert not [row for row in answer_of(document).assumptions if "surface" in row["field"]]


def test_every_layer_comes_back_with_its_resistance():
    rows = result_of(*WALL)["layers"]
    assert [row["resistance_m2_k_per_w"] for row in rows] == pytest.approx([0.215 / 0.77, 0.1 / 0.031, 0.025 / 0.9])
    assert [row["index"] for row in rows] == [0, 1, 2]


def test_a_wall_without_bridges_has_one_resistance_and_no_error():
    result = result_of(*WALL)
    assert result["r_upper_m2_k_per_w"] == result["r_lower_m2_k_per_w"] == result["r_total_m2_k_per_w"]
    assert result["relative_error_fraction"] == 0.0


def test_a_part_by_conductivity_equals_the_same_part_by_resistance():
    by_conductivity = bridged((0.9, 1.0), (0.1, 1.0))
    by_conductivity["parts"] = [
        {"name": "a", "fraction": 0.9, "conductivity_w_per_m_k": 0.04},
        {"name": "b", "fraction": 0.1, "conductivity_w_per_m_k": 0.125},
    ]
    by_resistance = bridged((0.9, 2.5), (0.1, 0.8))
    assert result_of(by_conductivity)["r_total_m2_k_per_w"] == pytest.approx(
        result_of(by_resistance)["r_total_m2_k_per_w"], rel=1e-14
    )


def test_three_bridged_layers_take_every_path_by_the_product_of_fractions():
    layers = [((0.8, 2.0), (0.2, 0.7)), ((0.9, 1.0), (0.1, 0.4)), ((0.5, 0.3), (0.3, 0.6), (0.2, 0.9))]
    paths = list(product(*layers))
    upper = 1.0 / sum(prod(f for f, _ in path) / (0.17 + sum(r for _, r in path)) for path in paths)
    lower = 0.17 + sum(1.0 / sum(f / r for f, r in layer) for layer in layers)
    result = result_of(*(bridged(*layer) for layer in layers))
    assert len(paths) == 12
    assert result["r_upper_m2_k_per_w"] == pytest.approx(upper, rel=1e-13)
    assert result["r_lower_m2_k_per_w"] == pytest.approx(lower, rel=1e-13)
    assert result["r_total_m2_k_per_w"] == pytest.approx((upper + lower) / 2, rel=1e-13)
    assert result["relative_error_fraction"] == pytest.approx((upper - lower) / (upper + lower), rel=1e-10)


def test_fractions_off_by_more_than_a_millionth_are_refused():
    assert refusal_of(body(bridged((0.9, 1.0), (0.100002, 1.0)))) == (
        "fractions-do-not-add-up",
        "/build_up/layers/0/parts",
    )


def test_fractions_off_by_a_millionth_are_scaled():
    third = 0.333333
    result = result_of(bridged((third, 2.0), (third, 2.0), (third, 2.0)))
    assert result["r_total_m2_k_per_w"] == pytest.approx(2.17, rel=1e-14)


@pytest.mark.parametrize(
    "values", [{}, {"conductivity_w_per_m_k": 0.04, "resistance_m2_k_per_w": 1.0}], ids=["neither", "both"]
)
def test_a_part_with_neither_or_both_of_conductivity_and_resistance_is_refused(values):
    layer = bridged((1.0, 1.0))
    layer["parts"] = [{"name": "a", "fraction": 1.0, **values}]
    assert refusal_of(body(layer)) == ("bridged-part-contradictory", "/build_up/layers/0/parts/0")


def test_a_build_up_of_no_resistance_is_refused():
    assert refusal_of(body(resistance(0.0), resistance(0.0))) == ("layers-missing", "/build_up/layers")


def test_a_build_up_of_hardly_any_resistance_is_answered():
    assert result_of(resistance(0.001))["r_total_m2_k_per_w"] == pytest.approx(0.171, rel=1e-14)


def test_more_than_4096_heat_paths_are_refused():
    pair = bridged((0.5, 1.0), (0.5, 0.9))
    triple = bridged((0.5, 1.0), (0.25, 0.9), (0.25, 0.8))
    assert refusal_of(body(*[pair] * 11, triple)) == ("size-limit", "/build_up/layers")


def test_4096_heat_paths_are_answered():
    assert result_of(*[bridged((0.5, 1.0), (0.5, 1.0))] * 12)["r_upper_m2_k_per_w"] == pytest.approx(12.17, rel=1e-11)


def test_declared_values_are_rounded_once_and_last():
    result = result_of(*WALL)
    assert (result["u_value_declared_w_per_m2_k"], result["r_total_declared_m2_k_per_w"]) == (0.27, 3.70)


@pytest.mark.parametrize(("value", "declared"), [(0.5, 1.5), (9.83, 0.1), (0.03, 5.0), (40.0, 0.025)])
def test_a_declared_u_value_has_two_significant_figures(value, declared):
    assert result_of(resistance(value))["u_value_declared_w_per_m2_k"] == declared
