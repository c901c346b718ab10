"""Worked examples of the reference data, run through the table of operations."""

from collections.abc import Mapping, Sequence
from itertools import zip_longest
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


def share_of_rows(share: int, shares: int) -> list[SelfTest]:
    """Every ``shares``-th worked example from number ``share``, run: neighbours, which take alike, go to different shares."""
    return rows_of(worked_examples()[share::shares], OPERATIONS)


def self_tests(parts: Sequence[Sequence[SelfTest]]) -> bytes:
    """The JSON of GET /v1/self-tests from all its shares, in the order of the reference data."""
    rounds = zip_longest(*parts)
    return orjson.dumps(summed_up([row for dealt in rounds for row in dealt if row is not None]))


def rows_of(examples: Sequence[Mapping[str, Any]], operations: Sequence[Operation]) -> list[SelfTest]:
    """Every example run, in the order given."""
    by_name = {operation.operation_id: operation for operation in operations}
    return [run_example(example, by_name[example["operation"]]) for example in examples]


def summed_up(rows: list[SelfTest]) -> SelfTests:
    """Rows with how many of them pass."""
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
