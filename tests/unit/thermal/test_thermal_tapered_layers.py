"""Tapered layers in a request: closed forms against strips of equal thickness, areas by hand, limits of the method."""

from typing import Any

import pytest

from storeyrod.findings import Refusal
from thermal_requests import answer_of, body, bridged, resistance, solid

REST = resistance(0.36)
"""With the surfaces of a roof, 0.10 and 0.04: 0.5."""
WEDGE = solid(120.0, 0.04)
"""3.0 at its thickest."""


def tapered(
    *parts: dict[str, Any], layers=(REST, WEDGE), layer: int = 1, slope: float = 2.0, **more: Any
) -> dict[str, Any]:
    document = body(*layers, element="roof")
    return {**document, "tapered": {"layer": layer, "slope_percent": slope, "parts": list(parts)}, **more}


def part(shape: str = "rectangle", area: float = 10.0, **more: Any) -> dict[str, Any]:
    return {"shape": shape, "area_m2": area, **more}


# Independent calculation, 7 places: R_0 0.5, R_1 3.0.
@pytest.mark.parametrize(
    ("shape", "expected"),
    [("rectangle", 0.6486367), ("triangle_thickest_at_apex", 0.8468190), ("triangle_thinnest_at_apex", 0.4504544)],
)
def test_one_part_has_the_u_value_of_its_shape(shape, expected):
    result = answer_of(tapered(part(shape))).result
    assert result["u_value_w_per_m2_k"] == pytest.approx(expected, abs=5e-8)
    assert result["r_total_m2_k_per_w"] == pytest.approx(1.0 / expected, rel=1e-7)
    assert result["tapered"]["r_rest_m2_k_per_w"] == pytest.approx(0.5, rel=1e-14)
    assert result["tapered"]["parts"][0]["r_wedge_m2_k_per_w"] == pytest.approx(3.0, rel=1e-14)


def test_parts_are_weighted_by_area():
    result = answer_of(tapered(part(area=30.0), part("triangle_thickest_at_apex", 10.0))).result
    assert result["u_value_w_per_m2_k"] == pytest.approx((30 * 0.6486367 + 10 * 0.8468190) / 40, abs=5e-8)


def test_a_part_may_have_a_thickness_of_its_own():
    """60 mm of 0.04: R_1 1.5; ln(1 + 3)/1.5 = 0.9241962."""
    result = answer_of(tapered(part(thickness_mm=60.0))).result
    assert result["u_value_w_per_m2_k"] == pytest.approx(0.9241962, abs=5e-8)


def test_a_bridged_rest_counts_with_its_mean_resistance():
    """Strips of equal thickness over the mean of both limits of the rest."""
    layers = (bridged((0.2, 0.5), (0.8, 1.5)), WEDGE)
    rest = answer_of(body(layers[0], element="roof")).result["r_total_m2_k_per_w"]
    strips = 20_000
    mean = sum(1.0 / (rest + 3.0 * (at + 0.5) / strips) for at in range(strips)) / strips
    result = answer_of(tapered(part(), layers=layers)).result
    assert result["u_value_w_per_m2_k"] == pytest.approx(mean, rel=1e-8)


def test_a_thin_wedge_is_close_to_the_rest():
    """To first order 1/R_0 - R_1/(2 R_0^2) over a rectangle, 1/3 and 2/3 of R_1 over triangles."""
    for shape, share in (
        ("rectangle", 1 / 2),
        ("triangle_thickest_at_apex", 1 / 3),
        ("triangle_thinnest_at_apex", 2 / 3),
    ):
        result = answer_of(tapered(part(shape), layers=(REST, solid(0.01, 50.0)))).result
        assert result["u_value_w_per_m2_k"] == pytest.approx(2.0 - share * 2e-7 * 4.0, rel=1e-8)


def refusal(document) -> tuple[str, str, str]:
    with pytest.raises(Refusal) as caught:
        answer_of(document)
    return caught.value.slug, caught.value.faults[0].pointer, caught.value.detail


def test_a_slope_over_five_percent_is_refused_with_the_limit():
    slug, pointer, detail = refusal(tapered(part(), slope=5.1))
    assert (slug, pointer) == ("outside-validity", "/tapered/slope_percent")
    assert "5 %" in detail


def test_a_slope_of_five_percent_is_answered():
    assert answer_of(tapered(part(), slope=5.0)).result["tapered"]["layer"] == 1


@pytest.mark.parametrize("layer", [0, 2], ids=["no thickness", "not there"])
def test_a_layer_that_cannot_be_tapered_is_refused(layer):
    assert refusal(tapered(part(), layer=layer))[:2] == ("tapered-contradictory", "/tapered/layer")


@pytest.mark.parametrize(
    ("more", "pointer"),
    [
        ({"corrections": {"air_gap_level": 1, "insulation_layer": 1}}, "/corrections"),
        ({"temperatures": {"internal_deg_c": 20.0, "external_deg_c": 0.0}}, "/temperatures"),
    ],
    ids=["gaps", "temperatures"],
)
def test_what_has_no_one_value_over_a_tapered_layer_is_refused(more, pointer):
    assert refusal(tapered(part(), **more))[:2] == ("tapered-contradictory", pointer)


@pytest.mark.parametrize(
    ("more", "slug", "pointer"),
    [
        (
            {"tolerances": {"layers": [{"layer": 1, "thickness_mm": 5.0}]}},
            "tolerance-wrong",
            "/tolerances/layers/0/thickness_mm",
        ),
        ({"target": {"u_value_w_per_m2_k": 0.8, "layer": 1}}, "target-layer-wrong", "/target/layer"),
    ],
    ids=["tolerance", "target"],
)
def test_the_thickness_of_a_layer_whose_parts_all_have_their_own_is_asked_in_vain(more, slug, pointer):
    assert refusal(tapered(part(thickness_mm=60.0), **more))[:2] == (slug, pointer)
    assert "tapered" in answer_of(tapered(part(thickness_mm=60.0), part(), **more)).result


def test_fasteners_of_known_point_transmittance_add_to_the_mean():
    fasteners = {"kind": "declared", "chi_w_per_k": 0.01, "count_per_m2": 4.0}
    result = answer_of(tapered(part(), corrections={"fasteners": fasteners})).result
    assert result["u_value_w_per_m2_k"] == pytest.approx(0.6486367 + 0.04, abs=5e-8)
