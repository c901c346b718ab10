"""The working of every example that the package or its description carries: linked, true to its inputs, and repeatable."""

import importlib
import json
import math
from functools import cache
from pathlib import Path
from typing import Any, get_type_hints

import pytest

from storeyrod.api.operations import OPERATIONS
from storeyrod.reference.documents import DOCUMENTS
from storeyrod.reference.tables import worked_examples
from storeyrod.trace import SILENT, Recorder, Step
from storeyrod.units import REGISTRY, UNITS
from unit.findings.cases import FINDING_CASES
from unit.trace.formulas import formulas

BY_ID = {operation.operation_id: operation for operation in OPERATIONS}
EXAMPLES = Path(__file__).resolve().parents[3] / "openapi" / "examples"
CODES = sorted(UNITS, key=len, reverse=True)


def requests() -> dict[str, tuple[Any, Any]]:
    """The calculation to ask and the request document, by name."""
    found: dict[str, tuple[Any, Any]] = {}
    for name, operation in BY_ID.items():
        for path in sorted((EXAMPLES / name).glob("*.json")):
            document = json.loads(path.read_text(encoding="utf-8"))
            found[f"{name} {path.stem}"] = (operation.calculate, document.get("value", document))
    for example in worked_examples():
        calculate = BY_ID[example["operation"]].calculate
        found[f"{example['operation']} {example['id']}"] = (calculate, example["request"])
    for code, case in FINDING_CASES.items():
        calculate = importlib.import_module(f"storeyrod.{case.room}.calculation").calculate
        found[f"{case.room} {code}"] = (calculate, case.triggers)
    return found


REQUESTS = requests()
EACH = pytest.mark.parametrize("name", REQUESTS)


@cache
def worked(name: str) -> tuple[Any, Any, tuple[Step, ...]]:
    """Default-filled request, answer and steps."""
    calculate, document = REQUESTS[name]
    request = get_type_hints(calculate)["request"].model_validate(document)
    trace = Recorder()
    answer = calculate(request, trace)
    return request.model_dump(), answer, tuple(trace.steps)


def at(pointer: str, document: Any) -> Any:
    """Value at a JSON Pointer; raises when nothing stands there."""
    for token in pointer.split("/")[1:]:
        document = document[int(token)] if isinstance(document, list) else document[token]
    return document


@EACH
def test_every_input_comes_from_an_earlier_step_or_from_the_request(name: str) -> None:
    filled, _, steps = worked(name)
    seen: set[str] = set()
    for step in steps:
        for one in step["inputs"]:
            if one["from"] not in seen:
                assert one["from"].startswith("/"), f"{step['id']} {step['symbol']}: {one} has no origin"
                at(one["from"], filled)
        seen.add(step["id"])


def same(value: float, unit: str, other: float, other_unit: str) -> bool:
    """Whether two values are one quantity, whatever their units."""
    return math.isclose(value, other * factor(other_unit, unit), rel_tol=1e-12, abs_tol=1e-15)


@cache
def factor(source: str, target: str) -> float:
    if source == target:
        return 1.0
    made = REGISTRY.Quantity(1.0, UNITS[source].pint_expression).to(UNITS[target].pint_expression)
    return float(made.magnitude)


PARTIAL_FACTOR = "gamma_m"
"""The symbol of a partial factor of a resistance: its last letter is no unit."""


def unit_of(pointer: str, unit: str) -> str:
    """Unit of a request member by the end of its name; a list's items are named by the list."""
    name = next(token for token in reversed(pointer.split("/")) if not token.isdigit())
    return next((code for code in CODES if name.endswith(f"_{code}") and name != PARTIAL_FACTOR), unit)


@EACH
def test_an_input_is_the_quantity_that_it_names(name: str) -> None:
    filled, _, steps = worked(name)
    made = {step["id"]: step for step in steps}
    for step in steps:
        for one in step["inputs"]:
            if one["from"] in made:
                source = made[one["from"]]
                assert same(one["value"], one["unit"], source["value"], source["unit"]), f"{step['id']}: {one}"
                continue
            sent = at(one["from"], filled)
            if isinstance(sent, int | float) and not isinstance(sent, bool) and step["kind"] == "formula":
                unit = unit_of(one["from"], one["unit"])
                assert same(one["value"], one["unit"], sent, unit), f"{step['id']}: {one}, but {sent} {unit} was sent"


@EACH
def test_feeding_the_inputs_of_a_step_back_gives_its_value(name: str) -> None:
    by_name = {formula.name: formula for formula in formulas()}
    for step in worked(name)[2]:
        inputs = {one["symbol"]: one["value"] for one in step["inputs"]}
        if step["kind"] == "formula":
            assert by_name[step["name"]](**inputs) == step["value"]
            assert by_name[step["name"]].expression == step["expression"]
        elif step["kind"] in ("sum", "count"):
            assert math.isclose(
                sum(one["value"] for one in step["inputs"]), step["value"], rel_tol=1e-12, abs_tol=1e-12
            )
        elif step["kind"] == "check":
            assert step["value"] in (0.0, 1.0)


@EACH
def test_a_step_cites_a_listed_document_and_carries_known_units(name: str) -> None:
    for step in worked(name)[2]:
        assert step["clause"]["document"] in DOCUMENTS
        assert {step["unit"], *(one["unit"] for one in step["inputs"])} <= set(UNITS)
        assert math.isfinite(step["value"])


def names_a_step(name: str, value: Any) -> bool:
    """One step of a row is its working; where a row has several, each is named after its figure."""
    return name in ("step", "working") or (name.endswith("_working") and isinstance(value, str))


def without_links(value: Any) -> Any:
    """A result without the members that name its steps: they come with the working only."""
    if isinstance(value, dict):
        return {name: without_links(inner) for name, inner in value.items() if not names_a_step(name, inner)}
    return [without_links(inner) for inner in value] if isinstance(value, list) else value


@EACH
def test_the_working_changes_no_figure_and_repeats_itself(name: str) -> None:
    calculate, document = REQUESTS[name]
    _, answer, steps = worked(name)
    request = get_type_hints(calculate)["request"].model_validate(document)
    silent = calculate(request, SILENT)
    assert without_links(silent.result) == without_links(answer.result)
    assert silent.findings == answer.findings
    again = Recorder()
    calculate(request, again)
    assert tuple(again.steps) == steps
