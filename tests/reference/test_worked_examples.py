"""Every worked example of the reference data, through the core and over HTTP.

The sources, printed decimals and reasons for tolerances stand beside each example, in the package's reference data.
"""

import pytest
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.operations import OPERATIONS
from storeyrod.api.self_tests import compared, run_example
from storeyrod.api.settings import Settings
from storeyrod.reference.documents import DOCUMENTS
from storeyrod.reference.tables import worked_examples

EXAMPLES = worked_examples()
BY_NAME = {operation.operation_id: operation for operation in OPERATIONS}


@pytest.fixture(scope="module")
def client():
    with TestClient(create_app(Settings(workers=0, log_requests=False))) as made:
        yield made


def differences(figures):
    return [figure for figure in figures if not figure["passed"]]


@pytest.mark.parametrize("example", EXAMPLES, ids=[example["id"] for example in EXAMPLES])
def test_the_core_gives_the_printed_figures(example):
    assert differences(run_example(example, BY_NAME[example["operation"]])["figures"]) == []


@pytest.mark.parametrize("example", EXAMPLES, ids=[example["id"] for example in EXAMPLES])
def test_http_gives_the_printed_figures(example, client):
    answer = client.post(BY_NAME[example["operation"]].path, json=example["request"])
    assert answer.status_code == 200, answer.text
    assert differences([compared(figure, answer.json()) for figure in example["expected"]]) == []


@pytest.mark.parametrize("example", EXAMPLES, ids=[example["id"] for example in EXAMPLES])
def test_each_example_says_where_it_is_printed_and_why_it_may_differ(example):
    assert example["document"] in DOCUMENTS
    assert example["expected"]
    for figure in example["expected"]:
        assert "tolerance" not in figure or figure["tolerance"] is None or figure.get("reason")


def test_ids_are_unique():
    assert len({example["id"] for example in EXAMPLES}) == len(EXAMPLES)
