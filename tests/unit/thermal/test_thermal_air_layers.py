"""Air layers: formulas, small voids, ventilation. Values from memory of ISO 6946 Annex D unless a test says otherwise."""

import pytest

from storeyrod.findings import Refusal
from thermal_requests import air, answer_of, body, bridged, codes_of, resistance, result_of, solid


def refusal_of(*layers, **more) -> tuple[str, str]:
    with pytest.raises(Refusal) as caught:
        answer_of(body(*layers, **more))
    return caught.value.slug, caught.value.faults[0].pointer


def resistance_of(element="wall", **fields) -> float:
    return result_of(air(**fields), element=element)["layers"][0]["resistance_m2_k_per_w"]


@pytest.mark.parametrize(
    ("thickness_mm", "inner", "outer", "expected"),
    [(20.0, 0.05, 0.9, 0.664), (25.0, 0.2, 0.9, 0.443), (20.0, 0.05, 0.05, 0.724), (10.0, 0.05, 0.9, 0.363)],
)
def test_a_shiny_face_raises_the_resistance_as_calculated_independently(thickness_mm, inner, outer, expected):
    value = resistance_of(thickness_mm=thickness_mm, emissivity_inner=inner, emissivity_outer=outer)
    assert value == pytest.approx(expected, abs=0.0005)


@pytest.mark.parametrize(
    ("thickness_mm", "expected"),
    [(20.0, 0.1831), (30.0, 0.1982), (35.0, 0.2030), (60.0, 0.2160), (75.0, 0.2180), (150.0, 0.2228)],
)
def test_heat_flowing_down_follows_the_formula_between_the_rows_of_the_table(thickness_mm, expected):
    assert resistance_of("floor", thickness_mm=thickness_mm) == pytest.approx(expected, abs=0.00005)


@pytest.mark.parametrize("width_mm", [200.0, 100_000.0])
def test_a_void_ten_times_as_wide_as_thick_is_an_air_layer(width_mm):
    assert resistance_of(thickness_mm=20.0, void_width_mm=width_mm) == resistance_of(thickness_mm=20.0)


def test_a_void_just_narrower_than_ten_times_its_thickness_is_a_small_void():
    """1/(1.25 + E h (1 + sqrt(1 + 0.01) - 0.1)/2), E = 1/(2/0.9 - 1), h = 4 sigma 283.15^3, for 25 mm by 250: by hand."""
    radiation = 4 * 5.670374419e-8 * 283.15**3 / (2 / 0.9 - 1) * (1 + 1.01**0.5 - 0.1) / 2
    assert resistance_of(thickness_mm=25.0, void_width_mm=249.9999999) == pytest.approx(
        1 / (1.25 + radiation), rel=1e-9
    )


def test_an_air_layer_by_a_wide_void_says_so():
    found = answer_of(body(air(25.0, void_width_mm=250.0))).findings
    assert [(one["code"], one["value"], one["limit"]) for one in found] == [("void-wide", 10.0, 10.0)]


def test_a_narrow_void_resists_more_than_a_wide_layer():
    assert resistance_of(thickness_mm=20.0, void_width_mm=20.0) > resistance_of(thickness_mm=20.0)


def test_the_faces_of_an_air_layer_may_be_exchanged():
    assert resistance_of(emissivity_inner=0.1, emissivity_outer=0.8) == pytest.approx(
        resistance_of(emissivity_inner=0.8, emissivity_outer=0.1), rel=1e-14
    )


def test_default_emissivities_come_back_as_assumptions():
    fields = [row["field"] for row in answer_of(body(air())).assumptions]
    assert "/build_up/layers/0/emissivity_inner" in fields
    assert "/build_up/layers/0/emissivity_outer" in fields


def test_an_air_layer_over_300_mm_is_refused_where_it_stands():
    assert refusal_of(resistance(1.0), air(300.1)) == ("outside-validity", "/build_up/layers/1/thickness_mm")


def test_an_air_layer_of_300_mm_is_answered():
    assert resistance_of("floor", thickness_mm=300.0) == pytest.approx(0.2264, abs=0.00005)


def test_a_thick_well_ventilated_layer_is_answered_since_its_resistance_is_not_used():
    assert result_of(resistance(1.0), air(900.0, "strong"))["r_total_m2_k_per_w"] == pytest.approx(1.26, rel=1e-14)


def test_a_slightly_ventilated_layer_lies_between_the_two_cases_as_calculated_independently():
    """R 3.000 unventilated and 2.600 well ventilated give 2.880 at 800 mm2 per m."""
    cavity = resistance_of(thickness_mm=25.0)
    inside, outside = 2.6 - 0.13 - 0.13, 3.0 - (2.6 - 0.13) - cavity - 0.04
    result = result_of(resistance(inside), air(25.0, "slight", opening_mm2_per_m=800.0), resistance(outside))
    assert result["r_total_m2_k_per_w"] == pytest.approx(2.880, rel=1e-12)


@pytest.mark.parametrize(("opening", "same_as"), [(500.0, air()), (1500.0, air(25.0, "strong"))])
def test_slight_ventilation_meets_its_neighbours_at_both_ends(opening, same_as):
    around = resistance(2.0), resistance(0.3)
    slight = result_of(around[0], air(25.0, "slight", opening_mm2_per_m=opening), around[1])
    assert slight["r_total_m2_k_per_w"] == pytest.approx(
        result_of(around[0], same_as, around[1])["r_total_m2_k_per_w"], rel=1e-14
    )


def test_several_slightly_ventilated_layers_are_mixed_from_the_outside_inwards():
    slight = air(25.0, "slight", opening_mm2_per_m=1000.0)
    cavity = resistance_of(thickness_mm=25.0)
    closed = 0.13 + 1.0 + cavity + 2.0 + cavity + 0.5 + 0.04
    outer_open = 0.13 + 1.0 + cavity + 2.0 + 0.13
    inner_open = 0.13 + 1.0 + 0.13
    expected = ((closed + outer_open) / 2 + inner_open) / 2
    answer = answer_of(body(resistance(1.0), slight, resistance(2.0), slight, resistance(0.5)))
    assert answer.result["r_total_m2_k_per_w"] == pytest.approx(expected, rel=1e-14)
    assert any("Several slightly ventilated" in remark for remark in answer.not_checked)


def test_slight_ventilation_inside_a_bridged_layer_mixes_both_limits():
    stud = bridged((0.85, 3.0), (0.15, 1.0))
    result = result_of(air(25.0, "slight", opening_mm2_per_m=1000.0), stud)
    cavity = resistance_of(thickness_mm=25.0)
    upper = 1.0 / (0.85 / (0.17 + cavity + 3.0) + 0.15 / (0.17 + cavity + 1.0))
    lower = 0.17 + cavity + 1.0 / (0.85 / 3.0 + 0.15 / 1.0)
    assert result["r_upper_m2_k_per_w"] == pytest.approx((upper + 0.26) / 2, rel=1e-13)
    assert result["r_lower_m2_k_per_w"] == pytest.approx((lower + 0.26) / 2, rel=1e-13)


def test_behind_strong_ventilation_the_outer_surface_is_an_internal_one():
    result = result_of(resistance(1.0), air(50.0, "strong"), resistance(5.0), element="roof")
    assert result["surfaces"]["external_m2_k_per_w"] == 0.10
    assert result["r_total_m2_k_per_w"] == pytest.approx(1.20, rel=1e-14)


def test_layers_beyond_strong_ventilation_come_back_as_not_counted():
    rows = result_of(resistance(1.0), air(50.0, "strong"), solid(20.0, 0.84))["layers"]
    assert [row["counted"] for row in rows] == [True, False, False]
    assert "resistance_m2_k_per_w" not in rows[1]


def test_strong_ventilation_is_reported_with_the_number_of_layers_left_out():
    found = answer_of(body(resistance(1.0), air(50.0, "strong"), solid(20.0, 0.84))).findings[0]
    assert (found["code"], found["where"], found["value"]) == (
        "beyond-ventilated-layer",
        {"pointer": "/build_up/layers/1"},
        1.0,
    )


def test_slight_ventilation_leaves_no_layer_out():
    assert codes_of(body(resistance(1.0), air(50.0, "slight", opening_mm2_per_m=1500.0), solid(20.0, 0.84))) == []


def test_the_outermost_layer_may_be_strongly_ventilated():
    assert result_of(resistance(1.0), air(50.0, "strong"))["u_value_w_per_m2_k"] == pytest.approx(1 / 1.26)


def test_a_strongly_ventilated_innermost_layer_leaves_nothing_and_is_refused():
    assert refusal_of(air(50.0, "strong"), resistance(3.0)) == ("layers-missing", "/build_up/layers")


@pytest.mark.parametrize(("layers", "said"), [([resistance(0.0)], False), ([air(50.0, "strong")], True)])
def test_ventilation_is_blamed_only_where_something_is_ventilated(layers, said):
    with pytest.raises(Refusal, match="layers-missing") as caught:
        answer_of(body(*layers))
    assert ("ventilated" in caught.value.detail) is said


def test_what_lies_beyond_strong_ventilation_is_not_examined():
    layers = resistance(1.0), air(50.0, "strong"), bridged((0.5, 1.0), (0.2, 1.0)), air(900.0)
    assert result_of(*layers)["r_total_m2_k_per_w"] == pytest.approx(1.26, rel=1e-14)


@pytest.mark.parametrize(
    ("ventilation", "opening"), [("none", 500.1), ("slight", 499.9), ("slight", 1500.1), ("strong", 1499.9)]
)
def test_openings_that_do_not_belong_to_the_ventilation_are_refused(ventilation, opening):
    assert refusal_of(resistance(1.0), air(25.0, ventilation, opening_mm2_per_m=opening)) == (
        "ventilation-contradictory",
        "/build_up/layers/1/opening_mm2_per_m",
    )


@pytest.mark.parametrize(
    ("ventilation", "opening"),
    [("none", 0.0), ("none", 500.0), ("slight", 500.0), ("slight", 1500.0), ("strong", 1500.0)],
)
def test_openings_at_the_ends_of_a_ventilation_are_answered(ventilation, opening):
    assert result_of(resistance(1.0), air(25.0, ventilation, opening_mm2_per_m=opening))["r_total_m2_k_per_w"] > 1.0


def test_slight_ventilation_without_openings_is_refused():
    assert refusal_of(resistance(1.0), air(25.0, "slight")) == (
        "ventilation-contradictory",
        "/build_up/layers/1/ventilation",
    )
