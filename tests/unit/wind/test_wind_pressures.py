"""Pressures and coefficients: an independent calculation straight from the formulas of EN 1991-1-4 (from memory), and inputs."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wind_requests import FOUR_FACES, asked, wind

from storeyrod.findings import Refusal

TERRAIN = {"0": (0.003, 1), "I": (0.01, 1), "II": (0.05, 2), "III": (0.3, 5), "IV": (1.0, 10)}


def peak(v_b: float, terrain: str, z: float, rho: float = 1.25, c_o: float = 1.0, k_i: float = 1.0) -> float:
    """q_p(z) in one go: expressions 4.3 to 4.8."""
    z_0, z_min = TERRAIN[terrain]
    z = max(z, z_min)
    v_m = 0.19 * (z_0 / 0.05) ** 0.07 * math.log(z / z_0) * c_o * v_b
    return (1 + 7 * k_i / (c_o * math.log(z / z_0))) * rho / 2 * v_m**2


@settings(max_examples=150, deadline=None)
@given(
    st.floats(15, 40), st.sampled_from(sorted(TERRAIN)), st.floats(1, 200), st.floats(1.0, 1.6), st.floats(0.8, 1.2),
    st.floats(1.1, 1.3),
)  # fmt: skip
def test_peak_pressures_are_those_of_the_formulas(v, terrain, height, c_o, k_i, rho) -> None:
    site = wind(
        200, 200, height,
        fundamental_velocity_m_per_s=v, terrain=terrain, orography_factor=c_o, turbulence_factor=k_i, air_density_kg_per_m3=rho,
    )  # fmt: skip
    assert asked(site).result["peak_pressure_pa"] == pytest.approx(peak(v, terrain, height, rho, c_o, k_i), rel=1e-12)


def test_below_the_least_height_nothing_falls_further() -> None:
    """Terrain IV, z_min 10 m: 4 m has the pressure of 10 m."""
    low, high = (asked(wind(50, 50, h, terrain="IV")).result["peak_pressure_pa"] for h in (4, 10))
    assert low == high


def test_factors_multiply_the_velocity() -> None:
    plain = asked(wind()).result["basic_velocity_m_per_s"]
    changed = asked(wind(direction_factor=0.85, season_factor=0.9, probability_factor=1.04)).result
    assert changed["basic_velocity_m_per_s"] == pytest.approx(plain * 0.85 * 0.9 * 1.04)


def test_direction_factors_by_side_stand_beside_one_for_all() -> None:
    found = asked(wind(direction_factors={"front": 1.0, "right": 0.8, "rear": 0.9, "left": 0.7}), *FOUR_FACES)
    by_side = {row["direction"]: row["basic_velocity_m_per_s"] for row in found.result["directions"]}
    assert by_side == pytest.approx({"front": 25, "right": 20, "rear": 22.5, "left": 17.5})


def test_given_pressures_lie_on_straight_lines_between_rows() -> None:
    rows = [{"height_m": 5, "pressure_pa": 600}, {"height_m": 15, "pressure_pa": 800}]
    building = {"breadth_m": 8, "depth_m": 8, "height_m": 10}
    found = asked({"kind": "peak_pressures", "peak_pressures": rows, "building": building})
    assert {row["height_m"]: row["peak_pressure_pa"] for row in found.result["heights"]} == {8: 660, 10: 700}


@pytest.mark.parametrize("choice", ["united_kingdom", "ireland"])
def test_annexes_that_step_at_one_square_metre_draw_no_line(choice: str) -> None:
    """From memory of the annex: the value for 10 m2 from 1 m2 on; the line of figure 7.2 would give -1.26 at 5 m2."""
    site = {
        "kind": "peak_pressures", "peak_pressures": [{"height_m": 20, "pressure_pa": 900}], "national_choice": choice,
        "building": {"breadth_m": 20, "depth_m": 20, "height_m": 20}, "loaded_area_m2": 5,
    }  # fmt: skip
    zone_a = asked(site).result["directions"][0]["coefficients"][0]
    assert (zone_a["on_1_square_metre"], zone_a["pressure_coefficient"]) == (-1.4, -1.2)


def test_german_walls_have_coefficients_of_their_own() -> None:
    """Table NA.1 (from memory): A -1.4 and -1.7 at h/d of 5."""
    site = {
        "kind": "german_annex", "zone": 2, "region": "inland", "building": {"breadth_m": 20, "depth_m": 5, "height_m": 25},
    }  # fmt: skip
    found = asked(site).result
    assert (found["peak_pressure_pa"], found["basis"]["national_choice"]) == (900, "germany")
    assert found["directions"][0]["coefficients"][0]["on_1_square_metre"] == -1.7


@pytest.mark.parametrize(("altitude_m", "pressure_pa"), [(0, 900), (800, 900), (900, 990), (1100, 1170)])
def test_german_pressures_grow_by_a_tenth_for_every_100_m_above_800_m(altitude_m: float, pressure_pa: float) -> None:
    """Annex NA.A (from memory): 0.2 + altitude/1000 over 800 m; 1.1 at 900 m, 1.3 at 1100 m."""
    site = {
        "kind": "german_annex", "zone": 2, "region": "inland", "building": {"breadth_m": 20, "depth_m": 5, "height_m": 25},
    }  # fmt: skip
    assert asked({**site, "altitude_m": altitude_m}).result["peak_pressure_pa"] == pytest.approx(pressure_pa)


def test_german_leeward_walls_of_small_area_have_more_suction_at_both_ends_of_slenderness() -> None:
    """Table NA.1 (from memory): E for 1 m2 is -0.7 at h/d of 5, -0.5 at 0.25; the recommended table has -0.7 and -0.3."""
    site = {"kind": "german_annex", "zone": 2, "region": "inland"}
    tall, low = (
        asked({**site, "building": {"breadth_m": 20, "depth_m": depth, "height_m": height}}).result
        for depth, height in ((5, 25), (20, 5))
    )
    assert [found["directions"][0]["coefficients"][4]["on_1_square_metre"] for found in (tall, low)] == [-0.7, -0.5]


@pytest.mark.parametrize(
    ("inside", "suction"),
    [
        ({"kind": "not_estimated"}, -1.4 - 0.2),
        ({"kind": "on_background"}, -1.4),
        ({"kind": "declared", "coefficient": 0.35}, -1.4 - 0.35),
        ({"kind": "dominant_face", "side": "front", "ratio": "three_times"}, -1.4 - 0.9 * 0.8),
        ({"kind": "dominant_face", "side": "front", "ratio": "twice"}, -1.4 - 0.75 * 0.8),
        ({"kind": "dominant_face", "side": "rear", "ratio": "twice"}, -1.4 + 0.75 * (0.5 + 0.2 / 24)),
    ],
)
def test_internal_pressure_adds_to_suction(inside: dict, suction: float) -> None:
    """Zone A of the right side for wind on the front, in peak pressures: c_pe,1 less c_pi (7.2.9, from memory).

    h/d is 14/12 = 1.1667, so E is -0.5 - 0.2 x 0.1667/4 for 10 m2.
    """
    found = asked(wind(internal_pressure=inside), *FOUR_FACES).result
    row = next(
        row for row in found["zones"] if (row["elevation"], row["direction"], row["zone"]) == ("right", "front", "A")
    )
    assert row["net_suction_pa"] / found["peak_pressure_pa"] == pytest.approx(suction)


@pytest.mark.parametrize(
    ("site", "pointer"),
    [
        (wind(height=201, breadth=300, depth=300), "/wind/building/height_m"),
        (wind(depth=2.79), "/wind/building"),
        (wind(national_choice="united_kingdom"), "/wind/national_choice"),
        (
            {"kind": "peak_pressures", "peak_pressures": [{"height_m": 9, "pressure_pa": 700}], "building": wind()["building"]},
            "/wind/peak_pressures/0/height_m",
        ),
        ({"kind": "german_annex", "zone": 1, "region": "inland", "building": {"breadth_m": 30, "depth_m": 30, "height_m": 26}}, "/wind/building/height_m"),
        ({"kind": "german_annex", "zone": 1, "region": "coast", "building": wind()["building"]}, "/wind/region"),
        (
            {"kind": "german_annex", "zone": 1, "region": "inland", "altitude_m": 1101, "building": {**wind()["building"], "height_m": 25}},
            "/wind/altitude_m",
        ),
    ],
    ids=["over 200 m", "h/d over 5", "UK graphs", "above the last row", "over 25 m", "no such region", "over 1100 m"],
)  # fmt: skip
def test_outside_its_range_the_standard_is_not_stretched(site: dict, pointer: str) -> None:
    with pytest.raises(Refusal) as refused:
        asked(site)
    assert refused.value.faults[0].pointer == pointer


@pytest.mark.parametrize(
    "face", [{"side": "right"}, {"side": "front", "offset_mm": 1000}], ids=["a longer one", "a shifted one"]
)
def test_an_elevation_longer_than_its_side_is_refused(face: dict) -> None:
    with pytest.raises(Refusal, match="m from the left end of the"):
        asked(wind(), {"id": "front", "width_mm": 30000, "height_mm": 14000, "face": face})
