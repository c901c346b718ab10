"""Wind, weights, proof tests and site in a whole job: each part is what its own operation answers for the same input."""

from typing import Any

import pytest

from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.take_off.calculation import calculate
from storeyrod.weights import calculation as weights
from storeyrod.weights.models import DeadLoadRequest
from storeyrod.wind import calculation as wind
from storeyrod.wind.models import WindLoadRequest
from unit.take_off.worked_house import asked_for, house

WIND = {
    "kind": "basic_velocity", "fundamental_velocity_m_per_s": 24, "terrain": "III",
    "building": {"breadth_m": 5.046, "depth_m": 7.5, "height_m": 3.3},
}  # fmt: skip
SIDES = {"rear": "rear", "left": "left", "right": "right"}


def loaded(**changes: Any) -> dict[str, Any]:
    document = house(wind=WIND, substrate={"category": "B", "render_mm": 15}, **changes)
    for elevation in document["elevations"]:
        elevation["face"] = {"side": SIDES[elevation["id"]]}
    document["system"]["fastener"] |= {
        "pull_out": {"characteristic_kn": 0.6}, "pull_through": {"panel_kn": 0.45, "joint_kn": 0.4, "gamma_m": 2},
    }  # fmt: skip
    return document


def shared(document: dict[str, Any], *names: str) -> dict[str, Any]:
    return {name: document[name] for name in ("elevations", "system", "options", *names) if name in document}


JOB = loaded(proof_tests={}, links=[{"link": "structure", "action": "weight", "resistance_kn_per_m2": 5, "gamma_m": 2}])
ANSWER = calculate(asked_for(**{name: JOB[name] for name in JOB}))


def test_the_wind_is_that_of_wind_loads() -> None:
    alone = wind.calculate(
        WindLoadRequest.model_validate({name: JOB[name] for name in ("wind", "elevations", "system")})
    )
    assert ANSWER.result["wind"] == alone.result


def test_fasteners_are_those_of_fastener_schedules() -> None:
    asked = shared(JOB, "wind", "substrate", "proof_tests")
    alone = fasteners.calculate(FastenerScheduleRequest.model_validate(asked))
    assert ANSWER.result["fasteners"] == alone.result


def test_dead_loads_are_those_of_dead_loads() -> None:
    alone = weights.calculate(DeadLoadRequest.model_validate(shared(JOB, "wind", "substrate", "links")))
    assert ANSWER.result["dead_loads"] == alone.result


def test_a_job_without_a_word_about_weights_has_no_dead_loads() -> None:
    assert "dead_loads" not in calculate(asked_for()).result


def test_fasteners_bought_are_those_that_wind_asks_for() -> None:
    lines = {line["role"]: line for line in ANSWER.result["quantities"]["lines"]}
    assert lines["fastener"]["net"] == ANSWER.result["fasteners"]["fasteners_count"]


def test_the_site_of_the_project_is_reminded_of() -> None:
    """The worked house: a dwelling in an unnamed jurisdiction."""
    codes = [item["code"] for item in calculate(asked_for()).findings]
    assert {"fire-insulation", "fire-site-unknown", "fire-use"} <= set(codes)
    assert "fire-boundary" not in codes


def test_the_u_value_takes_the_declared_chi_times_the_fasteners_of_the_schedule() -> None:
    """One route: U of the plain wall and chi times the average number on a square metre."""
    document = house()
    document["system"]["fastener"]["chi_w_per_k"] = 0.002
    found = calculate(asked_for(system=document["system"])).result
    plain = found["u_value"]["u_value_uncorrected_w_per_m2_k"]
    by_hand = plain + 0.002 * found["fasteners"]["density_per_m2"]
    assert found["u_value"]["u_value_corrected_w_per_m2_k"] == pytest.approx(by_hand, rel=1e-12)


def test_fasteners_given_among_the_corrections_take_the_place_of_the_schedule() -> None:
    document = house()
    document["system"]["fastener"]["chi_w_per_k"] = 0.002
    given = {"fasteners": {"kind": "declared", "chi_w_per_k": 0.001, "count_per_m2": 4}}
    found = calculate(asked_for(system=document["system"], corrections=given))
    plain = found.result["u_value"]["u_value_uncorrected_w_per_m2_k"]
    assert found.result["u_value"]["u_value_corrected_w_per_m2_k"] == pytest.approx(plain + 0.004, rel=1e-12)
    assert "fasteners-given-twice" in [item["code"] for item in found.findings]
