"""Rows of the answer: members of wind only under wind, heat only where it is declared."""

from typing import Any

import pytest
from fastener_requests import wall
from loaded_walls import FRONT, body, declared, peak, pulls

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.trace import Recorder

ROW = wall(6000, 600, face=FRONT)
"""Five whole boards, 3.6 m2 in all; zone A reaches into the second."""


def answer(*elevations: dict, wind: dict | None = None, **fastener: Any):
    return calculate(FastenerScheduleRequest.model_validate(body(*elevations, wind=wind, **fastener)))


def test_without_wind_a_piece_has_its_number_and_nothing_of_wind() -> None:
    result = answer(ROW).result
    assert result["pieces"][0] == {"piece": "wall-00-01", "fasteners_count": 8}
    assert "zones" not in result
    assert all("zone" not in row for row in result["positions"])


def test_without_wind_the_answer_says_that_none_was_given() -> None:
    assert any("Wind was not given" in sentence for sentence in answer(ROW).not_checked)


def test_under_wind_without_pull_through_the_answer_says_that_heads_were_not_assessed() -> None:
    said = answer(ROW, wind=peak(), pull_out=declared(0.15)).not_checked
    assert any("Pull-through" in sentence and "not assessed" in sentence for sentence in said)


def test_zones_count_pieces_and_fasteners_with_their_density() -> None:
    """Two boards of twelve in zone A, three of eight in B: 24 on 1.44 m2 and 24 on 2.16 m2."""
    zones = answer(ROW, wind=peak(), pull_out=declared(0.15)).result["zones"]
    assert [(row["zone"], row["pieces_count"], row["fasteners_count"]) for row in zones] == [("A", 2, 24), ("B", 3, 24)]
    assert [row["density_per_m2"] for row in zones] == [pytest.approx(24 / 1.44), pytest.approx(24 / 2.16)]


def test_pieces_that_were_not_assessed_have_a_row_without_zone() -> None:
    """The parapet starts at 900, inside the second row of boards."""
    tall = wall(1200, 1800, face=FRONT, parapet_from_mm=900)
    zones = answer(tall, wind=peak(), pull_out=declared(0.15)).result["zones"]
    assert [(row.get("zone"), row["pieces_count"]) for row in zones] == [("A", 1), (None, 2)]


def test_every_fastener_has_an_id_of_its_own_and_the_zone_of_its_piece() -> None:
    positions = answer(ROW, wind=peak(), pull_out=declared(0.15)).result["positions"]
    assert len({row["id"] for row in positions}) == 48
    assert [row["zone"] for row in positions].count("A") == 24


def test_the_resistance_names_its_tests_and_its_rule() -> None:
    """0.6 times a mean of 0.80 kN, over 2."""
    row = answer(ROW, wind=peak(), pull_out={"tests_kn": pulls(0.80)}).result["resistance"]
    assert (row["basis"], row["tests_count"]) == ("tests", 15)
    assert [row[name] for name in ("mean_kn", "characteristic_kn", "design_kn")] == pytest.approx([0.80, 0.48, 0.24])


def test_declared_heat_of_fasteners_times_their_density_adds_to_the_u_value() -> None:
    """Forty on 3.6 m2 with 0.002 W/K each: 0.0222 W/(m2.K)."""
    heat = answer(ROW, chi_w_per_k=0.002).result["heat"]
    assert heat["addition_w_per_m2_k"] == pytest.approx(0.002 * 40 / 3.6)


def test_heat_that_is_not_declared_is_left_out() -> None:
    assert "heat" not in answer(ROW).result


def test_alike_pieces_share_a_step_of_the_working() -> None:
    """Boards one and two stand in zone A, three to five in B; at abutments none of them has an edge of the substrate beside it."""
    row = {**ROW, **{f"{side}_edge": {"kind": "abutment"} for side in ("left", "right")}}
    request = FastenerScheduleRequest.model_validate(body(row, wind=peak(), pull_out=declared(0.15)))
    workings = [row["working"] for row in calculate(request, Recorder()).result["pieces"]]
    assert len(set(workings)) == 2
    assert (workings[0], workings[2]) == (workings[1], workings[4])


def test_without_a_trace_there_is_no_working() -> None:
    assert all("working" not in row for row in answer(ROW, wind=peak(), pull_out=declared(0.15)).result["pieces"])
