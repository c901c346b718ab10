"""Adhesive spread in a bed over all: area of slips and joints by thickness."""

import pytest

from storeyrod.quantities.calculation import calculate
from storeyrod.quantities.models import QuantitiesRequest
from unit.wall.survey import PLAIN, rectangle


def adhesive(**laid: object) -> dict:
    system = {**PLAIN, "adhesive": {"compressed_thickness_mm": 3, "pack_ml": 600, **laid}}
    asked = {"elevations": [rectangle()], "system": system, "options": {"effort": "quick"}}
    return calculate(QuantitiesRequest.model_validate(asked)).result["elevations"][0]["adhesive"]


def test_a_bed_takes_its_thickness_on_the_whole_wall() -> None:
    """4.8 m by 2.475 m at 3 mm: 35.64 l, 59.4 packs of 600 ml."""
    row = adhesive(laid="bed")
    assert (row["volume_l"], row["packs_used"]) == (pytest.approx(4.8 * 2.475 * 3), pytest.approx(59.4))


def test_a_bed_covers_all_of_a_slip_and_has_no_beads() -> None:
    row = adhesive(laid="bed")
    assert (row["coverage_fraction"], row["bead_length_m"]) == (1.0, 0.0)
    assert "pack_bead_length_m" not in row


def test_beads_are_laid_where_nothing_is_said() -> None:
    assert adhesive() == adhesive(laid="beads")
