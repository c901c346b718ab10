"""Resistances in newtons or kilograms of force where kilonewtons are asked for: 1 kN is 1000 N, or 101.97 kg at 9.80665 m/s2."""

from typing import Any

import pytest
from fastener_requests import BOARD, SLIP

from storeyrod.fasteners.resistance import Resistance, resistance_of
from storeyrod.wall.substrate_models import Substrate
from storeyrod.wall.system import System

IN_KN = [0.65, 0.66, 0.67, 0.68, 0.69, 0.7, 0.71, 0.72, 0.73, 0.74, 0.75, 0.76, 0.77, 0.78, 0.79]
"""Fifteen tests; the five lowest have a mean of 0.67 kN, 0.6 of that over 2.0 is 0.201 kN."""


def found(**fastener: Any) -> Resistance:
    system = System.model_validate({"board": BOARD, "slip": SLIP, "fastener": fastener})
    return resistance_of(system, Substrate(category="B"))


def said(of: Resistance) -> list[tuple[str, str]]:
    return [(item["code"], item["where"]["pointer"]) for item in of.findings]


def test_kilonewtons_are_taken_without_a_word() -> None:
    made = found(pull_out={"tests_kn": IN_KN})
    assert (made.design, made.findings) == (pytest.approx(0.201), ())


@pytest.mark.parametrize("factor", [1000.0, 101.97])
def test_tests_in_newtons_or_kilograms_of_force_give_no_resistance(factor: float) -> None:
    made = found(pull_out={"tests_kn": [factor * load for load in IN_KN]})
    assert made.design is None
    assert said(made) == [("pull-tests-impossible", "/system/fastener/pull_out/tests_kn/14")]


@pytest.mark.parametrize("rule", ["insulation_fixing", "general_fixing", "prediction", "tolerance"])
def test_so_by_every_rule_and_for_one_test_among_others(rule: str) -> None:
    made = found(pull_out={"tests_kn": [*IN_KN[:7], 700.0, *IN_KN[8:]], "rule": rule, "characteristic_kn": 0.9})
    assert made.design is None
    assert said(made)[0] == ("pull-tests-impossible", "/system/fastener/pull_out/tests_kn/7")


def test_tests_in_newtons_beside_a_value_for_another_substrate_are_remarked_on_too() -> None:
    made = found(pull_out={"tests_kn": [700.0] * 15, "characteristic_kn": 0.9, "category": "C"})
    assert [code for code, _ in said(made)] == ["resistance-other-substrate", "resistance-unusual"]


def test_tests_between_the_usual_and_the_possible_are_used_and_remarked_on() -> None:
    """0.6 of 15 kN is capped at 1.5; over 2.0 it is 0.75 kN. Fifteen kilograms would be 0.15 kN."""
    made = found(pull_out={"tests_kn": [15.0] * 15})
    assert made.design == pytest.approx(0.75)
    assert said(made) == [("resistance-unusual", "/system/fastener/pull_out/tests_kn")]


@pytest.mark.parametrize("declared", [75.0, 100.0])
def test_a_declared_value_of_that_kind_is_remarked_on(declared: float) -> None:
    made = found(pull_out={"characteristic_kn": declared})
    assert said(made) == [("resistance-unusual", "/system/fastener/pull_out/characteristic_kn")]


def test_so_is_pull_through() -> None:
    heads = {"panel_kn": 45, "joint_kn": 30, "gamma_m": 2}
    made = found(pull_out={"characteristic_kn": 0.9}, pull_through=heads)
    pointers = ["/system/fastener/pull_through/panel_kn", "/system/fastener/pull_through/joint_kn"]
    assert said(made) == [("resistance-unusual", pointer) for pointer in pointers]
