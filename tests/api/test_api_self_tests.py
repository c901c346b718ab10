import pytest
from stand_in import SHORT
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.self_tests import compared, rows_of, run_example, summed_up, tolerance_of
from storeyrod.api.settings import Settings
from storeyrod.reference.tables import worked_examples

EXAMPLE = {
    "id": "planted",
    "title": "Two layers",
    "document": "none",
    "example": 1,
    "status": "independent_calculation",
    "operation": "computeStandIn",
    "request": {"layers": [{"kind": "plain", "thickness_mm": 1.5}, {"kind": "plain", "thickness_mm": 2}]},
    "expected": [{"pointer": "/result/total_mm", "value": 3.5, "printed_decimals": 1}],
}


def test_an_example_that_agrees_passes():
    assert run_example(EXAMPLE, SHORT)["passed"]


@pytest.mark.parametrize("change", [{"value": 3.44}, {"pointer": "/result/elsewhere"}, {"value": "3.5"}])
def test_an_example_that_does_not_agree_fails(change):
    example = {**EXAMPLE, "expected": [{**EXAMPLE["expected"][0], **change}]}
    made = summed_up(rows_of([EXAMPLE, example], [SHORT]))
    assert (made["passed_count"], made["failed_count"]) == (1, 1)


@pytest.mark.parametrize(
    ("figure", "tolerance"),
    [
        ({"printed_decimals": 3}, 0.0005),
        ({"printed_decimals": 0}, 0.5),
        ({"printed_decimals": 2, "tolerance": 0.02}, 0.02),
        ({}, 0.0),
    ],
)
def test_tolerance_is_half_a_unit_of_the_last_printed_place_unless_given(figure, tolerance):
    assert tolerance_of(figure) == tolerance


def test_a_value_exactly_half_a_unit_away_passes():
    assert compared({"pointer": "/a", "value": 0.28, "printed_decimals": 2}, {"a": 0.285})["passed"]


def test_the_address_runs_every_worked_example(client):
    made = client.get("/v1/self-tests").json()
    assert [row["id"] for row in made["self_tests"]] == [example["id"] for example in worked_examples()]
    assert made["failed_count"] == 0
    assert made["passed_count"] == len(made["self_tests"])


@pytest.mark.parametrize("workers", [2, 3])
def test_workers_share_the_examples_and_answer_alike(client, workers):
    with TestClient(create_app(Settings(workers=workers, log_requests=False))) as shared:
        assert shared.get("/v1/self-tests").content == client.get("/v1/self-tests").content
