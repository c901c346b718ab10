"""Design resistance of one fastener, and of the heads of a piece: declared for its substrate, from tests, or withheld."""

from typing import Any

import pytest
from fastener_requests import BOARD, SLIP, wall
from loaded_walls import FRONT, body, peak, pulls

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.fasteners.need import pull_through_of_piece
from storeyrod.fasteners.resistance import Resistance, resistance_of
from storeyrod.trace import Recorder
from storeyrod.wall.substrate_models import Substrate
from storeyrod.wall.system import System
from storeyrod.wind.calculation import NOT_CHECKED as WIND_NOT_CHECKED


def resistance(pull_out: dict[str, Any] | None, category: str | None = "B", *, known: bool = True) -> Resistance:
    fastener = {} if pull_out is None else {"pull_out": pull_out}
    system = System.model_validate({"board": BOARD, "slip": SLIP, "fastener": fastener})
    return resistance_of(system, Substrate.model_validate({"category": category}) if known else None)


def codes(found: Resistance) -> list[str]:
    return [item["code"] for item in found.findings]


def test_a_declared_value_is_divided_by_its_partial_factor() -> None:
    assert resistance({"characteristic_kn": 0.9}).design == pytest.approx(0.45)


def test_the_partial_factor_is_the_callers() -> None:
    """2.5, as for general anchors in masonry (ETAG 020, from memory)."""
    assert resistance({"characteristic_kn": 0.9, "gamma_m": 2.5}).design == pytest.approx(0.36)


def test_tests_come_before_the_declared_value() -> None:
    """0.6 of 0.80 is 0.48, less than the 0.9 declared."""
    assert resistance({"characteristic_kn": 0.9, "tests_kn": pulls(0.8)}).design == pytest.approx(0.24)


@pytest.mark.parametrize("given", [None, {}])
def test_without_value_or_tests_the_resistance_is_missing(given: dict | None) -> None:
    found = resistance(given)
    assert (found.design, codes(found)) == (None, ["resistance-missing"])


@pytest.mark.parametrize("known", [True, False])
def test_a_declared_value_is_not_used_in_an_unknown_substrate(known: bool) -> None:
    found = resistance({"characteristic_kn": 0.9}, None, known=known)
    assert (found.design, codes(found)) == (None, ["substrate-unknown"])


def test_tests_on_the_wall_itself_need_no_category() -> None:
    assert resistance({"tests_kn": pulls(0.8)}, None).design == pytest.approx(0.24)


@pytest.mark.parametrize("declared_for", ["A", "C", "D", "E"])
def test_a_value_for_another_substrate_is_never_borrowed(declared_for: str) -> None:
    found = resistance({"characteristic_kn": 0.9, "category": declared_for})
    assert (found.design, codes(found)) == (None, ["resistance-other-substrate"])


def test_few_tests_are_not_replaced_by_the_declared_value() -> None:
    found = resistance({"characteristic_kn": 0.9, "tests_kn": [1.0] * 14})
    assert (found.design, codes(found)) == (None, ["pull-tests-few"])


def test_all_that_withholds_a_value_is_a_stop_finding() -> None:
    found = [
        resistance(None),
        resistance({"characteristic_kn": 0.9}, None),
        resistance({"characteristic_kn": 0.9, "category": "A"}),
        resistance({"tests_kn": [1.0] * 14}),
        resistance({"tests_kn": [0.7, 1.0, 1.3], "rule": "prediction"}),
        resistance({"tests_kn": pulls(1.0), "rule": "general_fixing"}),
    ]
    assert {item["level"] for one in found for item in one.findings} == {"stop"}
    assert [one.design for one in found] == [None] * 6


@pytest.mark.parametrize(("joints", "held", "carries"), [(3, 1.458, False), (4, 1.736, True)])
def test_heads_in_panel_and_joint_hold_a_board_by_their_own_values(joints: int, held: float, carries: bool) -> None:
    """Board 0.72 m2, 0.45 kN in the panel and 0.40 on a joint over 2.0, two in the panel; wind asks 1.5858 kN/m2.

    An independent calculation by the formula of ETAG 004.
    """
    per_board = pull_through_of_piece(R_panel=0.45, n_panel=2.0, R_joint=0.40, n_joint=float(joints), gamma_m=2.0)
    assert per_board / 0.72 == pytest.approx(held, abs=5e-4)
    assert (per_board / 0.72 >= 1.5858) is carries


def answered(pull_out: dict[str, Any] | None, substrate: dict[str, Any] | None = None):
    made = body(wall(6000, 600, face=FRONT), wind=peak(), **({} if pull_out is None else {"pull_out": pull_out}))
    return calculate(FastenerScheduleRequest.model_validate({**made, "substrate": substrate or {"category": "B"}}))


def test_the_answer_says_where_a_resistance_comes_from() -> None:
    row = answered({"tests_kn": pulls(0.8)}).result["resistance"]
    assert (row["basis"], row["document"], row["status"], row["tests_count"]) == ("tests", "ETAG 014", "memory", 15)
    assert (row["mean_kn"], row["characteristic_kn"], row["design_kn"]) == pytest.approx((0.8, 0.48, 0.24))


def test_a_withheld_resistance_leaves_the_positions_and_no_number_by_wind() -> None:
    found = answered({"tests_kn": [1.0] * 14})
    assert "design_kn" not in found.result["resistance"]
    assert all("needed_count" not in row and "governed_by" not in row for row in found.result["pieces"])
    assert len(found.result["positions"]) == found.result["fasteners_count"] == 40


def test_pull_through_left_open_near_edges_is_said() -> None:
    """The upper row stands 117.5 mm from the head of the board, nearer than 120; without 120 none is near an edge."""
    said = [
        " ".join(with_heads(joint_within_mm=within).not_checked).count("pull_through.joint_kn was not given")
        for within in (120, 100)
    ]
    assert said == [1, 0]


def with_heads(**pull_through: Any) -> Any:
    held = {"panel_kn": 0.9, "gamma_m": 2.0, **pull_through}
    made = body(wall(1200, 600, face=FRONT), wind=peak(), pull_out={"characteristic_kn": 0.9}, pull_through=held)
    return calculate(FastenerScheduleRequest.model_validate(made))


def test_a_declared_value_without_its_category_is_assumed_for_the_substrate_given() -> None:
    rows = {row["field"]: row["value"] for row in with_heads().assumptions}
    assert rows["/system/fastener/pull_out/category"] == "B"


def test_what_wind_leaves_to_others_stands_in_the_schedule_too() -> None:
    assert set(WIND_NOT_CHECKED) <= set(with_heads().not_checked)


def test_the_working_leads_from_the_design_value_to_the_tests() -> None:
    system = System.model_validate({"board": BOARD, "slip": SLIP, "fastener": {"pull_out": {"tests_kn": pulls(0.8)}}})
    trace = Recorder()
    resistance_of(system, Substrate(category="B"), trace)
    steps = {step["id"]: step for step in trace.steps}
    design = trace.steps[-1]
    assert design["symbol"] == "N_Rd"
    (characteristic,) = [steps[one["from"]] for one in design["inputs"] if one["from"] in steps]
    (mean,) = [steps[one["from"]] for one in characteristic["inputs"] if one["symbol"] == "N_1"]
    (total,) = [steps[one["from"]] for one in mean["inputs"] if one["symbol"] == "S"]
    assert [one["from"] for one in total["inputs"]] == [f"/system/fastener/pull_out/tests_kn/{at}" for at in range(5)]
