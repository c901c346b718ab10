"""The invented block of four storeys under wind: from every fastener the working leads back to the velocity, the zone, the action on its
share of wall, the resistance and the count.

The block is a box of 13.49 by 8.99 m, 13.05 m high, with a court at the rear. All expected values are worked out here anew, by formulas of
EN 1991-1-4, 4.2 to 4.5 and 7.2.2, from memory.
"""

import json
import math
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.trace import Recorder

EXAMPLES = Path(__file__).parents[3] / "openapi" / "examples"
BLOCK = json.loads((EXAMPLES / "computeSettingOut" / "full.json").read_text(encoding="utf-8"))

BREADTH, DEPTH, HEIGHT, VELOCITY = 13.49, 8.99, 13.05, 26.0
TESTS = [0.52, 0.49, 0.55, 0.50, 0.61, 0.58, 0.66, 0.49, 0.71, 0.63, 0.60, 0.57, 0.64, 0.69, 0.62]

SIDES = {
    "south": ("front", 0.0),
    "east": ("right", 0.0),
    "east-wing-gable": ("rear", 0.0),
    "court-north": ("rear", 4490.0),
    "west-wing-gable": ("rear", 9000.0),
    "west": ("left", 0.0),
}
"""Side and distance from its left end; the two flanks of the court face no side of the box."""


@cache
def found() -> tuple[dict[str, Any], dict[str, Any]]:
    """Result and steps by id."""
    elevations = [dict(one) for one in BLOCK["elevations"]]
    for one in elevations:
        if one["id"] in SIDES:
            side, offset = SIDES[one["id"]]
            one["face"] = {"side": side, "offset_mm": offset}
    system = {**BLOCK["system"], "fastener": {"pull_out": {"tests_kn": TESTS}}}
    wind = {
        "kind": "basic_velocity",
        "fundamental_velocity_m_per_s": VELOCITY,
        "terrain": "III",
        "building": {"breadth_m": BREADTH, "depth_m": DEPTH, "height_m": HEIGHT},
    }
    request = {
        "elevations": elevations,
        "system": system,
        "wind": wind,
        "substrate": {"category": "B"},
        "options": {"effort": "quick"},
    }
    trace = Recorder()
    result = calculate(FastenerScheduleRequest.model_validate(request), trace).result
    return result, {step["id"]: step for step in trace.steps}


@cache
def led_to(step: str) -> frozenset[str]:
    """Steps and members of the request that a step leads back to, itself included."""
    _, steps = found()
    if step not in steps:
        return frozenset({step})
    return frozenset({step}).union(*(led_to(one["from"]) for one in steps[step]["inputs"]))


def named(piece: dict[str, Any], name: str) -> dict[str, Any]:
    """The only step of a formula that the working of a piece leads to."""
    _, steps = found()
    (step,) = [steps[one] for one in led_to(piece["working"]) if one in steps and steps[one].get("name") == name]
    return step


def peak_pressure() -> float:
    """q_p at the height of the building, terrain III: z_0 = 0.3 m, k_r = 0.19 (0.3/0.05)^0.07."""
    roughness = 0.19 * (0.3 / 0.05) ** 0.07 * math.log(HEIGHT / 0.3)
    return (1.0 + 7.0 / math.log(HEIGHT / 0.3)) * 1.25 * (roughness * VELOCITY) ** 2 / 2.0


NET = {"A": 1.4 + 0.2, "B": 1.1 + 0.2}
"""Net coefficients of suction: outside for up to 1 m2, and +0.2 inside."""

DESIGN = 0.6 * sum(sorted(TESTS)[:5]) / 5 / 2.0
"""0.6 of the mean of the five lowest of fifteen, over 2."""


def pieces() -> list[dict[str, Any]]:
    return found()[0]["pieces"]


def extent(piece: str) -> tuple[float, float]:
    """Left and right end of a piece along its side of the box, in mm, by its fasteners: inside the piece all the same."""
    places = [row["x_mm"] for row in found()[0]["positions"] if row["piece"] == piece]
    return min(places), max(places)


def test_every_fastener_has_a_piece_whose_working_is_a_step() -> None:
    result, steps = found()
    workings = {row["piece"]: row["working"] for row in pieces()}
    assert all(workings[row["piece"]] in steps for row in result["positions"])
    assert len({row["id"] for row in result["positions"]}) == result["fasteners_count"]


def test_every_working_leads_to_the_velocity_the_tests_and_the_partial_factors() -> None:
    leaves = {
        "/wind/fundamental_velocity_m_per_s",
        "/wind/building/height_m",
        "/system/fastener/pull_out/gamma_m",
        "/partial_factors/wind",
        *(f"/system/fastener/pull_out/tests_kn/{index}" for index in (0, 1, 2, 3, 7)),
    }
    assert all(leaves <= led_to(row["working"]) for row in pieces())


def test_the_peak_pressure_it_leads_to_is_that_of_the_height_of_the_building() -> None:
    for row in pieces():
        assert named(row, "wind.peak_pressure")["value"] == pytest.approx(peak_pressure())


def test_the_suction_it_leads_to_is_that_of_its_zone() -> None:
    for row in pieces():
        assert named(row, "wind.suction_of")["value"] == row["suction_pa"]
        assert row["suction_pa"] == pytest.approx(peak_pressure() * NET[row["zone"]])


def test_the_action_it_leads_to_is_that_on_its_own_area() -> None:
    for row in pieces():
        assert named(row, "fasteners.action_on_piece")["value"] == row["action_kn"]
        assert row["action_kn"] == pytest.approx(1.5 * row["suction_pa"] / 1000 * row["area_m2"])


def test_the_resistance_it_leads_to_is_that_of_the_five_lowest_tests() -> None:
    """The two equal ones of 0.49 kN both count."""
    for row in pieces():
        assert named(row, "fasteners.design_resistance")["value"] == pytest.approx(DESIGN)


def test_the_count_it_leads_to_is_the_action_over_the_resistance_rounded_up() -> None:
    for row in pieces():
        assert named(row, "fasteners.fasteners_needed")["value"] == row["needed_count"]
        assert row["needed_count"] == math.ceil(row["action_kn"] / DESIGN - 1e-9)


def test_every_piece_has_the_larger_of_pattern_and_need() -> None:
    for row in pieces():
        assert row["fasteners_count"] >= max(row["minimum_count"], row["needed_count"])
        assert (row["governed_by"] == "pull_out") == (row["needed_count"] > row["minimum_count"])
        assert row["pull_out_utilisation_fraction"] == pytest.approx(
            row["action_kn"] / (row["fasteners_count"] * DESIGN)
        )
    assert {row["governed_by"] for row in pieces()} == {"minimum", "pull_out"}


def zone_a_m(side: str) -> float:
    """A fifth of e: of the depth on the front and rear, of the breadth on the ends, both less than twice the height."""
    return (DEPTH if side in ("front", "rear") else BREADTH) / 5.0


def test_pieces_with_a_fastener_within_a_fifth_of_e_of_a_corner_of_the_box_are_zone_a() -> None:
    lengths = {"front": BREADTH, "rear": BREADTH, "right": DEPTH, "left": DEPTH}
    for row in pieces():
        face = next((one for one in SIDES if row["piece"].rsplit("-", 2)[0] == one), None)
        if face is None:
            assert row["zone"] == "A"
            continue
        side, offset = SIDES[face]
        left, right = ((offset + x) / 1000 for x in extent(row["piece"]))
        if left < zone_a_m(side) or right > lengths[side] - zone_a_m(side):
            assert row["zone"] == "A"


def test_pieces_a_board_away_from_a_fifth_of_e_are_not_zone_a() -> None:
    """No piece is longer than 1.2 m, so one with a fastener 1.2 m inside does not reach the zone."""
    low, high = zone_a_m("front") + 1.2, BREADTH - zone_a_m("front") - 1.2
    south = [row for row in pieces() if row["piece"].startswith("south-")]
    inner = [row for row in south if low < extent(row["piece"])[0] / 1000 and extent(row["piece"])[1] / 1000 < high]
    assert inner
    assert {row["zone"] for row in inner} == {"B"}


def test_totals_by_zone_and_elevation_are_those_of_pieces_and_positions() -> None:
    result, _ = found()
    by_zone = sum(row["fasteners_count"] for row in result["zones"])
    by_piece = sum(row["fasteners_count"] for row in pieces())
    assert by_zone == by_piece == len(result["positions"]) == result["fasteners_count"]
    for row in result["zones"]:
        of_zone = [one for one in pieces() if _is_of(one, row["elevation"]) and one["zone"] == row["zone"]]
        assert row["pieces_count"] == len(of_zone)
        assert row["fasteners_count"] == sum(one["fasteners_count"] for one in of_zone)
        assert row["piece_area_m2"] == pytest.approx(sum(one["area_m2"] for one in of_zone))


def _is_of(piece: dict[str, Any], elevation: str) -> bool:
    return piece["piece"].rsplit("-", 2)[0] == elevation


def test_flanks_of_the_court_stand_on_no_side_and_take_zone_a_all_over() -> None:
    zones = {row["zone"] for row in pieces() if row["piece"].startswith(("court-east-", "court-west-"))}
    assert zones == {"A"}
