"""Ends of a band where U turns inside the tolerances: dense grids by a formula of their own, and a search at random."""

import copy
from typing import Any

import numpy
import pytest

from storeyrod.trace import Recorder
from thermal_requests import SHANK, WALL, air, answer_of, body, remarked, resistance, solid

GRID = numpy.linspace(-1.0, 1.0, 200_001)


def conducting(*parts: tuple[float, float], **members: Any) -> dict[str, Any]:
    rows = [{"name": "part", "fraction": share, "conductivity_w_per_m_k": value} for share, value in parts]
    return {"kind": "bridged", "name": "bridged", "thickness_mm": 100.0, "parts": rows, **members}


def asked(*layers: dict[str, Any], corrections: dict[str, Any] | None = None, **tolerances: Any) -> dict[str, Any]:
    return {**body(*layers, corrections=corrections), "tolerances": tolerances}


CROSSED = asked(
    conducting((0.5, 0.13), (0.5, 0.04)),
    conducting((0.5, 0.04), (0.5, 0.13), in_line_with=0),
    layers=[{"layer": 0, "part_fraction": 0.3}],
)
PIERCED = asked(
    resistance(2.0),
    solid(14.0, 0.025),
    corrections={"insulation_layer": 1, "fasteners": {**SHANK, "conductivity_w_per_m_k": 50.0, "area_mm2": 113.0, "count_per_m2": 10.0}},
    layers=[{"layer": 1, "thickness_mm": 10.0}],
)  # fmt: skip
GAPPED = asked(
    resistance(24.83),
    solid(500.0, 0.02),
    corrections={"insulation_layer": 1, "air_gap_level": 2},
    layers=[{"layer": 1, "thickness_mm": 100.0}],
)


def crossed_u(place):
    """Both paths through 0.1/0.13 and 0.1/0.04 are alike, so the upper limit stays; each layer of the lower one moves."""
    f, a, b = 0.5 + 0.3 * place, 0.1 / 0.13, 0.1 / 0.04
    return 2.0 / ((0.17 + a + b) + (0.17 + 1 / (f / a + (1 - f) / b) + 1 / (f / b + (1 - f) / a)))


def pierced_u(place):
    d = 0.014 + 0.010 * place
    return 1 / (2.17 + d / 0.025) + 0.8 * 50 * 113e-6 * 10 / d * ((d / 0.025) / (2.17 + d / 0.025)) ** 2


def gapped_u(place):
    r = (0.5 + 0.1 * place) / 0.02
    return 1 / (25.0 + r) + 0.04 * (r / (25.0 + r)) ** 2


@pytest.mark.parametrize(
    ("document", "u_value"), [(CROSSED, crossed_u), (PIERCED, pierced_u), (GAPPED, gapped_u)], ids=["shares", "shanks", "gaps"]
)  # fmt: skip
def test_a_u_value_that_turns_inside_has_its_ends_where_a_dense_grid_has(document, u_value):
    result = answer_of(document).result
    values = u_value(GRID)
    band = result["band"]
    assert band["u_value_low_w_per_m2_k"] == pytest.approx(values.min(), rel=1e-10)
    assert band["u_value_high_w_per_m2_k"] == pytest.approx(values.max(), rel=1e-10)
    assert band["u_value_low_w_per_m2_k"] <= result["u_value_w_per_m2_k"] <= band["u_value_high_w_per_m2_k"]
    assert band["ends_settled"]


def test_the_place_of_an_end_is_answered():
    """The greatest U of the shares is where they are alike, the least at either end."""
    band = answer_of(CROSSED).result["band"]
    assert band["high_at"][0]["input"] == "/build_up/layers/0/parts/0/fraction"
    assert band["high_at"][0]["place_fraction"] == pytest.approx(0.0, abs=1e-5)
    assert abs(band["low_at"][0]["place_fraction"]) == 1.0


def generated(random: numpy.random.Generator) -> dict[str, Any]:
    """A wall of studs in line, insulation and more, corrected, with tolerances of everything."""
    share = float(random.uniform(0.2, 0.8))
    pairs = random.uniform(0.03, 0.15, 4).round(3)
    layers = [
        conducting((share, pairs[0]), (1 - share, pairs[1])),
        conducting((share, pairs[2]), (1 - share, pairs[3]), in_line_with=0),
        solid(float(random.uniform(20, 200)), float(random.uniform(0.02, 0.05))),
        resistance(float(random.uniform(0.1, 20.0))),
    ]
    shank = {**SHANK, "conductivity_w_per_m_k": 50.0, "area_mm2": float(random.uniform(10, 200))}
    corrections: dict[str, Any] = {"insulation_layer": 2, "air_gap_level": int(random.integers(0, 3))}
    if random.random() < 0.7:
        corrections["fasteners"] = shank
    rows = [
        {"layer": 0, "part_fraction": share * 0.2, "conductivity_fraction": 0.1},
        {"layer": 1, "conductivity_fraction": 0.2},
        {"layer": 2, "thickness_mm": layers[2]["thickness_mm"] * 0.8, "conductivity_fraction": 0.4},
        {"layer": 3, "resistance_fraction": 0.3},
    ]
    return asked(*layers, corrections=corrections, layers=rows, samples_count=500)


def moved(document: dict[str, Any], places: numpy.ndarray) -> dict[str, Any]:
    """The same request with inputs inside their tolerances, and without any."""
    made = copy.deepcopy({"build_up": document["build_up"], "corrections": document["corrections"]})
    crossed, rows, place = made["build_up"]["layers"], document["tolerances"]["layers"], iter(places)
    share = crossed[0]["parts"][0]["fraction"] + rows[0]["part_fraction"] * next(place)
    for layer, tolerance in zip(crossed[:2], (0.1, 0.2), strict=True):
        for part, fraction in zip(layer["parts"], (share, 1 - share), strict=True):
            part["fraction"] = fraction
            part["conductivity_w_per_m_k"] *= 1 + tolerance * next(place)
    crossed[2]["thickness_mm"] += rows[2]["thickness_mm"] * next(place)
    crossed[2]["conductivity_w_per_m_k"] *= 1 + 0.4 * next(place)
    crossed[3]["resistance_m2_k_per_w"] *= 1 + 0.3 * next(place)
    return made


@pytest.mark.parametrize("seed", range(25))
def test_a_search_at_random_finds_nothing_outside_the_band(seed):
    random = numpy.random.default_rng(seed)
    document = generated(random)
    result = answer_of(document).result
    kept = any(row["applied"] for row in result["corrections"])
    member = "u_value_corrected_w_per_m2_k" if kept else "u_value_uncorrected_w_per_m2_k"
    inside = random.uniform(-1, 1, (80, 8))
    corners = random.choice([-1.0, 1.0], (40, 8))
    found = [remarked(moved(document, row)).result[member] for row in [*inside, *corners]]
    band = result["band"]
    assert band["u_value_low_w_per_m2_k"] <= min(found) * (1 + 1e-12)
    assert band["u_value_high_w_per_m2_k"] >= max(found) * (1 - 1e-12)
    assert band["u_value_low_w_per_m2_k"] <= result["u_value_w_per_m2_k"] <= band["u_value_high_w_per_m2_k"]


def test_the_working_of_both_ends_leads_back_to_the_members_that_move():
    document = asked(
        *WALL, {"kind": "material", "material": "osb-650", "thickness_mm": 12.0}, air(20.0, void_width_mm=100.0),
        corrections={"fasteners": SHANK}, layers=[{"layer": 1, "thickness_mm": 5.0}], surfaces_fraction=0.1,
    )  # fmt: skip
    recorder = Recorder()
    band = answer_of(document, recorder).result["band"]
    moved_at_the_least = [step for step in recorder.steps if step["clause"]["number"].endswith("where U is least")]
    named = {step["clause"]["number"].split(" ")[0] for step in moved_at_the_least}
    assert "/build_up/layers/1/thickness_mm" in named
    assert "/build_up/surface_internal_m2_k_per_w" in named
    values = [step["value"] for step in recorder.steps if step["symbol"] == "U_c"]
    assert band["u_value_low_w_per_m2_k"] in values
    assert band["u_value_high_w_per_m2_k"] in values
    drawn = {step["symbol"]: step["value"] for step in recorder.steps if "draws of" in step["clause"]["number"]}
    assert drawn["U_05"] == band["u_value_p05_w_per_m2_k"]
    assert set(drawn) == {"U_mean", "s_U", "U_05", "U_95"}


def test_limits_far_apart_inside_the_tolerances_are_a_caution_with_the_ratio():
    """Halves of 2 and 0.0471, 29 mm thick: 1/(0.5/(0.17 + d/2) + 0.5/(0.17 + d/0.0471)) over 0.17 + 2 d/(2 + 0.0471)."""
    document = asked(
        {**conducting((0.5, 2.0), (0.5, 0.0471)), "thickness_mm": 15.0}, layers=[{"layer": 0, "thickness_mm": 14.0}]
    )
    d = 0.029
    upper = 1 / (0.5 / (0.17 + d / 2) + 0.5 / (0.17 + d / 0.0471))
    found = next(one for one in answer_of(document).findings if one["code"] == "band-beyond-method")
    assert found["value"] == pytest.approx(upper / (0.17 + 2 * d / 2.0471), rel=1e-12)
    assert found["limit"] == 1.5


def test_corrections_that_reach_three_percent_inside_the_tolerances_are_a_caution():
    """0.0072 of 0.27007 is 2.67 %; with 30 % more fasteners 3.47 %."""
    fasteners = {"kind": "declared", "chi_w_per_k": 0.0012, "count_per_m2": 6.0}
    answer = answer_of(asked(*WALL, corrections={"fasteners": fasteners}, fastener_count_fraction=0.3))
    found = next(one for one in answer.findings if one["code"] == "correction-rule-crossed")
    assert found["value"] == pytest.approx(0.0072 * 1.3 * 3.702805, rel=1e-5)
