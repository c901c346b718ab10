"""Surfaces, air layers and tapered shapes against published tables and independent calculations."""

from typing import Any

import pytest

from storeyrod.thermal.air_layers import emittance_between
from storeyrod.thermal.tapered import rectangle, triangle_thickest_at_apex, triangle_thinnest_at_apex
from storeyrod.trace import Formula
from thermal_requests import air, resistance, result_of, solid


@pytest.mark.parametrize(
    ("element", "internal", "external"), [("roof", 0.10, 0.04), ("wall", 0.13, 0.04), ("floor", 0.17, 0.04)]
)
def test_surface_resistances_are_those_of_the_handbook(element, internal, external):
    """ASHRAE Handbook, Fundamentals, 2021, chapter 26, table 11, European values: up, horizontal, down."""
    surfaces = result_of(resistance(1.0), element=element)["surfaces"]
    assert (surfaces["internal_m2_k_per_w"], surfaces["external_m2_k_per_w"]) == (internal, external)


@pytest.mark.parametrize(
    ("convection", "expected"), [(5.0, 0.10), (2.5, 0.13), (0.7, 0.17)], ids=["up", "horizontal", "down"]
)
def test_surface_resistances_follow_from_convection_and_radiation(convection, expected):
    """ISO 6946 Annex C, from memory: 1 / (h_ci + 0.9 * 5.7)."""
    assert round(1.0 / (convection + 0.9 * 5.7), 2) == expected


# ISO 6946:2007, table 2, from memory; every entry but that of 0 mm, which has no layer.
AIR_TABLE = {
    5.0: (0.11, 0.11, 0.11),
    7.0: (0.13, 0.13, 0.13),
    10.0: (0.15, 0.15, 0.15),
    15.0: (0.16, 0.17, 0.17),
    25.0: (0.16, 0.18, 0.19),
    50.0: (0.16, 0.18, 0.21),
    100.0: (0.16, 0.18, 0.22),
    300.0: (0.16, 0.18, 0.23),
}


@pytest.mark.parametrize("thickness_mm", AIR_TABLE)
@pytest.mark.parametrize(
    ("column", "element"), [(0, "roof"), (1, "wall"), (2, "floor")], ids=["up", "horizontal", "down"]
)
def test_the_table_of_air_layers_follows_from_the_formula(thickness_mm, column, element):
    value = result_of(air(thickness_mm), element=element)["layers"][0]["resistance_m2_k_per_w"]
    assert round(value, 2) == AIR_TABLE[thickness_mm][column]


@pytest.mark.parametrize("element", ["roof", "wall", "floor"])
def test_no_thickness_has_no_resistance(element):
    """First row of the table, 0 mm, as the limit: the thinnest layer taken adds 0.00."""
    assert round(result_of(air(0.1), element=element)["layers"][0]["resistance_m2_k_per_w"], 2) == 0.00


@pytest.mark.parametrize(("thickness_mm", "measured"), [(13.0, 0.16), (20.0, 0.18), (40.0, 0.18), (90.0, 0.16)])
def test_vertical_air_layers_agree_with_the_handbook_within_0_03(thickness_mm, measured):
    """ASHRAE Handbook, Fundamentals, 2021, chapter 26, table 3: 10 C, 5.6 K, effective emittance 0.82; another method."""
    value = result_of(air(thickness_mm))["layers"][0]["resistance_m2_k_per_w"]
    assert emittance_between(e_1=0.9, e_2=0.9) == pytest.approx(0.82, abs=0.005)
    assert value == pytest.approx(measured, abs=0.03)


@pytest.mark.parametrize(
    ("cavity", "calculated"),
    [(0.18, 0.284), (0.44, 0.265), (0.664, 0.250)],
    ids=["plain", "table, foil", "formula, foil"],
)
def test_a_cavity_wall_of_a_textbook_is_plausible_by_its_cavity(cavity, calculated):
    """A textbook on materials prints 0.27 without its cavity's resistance; three readings of it calculated independently."""
    layers = [
        resistance(0.05), resistance(0.17), solid(100.0, 0.15), solid(50.0, 0.023), resistance(cavity), solid(102.5, 0.96),
    ]  # fmt: skip
    u_value = result_of(*layers)["u_value_w_per_m2_k"]
    assert u_value == pytest.approx(calculated, abs=5e-4)
    assert u_value == pytest.approx(0.27, abs=0.025)


@pytest.mark.parametrize(
    ("shape", "expected"),
    [(rectangle, 0.6486367), (triangle_thickest_at_apex, 0.8468190), (triangle_thinnest_at_apex, 0.4504544)],
    ids=["rectangle", "thickest at apex", "thinnest at apex"],
)
def test_tapered_shapes_agree_with_an_independent_calculation(shape: Formula[Any], expected):
    assert shape(R_0=0.5, R_1=3.0) == pytest.approx(expected, abs=5e-8)


@pytest.mark.parametrize(
    ("shape", "share"),
    [
        (rectangle, lambda t: 1.0),
        (triangle_thickest_at_apex, lambda t: 2.0 * (1.0 - t)),
        (triangle_thinnest_at_apex, lambda t: 2.0 * t),
    ],
    ids=["rectangle", "thickest at apex", "thinnest at apex"],
)
def test_tapered_shapes_agree_with_strips_of_equal_thickness(shape: Formula[Any], share):
    """Midpoint rule over strips parallel to the thin edge; share(t) is their length, t from thin to thick."""
    strips = 20_000
    total = sum(share((i + 0.5) / strips) / (0.5 + 3.0 * (i + 0.5) / strips) for i in range(strips)) / strips
    assert shape(R_0=0.5, R_1=3.0) == pytest.approx(total, rel=1e-6)
