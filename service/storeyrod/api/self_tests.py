"""Worked examples of the reference data, run through the table of operations."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

import orjson

from storeyrod import DATA_EDITION, __version__
from storeyrod.api.envelope import calculation_of
from storeyrod.api.operations import OPERATIONS, Operation
from storeyrod.api.pointers import value_at
from storeyrod.api.reply import JSON
from storeyrod.api.views import ComparedFigure, SelfTest, SelfTests
from storeyrod.reference.tables import worked_examples
from storeyrod.trace import SILENT, Recorder

_ABSENT: Final = "absent"


def self_tests() -> bytes:
    """Every worked example, as the JSON of GET /v1/self-tests."""
    return orjson.dumps(run_all(worked_examples(), OPERATIONS))


def run_all(examples: Sequence[Mapping[str, Any]], operations: Sequence[Operation]) -> SelfTests:
    """Every example, in the order given."""
    by_name = {operation.operation_id: operation for operation in operations}
    rows = [run_example(example, by_name[example["operation"]]) for example in examples]
    passed = sum(row["passed"] for row in rows)
    return {
        "engine_version": __version__,
        "data_edition": DATA_EDITION,
        "passed_count": passed,
        "failed_count": len(rows) - passed,
        "self_tests": rows,
    }


def run_example(example: Mapping[str, Any], operation: Operation) -> SelfTest:
    """One example against what the operation's calculation gives now."""
    answer = answered(operation, example["request"])
    figures = [compared(figure, answer) for figure in example["expected"]]
    return {
        "id": example["id"],
        "title": example["title"],
        "document": example["document"],
        "example": str(example.get("example", "")),
        "status": example["status"],
        "operation": operation.operation_id,
        "passed": all(figure["passed"] for figure in figures),
        "figures": figures,
    }


def answered(operation: Operation, document: Any) -> Any:  # noqa: ANN401  any JSON value
    """The whole answer of the operation's core to a request document, without HTTP."""
    request = operation.request.model_validate(document)
    trace = Recorder() if request.options.trace == "steps" else SILENT
    answer = operation.calculate(request, trace)
    return orjson.loads(operation.writers[JSON](answer, calculation_of(request), trace))


def compared(figure: Mapping[str, Any], answer: Any) -> ComparedFigure:  # noqa: ANN401  any JSON value
    """One printed figure beside the answer's."""
    expected, tolerance = figure["value"], tolerance_of(figure)
    try:
        got = value_at(answer, figure["pointer"])
    except KeyError:
        got = _ABSENT
    row: ComparedFigure = {
        "pointer": figure["pointer"],
        "expected": expected,
        "got": got,
        "tolerance": tolerance,
        "passed": _agree(expected, got, tolerance),
    }
    if figure.get("reason"):
        row["reason"] = figure["reason"]
    return row


def tolerance_of(figure: Mapping[str, Any]) -> float:
    """The tolerance given, or half a unit of the last printed place."""
    if figure.get("tolerance") is not None:
        return float(figure["tolerance"])
    decimals = figure.get("printed_decimals")
    return 0.5 * 10.0**-decimals if decimals is not None else 0.0


_ROUNDING: Final = 1e-9
"""Of the tolerance: 0.285 and 0.28 differ by a hair more than 0.005 in binary."""


def _agree(expected: Any, got: Any, tolerance: float) -> bool:  # noqa: ANN401  any JSON value
    if isinstance(expected, bool | str) or not isinstance(got, int | float):
        return bool(expected == got)
    return bool(abs(got - expected) <= tolerance * (1.0 + _ROUNDING))
