"""Sheets of junctions and of moisture from requests: what they are drawn from, what they refuse, what they say of it."""

from functools import cache
from typing import Any

import pytest

from drawing_walls import SYSTEM, groups_of, small_wall, words_of
from junction_requests import boundary, detail, rectangle, segment, square
from moisture_requests import SLIPS_ON_WOOL, air, body, by_class, condensation_of, monthly, resistance, solid, steady
from storeyrod.answer import Answer
from storeyrod.canonical import fingerprint
from storeyrod.drawings.calculation import calculate
from storeyrod.drawings.display_list import Drawing, Polyline
from storeyrod.drawings.models import DrawingRequest
from storeyrod.drawings.moisture_subject import MONTHS
from storeyrod.findings import Refusal
from storeyrod.junctions.models import ThermalJunctionRequest
from storeyrod.moisture.models import CondensationRequest

QUICK = {"effort": "quick"}
TAKE_OFF = {"system": SYSTEM, "elevations": [small_wall()], "options": QUICK}
WET = body(SLIPS_ON_WOOL)


def answered(*sheets: dict[str, Any], **members: Any) -> Answer[Drawing]:
    return calculate(DrawingRequest.model_validate({"sheets": list(sheets), **members}))


def slab(**more: Any) -> dict[str, Any]:
    return square(options=QUICK, **more)


@cache
def of_slab() -> Answer[Drawing]:
    return answered({"kind": "isotherms"}, thermal_junction=slab(points=[{"id": "middle", "x_mm": 50, "y_mm": 50}]))


@cache
def of_wool() -> Answer[Drawing]:
    return answered({"kind": "vapour_pressure"}, condensation_check=WET)


def cold(environment: str, temperature: float) -> list[dict[str, Any]]:
    return [{"environment": environment, "temperature_deg_c": temperature}]


def test_isotherms_of_a_slab_are_straight_and_where_its_resistances_put_them():
    """0.13 + 0.1 + 0.04 = 0.27 m2.K/W take 20 K: a surface of 20 (1 - 0.13 / 0.27) = 10.370 °C, and 74.07 K a metre of slab."""
    (sheet,) = of_slab().result
    for _, group in groups_of(sheet, "isotherm"):
        temperature = float(group.id.removeprefix("isotherm:"))
        (line,) = (item for item in group.items if isinstance(item, Polyline))
        assert {round(y, 3) for _, y in line.points} == {round((10.37037 - temperature) / 0.0740741, 3)}


def test_a_point_and_the_inside_surface_have_the_temperatures_of_the_answer():
    """The middle lies 0.18 of 0.27 m2.K/W from the inside: 6.67 °C; all the surface inside is at 10.37."""
    words = words_of(of_slab().result[0], "point-words")
    assert "middle 6.7 °C" in words
    assert "along the whole inside surface 10.4 °C, fRsi 0.519" in words
    assert groups_of(of_slab().result[0], "coldest-point") == []


def test_the_coldest_place_of_a_surface_that_is_not_even_is_marked():
    (sheet,) = answered({"kind": "isotherms"}, thermal_junction=detail("external_corner", options=QUICK)).result
    ((_, group),) = groups_of(sheet, "coldest-point")
    assert [item.at for item in group.items] == [(340.0, 340.0)]
    assert any(words.startswith("coldest, inside_arris") for words in words_of(sheet, "point-words"))


def test_heat_and_coupling_stand_on_the_sheet():
    """20 K over 0.27 m2.K/W through 0.1 m: 7.407 W/m, so a coupling of 0.3704 W/(m.K)."""
    (sheet,) = of_slab().result
    assert "Heat from in 7.407 W/m" in words_of(sheet, "title-block-words")
    assert "0.3704 W/(m·K)" in words_of(sheet, "table-words")


def test_a_junction_is_drawn_without_a_take_off_and_says_what_its_fingerprint_is_of():
    (sheet,) = of_slab().result
    whole = fingerprint(ThermalJunctionRequest.model_validate(slab(points=[{"id": "middle", "x_mm": 50, "y_mm": 50}])))
    assert "fingerprint of the thermal junction" in words_of(sheet, "title-block-words")
    assert f"Fingerprint of the thermal junction: {whole}" in sheet.description


def test_nothing_is_said_of_a_wall_that_is_not_there():
    said = of_slab().not_checked
    assert not [sentence for sentence in said if "movement joint" in sentence]
    assert [sentence for sentence in said if "Corners of three planes" in sentence]


def test_a_case_is_drawn_at_its_temperatures_and_named():
    junction = slab(cases=[{"id": "frost", "temperatures": cold("out", -20)}])
    base, frost = answered(
        {"kind": "isotherms"}, {"kind": "isotherms", "case": "frost"}, thermal_junction=junction
    ).result
    assert frost.title == "Isotherms, case frost"
    # 40 K instead of 20: the surface lies 40 (0.13 / 0.27) below 20.
    assert "along the whole inside surface 0.7 °C, fRsi 0.519" in words_of(frost, "point-words")
    assert "A in: 20 °C" in words_of(frost, "environment-words")
    assert frost.id_prefix != base.id_prefix


def test_an_unknown_case_is_refused_before_anything_is_solved(monkeypatch):
    monkeypatch.setattr("storeyrod.drawings.calculation.heat_shown", lambda *_: pytest.fail("the junction was solved"))
    with pytest.raises(Refusal, match="No case of the thermal junction has this id") as caught:
        answered({"kind": "isotherms", "case": "thaw"}, thermal_junction=slab())
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("reference-unknown", "/sheets/0/case")


def test_rectangles_of_one_material_are_one_material_of_the_table():
    halves = [rectangle(0, 0, 50, 100, 1.0, "brick"), rectangle(50, 0, 50, 100, 1.0, "brick")]
    (sheet,) = answered({"kind": "isotherms"}, thermal_junction=slab(rectangles=halves)).result
    assert [words for words in words_of(sheet, "table-words") if "brick" in words] == ["1 brick"]
    assert [group.items[0].lines for _, group in groups_of(sheet, "material-seams")] == [()]


def test_a_material_that_is_covered_altogether_is_not_named():
    covered = [rectangle(20, 20, 10, 10, 2.0, "lost"), rectangle(0, 0, 100, 100, 1.0, "brick")]
    junction = slab(rectangles=covered, overlaps="later_covers")
    (sheet,) = answered({"kind": "isotherms"}, thermal_junction=junction).result
    assert not [words for words in words_of(sheet, "table-words") if "lost" in words]


def test_a_ready_detail_shows_psi_and_the_surfaces_by_name():
    (sheet,) = answered({"kind": "isotherms"}, thermal_junction=detail("external_corner", options=QUICK)).result
    table = words_of(sheet, "table-words")
    assert {"psi, internal dimensions", "psi, external dimensions"} <= set(table)
    assert any("psi" in words and "internal" in words for words in words_of(sheet, "title-block-words"))


def test_a_point_fastener_shows_chi_and_its_axis():
    (sheet,) = answered({"kind": "isotherms"}, thermal_junction=detail("point_fastener", options=QUICK)).result
    assert "chi" in words_of(sheet, "table-words")
    assert len(groups_of(sheet, "axis-of-turning")) == 1


def test_three_environments_have_their_couplings_and_no_coldest_point():
    sides = [
        boundary(0, 0, 100, 0, temperature=20, resistance=0.13, environment="room"),
        boundary(0, 100, 100, 100, temperature=0, resistance=0.04, environment="street"),
        boundary(0, 0, 0, 100, temperature=10, resistance=0.13, environment="stairs"),
        {"segment": segment(100, 0, 100, 100), "adiabatic": True},
    ]
    (sheet,) = answered({"kind": "isotherms"}, thermal_junction=slab(boundaries=sides)).result
    couplings = [words for words in words_of(sheet, "table-words") if words.startswith("coupling")]
    assert len(couplings) == 3
    assert groups_of(sheet, "coldest-point") == []


def test_a_junction_of_many_environments_has_all_their_couplings():
    """Six rooms: 15 couplings; the table has a row for each."""
    sides = [
        boundary(25 * place, 100, 25 * place + 25, 100, temperature=place, resistance=0.13, environment=f"room {place}")
        for place in range(4)
    ]
    foot = [
        boundary(
            50 * place, 0, 50 * place + 50, 0, temperature=20 + place, resistance=0.13, environment=f"hall {place}"
        )
        for place in range(2)
    ]
    shut = [{"segment": segment(x, 0, x, 100), "adiabatic": True} for x in (0, 100)]
    (sheet,) = answered({"kind": "isotherms"}, thermal_junction=slab(boundaries=[*sides, *foot, *shut])).result
    assert sum(words.startswith("coupling") for words in words_of(sheet, "table-words")) == 15


def test_refusals_of_the_junction_point_into_the_drawing_request():
    overlapping = slab(rectangles=[rectangle(0, 0, 100, 100), rectangle(50, 0, 100, 100)])
    with pytest.raises(Refusal) as caught:
        answered({"kind": "isotherms"}, thermal_junction=overlapping)
    assert caught.value.faults[0].pointer == "/thermal_junction/junction/rectangles/1"


def test_the_month_with_most_moisture_in_the_answer_is_drawn():
    balances = condensation_of(SLIPS_ON_WOOL)["balances"]
    most = max(balances, key=lambda row: row["condensed_kg_per_m2"])
    assert of_wool().result[0].title == f"Vapour pressure, {MONTHS[most['month'] - 1]}"


def test_the_table_holds_what_the_answer_holds():
    """Moisture lies between wool and adhesive, layers 3 and 4."""
    (wet,) = [row for row in condensation_of(SLIPS_ON_WOOL)["interfaces"] if row["greatest_accumulated_kg_per_m2"] > 0]
    words = words_of(of_wool().result[0], "table-words")
    assert "c1 (3|4) condenses, g/m²" in words
    for row in wet["months"]:
        if row["accumulated_kg_per_m2"] > 0:
            assert f"{1000 * row['accumulated_kg_per_m2']:.1f}" in words


def test_the_verdict_stands_in_the_title_block():
    (results,) = [words for words in words_of(of_wool().result[0], "title-block-words") if "fRsi" in words]
    assert results.startswith("Condenses between layers and dries out; greatest ")


STEEL = body([solid(1, 50, vapour_tight=True)], steady(air(20, 0.5), air(-5, 0.8), 60))
"""The inside surface is at 20 - 25 (0.13 / 0.17) = 0.88 °C, at the resistance for mould at 20 - 25 (0.25 / 0.29) = -1.55 °C.

Saturation is there 651 and 536 Pa by the Magnus formula; the air holds half of 2337 Pa, 1168 Pa.
"""


def test_water_on_the_inside_surface_stands_in_results_and_heading():
    (sheet,) = answered({"kind": "vapour_pressure"}, condensation_check=STEEL).result
    (results,) = [words for words in words_of(sheet, "title-block-words") if "fRsi" in words]
    assert results == (
        "Nothing condenses between layers. Inside surface condenses, 218 % relative humidity: fRsi 0.138, required 0.705"
    )
    assert "Caution: water condenses on the inside surface; how much is not worked out." in words_of(sheet, "heading")
    notes = " ".join(words_of(sheet, "legend-words"))
    assert "vapour pressure is cut to saturation, 651 Pa; the air holds 1168 Pa." in notes


def test_water_on_a_surface_behind_a_film_has_its_amount_in_the_table():
    films = {"internal_sd_m": 0.01, "external_sd_m": 0.01}
    (sheet,) = answered({"kind": "vapour_pressure"}, condensation_check=STEEL | {"surface_vapour": films}).result
    assert any(
        words.startswith("Caution: water condenses on the inside surface.") for words in words_of(sheet, "heading")
    )
    assert "c1 (at the inside) condenses, g/m²" in words_of(sheet, "table-words")


def test_water_on_the_outside_surface_is_told():
    """Air outside at 30 °C and 90 % meets the wall of a cold store."""
    block = steady(air(0, 0.5), air(30, 0.9), 60)
    check = body([solid(1, 50, vapour_tight=True)], block)
    (sheet,) = answered({"kind": "vapour_pressure"}, condensation_check=check).result
    assert "Caution: water condenses on the outside surface; how much is not worked out." in words_of(sheet, "heading")


def test_a_surface_at_risk_of_mould_stands_in_results_and_heading():
    """0.64 of 0.89 m2.K/W lie outside the surface: fRsi 0.719, less than class 3 asks for; yet no water on it."""
    check = body([resistance(0.6, 1.0)], monthly(by_class(3)))
    (sheet,) = answered({"kind": "vapour_pressure"}, condensation_check=check).result
    assert any("Inside surface at risk of mould: fRsi" in words for words in words_of(sheet, "title-block-words"))
    assert "Caution: the inside surface is colder than what keeps mould off." in words_of(sheet, "heading")


@pytest.mark.parametrize(
    ("drying", "verdict"),
    [
        (None, "whether it dries was not asked"),
        ({"days": 1, "outdoor": air(12, 0.7), "indoor": air(12, 0.7)}, "does not dry out"),
    ],
)
def test_the_longest_results_keep_the_factor_required(drying, verdict):
    block = steady(air(21, 0.6), air(-6.6, 0.5), 60, **({"drying": drying} if drying else {}))
    (sheet,) = answered({"kind": "vapour_pressure"}, condensation_check=body(SLIPS_ON_WOOL, block)).result
    results = " ".join(words_of(sheet, "title-block-words"))
    assert verdict in results
    assert "fRsi 0.949, required 0.833" in results
    assert "…" not in results


def test_a_month_asked_for_is_drawn_and_named():
    (sheet,) = answered({"kind": "vapour_pressure", "month": 7}, condensation_check=WET).result
    assert sheet.title == "Vapour pressure, July"


def test_a_month_of_a_steady_climate_is_refused():
    block = steady(air(21, 0.4), air(-6.6, 0.5), 60)
    with pytest.raises(Refusal) as caught:
        answered({"kind": "vapour_pressure", "month": 1}, condensation_check=body(SLIPS_ON_WOOL, block))
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("reference-unknown", "/sheets/0/month")


def test_a_steady_climate_is_drawn_by_its_block():
    block = steady(air(21, 0.4), air(-6.6, 0.5), 60)
    (sheet,) = answered({"kind": "vapour_pressure"}, condensation_check=body(SLIPS_ON_WOOL, block)).result
    assert sheet.title == "Vapour pressure, 60 days"


def test_a_block_of_drying_is_told_from_the_one_before_it():
    block = steady(
        air(21, 0.6), air(-6.6, 0.5), 60, drying={"days": 90, "outdoor": air(12, 0.7), "indoor": air(12, 0.7)}
    )
    (sheet,) = answered({"kind": "vapour_pressure"}, condensation_check=body(SLIPS_ON_WOOL, block)).result
    assert {"60 days", "drying, 90 days"} <= set(words_of(sheet, "table-words"))


def test_a_declared_resistance_a_tight_layer_and_air_films_are_drawn():
    layers = [solid(13, 0.57, 10), resistance(0.5, 2.0), solid(1, 50, vapour_tight=True), solid(100, 0.035, 1)]
    check = body(layers, monthly(by_class(2)), surface_vapour={"internal_sd_m": 0.01, "external_sd_m": 0.01})
    (sheet,) = answered({"kind": "vapour_pressure"}, condensation_check=check).result
    assert {"tight", "-"} <= set(words_of(sheet, "table-words"))


def test_the_fingerprint_is_of_the_moisture_check():
    whole = fingerprint(CondensationRequest.model_validate(WET))
    assert f"Fingerprint of the moisture check: {whole}" in of_wool().result[0].description


@pytest.mark.parametrize(
    ("sheet", "member"),
    [
        ({"kind": "isotherms"}, "thermal_junction"),
        ({"kind": "vapour_pressure"}, "condensation_check"),
        ({"kind": "elevation", "elevation": "garden"}, "take_off"),
        ({"kind": "load_path"}, "take_off"),
    ],
)
def test_a_sheet_whose_subject_is_missing_is_refused_with_what_to_give(sheet, member):
    others = {"take_off": TAKE_OFF, "thermal_junction": slab(), "condensation_check": WET}
    del others[member]
    with pytest.raises(Refusal, match=f"no {member}") as caught:
        answered(sheet, **others)
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("subject-missing", "/sheets/0/kind")


def test_all_kinds_may_stand_in_one_request():
    sheets = answered(
        {"kind": "isotherms"}, {"kind": "elevation", "elevation": "garden"}, {"kind": "vapour_pressure", "month": 1},
        take_off=TAKE_OFF | {"project": {"name": "Hill House"}}, thermal_junction=slab(), condensation_check=WET,
    ).result  # fmt: skip
    assert [sheet.title for sheet in sheets] == [
        "Hill House: Isotherms", "Hill House: Elevation garden", "Hill House: Vapour pressure, January",
    ]  # fmt: skip


def test_what_was_assumed_points_to_its_member():
    fields = [row["field"] for row in of_wool().assumptions]
    assert fields
    assert all(field.startswith("/condensation_check/") for field in fields)
    assert len(fields) == len(set(fields))


def test_cautions_of_a_strict_drawing_are_refused():
    with pytest.raises(Refusal) as caught:
        answered({"kind": "vapour_pressure"}, condensation_check=WET, options={"strict": True})
    assert caught.value.slug == "strict-cautions"
