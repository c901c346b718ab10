"""The section: vapour data of layers, planes and sub-layers, tight layers, parts of bridged layers."""

import pytest

from moisture_requests import air, answer_of, body, monthly, resistance, solid, steady
from storeyrod.findings import Refusal
from storeyrod.moisture.calculation import moisture_working
from storeyrod.moisture.models import CondensationRequest

STEADY = steady(air(20, 0.5), air(-5, 0.8))
FOIL = resistance(0.0, vapour_tight=True)


def layers_of(*layers, **more):
    return answer_of(body(layers, STEADY, **more)).result["layers"]


def section_of(*layers, **more):
    return moisture_working(CondensationRequest.model_validate(body(layers, STEADY, **more))).section


def material(key, thickness=20.0, **more):
    return {"kind": "material", "material": key, "thickness_mm": thickness, **more}


def frame(*parts, **more):
    made = [{"name": f"part {at}", "fraction": fraction, **data} for at, (fraction, data) in enumerate(parts)]
    return {"kind": "bridged", "name": "frame", "thickness_mm": 100, "parts": made, **more}


WOOL = {"conductivity_w_per_m_k": 0.04, "vapour_resistance_factor": 1}
STUD = {"conductivity_w_per_m_k": 0.13, "vapour_resistance_factor": 50}
WOOL_AND_STUD = ((0.85, WOOL), (0.15, STUD))


def test_an_equivalent_air_layer_is_factor_times_thickness_or_as_given():
    rows = layers_of(solid(120, 0.036, 1), solid(8, 0.9, 50), solid(10, 0.5, vapour_sd_m=1.5), resistance(0.5, 2.0))
    assert [row["vapour_sd_m"] for row in rows] == pytest.approx([0.12, 0.4, 1.5, 2.0])


@pytest.mark.parametrize(
    ("value", "parts"),
    [(0.25, 1), (0.2501, 2), (0.75, 3), (3.333, 14), (0.01, 1)],
)
def test_a_layer_is_divided_so_that_no_part_resists_more_than_a_quarter(value, parts):
    """ISO 13788, 6.4.3 (from memory): sub-layers of at most 0.25 m2.K/W."""
    assert layers_of(resistance(value, 1.0))[0]["sublayers_count"] == parts


def test_an_air_layer_is_not_divided_and_counts_a_hundredth_of_a_metre():
    air_layer = {"kind": "air", "thickness_mm": 50, "ventilation": "none", "emissivity_inner": 0.05}
    row = layers_of(resistance(1.0, 1.0), air_layer)[1]
    assert row["resistance_m2_k_per_w"] > 0.5
    assert (row["sublayers_count"], row["vapour_sd_m"]) == (1, 0.01)


def test_the_hundredth_of_a_metre_is_stated_unless_given():
    for more, stated in (({}, True), ({"vapour_sd_m": 0.02}, False)):
        air_layer = {"kind": "air", "thickness_mm": 50, "ventilation": "none", **more}
        rows = answer_of(body([air_layer], STEADY)).assumptions
        assert any(row["field"] == "/build_up/layers/0/vapour_sd_m" for row in rows) is stated


def test_depths_and_shares_add_up_from_inside_to_outside():
    section = section_of(resistance(0.25, 1.0), resistance(0.5, 3.0))
    assert section.depths == pytest.approx([0.0, 1.0, 2.5, 4.0])
    assert section.shares == pytest.approx([0.13 / 0.92, 0.38 / 0.92, 0.63 / 0.92, 0.88 / 0.92])


def test_films_bring_the_airs_in_as_ends_of_the_section():
    section = section_of(resistance(0.25, 1.0), surface_vapour={"internal_sd_m": 0.02, "external_sd_m": 0.003})
    assert section.depths == pytest.approx([0.0, 0.02, 1.02, 1.023])
    assert [plane.film for plane in section.planes] == [True, False, False, True]
    assert (section.shares[0], section.shares[-1]) == (0.0, 1.0)


def test_a_sheet_that_resists_neither_heat_nor_vapour_adds_no_plane():
    assert len(section_of(resistance(0.2, 1.0), resistance(0.0, 0.0), resistance(0.2, 1.0)).planes) == 3


def test_a_tight_layer_parts_the_section():
    section = section_of(resistance(0.2, 1.0), FOIL, resistance(0.2, 1.0))
    assert [(part.first, part.last) for part in section.compartments] == [(0, 1), (2, 3)]
    assert section.sd_total is None
    assert "vapour_sd_total_m" not in answer_of(body([FOIL, resistance(0.2, 1.0)], STEADY)).result


def test_a_tabulated_metal_is_tight_and_said_so():
    answer = answer_of(body([solid(100, 0.04, 1), material("steel", 1.0)], STEADY))
    assert answer.result["layers"][1]["vapour_tight"] is True
    assert {"field": "/build_up/layers/1/vapour_tight", "value": True}.items() <= next(
        row for row in answer.assumptions if row["field"].endswith("vapour_tight")
    ).items()


# ISO 10456 (from memory): plaster 10 dry, 6 wet; wool 1; boards of oriented strands 50 dry, 30 wet.
@pytest.mark.parametrize(
    ("factors", "expected"),
    [("less_favourable", (0.12, 0.1, 1.0)), ("dry", (0.2, 0.1, 1.0)), ("wet", (0.12, 0.1, 0.6))],
)
def test_tabulated_layers_take_the_lower_factor_inside_the_insulation_and_the_higher_outside(factors, expected):
    rows = layers_of(
        material("gypsum-plaster-1000"),
        material("rock-wool-board", 100.0),
        material("osb-650"),
        tabulated_factors=factors,
    )
    assert tuple(row["vapour_sd_m"] for row in rows) == pytest.approx(expected)


def test_the_factor_taken_from_the_table_is_stated_with_its_source():
    row = next(
        row
        for row in answer_of(body([solid(100, 0.04, 1), material("osb-650")], STEADY)).assumptions
        if row["field"] == "/build_up/layers/1/vapour_resistance_factor"
    )
    assert (row["value"], row["status"]) == (50.0, "memory")
    assert "dry" in row["source"]
    assert "measured elsewhere" in row["source"]


def test_a_factor_given_beats_the_table():
    assert layers_of(material("osb-650", vapour_resistance_factor=200))[0]["vapour_sd_m"] == pytest.approx(4.0)


def test_the_section_goes_through_the_largest_part_of_a_bridged_layer_unless_told():
    layer = frame((0.9, WOOL), (0.1, STUD))
    assert layers_of(layer)[0]["resistance_m2_k_per_w"] == pytest.approx(2.5)
    stud = layers_of(layer, section_parts=[{"layer": 0, "part": 1}])[0]
    assert (stud["part"], stud["vapour_sd_m"]) == (1, pytest.approx(5.0))
    assert stud["resistance_m2_k_per_w"] == pytest.approx(0.1 / 0.13)
    assert stud["name"] == "frame: part 1"


def test_parts_without_vapour_data_take_that_of_their_layer():
    layer = frame((0.9, {"conductivity_w_per_m_k": 0.04}), (0.1, {"conductivity_w_per_m_k": 0.13}), vapour_sd_m=0.2)
    for part in (0, 1):
        assert layers_of(layer, section_parts=[{"layer": 0, "part": part}])[0]["vapour_sd_m"] == 0.2


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        ([], [0, 0, 0]),
        ([{"layer": 0, "part": 1}], [1, 1, 1]),
        ([{"layer": 2, "part": 1}], [1, 1, 1]),
        ([{"layer": 2, "part": 1}, {"layer": 0, "part": 1}], [1, 1, 1]),
    ],
)
def test_a_section_through_layers_in_line_meets_the_same_part_in_each(parts, expected):
    """Chains too: the third layer stands in line with the second, and so with the first."""
    rows = layers_of(
        frame(*WOOL_AND_STUD),
        frame(*WOOL_AND_STUD, in_line_with=0),
        frame(*WOOL_AND_STUD, in_line_with=1),
        section_parts=parts,
    )
    assert [row["part"] for row in rows] == expected


def test_a_line_whose_shares_differ_in_their_last_digit_is_passed_through_one_part():
    halves = [frame((0.5, WOOL), (0.5, STUD)), frame((0.4999997, WOOL), (0.5000003, STUD), in_line_with=0)]
    assert [row["part"] for row in layers_of(*halves)] == [0, 0]


def test_layers_that_stand_in_no_line_are_passed_each_by_itself():
    rows = layers_of(frame(*WOOL_AND_STUD), frame(*WOOL_AND_STUD), section_parts=[{"layer": 0, "part": 1}])
    assert [row["part"] for row in rows] == [1, 0]


def test_a_part_that_is_named_for_a_line_is_assumed_for_none_of_its_layers():
    layers = [frame(*WOOL_AND_STUD), frame(*WOOL_AND_STUD, in_line_with=0)]
    for more, stated in (({}, 2), ({"section_parts": [{"layer": 1, "part": 1}]}, 0)):
        rows = answer_of(body(layers, STEADY, **more)).assumptions
        assert sum(row["field"] == "/section_parts" for row in rows) == stated


def test_layers_outside_a_well_ventilated_one_do_not_count_and_the_surface_is_still_air():
    vent = {"kind": "air", "thickness_mm": 40, "ventilation": "strong"}
    answer = answer_of(body([solid(100, 0.04, 1), vent, solid(20, 0.8)], monthly()))
    assert [row["index"] for row in answer.result["layers"]] == [0]
    assert answer.result["r_total_m2_k_per_w"] == pytest.approx(0.13 + 2.5 + 0.13)


@pytest.mark.parametrize(
    ("layers", "more", "slug", "pointer"),
    [
        ([solid(100, 0.04)], {}, "vapour-data-missing", "/build_up/layers/0"),
        ([resistance(1.0)], {}, "vapour-data-missing", "/build_up/layers/0"),
        ([material("cork-tiles")], {}, "vapour-data-missing", "/build_up/layers/0"),
        (
            [frame((0.9, {"conductivity_w_per_m_k": 0.04}), (0.1, STUD))],
            {},
            "vapour-data-missing",
            "/build_up/layers/0/parts/0",
        ),
        ([resistance(1.0, 1.0, vapour_tight=True)], {}, "vapour-data-contradictory", "/build_up/layers/0"),
        ([resistance(1.0, 0.0)], {}, "vapour-resistance-none", "/build_up/layers/0/vapour_sd_m"),
        ([resistance(1.0, 1e-6), resistance(0.1, 1e5), resistance(0.1, 1e5)], {}, "vapour-resistance-none", "/build_up/layers/0"),
        ([solid(100, 0.04, 1)], {"section_parts": [{"layer": 0, "part": 0}]}, "section-part-wrong", "/section_parts/0"),
        (
            [frame((0.9, WOOL), (0.1, STUD))],
            {"section_parts": [{"layer": 0, "part": 0}, {"layer": 0, "part": 1}]},
            "section-part-wrong",
            "/section_parts/1",
        ),
        (
            [frame(*WOOL_AND_STUD), frame(*WOOL_AND_STUD, in_line_with=0)],
            {"section_parts": [{"layer": 1, "part": 0}, {"layer": 0, "part": 1}]},
            "section-part-wrong",
            "/section_parts/1/part",
        ),
        ([frame((0.9, WOOL), (0.1, STUD), vapour_resistance_factor=2)], {}, "vapour-data-contradictory", "/build_up/layers/0"),
        (
            [frame((0.9, {"conductivity_w_per_m_k": 0.04}), (0.1, STUD), vapour_tight=True)],
            {},
            "vapour-data-contradictory",
            "/build_up/layers/0",
        ),
        ([resistance(100.0, 1.0), resistance(1.0, 1.0)], {}, "size-limit", "/build_up/layers"),
        ([resistance(0.0, 1.0)], {}, "layers-missing", "/build_up/layers"),
    ],
)  # fmt: skip
def test_a_section_that_cannot_be_followed_is_refused_where_it_stands(layers, more, slug, pointer):
    with pytest.raises(Refusal) as refused:
        answer_of(body(layers, STEADY, **more))
    assert (refused.value.slug, refused.value.faults[0].pointer) == (slug, pointer)


def test_data_of_a_part_that_is_not_passed_is_not_asked_for():
    layer = frame((0.9, WOOL), (0.1, {"conductivity_w_per_m_k": 0.13}))
    assert layers_of(layer)[0]["vapour_sd_m"] == pytest.approx(0.1)
