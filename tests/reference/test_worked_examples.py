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
REQUIRED = {
    *("U-1", "U-2", "U-3", "U-6", "U-10", "U-12", "U-13", "U-17", "U-anchors", "U-house"),
    *(
        "air-layers-up",
        "air-layers-horizontal",
        "air-layers-down",
        "surface-wind-1",
        "surface-wind-10",
        "slightly-ventilated",
    ),
    *("tapered-rectangle", "tapered-triangle-thickest-at-apex", "tapered-triangle-thinnest-at-apex"),
    *(
        "conversion-moisture",
        "temperatures-7",
        "temperatures-8",
        "target-plain",
        "target-fasteners",
        "sensitivity-wall",
    ),
    *("band-wall", "bridged-in-line", "bridged-independent"),
    *("S1", "S4", "S5-DF", "S5-NF", "S5-2DF", "S6", "S11-stretcher", "S11-header", "S11-english", "S11-flemish"),
    *("M1", "M2-15", "M2-20", "M2-25", "M3-NF", "M3-DF", "M3-2DF", "M4"),
    *("B1-6x6-290", "B2-4", "B3-8x10", "J1", "J1b", "J2", "J4", "J6", "J8", "J10-25", "J10-50", "house"),
    *("T1-2.5", "T1-0.6", "T3-2", "T4-3m", "T4-5.01m"),
    *("G1", "G1-header", "G3", "G4-light", "G4-heavy", "S1-pallet"),
    *("R1-17.9", "R1-18", "R2", "R6"),
    *("W1", "W2", "W4-velocity", "W4-altitude", "W6-18", "W8-1-10", "W9-5", "W10", "W10-area", "W11"),
    *("F1", "F1-general", "F3-chain", "F3-pull-through", "F5", "F5-aerated", "F6", "K1-3", "K1-30", "K2-10-75"),
    *("fastener-pattern-governs", "fastener-wind-governs", "proof-tests", "proof-tests-two-failures"),
    *("C-1", "C-2", "C-4", "C-6", "C-7", "C-9", "C-11", "block-climate"),
    *("saturation-formulas", "saturation-224", "saturation-handbook", "dew-points"),
    *("ISO-1", "ISO-2", "corner-outward", "corner-inward", "D-2", "no-junction", "tube", "chi-recessed"),
    *("joint-6m", "joint-30-percent", "joint-four-times", "B5-1_4x1_4", "Q1-6", "Q1-19", "Q1-32"),
}
"""Examples that must not get lost: a test that finds none of them would pass."""

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


def test_the_examples_asked_for_are_there():
    assert {example["id"] for example in EXAMPLES} >= REQUIRED


def test_ids_are_unique():
    assert len({example["id"] for example in EXAMPLES}) == len(EXAMPLES)
