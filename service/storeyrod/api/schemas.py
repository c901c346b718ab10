"""JSON Schemas of every request, result and view, under names that a reader would choose."""

import re
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Any, Final, Literal, cast

from pydantic import TypeAdapter

from storeyrod.answer import Assumption
from storeyrod.api import views
from storeyrod.api.envelope import Calculation
from storeyrod.api.operations import Operation
from storeyrod.findings import Finding
from storeyrod.trace import Step
from storeyrod.units import UNITS

_PREFIX: Final = "#/components/schemas/"

VIEWS: Final[Mapping[str, Any]] = MappingProxyType(
    {
        view.__name__: view
        for view in (
            views.Status, views.Standards, views.Materials, views.Findings, views.ProblemView, views.SelfTests,
            views.ProblemDocument, Calculation, Finding, Assumption, Step,
        )
    }
)  # fmt: skip
"""Shapes that every operation, or a GET address, answers with."""

_MEMBERS: Final[Mapping[tuple[str, str], str]] = MappingProxyType(
    {
        ("Finding", "code"): "Word of the catalogue at /v1/findings.",
        ("Finding", "level"): "stop: one verdict is withheld; caution: look at it; info: good to know. More may come.",
        ("Finding", "value"): "What was found.",
        ("Finding", "limit"): "What it was held against.",
        ("Finding", "unit"): "Unit code of value and limit.",
        ("Finding", "advice"): "What to do.",
        ("Where", "pointer"): "JSON Pointer into the request, with its defaults filled in.",
        ("Where", "elevation"): "Name of the elevation.",
        ("Where", "opening"): "Name of the opening.",
        ("Where", "openings"): "Names of the openings concerned.",
        ("Where", "x_mm"): "To the right, seen from outside; the left end where x_to_mm stands beside it.",
        ("Where", "x_to_mm"): "Right end of what is meant.",
        ("Where", "y_mm"): "Upwards from the datum.",
        ("Where", "pieces"): "Names of the pieces concerned.",
        ("Assumption", "field"): "JSON Pointer of the member that was left to its default.",
        ("Assumption", "value"): "The default that was used.",
        ("Assumption", "unit"): "Unit code of the value.",
        ("Assumption", "status"): "How well the default is known.",
        ("Assumption", "source"): "Where the default comes from.",
        ("Step", "id"): "Name of the step, by which later steps refer to it.",
        ("Step", "kind"): "What was done. More kinds may come.",
        ("Step", "symbol"): "Symbol of the value.",
        ("Step", "expression"): "Expression in the symbols of the inputs.",
        ("Step", "name"): "Name of the formula.",
        ("Step", "inputs"): "What went in.",
        ("Step", "value"): "What came out.",
        ("Step", "unit"): "Unit code of the value.",
        ("ClauseView", "document"): "Key of the document at /v1/standards.",
        ("ClauseView", "edition"): "Edition of the document.",
        ("ClauseView", "number"): "Clause, table or formula.",
        ("ClauseView", "status"): "How well the clause is known.",
        ("StepInput", ""): "One input of a step, with where it came from.",
        ("StepInput", "symbol"): "Symbol in the expression.",
        ("StepInput", "value"): "Value of the input.",
        ("StepInput", "unit"): "Unit code of the value.",
        ("StepInput", "from"): "Name of the step that gave it, or JSON Pointer into the request with its defaults.",
    }
)
"""Words for shapes of rooms that know nothing of a published schema."""

_MILLIMETRES: Final = ("x_mm", "x_to_mm", "y_mm")
"""Members of the same shapes that carry no unit of their own."""

_KIND: Final = "Says which members apply."


def ref(name: str) -> dict[str, str]:
    """Reference to a component."""
    return {"$ref": _PREFIX + name}


def component_schemas(operations: Sequence[Operation]) -> dict[str, dict[str, Any]]:
    """All schemas by component name, in order of name; raises ``ValueError`` when two would share a name."""
    _, definitions = TypeAdapter.json_schemas(list(_inputs(operations)), ref_template=_PREFIX + "{model}")
    schemas = cast(dict[str, dict[str, Any]], definitions["$defs"])
    names = {given: _readable(given) for given in schemas}
    if len(set(names.values())) < len(names):
        raise ValueError(f"two schemas of one name: {sorted(names.values())}")
    renamed = {names[given]: _renamed(schema, names) for given, schema in schemas.items()}
    return {name: _described(name, renamed[name]) for name in sorted(renamed)}


def _inputs(
    operations: Sequence[Operation],
) -> Iterator[tuple[str, Literal["validation", "serialization"], TypeAdapter[Any]]]:
    for operation in operations:
        yield operation.operation_id, "validation", TypeAdapter(operation.request)
        if operation.result is not None:
            yield operation.operation_id, "serialization", TypeAdapter(operation.result)
    for name, view in VIEWS.items():
        yield name, "serialization", TypeAdapter(view)


def _readable(given: str) -> str:
    """Where two rooms have shapes of one name, pydantic gives the path of the module: the room's word says it shorter."""
    if "__" not in given:
        return given
    _, room, *_, name = given.split("__")
    return "".join(word.capitalize() for word in room.split("_")) + name


def _renamed(value: Any, names: Mapping[str, str]) -> Any:  # noqa: ANN401  any JSON value
    if isinstance(value, dict):
        return {key: _renamed(item, names) for key, item in value.items()}
    if isinstance(value, list):
        return [_renamed(item, names) for item in value]
    if isinstance(value, str) and value.startswith(_PREFIX):
        return _PREFIX + names[value.removeprefix(_PREFIX)]
    return value


def _described(name: str, schema: dict[str, Any]) -> dict[str, Any]:
    """The schema with a word for every member, and without the titles that only repeat names."""
    schema.pop("title", None)
    for member, property_schema in schema.get("properties", {}).items():
        property_schema.pop("title", None)
        words = _MEMBERS.get((name, member)) or (_KIND if member == "kind" else None)
        if words:
            property_schema.setdefault("description", words)
        if member in _MILLIMETRES and "anyOf" not in property_schema:
            property_schema.setdefault("x-unit", UNITS["mm"].ucum)
    if (name, "") in _MEMBERS:
        schema.setdefault("description", _MEMBERS[name, ""])
    if "description" in schema:
        schema["description"] = re.sub(r"\s+", " ", schema["description"])
    return schema
