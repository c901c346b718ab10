"""Proof tests of working fasteners: number, load and choice.

Shares, least numbers and loads are those of BS 8539, Annex B.3, as another text quotes them: 2.5 % and at least three at 1.5 times the
characteristic action, or 5 % at 1.25 times; twice as many after one failure, all after two.
"""

from itertools import pairwise
from typing import Any

import pytest
from fastener_requests import wall
from loaded_walls import FRONT, body, declared, peak

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.fasteners.proof_tests import chosen
from storeyrod.findings import Refusal

BIG = {"breadth_m": 100, "depth_m": 100, "height_m": 5}
"""e = min(100, 10) = 10 m: zone A is 2 m long, B reaches to 10 m."""


def answered(
    *elevations: dict, wind: dict | None = None, options: dict | None = None, tests: dict | None = None, **fastener: Any
):
    made = body(*elevations, wind=wind, **fastener) | {"proof_tests": tests or {}, "options": options or {}}
    return calculate(FastenerScheduleRequest.model_validate(made))


def row(width: float, **more: Any) -> dict[str, Any]:
    (made,) = answered(wall(width, 600, face=FRONT), **more).result["proof_tests"]
    return made


def failed(count: int, elevation: str = "wall") -> dict[str, Any]:
    return {"failures": [{"elevation": elevation, "failures_count": count}]}


@pytest.mark.parametrize(("boards", "tests"), [(1, 3), (10, 3), (15, 3), (16, 4), (20, 4), (40, 8)])
def test_one_in_forty_and_three_at_least(boards: int, tests: int) -> None:
    """Eight fasteners a board: 120 are 3, 128 are 3.2, so 4."""
    found = row(1200 * boards)
    assert (found["fasteners_count"], found["tests_count"]) == (8 * boards, tests)


@pytest.mark.parametrize(("boards", "tests"), [(1, 6), (15, 6), (16, 7), (40, 16)])
def test_one_failure_doubles_share_and_least_number(boards: int, tests: int) -> None:
    assert row(1200 * boards, tests=failed(1))["tests_count"] == tests


@pytest.mark.parametrize("failures", [2, 3, 50])
def test_two_failures_ask_for_all(failures: int) -> None:
    assert row(12_000, tests=failed(failures))["tests_count"] == 80


def test_never_more_than_there_are() -> None:
    """A single narrow board with two fasteners."""
    found = row(300)
    assert (found["fasteners_count"], found["tests_count"]) == (4, 3)
    assert row(300, tests=failed(1))["tests_count"] == 4


def test_the_load_is_one_and_a_half_of_what_wind_asks_of_the_most_loaded_fastener() -> None:
    """Zone A at 1 kPa: 1.4*0.72/8 = 0.126 kN, without the partial factor of wind."""
    found = row(48_000, wind=peak(building=BIG))
    assert (found["action_kn"], found["test_load_kn"]) == (pytest.approx(0.126), pytest.approx(0.189))


def test_the_partial_factor_of_wind_does_not_change_it() -> None:
    made = body(wall(1200, 600, face=FRONT), wind=peak()) | {"proof_tests": {}, "partial_factors": {"wind": 1.8}}
    (found,) = calculate(FastenerScheduleRequest.model_validate(made)).result["proof_tests"]
    assert found["action_kn"] == pytest.approx(0.126)


def test_more_tests_may_be_lighter() -> None:
    found = row(48_000, wind=peak(building=BIG), tests={"basis": "more_lighter"})
    assert (found["tests_count"], found["load_factor"]) == (16, 1.25)
    assert found["test_load_kn"] == pytest.approx(0.1575)


def test_more_fasteners_on_a_board_share_its_action() -> None:
    """Twelve in zone A carry 0.084 each; a board of zone B has eight for 1.1*0.72 = 0.792: 0.099 each is the most."""
    found = row(6000, wind=peak(), pull_out=declared(0.15))
    assert found["action_kn"] == pytest.approx(0.099)


def test_without_wind_there_is_a_number_and_no_load() -> None:
    found = row(12_000)
    assert found["tests_count"] == 3
    assert "test_load_kn" not in found


def test_every_elevation_is_an_area_of_its_own() -> None:
    walls = [{**wall(12_000, 600), "id": name} for name in ("a", "b")]
    rows = answered(*walls, tests=failed(1, "b")).result["proof_tests"]
    assert [(one["elevation"], one["tests_count"]) for one in rows] == [("a", 3), ("b", 6)]


def test_failures_of_one_elevation_add_up() -> None:
    found = answered(wall(12_000, 600), tests={"failures": failed(1)["failures"] * 2})
    assert found.result["proof_tests"][0]["tests_count"] == 80
    assert [item["code"] for item in found.findings].count("proof-test-failed") == 1


def test_failures_on_an_elevation_that_is_not_there_are_refused() -> None:
    with pytest.raises(Refusal) as refusal:
        row(1200, tests=failed(1, "rear"))
    assert refusal.value.faults[0].pointer == "/proof_tests/failures/0/elevation"


def test_more_failures_than_fasteners_are_refused_at_the_row_that_has_one_too_many() -> None:
    """Eight on one board: seven and two."""
    rows = [{"elevation": "wall", "failures_count": count} for count in (7, 2)]
    with pytest.raises(Refusal) as refusal:
        row(1200, tests={"failures": rows})
    assert (refusal.value.slug, refusal.value.faults[0].pointer) == (
        "failures-too-many",
        "/proof_tests/failures/1/failures_count",
    )


def test_all_fasteners_may_fail() -> None:
    assert row(1200, tests=failed(8))["tests_count"] == 8


def test_unless_asked_for_none_are_listed() -> None:
    request = FastenerScheduleRequest.model_validate(body(wall(1200, 600), wind=None))
    assert "proof_tests" not in calculate(request).result


def test_those_to_test_are_fasteners_of_the_schedule_each_once() -> None:
    found = answered(wall(12_000, 600), tests=failed(1))
    names = found.result["proof_tests"][0]["fasteners"]
    assert len(set(names)) == len(names) == 6
    assert set(names) <= {position["id"] for position in found.result["positions"]}


def test_a_summary_names_none() -> None:
    assert "fasteners" not in row(12_000, options={"detail": "summary"})


def test_zone_a_is_always_among_them() -> None:
    """Boards of 48 m: two of forty are in zone A."""
    found = answered(wall(48_000, 600, face=FRONT), wind=peak(building=BIG))
    zones = {position["id"]: position["zone"] for position in found.result["positions"]}
    tested = [zones[name] for name in found.result["proof_tests"][0]["fasteners"]]
    assert {zone: tested.count(zone) for zone in "ABC"} == {"A": 1, "B": 1, "C": 6}


def test_a_failure_keeps_those_tested_already() -> None:
    before, after = row(48_000), row(48_000, tests=failed(1))
    assert set(before["fasteners"]) <= set(after["fasteners"])


def test_the_first_are_the_ends_of_the_binary_fractions() -> None:
    assert [chosen(100, tests) for tests in (1, 2, 3, 4)] == [[0], [0, 50], [0, 25, 50], [0, 25, 50, 75]]


@pytest.mark.parametrize(("number", "tests"), [(1, 1), (2, 2), (7, 7), (7, 10), (100, 100)])
def test_all_are_all(number: int, tests: int) -> None:
    assert chosen(number, tests) == list(range(number))


@pytest.mark.parametrize("number", [10, 37, 100, 323, 4096])
@pytest.mark.parametrize("tests", [3, 5, 8, 10])
def test_no_stretch_of_twice_the_even_step_goes_untested(number: int, tests: int) -> None:
    places = [*chosen(number, tests), number]
    assert max(after - before for before, after in pairwise(places)) <= 2.0 * number / tests + 1.0
