"""Corrections and the 3 % rule on the wall of three layers, U = 0.270066; formulas from memory of ISO 6946 Annex F."""

import pytest

from storeyrod.findings import Refusal
from storeyrod.thermal.corrections import CorrectionTerms, declared_fasteners, undeclared_fasteners
from storeyrod.thermal.models import BuildUp
from storeyrod.thermal.u_value import build_up_u_value
from storeyrod.trace import SILENT
from thermal_requests import SHANK, WALL, air, answer_of, body, bridged, codes_of, resistance, result_of, solid

PLAIN = 1.0 / (0.17 + 0.215 / 0.77 + 0.1 / 0.031 + 0.025 / 0.9)


def declared(chi: float, count: float) -> dict:
    return {"fasteners": {"kind": "declared", "chi_w_per_k": chi, "count_per_m2": count}}


def refusal_of(document) -> tuple[str, str]:
    with pytest.raises(Refusal) as caught:
        answer_of(document)
    return caught.value.slug, caught.value.faults[0].pointer


def test_without_corrections_all_u_values_are_one():
    result = result_of(*WALL)
    assert (
        result["u_value_w_per_m2_k"]
        == result["u_value_uncorrected_w_per_m2_k"]
        == result["u_value_corrected_w_per_m2_k"]
    )
    assert "u_value_with_fasteners_w_per_m2_k" not in result


def test_an_absent_air_gap_level_is_an_assumption():
    assert "/corrections/air_gap_level" in [row["field"] for row in answer_of(body(*WALL)).assumptions]


def test_air_gap_level_2_is_four_times_level_1():
    deltas = [
        result_of(*WALL, corrections={"air_gap_level": level})["corrections"][0]["delta_u_w_per_m2_k"]
        for level in (1, 2)
    ]
    assert deltas[1] == pytest.approx(4 * deltas[0], rel=1e-14)


def test_the_only_insulation_is_found_and_stated():
    rows = {row["field"]: row["value"] for row in answer_of(body(*WALL, corrections={"air_gap_level": 2})).assumptions}
    assert rows["/corrections/insulation_layer"] == 1


def test_two_possible_insulations_are_refused():
    document = body(solid(50.0, 0.035), solid(50.0, 0.035), corrections={"air_gap_level": 1})
    assert refusal_of(document) == ("insulation-layer-unclear", "/corrections")


def test_no_possible_insulation_is_refused():
    assert refusal_of(body(solid(215.0, 0.77), corrections={"air_gap_level": 1}))[0] == "insulation-layer-unclear"


def test_two_possible_insulations_do_not_matter_without_a_correction_that_needs_one():
    layers = solid(50.0, 0.035), solid(50.0, 0.035)
    assert result_of(*layers, corrections=declared(0.002, 6.0))["u_value_w_per_m2_k"] > 0


@pytest.mark.parametrize(
    "layer",
    [{"kind": "material", "material": "eps", "thickness_mm": 100.0}, bridged((0.9, 3.0), (0.1, 0.6)), resistance(2.0)],
)
def test_insulation_is_recognised_in_every_kind_of_layer(layer):
    answer = answer_of(body(solid(215.0, 0.77), layer, corrections={"air_gap_level": 2}))
    assert {"field": "/corrections/insulation_layer", "value": 1}.items() <= answer.assumptions[-1].items()


@pytest.mark.parametrize(
    ("layers", "index"),
    [(WALL, 3), ((WALL[1], air(25.0)), 1), ((WALL[0], air(25.0, "strong"), WALL[1]), 2)],
    ids=["outside the layers", "an air layer", "beyond strong ventilation"],
)
def test_an_insulation_layer_that_cannot_be_meant_is_refused(layers, index):
    document = body(*layers, corrections={"insulation_layer": index, "air_gap_level": 1})
    assert refusal_of(document) == ("insulation-layer-wrong", "/corrections/insulation_layer")


def test_the_last_counted_layer_may_be_the_insulation():
    corrections = {"insulation_layer": 1, "air_gap_level": 2}
    assert result_of(WALL[0], WALL[1], air(25.0, "strong"), corrections=corrections)["corrections"][0]["applied"]


def test_fastener_length_and_thickness_default_to_the_insulation_layer():
    given = {**SHANK, "length_in_insulation_mm": 100.0, "insulation_thickness_mm": 100.0}
    assert result_of(*WALL, corrections={"fasteners": SHANK}) == result_of(*WALL, corrections={"fasteners": given})


def test_fasteners_through_insulation_without_thickness_are_refused():
    document = body(resistance(3.0), corrections={"fasteners": SHANK})
    assert refusal_of(document) == ("insulation-layer-unclear", "/corrections/fasteners")


def test_fasteners_through_insulation_by_resistance_with_a_thickness_are_answered():
    corrections = {"fasteners": {**SHANK, "insulation_thickness_mm": 100.0}}
    assert result_of(resistance(3.0), corrections=corrections)["corrections"][0]["delta_u_w_per_m2_k"] > 0


@pytest.mark.parametrize(
    ("members", "pointer", "limit"),
    [
        ({"length_in_insulation_mm": 60.0}, "length_in_insulation_mm", "100 mm"),
        ({"length_in_insulation_mm": 200.1, "recessed": True}, "length_in_insulation_mm", "2 times"),
        ({"insulation_thickness_mm": 1000.0}, "insulation_thickness_mm", "100 mm"),
        ({"area_mm2": 10_000.0, "count_per_m2": 100.0}, "area_mm2", "from 1 on"),
    ],
    ids=["length unused", "slanted over 60 degrees", "another thickness", "shanks all over"],
)
def test_fasteners_that_cannot_be_are_refused_with_the_limit(members, pointer, limit):
    with pytest.raises(Refusal, match="fasteners-contradictory") as caught:
        answer_of(body(*WALL, corrections={"fasteners": {**SHANK, **members}}))
    assert caught.value.faults[0].pointer == f"/corrections/fasteners/{pointer}"
    assert limit in caught.value.detail


def test_a_layer_that_is_not_there_is_refused_where_nothing_is_corrected_too():
    assert refusal_of(body(solid(100.0, 0.04), corrections={"insulation_layer": 30})) == (
        "insulation-layer-wrong",
        "/corrections/insulation_layer",
    )


def test_a_recessed_fastener_counts_by_its_length():
    corrections = {"fasteners": {**SHANK, "recessed": True, "length_in_insulation_mm": 50.0}}
    whole = result_of(*WALL, corrections={"fasteners": SHANK})["corrections"][0]["delta_u_w_per_m2_k"]
    assert result_of(*WALL, corrections=corrections)["corrections"][0]["delta_u_w_per_m2_k"] == pytest.approx(whole / 2)


@pytest.mark.parametrize(("conductivity", "zero"), [(0.99, True), (1.0, False)])
def test_a_shank_under_1_w_per_m_k_needs_no_correction(conductivity, zero):
    document = body(*WALL, corrections={"fasteners": {**SHANK, "conductivity_w_per_m_k": conductivity}})
    assert (answer_of(document).result["corrections"][0]["delta_u_w_per_m2_k"] == 0.0) is zero
    assert ("fastener-conducts-little" in codes_of(document)) is zero


def test_corrections_just_under_3_percent_are_left_out_together():
    document = body(*WALL, corrections=declared(0.0299 * PLAIN, 1.0))
    result = answer_of(document).result
    assert result["u_value_w_per_m2_k"] == pytest.approx(PLAIN, rel=1e-14)
    assert result["u_value_corrected_w_per_m2_k"] == pytest.approx(1.0299 * PLAIN, rel=1e-14)
    assert result["corrections"][0]["applied"] is False
    assert codes_of(document) == ["correction-ignored"]


def test_corrections_just_over_3_percent_are_kept():
    document = body(*WALL, corrections=declared(0.0301 * PLAIN, 1.0))
    assert answer_of(document).result["u_value_w_per_m2_k"] == pytest.approx(1.0301 * PLAIN, rel=1e-14)
    assert codes_of(document) == []


def test_a_small_correction_is_kept_when_the_sum_reaches_3_percent():
    corrections = {"air_gap_level": 1, **declared(0.001, 1.0)}
    alone = result_of(*WALL, corrections=declared(0.001, 1.0))
    both = result_of(*WALL, corrections=corrections)
    assert [row["applied"] for row in alone["corrections"]] == [False]
    assert [row["applied"] for row in both["corrections"]] == [True, True]
    assert both["u_value_w_per_m2_k"] == pytest.approx(PLAIN + 0.0075895 + 0.001, abs=1e-7)


def test_no_fasteners_are_no_finding():
    assert codes_of(body(*WALL, corrections=declared(0.002, 0.0))) == []


def test_with_and_without_fasteners_ignore_the_3_percent_rule():
    result = result_of(*WALL, corrections=declared(0.0001, 1.0))
    assert result["u_value_without_fasteners_w_per_m2_k"] == pytest.approx(PLAIN, rel=1e-14)
    assert result["u_value_with_fasteners_w_per_m2_k"] == pytest.approx(PLAIN + 0.0001, rel=1e-14)


def test_undeclared_fasteners_give_a_range_and_the_unfavourable_end_counts():
    """Defaults of 0.002 to 0.008 W/K from memory of ETAG 004."""
    document = body(*WALL, corrections={"fasteners": {"kind": "undeclared", "count_per_m2": 6.0}})
    result = answer_of(document).result
    assert result["u_value_with_fasteners_low_w_per_m2_k"] == pytest.approx(PLAIN + 0.012, rel=1e-14)
    assert result["u_value_with_fasteners_w_per_m2_k"] == pytest.approx(PLAIN + 0.048, rel=1e-14)
    assert result["u_value_w_per_m2_k"] == result["u_value_with_fasteners_w_per_m2_k"]
    assert codes_of(document) == ["fastener-heat-unknown"]


def test_declared_fasteners_give_no_range():
    document = body(*WALL, corrections=declared(0.008, 6.0))
    assert "u_value_with_fasteners_low_w_per_m2_k" not in answer_of(document).result
    assert codes_of(document) == []


def test_strict_refuses_cautions():
    corrections = {"fasteners": {"kind": "undeclared", "count_per_m2": 6.0}}
    assert refusal_of(body(*WALL, corrections=corrections, strict=True)) == (
        "strict-cautions",
        "/corrections/fasteners",
    )


def test_strict_lets_remarks_pass():
    assert answer_of(body(*WALL, corrections=declared(0.0001, 1.0), strict=True)).findings[0]["level"] == "info"


def test_another_room_corrects_for_fasteners_that_it_counted():
    build_up = BuildUp.model_validate(body(*WALL)["build_up"])
    for fasteners in (
        declared_fasteners("/system/fastener", 0.008, 6.0),
        undeclared_fasteners("/system/fastener", 6.0, SILENT),
    ):
        answer = build_up_u_value(build_up, "/build_up", CorrectionTerms(fasteners=fasteners))
        assert answer.result["u_value_without_fasteners_w_per_m2_k"] == pytest.approx(PLAIN, rel=1e-14)
        assert answer.result["u_value_with_fasteners_w_per_m2_k"] == pytest.approx(PLAIN + 0.048, rel=1e-14)
    assert answer.findings[0]["where"] == {"pointer": "/system/fastener"}
