"""Temperatures of planes: two worked examples of a handbook, and the plain function on its own."""

import pytest

from storeyrod.thermal.temperatures import interface_temperatures
from thermal_requests import WALL, air, answer_of, body, bridged, resistance

# ASHRAE Handbook, Fundamentals, 2021, chapter 27, example 8: resistances from inside to outside, 21 and -6.6 degrees.
EXAMPLE_8 = (0.12, 0.08, 1.90, 0.11, 0.18, 0.03)
PRINTED_8 = (19.6, 18.7, -2.9, -4.2, -6.3)
CALCULATED_8 = (19.63, 18.72, -2.95, -4.20, -6.26)


def asked(*layers, internal: float = 20.0, external: float = 0.0, **surfaces: float) -> dict:
    return {**body(*layers, **surfaces), "temperatures": {"internal_deg_c": internal, "external_deg_c": external}}


def test_the_planes_of_the_handbook_example():
    inner, *layers, outer = EXAMPLE_8
    document = asked(
        *map(resistance, layers),
        internal=21.0,
        external=-6.6,
        surface_internal_m2_k_per_w=inner,
        surface_external_m2_k_per_w=outer,
    )
    got = [row["temperature_deg_c"] for row in answer_of(document).result["temperatures"]]
    assert got == pytest.approx(PRINTED_8, abs=0.06)  # printed -2.9 is -2.95, rounded the other way
    assert got == pytest.approx(CALCULATED_8, abs=0.005)


def test_the_plain_function_gives_the_same():
    assert interface_temperatures(EXAMPLE_8, 21.0, -6.6) == pytest.approx(CALCULATED_8, abs=0.005)


def test_each_plane_says_what_it_is():
    rows = answer_of(asked(*WALL)).result["temperatures"]
    assert [row["index"] for row in rows] == [0, 1, 2, 3]
    assert rows[0]["name"] == "internal surface"
    assert rows[1]["name"] == "between layer and layer"
    assert rows[3]["name"] == "external surface"


def test_equal_air_on_both_sides_gives_one_temperature():
    rows = answer_of(asked(*WALL, internal=17.0, external=17.0)).result["temperatures"]
    assert {row["temperature_deg_c"] for row in rows} == {17.0}


def test_the_last_plane_faces_the_air_of_a_well_ventilated_layer():
    """Inner surface 0.13, layer 1.0, still air 0.13: 20 - 20 * 1.13 / 1.26."""
    rows = answer_of(asked(resistance(1.0), air(40.0, "strong"), resistance(1.0))).result["temperatures"]
    assert len(rows) == 2
    assert rows[1]["temperature_deg_c"] == pytest.approx(20.0 - 20.0 * 1.13 / 1.26, rel=1e-14)


def test_planes_of_bridged_layers_are_even_and_said_to_be():
    """Lower limit: 1/(0.5/1 + 0.5/2) = 4/3 between surfaces 0.13 and 0.04."""
    answer = answer_of(asked(bridged((0.5, 1.0), (0.5, 2.0))))
    rows = answer.result["temperatures"]
    assert rows[0]["temperature_deg_c"] == pytest.approx(20.0 - 20.0 * 0.13 / (0.17 + 4 / 3), rel=1e-14)
    assert any("even" in remark for remark in answer.not_checked)
