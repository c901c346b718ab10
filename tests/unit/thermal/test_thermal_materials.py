"""The table of materials: complete rows, and layers that name them."""

from typing import get_args

import pytest

from storeyrod.findings import Refusal
from storeyrod.reference.documents import DOCUMENTS, Status
from storeyrod.thermal.material_models import MaterialRow
from storeyrod.thermal.materials import MATERIALS
from thermal_requests import answer_of, body, result_of


def material(key: str) -> dict:
    return {"kind": "material", "material": key, "thickness_mm": 100.0}


@pytest.mark.parametrize("row", MATERIALS.values(), ids=MATERIALS)
def test_every_row_is_complete_and_closed(row):
    assert set(row) <= set(MaterialRow.__annotations__)
    assert row["document"] in DOCUMENTS
    assert row["status"] in get_args(Status)
    assert row["number"]
    assert (
        0.0
        < row.get("conductivity_low_w_per_m_k", row["conductivity_w_per_m_k"])
        <= row["conductivity_w_per_m_k"]
        <= 400.0
    )
    assert ("vapour_status" in row) is ("vapour_factor_dry" in row or "vapour_tight" in row)
    assert row.get("vapour_factor_wet", 1.0) <= row.get("vapour_factor_dry", 1.0)


def test_keys_are_unique_and_plain():
    assert len(MATERIALS) == 96
    assert all(key == key.lower() and " " not in key for key in MATERIALS)


def test_a_material_layer_takes_the_conductivity_of_the_table():
    """EN 12524:2000: reinforced concrete with 1 % of steel, 2.3 W/(m.K)."""
    rows = result_of(material("reinforced-concrete-2300"))["layers"]
    assert rows[0]["resistance_m2_k_per_w"] == pytest.approx(0.1 / 2.3, rel=1e-14)
    assert rows[0]["name"] == "concrete reinforced with 1 % of steel"


def test_a_tabulated_conductivity_comes_back_as_an_assumption_with_its_source():
    rows = {row["field"]: row for row in answer_of(body(material("osb-650"))).assumptions}
    row = rows["/build_up/layers/0/conductivity_w_per_m_k"]
    assert (row["value"], row["status"], row["source"]) == (0.13, "published", "EN 12524:2000, table 1")


@pytest.mark.parametrize("key", ["", "OSB-650", "unobtainium", "\u00e9"])
def test_a_material_that_is_not_in_the_table_is_refused(key):
    with pytest.raises(Refusal, match="material-unknown") as caught:
        answer_of(body(material(key)))
    assert caught.value.faults[0].pointer == "/build_up/layers/0/material"


def test_an_unknown_material_beyond_strong_ventilation_is_named_and_not_counted():
    cavity = {"kind": "air", "thickness_mm": 40.0, "ventilation": "strong"}
    rows = result_of(material("osb-650"), cavity, material("unobtainium"))["layers"]
    assert rows[2] == {"index": 2, "kind": "material", "name": "unobtainium", "counted": False}
