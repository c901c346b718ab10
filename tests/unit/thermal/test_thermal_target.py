"""Thickness for a target U-value: closed forms by hand, and the U-value of the thickness found asked anew."""

from typing import Any

import pytest

from storeyrod.findings import Refusal
from storeyrod.trace import Recorder
from thermal_requests import SHANK, WALL, air, answer_of, body, bridged, resistance, solid

REST = 0.13 + 0.215 / 0.77 + 0.025 / 0.90 + 0.04
"""Everything of the wall but its insulation of 0.031."""


def asked(
    u_value: float, *layers: dict, layer: int = 1, held: list[float] | None = None, **more: Any
) -> dict[str, Any]:
    target = {"u_value_w_per_m2_k": u_value, "layer": layer, "thicknesses_held_mm": held or []}
    return {**body(*(layers or WALL), **more), "target": target}


def found(document) -> dict[str, Any]:
    return answer_of(document).result["target"]


def with_thickness(document: dict[str, Any], thickness_mm: float) -> float:
    """U-value of the same request with that thickness."""
    layers = [dict(layer) for layer in document["build_up"]["layers"]]
    layers[document["target"]["layer"]]["thickness_mm"] = thickness_mm
    changed = {**document, "build_up": {**document["build_up"], "layers": layers}}
    del changed["target"]
    return answer_of(changed).result["u_value_w_per_m2_k"]


@pytest.mark.parametrize("u_value", [1.0, 0.25, 0.15, 0.02])
def test_without_corrections_the_thickness_follows_in_closed_form(u_value):
    assert found(asked(u_value))["thickness_mm"] == pytest.approx(31.0 * (1.0 / u_value - REST), rel=1e-12)


def test_with_a_point_transmittance_the_plain_part_has_less_to_reach():
    """0.004 W/K times 6 adds 0.024, over 3 % of any U-value up to 0.8."""
    fasteners = {"kind": "declared", "chi_w_per_k": 0.004, "count_per_m2": 6.0}
    thickness = found(asked(0.25, corrections={"fasteners": fasteners}))["thickness_mm"]
    assert thickness == pytest.approx(31.0 * (1.0 / (0.25 - 0.024) - REST), rel=1e-12)


def test_with_pierced_insulation_the_addition_follows_the_thickness():
    """U = 1/R + alpha lambda A n d / (lambda R)^2 with R = REST + d/lambda: a square in R, solved by hand."""
    k = 0.8 * 17.0 * 19.634954e-6 * 6.0 / 0.031
    target = 0.25
    # target R^2 = R + k (R - REST): target R^2 - (1 + k) R + k REST = 0, the larger root.
    total = ((1 + k) + ((1 + k) ** 2 - 4 * target * k * REST) ** 0.5) / (2 * target)
    thickness = found(asked(target, corrections={"fasteners": SHANK}))["thickness_mm"]
    assert thickness == pytest.approx(31.0 * (total - REST), rel=1e-9)


DOCUMENTS = {
    "bridged": asked(0.2, solid(100.0, 0.5), {**bridged((0.15, 1.0), (0.85, 3.0))}, solid(50.0, 0.035), layer=2),
    "gaps": asked(0.2, corrections={"insulation_layer": 1, "air_gap_level": 2}),
    "recessed": asked(0.2, corrections={"fasteners": {**SHANK, "recessed": True, "length_in_insulation_mm": 40.0}}),
    "slightly ventilated": asked(
        0.2,
        *WALL,
        air(40.0, "slight", opening_mm2_per_m=800.0),
        solid(100.0, 0.77),
        corrections={"insulation_layer": 1},
    ),
    "not the insulation": asked(0.25, layer=0, corrections={"insulation_layer": 1, "air_gap_level": 1}),
}


@pytest.mark.parametrize("document", DOCUMENTS.values(), ids=DOCUMENTS)
def test_the_thickness_found_gives_the_target_when_asked_anew(document):
    answer = found(document)
    target = document["target"]["u_value_w_per_m2_k"]
    assert answer["u_value_w_per_m2_k"] == pytest.approx(target, rel=1e-9)
    assert with_thickness(document, answer["thickness_mm"]) == pytest.approx(target, rel=1e-9)


def bridged_by_conductivity(thickness_mm: float) -> dict[str, Any]:
    rows = [
        {"name": "stud", "fraction": 0.15, "conductivity_w_per_m_k": 0.13},
        {"name": "wool", "fraction": 0.85, "conductivity_w_per_m_k": 0.035},
    ]
    return {"kind": "bridged", "name": "studs", "thickness_mm": thickness_mm, "parts": rows}


def test_the_layer_found_may_be_bridged_itself():
    document = asked(0.25, solid(100.0, 0.5), bridged_by_conductivity(100.0))
    thickness = found(document)["thickness_mm"]
    assert with_thickness(document, thickness) == pytest.approx(0.25, rel=1e-9)
    assert with_thickness(document, thickness - 0.1) > 0.25


def stepping(target: float) -> dict[str, Any]:
    """0.0015 W/K times 6 is 0.009: 3 % of 0.3. Thinner, it is left out; from U = 0.3 on it counts."""
    fasteners = {"kind": "declared", "chi_w_per_k": 0.0015, "count_per_m2": 6.0}
    return asked(target, corrections={"fasteners": fasteners})


def test_where_corrections_begin_to_count_the_thick_side_of_the_step_is_given():
    """0.305 is reached at plain 0.305, lost from 0.300 (then 0.309), and kept from plain 0.296 on."""
    assert found(stepping(0.305))["thickness_mm"] == pytest.approx(31.0 * (1.0 / 0.296 - REST), rel=1e-9)


def test_a_target_above_the_step_is_met_on_its_thin_side():
    assert found(stepping(0.35))["thickness_mm"] == pytest.approx(31.0 * (1.0 / 0.35 - REST), rel=1e-9)


def test_the_thinnest_held_that_reaches_the_target_is_given_in_any_order():
    """Needed 109.21 mm."""
    answer = found(asked(0.25, held=[160.0, 100.0, 120.0, 140.0]))
    assert answer["thickness_held_mm"] == 120.0
    assert answer["u_value_held_w_per_m2_k"] == pytest.approx(1.0 / (REST + 0.120 / 0.031), rel=1e-14)


def test_a_thickness_held_that_is_exactly_needed_is_taken():
    exact = 1.0 / (REST + 0.1 / 0.031)
    assert found(asked(exact, held=[100.0]))["thickness_held_mm"] == 100.0


def test_none_held_thick_enough_is_a_caution_and_no_thickness():
    answer = answer_of(asked(0.25, held=[80.0, 100.0]))
    assert "thickness_held_mm" not in answer.result["target"]
    assert [(one["code"], one["value"]) for one in answer.findings] == [("held-thickness-short", 100.0)]


def test_a_target_that_is_met_already_needs_no_layer_to_speak_of():
    assert found(asked(5.0))["thickness_mm"] == 0.01


def test_an_unreachable_target_is_refused_with_the_least_u_value():
    """chi 0.01 times 10 adds 0.1; 3 m of 0.031 leave 1/(REST + 96.774) = 0.01028 beside it."""
    fasteners = {"kind": "declared", "chi_w_per_k": 0.01, "count_per_m2": 10.0}
    with pytest.raises(Refusal, match="target-unreachable") as caught:
        answer_of(asked(0.11, corrections={"fasteners": fasteners}))
    assert caught.value.faults[0].pointer == "/target/u_value_w_per_m2_k"
    assert "0.1103 W/(m2.K)" in caught.value.detail
    assert found(asked(0.1104, corrections={"fasteners": fasteners}))["u_value_least_w_per_m2_k"] == pytest.approx(
        0.1 + 1.0 / (REST + 3.0 / 0.031), rel=1e-12
    )


@pytest.mark.parametrize(
    ("layers", "layer"),
    [
        ((resistance(1.0), solid(100.0, 0.03)), 0),
        ((air(25.0), solid(100.0, 0.03)), 0),
        ((bridged((0.5, 1.0), (0.5, 2.0)), solid(100.0, 0.03)), 0),
        ((solid(100.0, 0.03),), 1),
        ((solid(100.0, 0.03), air(25.0, "strong"), solid(100.0, 0.03)), 2),
    ],
    ids=["resistance", "air", "parts by resistance", "not there", "not counted"],
)
def test_a_layer_without_a_thickness_to_find_is_refused(layers, layer):
    with pytest.raises(Refusal, match="target-layer-wrong") as caught:
        answer_of(asked(0.3, *layers, layer=layer))
    assert caught.value.faults[0].pointer == "/target/layer"


def test_the_working_at_the_thickness_found_leads_back_to_the_search():
    recorder = Recorder()
    answer_of(asked(0.25, held=[120.0]), recorder)
    search = next(step for step in recorder.steps if step["clause"]["number"].startswith("bisection"))
    users = [step for step in recorder.steps if any(row["from"] == search["id"] for row in step["inputs"])]
    assert [step["symbol"] for step in users] == ["R"]
    assert any(row["from"] == "/target/thicknesses_held_mm/0" for step in recorder.steps for row in step["inputs"])


def halves(thickness_mm: float, *held: float, u_value: float) -> dict[str, Any]:
    rows = [{"name": "part", "fraction": 0.5, "conductivity_w_per_m_k": value} for value in (2.0, 0.02)]
    layer = {"kind": "bridged", "name": "halves", "thickness_mm": thickness_mm, "parts": rows}
    return asked(u_value, layer, layer=0, held=list(held))


def test_a_thickness_at_which_the_combined_method_does_not_hold_is_refused_with_the_ratio():
    """At 100 mm the limits are 1.569 apart: 1/(0.5/(0.17 + 0.05) + 0.5/(0.17 + 5)) = 0.4220 over 0.17 + 0.2/2.02 = 0.2690."""
    with pytest.raises(Refusal, match="limits-too-far-apart") as caught:
        answer_of(halves(5.0, 100.0, u_value=2.9))
    assert caught.value.faults[0].pointer == "/target"
    assert "99.33 mm" in caught.value.detail
    assert "1.5;" in caught.value.detail


def test_a_thickness_held_at_which_the_method_does_not_hold_is_passed_over():
    """At 6 mm the limits are 1.437 apart, at 10 mm 1.543; U is under 5.0 at both (4.66 and 4.37), by hand from the two limits."""
    answer = answer_of(halves(5.0, 10.0, 6.0, u_value=5.0))
    assert answer.result["target"]["thickness_held_mm"] == 6.0
    answer = answer_of(halves(5.0, 10.0, u_value=5.0))
    assert "thickness_held_mm" not in answer.result["target"]
    assert [(one["code"], one["value"]) for one in answer.findings] == [("held-thickness-beyond-method", 10.0)]


def test_a_working_changes_nothing_where_a_length_was_given():
    """A shank as long as the insulation was thick before the search."""
    fasteners = {**SHANK, "length_in_insulation_mm": 100.0, "insulation_thickness_mm": 100.0}
    document = asked(0.25, corrections={"fasteners": fasteners})
    assert answer_of(document, Recorder()).result == answer_of(document).result
