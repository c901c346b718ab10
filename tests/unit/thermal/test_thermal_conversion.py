"""Declared to design conductivity by ISO 10456 (from memory): its own example, hand calculations, the table's limits."""

from math import exp
from typing import Any

import pytest

from storeyrod.findings import Refusal
from storeyrod.reference.documents import DOCUMENTS
from storeyrod.thermal.conversion_tables import CONVERSIONS, rounded_conductivity
from storeyrod.thermal.material_models import ConversionRow
from thermal_requests import answer_of, body


def declared(value: float = 0.036, thickness_mm: float = 100.0, **conversion: Any) -> dict[str, Any]:
    return {
        "kind": "declared", "name": "board", "thickness_mm": thickness_mm, "conductivity_declared_w_per_m_k": value,
        "conversion": conversion,
    }  # fmt: skip


def by_volume(content: float | None = None, **more: Any) -> dict[str, Any]:
    made = {"basis": "by_volume", "content_declared_fraction": 0.0, **more}
    return made if content is None else {**made, "content_design_fraction": content}


def conductivity(layer: dict[str, Any]) -> float:
    return answer_of(body(layer)).result["layers"][0]["conductivity_w_per_m_k"]


def refusal(layer: dict[str, Any]) -> tuple[str, str, str]:
    with pytest.raises(Refusal) as caught:
        answer_of(body(layer))
    return caught.value.slug, caught.value.faults[0].pointer.removeprefix("/build_up/layers/0"), caught.value.detail


def test_the_example_of_the_standard():
    """Expanded polystyrene declared 0.036, moisture 0 to 0.02 m3/m3, coefficient 4: F_m 1.083, 0.0390 (from memory)."""
    layer = declared(material="expanded-polystyrene", moisture=by_volume(0.02))
    assert conductivity(layer) == pytest.approx(0.038998, abs=5e-7)
    row = answer_of(body(layer)).result["layers"][0]
    assert row["conductivity_rounded_w_per_m_k"] == 0.039
    assert row["resistance_m2_k_per_w"] == pytest.approx(0.1 / (0.036 * exp(0.08)), rel=1e-14)


def test_nothing_to_convert_leaves_the_declared_value():
    assert conductivity(declared(0.034)) == 0.034


def test_a_tabulated_temperature_coefficient_is_used_at_its_conductivity():
    """0.0036 per kelvin at 0.035; 10 to 23 degrees Celsius."""
    layer = declared(0.035, material="expanded-polystyrene", temperature_design_deg_c=23.0)
    assert conductivity(layer) == pytest.approx(0.035 * exp(0.0036 * 13.0), rel=1e-14)


def test_between_tabulated_conductivities_the_coefficient_lies_on_the_straight_line():
    """Mineral wool batts: 0.0046 at 0.035, 0.0056 at 0.040; so 0.0050 at 0.037."""
    layer = declared(0.037, material="mineral-wool-batts", temperature_design_deg_c=0.0)
    assert conductivity(layer) == pytest.approx(0.037 * exp(0.0050 * -10.0), rel=1e-12)


def test_masonry_has_one_temperature_coefficient_for_all():
    layer = declared(0.5, material="fired-clay", temperature_design_deg_c=20.0)
    assert conductivity(layer) == pytest.approx(0.5 * exp(0.001 * 10.0), rel=1e-14)


def test_moisture_by_mass_uses_the_coefficient_by_mass():
    """Autoclaved aerated concrete: 4 per kg/kg, 0.045 kg/kg in air of 80 %."""
    moisture = {"basis": "by_mass", "content_declared_fraction": 0.0, "air_humidity_percent": 80}
    layer = declared(0.11, material="autoclaved-aerated-concrete", moisture=moisture)
    assert conductivity(layer) == pytest.approx(0.11 * exp(4.0 * 0.045), rel=1e-14)


@pytest.mark.parametrize(("humidity", "content"), [(50, 0.007), (80, 0.012)])
def test_the_content_in_air_of_a_humidity_is_tabulated(humidity, content):
    layer = declared(0.5, material="fired-clay", moisture=by_volume(air_humidity_percent=humidity))
    assert conductivity(layer) == pytest.approx(0.5 * exp(10.0 * content), rel=1e-14)


def test_ageing_multiplies():
    assert conductivity(declared(0.022, ageing_factor=1.2)) == pytest.approx(0.0264, rel=1e-14)


def test_coefficients_of_the_request_need_no_material():
    layer = declared(
        0.04,
        temperature_design_deg_c=0.0,
        temperature_coefficient_per_k=0.005,
        moisture=by_volume(0.1, coefficient=3.0),
    )
    assert conductivity(layer) == pytest.approx(0.04 * exp(-0.05) * exp(0.3), rel=1e-14)


def test_what_the_table_gave_comes_back_as_assumptions():
    moisture = by_volume(air_humidity_percent=80)
    layer = declared(0.028, material="polyurethane", temperature_design_deg_c=20.0, moisture=moisture)
    rows = {row["field"].rpartition("/conversion/")[2]: row for row in answer_of(body(layer)).assumptions}
    assert rows["temperature_coefficient_per_k"]["value"] == pytest.approx(0.0052)  # 0.0055 to 0.0050 over 0.005
    assert rows["moisture/content_design_fraction"]["value"] == 0.0
    assert rows["moisture/coefficient"]["value"] == 6.0
    assert "the other is 3" in rows["moisture/coefficient"]["source"]
    assert rows["temperature_declared_deg_c"]["value"] == 10.0
    assert rows["ageing_factor"]["value"] == 1.0


@pytest.mark.parametrize(
    ("layer", "slug", "pointer"),
    [
        (declared(temperature_design_deg_c=20.0), "conversion-contradictory", "/conversion/temperature_coefficient_per_k"),
        (declared(moisture=by_volume(0.1)), "conversion-contradictory", "/conversion/moisture/coefficient"),
        (declared(moisture=by_volume()), "conversion-contradictory", "/conversion/moisture/content_design_fraction"),
        (
            declared(moisture=by_volume(0.1, air_humidity_percent=50)),
            "conversion-contradictory",
            "/conversion/moisture/content_design_fraction",
        ),
        (
            declared(material="autoclaved-aerated-concrete", moisture=by_volume(0.02)),
            "conversion-contradictory",
            "/conversion/moisture/basis",
        ),
        (declared(material="straw", moisture=by_volume(0.02)), "material-unknown", "/conversion/material"),
        (declared(material="straw"), "material-unknown", "/conversion/material"),
        (declared(temperature_coefficient_per_k=0.004), "conversion-contradictory", "/conversion/temperature_coefficient_per_k"),
        (declared(temperature_declared_deg_c=20.0), "conversion-contradictory", "/conversion/temperature_declared_deg_c"),
        (declared(temperature_declared_deg_c=10.0), "conversion-contradictory", "/conversion/temperature_declared_deg_c"),
        (declared(moisture=by_volume(1.2, coefficient=4.0)), "outside-validity", "/conversion/moisture/content_design_fraction"),
        (declared(material="straw", temperature_design_deg_c=5.0), "material-unknown", "/conversion/material"),
        (
            declared(0.05, material="expanded-polystyrene", temperature_design_deg_c=5.0),
            "outside-validity",
            "/conversion/temperature_coefficient_per_k",
        ),
        (
            declared(0.02, material="phenolic-foam", temperature_design_deg_c=5.0),
            "outside-validity",
            "/conversion/temperature_coefficient_per_k",
        ),
        (
            declared(material="expanded-polystyrene", moisture=by_volume(0.11)),
            "outside-validity",
            "/conversion/moisture/content_design_fraction",
        ),
    ],
    ids=[
        "no temperature coefficient", "no moisture coefficient", "no content", "two contents", "other basis", "unknown",
        "unknown and not used", "coefficient of nothing", "temperature of nothing", "default sent of nothing", "more water than room",
        "unknown for temperature", "conductivity off the table", "none tabulated", "too moist",
    ],
)  # fmt: skip
def test_a_conversion_that_lacks_or_leaves_its_data_is_refused(layer, slug, pointer):
    got_slug, got_pointer, detail = refusal(layer)
    assert (got_slug, got_pointer) == (slug, pointer)
    assert "give" in detail


def test_the_limit_of_the_table_itself_is_answered():
    layer = declared(0.043, material="expanded-polystyrene", temperature_design_deg_c=5.0, moisture=by_volume(0.10))
    assert conductivity(layer) == pytest.approx(0.043 * exp(0.0044 * -5.0) * exp(0.4), rel=1e-14)


# Steps of ISO 10456, from memory: up to 0.08 by 0.001, up to 0.20 by 0.005, up to 2.00 by 0.01, above by 0.1.
@pytest.mark.parametrize(
    ("value", "stated"),
    [
        (0.038998, 0.039), (0.0305, 0.031), (0.0800, 0.080), (0.0812, 0.080), (0.0826, 0.085), (0.1974, 0.195),
        (0.2049, 0.20), (0.785, 0.79), (1.994, 1.99), (2.04, 2.0), (2.05, 2.1), (17.26, 17.3),
    ],
)  # fmt: skip
def test_conductivities_are_stated_in_steps(value, stated):
    assert rounded_conductivity(value) == stated


@pytest.mark.parametrize("row", CONVERSIONS.values(), ids=CONVERSIONS)
def test_every_row_of_coefficients_is_closed_and_sourced(row):
    assert set(row) <= set(ConversionRow.__annotations__)
    assert row["document"] in DOCUMENTS
    assert row["status"] == "memory"
    listed = [one.get("conductivity_w_per_m_k", 0.0) for one in row.get("temperature", [])]
    assert listed == sorted(listed)
    assert row["moisture"]["basis"] in ("by_mass", "by_volume")


def test_a_low_declared_conductivity_marks_the_insulation():
    layers = [declared(0.6), declared(0.035)]
    answer = answer_of(body(*layers, corrections={"air_gap_level": 1}))
    fields = {row["field"]: row["value"] for row in answer.assumptions}
    assert fields["/corrections/insulation_layer"] == 1
