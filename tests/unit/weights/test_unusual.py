"""What is unusual about a system, by hand: limits are rows of the table of unit weights, geometry, or rules of this service."""

from typing import Any

import pytest
from weight_requests import SYSTEM, WALL, asked

from storeyrod.quantities import calculation as quantities
from storeyrod.quantities.models import QuantitiesRequest

BEADS = {"laid": "beads", "bead_diameter_mm": 20, "beads_per_course_count": 20}
"""Twenty beads of 314.159 mm2 before a gap of 65 by 3 mm: 32.22 times what fits."""


def board(**given: float) -> dict[str, Any]:
    plain = {name: value for name, value in SYSTEM["board"].items() if name != "density_kg_per_m3"}
    return {"members": {"system": {**SYSTEM, "board": {**plain, **given}}}}


def found(code: str, **changes: Any) -> list[dict[str, Any]]:
    return [item for item in asked(**changes).findings if item["code"] == code]


@pytest.mark.parametrize(("mass", "density", "limit"), [(45, 450, 200), (0.5, 5, 10)])
def test_the_mass_of_a_board_is_unusual_where_its_density_would_be(mass: float, density: float, limit: float) -> None:
    """Over or under 10 to 200 kg/m3 (common practice, no source) on 100 mm."""
    (item,) = found("density-unusual", **board(mass_kg_per_m2=mass))
    assert (item["value"], item["limit"]) == (pytest.approx(density), limit)
    assert item["where"] == {"pointer": "/system/board/mass_kg_per_m2"}


@pytest.mark.parametrize("mass", [1.0, 20.0])
def test_the_ends_of_the_usual_range_are_usual(mass: float) -> None:
    assert not found("density-unusual", **board(mass_kg_per_m2=mass))


@pytest.mark.parametrize(
    ("laid", "depth", "room"), [("beads", 300, 23), ("beads", 40, 23), ("bed", 21, 20), ("bed", 20, None)]
)
def test_pointing_has_room_in_front_of_the_board_and_of_a_bed_over_all(
    laid: str, depth: float, room: float | None
) -> None:
    """Slips of 20 mm on adhesive of 3 mm."""
    items = found("pointing-too-deep", joint={"depth_mm": depth}, adhesive={"laid": laid})
    assert [(item["value"], item["limit"]) for item in items] == ([] if room is None else [(depth, room)])


def test_beads_that_hold_many_times_what_fits_behind_a_slip_are_named() -> None:
    (item,) = found("beads-overfull", adhesive=BEADS)
    assert (item["value"], item["limit"]) == (pytest.approx(32.22, abs=0.005), 1)


def test_a_thin_bead_pressed_to_thirty_millimetres_covers_hardly_anything_and_is_said() -> None:
    """A bead of 0.785398 mm2 before 65 x 30 mm: 0.000402768 of a slip, which is 0.828148 of the face."""
    thin = {"laid": "beads", "bead_diameter_mm": 1, "compressed_thickness_mm": 30}
    result = asked(adhesive=thin).result
    assert result["coverage_fraction"] == pytest.approx(0.000402768, rel=1e-5)
    assert result["bonded_fraction"] == pytest.approx(0.000402768 * 0.828148, rel=1e-5)
    (item,) = found("coverage-low", adhesive=thin)
    assert (item["value"], item["limit"]) == (pytest.approx(0.000402768, rel=1e-5), 0.25)


def test_a_bed_over_all_covers_slips_and_bonds_the_face_as_far_as_it_is_slips() -> None:
    result = asked().result
    assert (result["coverage_fraction"], result["bonded_fraction"]) == (1, pytest.approx(0.828148, rel=1e-5))


def test_whoever_buys_mortar_and_adhesive_hears_that_they_have_no_room() -> None:
    system = {**SYSTEM, "joint": {"depth_mm": 40}, "adhesive": BEADS}
    request = QuantitiesRequest.model_validate({"elevations": [WALL], "system": system})
    codes = {item["code"] for item in quantities.calculate(request).findings}
    assert {"pointing-too-deep", "beads-overfull"} <= codes
