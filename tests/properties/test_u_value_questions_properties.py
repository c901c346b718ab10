"""What holds for every target, band, sensitivity, line of parts and conversion, and for the kernel beside exact fractions."""

from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from storeyrod.findings import Refusal
from storeyrod.thermal import kernel
from storeyrod.thermal.temperatures import interface_temperatures
from thermal_requests import SHANK, answer_of, body, bridged, result_of, solid

quick = settings(max_examples=40, deadline=None)

walls = st.tuples(
    st.builds(solid, st.floats(50.0, 400.0), st.floats(0.1, 2.0)),
    st.builds(solid, st.floats(20.0, 300.0), st.floats(0.02, 0.06)),
    st.builds(solid, st.floats(5.0, 100.0), st.floats(0.2, 2.0)),
)
shares = st.floats(0.05, 0.95)
resistances = st.floats(0.2, 4.0)


@quick
@given(walls, st.floats(0.05, 0.95))
def test_a_thickness_found_gives_the_target_and_less_does_not(layers, share):
    plain = answer_of(body(*layers)).result["u_value_w_per_m2_k"]
    target = share * plain
    document = {**body(*layers), "target": {"u_value_w_per_m2_k": max(target, 0.03), "layer": 1}}
    found = answer_of(document).result["target"]
    for change, holds in ((1.0, True), (0.999, False)):
        changed = (layers[0], {**layers[1], "thickness_mm": found["thickness_mm"] * change}, layers[2])
        u_value = answer_of(body(*changed)).result["u_value_w_per_m2_k"]
        assert (u_value <= document["target"]["u_value_w_per_m2_k"] * (1 + 1e-9)) is holds


def found_or_refused(document) -> dict | str:
    try:
        return answer_of(document).result["target"]
    except Refusal as refusal:
        return refusal.slug


@quick
@given(walls, st.floats(0.1, 0.9), st.floats(0.0, 12.0))
def test_a_target_with_fasteners_is_reached_or_refused_and_never_passed(layers, u_value, count):
    fasteners = {**SHANK, "count_per_m2": count}
    corrections = {"insulation_layer": 1, "air_gap_level": 1, "fasteners": fasteners}
    document = {**body(*layers, corrections=corrections), "target": {"u_value_w_per_m2_k": u_value, "layer": 1}}
    found = found_or_refused(document)
    if isinstance(found, str):
        assert found == "target-unreachable"
        return
    assert found["u_value_w_per_m2_k"] <= u_value * (1 + 1e-12)
    thicker = (layers[0], {**layers[1], "thickness_mm": found["thickness_mm"] * 1.05}, layers[2])
    assume(thicker[1]["thickness_mm"] <= 3000.0)
    assert answer_of(body(*thicker, corrections=corrections)).result["u_value_w_per_m2_k"] <= u_value * (1 + 1e-9)


@quick
@given(walls, st.floats(0.0, 0.4), st.floats(0.0, 0.4))
def test_the_band_holds_the_u_value_and_grows_with_tolerances(layers, small, more):
    document = body(*layers)
    u_value = answer_of(document).result["u_value_w_per_m2_k"]
    bands = [
        answer_of(
            {**document, "tolerances": {"layers": [{"layer": 1, "conductivity_fraction": share}], "samples_count": 100}}
        ).result["band"]
        for share in (small, small + more)
    ]
    low, high = ([band[f"u_value_{end}_w_per_m2_k"] for band in bands] for end in ("low", "high"))
    assert low[1] * (1 - 1e-12) <= low[0] <= u_value * (1 + 1e-12)
    assert u_value * (1 - 1e-12) <= high[0] <= high[1] * (1 + 1e-12)


@quick
@given(walls)
def test_sensitivities_have_the_sign_of_their_input(layers):
    rows = answer_of({**body(*layers), "sensitivity": True}).result["sensitivity"]
    for row in rows:
        falls = row["input"].endswith(("thickness_mm", "m2_k_per_w"))
        assert (row["u_value_change_w_per_m2_k"] < 0.0) is falls


@quick
@given(shares, resistances, resistances, resistances, resistances)
def test_parts_in_line_part_the_paths_at_least_as_far_as_independent_ones_when_both_rank_alike(share, a, b, c, d):
    """Poor behind poor and good behind good leave the upper limit lower than pairs by chance, poor behind good higher."""
    inner, outer = bridged((share, min(a, b)), (1.0 - share, max(a, b))), ((share, min(c, d)), (1.0 - share, max(c, d)))
    apart = result_of(inner, bridged(*outer))["r_upper_m2_k_per_w"]
    alike = result_of(inner, {**bridged(*outer), "in_line_with": 0})["r_upper_m2_k_per_w"]
    assert alike <= apart * (1 + 1e-12)


@quick
@given(shares, resistances, resistances, resistances, resistances, st.booleans())
def test_the_lower_limit_never_exceeds_the_upper_one_in_line_either(share, a, b, c, d, lined):
    outer = bridged((share, c), (1.0 - share, d))
    result = result_of(bridged((share, a), (1.0 - share, b)), {**outer, "in_line_with": 0} if lined else outer)
    assert result["r_lower_m2_k_per_w"] <= result["r_upper_m2_k_per_w"] * (1 + 1e-12)


def exact_parallel(sections) -> Fraction:
    return 1 / sum(share / value for share, value in sections)


@quick
@given(
    st.lists(st.floats(0.01, 5.0), min_size=2, max_size=10),
    st.lists(st.lists(st.tuples(shares, resistances), min_size=1, max_size=3), min_size=1, max_size=3),
)
def test_the_kernel_agrees_with_exact_fractions(plain, layers):
    rows = [[(Fraction(share), Fraction(value)) for share, value in sections] for sections in layers]
    common = sum(map(Fraction, plain))
    paths = [(Fraction(1), common)]
    for sections in rows:
        paths = [(a * share, inner + value) for a, inner in paths for share, value in sections]
    assert kernel.upper_limit(kernel.lower_limit(plain), layers) == pytest.approx(
        float(exact_parallel(paths)), rel=1e-13
    )
    assert kernel.parallel(layers[0]) == pytest.approx(float(exact_parallel(rows[0])), rel=1e-14)


@quick
@given(st.lists(st.floats(0.01, 5.0), min_size=2, max_size=12), st.floats(-30.0, 40.0), st.floats(-30.0, 40.0))
def test_temperatures_fall_from_plane_to_plane_in_proportion_to_resistance(values, inside, outside):
    planes = [inside, *interface_temperatures(values, inside, outside), outside]
    total = sum(values)
    assert len(planes) == len(values) + 1
    for value, warm, cold in zip(values, planes[:-1], planes[1:], strict=True):
        assert warm - cold == pytest.approx((inside - outside) * value / total, abs=1e-9)


@quick
@given(st.floats(0.01, 2.0), st.floats(-20.0, 60.0), st.floats(0.0, 0.01), st.floats(0.5, 2.0))
def test_a_conversion_and_its_way_back_give_the_declared_value(declared, temperature, coefficient, ageing):
    def converted(value, start, end, factor):
        conversion = {
            "temperature_declared_deg_c": start,
            "temperature_design_deg_c": end,
            "temperature_coefficient_per_k": coefficient,
            "ageing_factor": factor,
        }
        layer = {
            "kind": "declared", "name": "board", "thickness_mm": 100.0, "conductivity_declared_w_per_m_k": value,
            "conversion": conversion,
        }  # fmt: skip
        return result_of(layer)["layers"][0]["conductivity_w_per_m_k"]

    there = converted(declared, 10.0, temperature, ageing)
    assert converted(there, temperature, 10.0, 1.0 / ageing) == pytest.approx(declared, rel=1e-12)
