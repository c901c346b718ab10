"""What holds for every U-value: monotony, symmetry and scaling of layers, limits, air layers and corrections."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.answer import Answer
from storeyrod.findings import Refusal
from storeyrod.trace import Recorder
from thermal_requests import SHANK, air, answer_of, body, bridged, resistance, result_of, solid

quick = settings(max_examples=60, deadline=None)

thicknesses = st.floats(1.0, 500.0)
conductivities = st.floats(0.02, 3.0)
solids = st.builds(solid, thicknesses, conductivities)
resistances = st.builds(resistance, st.floats(0.01, 8.0))
airs = st.builds(
    lambda thickness, inner, outer: air(thickness, emissivity_inner=inner, emissivity_outer=outer),
    st.floats(1.0, 300.0),
    st.floats(0.05, 1.0),
    st.floats(0.05, 1.0),
)


@st.composite
def bridges(draw) -> dict:
    weights = draw(st.lists(st.floats(0.05, 1.0), min_size=2, max_size=4))
    values = [draw(st.floats(0.05, 6.0)) for _ in weights]
    return bridged(*((weight / sum(weights), value) for weight, value in zip(weights, values, strict=True)))


build_ups = st.lists(st.one_of(solids, resistances, airs, bridges()), min_size=1, max_size=6).filter(
    lambda layers: sum(layer["kind"] == "bridged" for layer in layers) <= 3
)


def u_of(*layers, **more) -> float:
    return result_of(*layers, **more)["u_value_w_per_m2_k"]


@quick
@given(build_ups)
def test_before_corrections_u_times_r_is_one(layers):
    result = result_of(*layers)
    assert result["u_value_w_per_m2_k"] * result["r_total_m2_k_per_w"] == pytest.approx(1.0, rel=1e-14)


@quick
@given(build_ups)
def test_the_lower_limit_never_exceeds_the_upper_one_and_the_total_lies_between(layers):
    result = result_of(*layers)
    lower, total, upper = (result[f"r_{name}_m2_k_per_w"] for name in ("lower", "total", "upper"))
    assert lower <= total * (1 + 1e-12)
    assert total <= upper * (1 + 1e-12)
    assert -1e-12 <= result["relative_error_fraction"] < 1.0  # (a - b)/(a + b) of two positive limits


@quick
@given(st.lists(solids, min_size=1, max_size=5), st.floats(1.01, 2.0), st.data())
def test_u_falls_strictly_with_the_thickness_of_any_layer(layers, more, data):
    index = data.draw(st.integers(0, len(layers) - 1))
    thicker = [dict(layer) for layer in layers]
    thicker[index]["thickness_mm"] *= more
    assert u_of(*thicker) < u_of(*layers)


@quick
@given(st.lists(solids, min_size=1, max_size=5), st.floats(1.01, 2.0), st.data())
def test_u_rises_strictly_with_the_conductivity_of_any_layer(layers, more, data):
    index = data.draw(st.integers(0, len(layers) - 1))
    leakier = [dict(layer) for layer in layers]
    leakier[index]["conductivity_w_per_m_k"] *= more
    assert u_of(*leakier) > u_of(*layers)


@quick
@given(bridges(), solids, st.floats(1.05, 2.0))
def test_u_falls_with_the_resistance_of_a_part(layer, inner, more):
    better = {**layer, "parts": [dict(part) for part in layer["parts"]]}
    better["parts"][0]["resistance_m2_k_per_w"] *= more
    assert u_of(inner, better) < u_of(inner, layer)


@quick
@given(build_ups, st.randoms(use_true_random=False))
def test_the_order_of_layers_does_not_change_a_plain_u_value(layers, rng):
    shuffled = list(layers)
    rng.shuffle(shuffled)
    assert u_of(*shuffled) == pytest.approx(u_of(*layers), rel=1e-12)


@quick
@given(bridges(), solids)
def test_the_order_of_parts_does_not_change_anything(layer, inner):
    turned = {**layer, "parts": layer["parts"][::-1]}
    assert u_of(inner, turned) == pytest.approx(u_of(inner, layer), rel=1e-12)


@quick
@given(bridges(), resistances)
def test_equal_parts_make_a_plain_layer(layer, inner):
    parts = [{**part, "resistance_m2_k_per_w": 1.5} for part in layer["parts"]]
    result = result_of(inner, {**layer, "parts": parts})
    plain = result_of(inner, resistance(1.5))["r_total_m2_k_per_w"]
    assert result["r_upper_m2_k_per_w"] == pytest.approx(plain, rel=1e-12)
    assert result["r_lower_m2_k_per_w"] == pytest.approx(plain, rel=1e-12)


@quick
@given(solids, st.floats(0.1, 0.9))
def test_a_layer_cut_in_two_is_the_same_layer(layer, share):
    two = [{**layer, "thickness_mm": layer["thickness_mm"] * part} for part in (share, 1.0 - share)]
    assert u_of(*two) == pytest.approx(u_of(layer), rel=1e-12)


@quick
@given(st.floats(1.0, 299.0), st.floats(1.001, 1.5), st.sampled_from(["wall", "roof", "floor"]))
def test_an_air_layer_never_loses_resistance_by_growing(thickness, more, element):
    thinner, thicker = air(thickness), air(min(thickness * more, 300.0))
    assert u_of(thicker, element=element) <= u_of(thinner, element=element) * (1 + 1e-14)


@quick
@given(st.floats(500.0, 1500.0), st.floats(0.2, 5.0), st.floats(0.2, 5.0))
def test_slight_ventilation_lies_between_its_two_cases(opening, inside, outside):
    cases = [air(30.0), air(30.0, "slight", opening_mm2_per_m=opening), air(30.0, "strong")]
    closed, slight, open_ = (u_of(resistance(inside), cavity, resistance(outside)) for cavity in cases)
    assert closed * (1 - 1e-12) <= slight <= open_ * (1 + 1e-12)


INSULATED = st.tuples(solids, st.builds(solid, thicknesses, st.floats(0.02, 0.06)), solids)


def corrected(layers, **changes) -> float:
    corrections = {"insulation_layer": 1, "fasteners": {**SHANK, **changes}}
    return result_of(*layers, corrections=corrections)["corrections"][0]["delta_u_w_per_m2_k"]


@quick
@given(INSULATED, st.sampled_from(["count_per_m2", "area_mm2", "conductivity_w_per_m_k"]), st.floats(1.1, 4.0))
def test_the_fastener_correction_is_proportional_to_number_area_and_conductivity(layers, field, more):
    assert corrected(layers, **{field: SHANK[field] * more}) == pytest.approx(more * corrected(layers), rel=1e-12)


@quick
@given(INSULATED)
def test_no_fasteners_leave_the_plain_value(layers):
    corrections = {"insulation_layer": 1, "fasteners": {**SHANK, "count_per_m2": 0.0}}
    result = result_of(*layers, corrections=corrections)
    plain = result_of(*layers)["u_value_w_per_m2_k"]
    assert result["u_value_w_per_m2_k"] == result["u_value_with_fasteners_w_per_m2_k"] == plain


@quick
@given(INSULATED, st.sampled_from([0, 1, 2]), st.floats(0.0, 20.0), st.floats(0.0, 0.01))
def test_all_corrections_count_exactly_when_they_reach_3_percent_of_u(layers, level, count, chi):
    fasteners = {"kind": "declared", "chi_w_per_k": chi, "count_per_m2": count}
    corrections = {"insulation_layer": 1, "air_gap_level": level, "fasteners": fasteners}
    result = result_of(*layers, corrections=corrections)
    plain = result["u_value_uncorrected_w_per_m2_k"]
    added = sum(row["delta_u_w_per_m2_k"] for row in result["corrections"])
    expected = plain + added if added >= 0.03 * plain else plain
    assert all(row["delta_u_w_per_m2_k"] >= 0.0 for row in result["corrections"])
    assert result["u_value_w_per_m2_k"] == pytest.approx(expected, rel=1e-12)
    assert result["u_value_corrected_w_per_m2_k"] == pytest.approx(plain + added, rel=1e-12)


@quick
@given(INSULATED, st.floats(1.1, 4.0))
def test_u_with_fasteners_rises_with_their_number_and_conductivity(layers, more):
    base = {"insulation_layer": 1, "fasteners": SHANK}
    for field in ("count_per_m2", "conductivity_w_per_m_k"):
        raised = {"insulation_layer": 1, "fasteners": {**SHANK, field: SHANK[field] * more}}
        low, high = (result_of(*layers, corrections=c)["u_value_with_fasteners_w_per_m2_k"] for c in (base, raised))
        assert low < high


ventilations = st.one_of(
    st.just({"ventilation": "none"}),
    st.just({"ventilation": "strong"}),
    st.builds(lambda a: {"ventilation": "slight", "opening_mm2_per_m": a}, st.floats(400.0, 1600.0)),
)
any_air = st.builds(lambda t, v: {"kind": "air", "thickness_mm": t, **v}, st.floats(0.1, 400.0), ventilations)
any_layers = st.lists(st.one_of(solids, resistances, any_air, bridges()), min_size=1, max_size=6)
any_corrections = st.fixed_dictionaries(
    {"air_gap_level": st.sampled_from([0, 1, 2])},
    optional={
        "insulation_layer": st.integers(0, 6),
        "fasteners": st.sampled_from(
            [
                SHANK,
                {"kind": "undeclared", "count_per_m2": 6.0},
                {"kind": "declared", "chi_w_per_k": 0.004, "count_per_m2": 6.0},
            ]
        ),
    },
)


def outcome(document) -> Answer | Refusal:
    try:
        return answer_of(document)
    except Refusal as refusal:
        return refusal


@settings(max_examples=200, deadline=None)
@given(any_layers, st.sampled_from(["wall", "roof", "floor"]), any_corrections)
def test_any_valid_request_is_answered_or_refused_and_its_trace_changes_nothing(layers, element, corrections):
    document = body(*layers, element=element, corrections=corrections)
    silent = outcome(document)
    if isinstance(silent, Refusal):
        assert silent.faults[0].pointer.startswith(("/build_up", "/corrections"))
        return
    recorder = Recorder()
    assert answer_of(document, recorder) == silent
    origins = itertools.chain.from_iterable(step["inputs"] for step in recorder.steps)
    assert not [row for row in origins if row["from"] == "caller"]
