"""Every field of every request and result: unit in the name, bounds, description, source of its default."""

import ast
import inspect
import re
import types
import typing
from collections.abc import Iterator
from functools import cache
from typing import Any, get_args, get_origin, get_type_hints

import annotated_types
import pytest
from pydantic import BaseModel, TypeAdapter
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined
from typing_extensions import is_typeddict

from architecture.package import files, modules, tree_of
from storeyrod.answer import Assumed, Closed
from storeyrod.findings import Finding
from storeyrod.units import UNITS

CODES = sorted(UNITS, key=len, reverse=True)
DIMENSIONLESS = {"count", "fraction"}
NO_WIRE_TYPES = {
    "Decimal",
    "set",
    "frozenset",
    "tuple",
    "Enum",
    "date",
    "datetime",
    "time",
    "timedelta",
    "UUID",
    "bytes",
}


def declared(kind: type) -> list[type]:
    """Classes of a kind, where they are defined."""
    found = {
        f"{value.__module__}.{name}": value
        for module in modules()
        for name, value in vars(module).items()
        if inspect.isclass(value) and value.__module__ == module.__name__ and _is(value, kind)
    }
    return [found[name] for name in sorted(found)]


def _is(value: type, kind: type) -> bool:
    return is_typeddict(value) if kind is dict else issubclass(value, kind)


REQUESTS = [model for model in declared(Closed) if model is not Closed]
RESULTS = [view for view in declared(dict) if ".api." not in view.__module__]
EACH_REQUEST = pytest.mark.parametrize("model", REQUESTS, ids=lambda model: model.__name__)
EACH_RESULT = pytest.mark.parametrize("view", RESULTS, ids=lambda view: view.__name__)


PARTIAL_FACTOR = "gamma_m"
"""The symbol of a partial factor of a resistance: its last letter is no unit."""


def unit_of(name: str) -> str | None:
    """Unit code that a field name ends in."""
    if name == PARTIAL_FACTOR:
        return None
    return next((code for code in CODES if name == code or name.endswith(f"_{code}")), None)


def annotated(hint: Any) -> tuple[Any, tuple[Any, ...]]:
    """Type and metadata of a member, through NotRequired and Annotated."""
    marks: tuple[Any, ...] = ()
    while get_origin(hint) in (typing.Annotated, typing.NotRequired, typing.Required):
        marks += getattr(hint, "__metadata__", ())
        hint = get_args(hint)[0]
    return hint, marks


def flat(hint: Any) -> Iterator[Any]:
    """All types inside a hint."""
    bare, _ = annotated(hint)
    if get_origin(bare) is typing.Literal:
        return
    inner = get_args(bare)
    if not inner or get_origin(bare) not in (typing.Union, types.UnionType):
        yield get_origin(bare) or bare
    for one in inner:
        yield from flat(one)


@cache
def hints(owner: type) -> dict[str, Any]:
    return get_type_hints(owner, include_extras=True)


def extra(marks: tuple[Any, ...]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for mark in marks:
        if isinstance(mark, FieldInfo) and isinstance(mark.json_schema_extra, dict):
            found |= mark.json_schema_extra
    return found


def is_number(hint: Any) -> bool:
    return bool({float, int} & set(flat(hint))) and not {str, dict, list} & set(flat(hint))


def test_there_are_requests_and_results() -> None:
    assert len(REQUESTS) > 20
    assert len(RESULTS) > 20


@EACH_REQUEST
def test_a_number_asked_for_is_strict_bounded_described_and_says_its_unit(model: type[BaseModel]) -> None:
    for name, field in model.model_fields.items():
        hint = hints(model)[name]
        if not is_number(hint) or bool in set(flat(hint)):
            continue
        schema = {**model.model_json_schema()["properties"][name]}
        options = [schema, *schema.get("anyOf", [])]
        low = next((one[key] for one in options for key in ("minimum", "exclusiveMinimum") if key in one), None)
        high = next((one[key] for one in options for key in ("maximum", "exclusiveMaximum") if key in one), None)
        listed = any("enum" in one or "const" in one for one in options)
        assert listed or (low is not None and high is not None), f"{model.__name__}.{name} has no bounds"
        assert field.description, f"{model.__name__}.{name} has no description"
        if float in set(flat(hint)):
            unit = next((one["x-unit"] for one in options if "x-unit" in one), None)
            assert unit is not None, f"{model.__name__}.{name} publishes no unit"
            ending = unit_of(name)
            plain = unit == UNITS["count"].ucum
            assert plain or (ending is not None and UNITS[ending].ucum == unit), f"{model.__name__}.{name} is in {unit}"


@EACH_RESULT
def test_a_number_given_says_its_unit_in_name_and_schema(view: type) -> None:
    for name, hint in hints(view).items():
        bare, marks = annotated(hint)
        if bare is not float:
            continue
        unit, ending = extra(marks).get("x-unit"), unit_of(name)
        if ending is None:  # dimensionless, or the unit stands beside the value
            assert unit in (None, UNITS["count"].ucum) or "unit" in hints(view), f"{view.__name__}.{name} is in {unit}"
        elif not view.__module__.startswith("storeyrod.findings"):
            assert unit == UNITS[ending].ucum, f"{view.__name__}.{name} is in {unit}"


@EACH_REQUEST
def test_a_name_that_ends_in_a_unit_holds_that_unit(model: type[BaseModel]) -> None:
    properties = model.model_json_schema()["properties"]
    for name in model.model_fields:
        ending = unit_of(name)
        if ending is None or ending in DIMENSIONLESS or name == ending:
            continue
        text = str(properties[name])
        assert f"'x-unit': '{UNITS[ending].ucum}'" in text or "_mm" in name, f"{model.__name__}.{name}"


@EACH_REQUEST
def test_a_dimensioned_default_says_where_it_comes_from(model: type[BaseModel]) -> None:
    for name, field in model.model_fields.items():
        if field.default is PydanticUndefined or field.default is None or isinstance(field.default, bool):
            continue
        if not isinstance(field.default, int | float):
            continue
        zero_means_none = field.default == 0 and name in ("depth_mm", "lining_mm")
        marks = [mark for mark in field.metadata if isinstance(mark, Assumed)]
        assert zero_means_none or marks, f"{model.__name__}.{name} = {field.default!r} has no source"
        for mark in marks:
            assert mark.unit == "" or mark.unit in UNITS
            assert not mark.unit or mark.unit in DIMENSIONLESS or unit_of(name) == mark.unit, f"{model.__name__}.{name}"


@EACH_REQUEST
def test_a_default_with_a_source_is_a_value_that_an_assumption_can_state(model: type[BaseModel]) -> None:
    for name, field in model.model_fields.items():
        if any(isinstance(mark, Assumed) for mark in field.metadata):
            value = getattr(field.default, "kind", field.default)
            assert value is None or isinstance(value, str | float | int), f"{model.__name__}.{name}"


@EACH_REQUEST
def test_a_request_is_frozen_and_closed(model: type[BaseModel]) -> None:
    assert model.model_config.get("extra") == "forbid"
    assert model.model_config.get("frozen") is True
    assert model.model_json_schema()["additionalProperties"] is False


@EACH_REQUEST
def test_every_list_has_a_limit_and_stops_at_its_first_fault(model: type[BaseModel]) -> None:
    for name, field in model.model_fields.items():
        if list not in set(flat(hints(model)[name])):
            continue
        limits = [mark for mark in field.metadata if isinstance(mark, annotated_types.MaxLen)]
        fast = [mark for mark in field.metadata if getattr(mark, "fail_fast", False)]
        assert limits, f"{model.__name__}.{name} has no longest length"
        assert fast, f"{model.__name__}.{name} does not fail fast"


@EACH_REQUEST
def test_every_text_has_a_longest_length_and_a_pattern(model: type[BaseModel]) -> None:
    for name, field in model.model_fields.items():
        if str in set(flat(hints(model)[name])):
            schema = str(model.model_json_schema()["properties"][name])
            assert "'maxLength'" in schema, f"{model.__name__}.{name}"
            assert "'pattern'" in schema, f"{model.__name__}.{name}"
            assert field.description or "description" in schema, f"{model.__name__}.{name}"


@cache
def words_of_the_code() -> frozenset[str]:
    """Members that some code reads: attributes, and names in texts, by which packs and allowances are picked."""
    nodes = [node for file in files() for node in ast.walk(tree_of(file))]
    read = {node.attr for node in nodes if isinstance(node, ast.Attribute)}
    texts = {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    return frozenset(read | texts)


@EACH_REQUEST
def test_a_field_that_no_code_reads_says_that_it_is_not_used(model: type[BaseModel]) -> None:
    for name, field in model.model_fields.items():
        said = f"{field.description} {model.model_json_schema()['properties'][name]} {inspect.getdoc(model)}"
        assert name in words_of_the_code() or "not used" in said, (
            f"{model.__name__}.{name} changes nothing and is silent"
        )


@EACH_REQUEST
def test_a_discriminator_is_required(model: type[BaseModel]) -> None:
    kind = model.model_fields.get("kind")
    assert kind is None or kind.is_required()


@pytest.mark.parametrize("owner", [*REQUESTS, *RESULTS], ids=lambda owner: owner.__name__)
def test_only_types_of_json_cross_the_wire(owner: type) -> None:
    for name, hint in hints(owner).items():
        for kind in flat(hint):
            assert getattr(kind, "__name__", "") not in NO_WIRE_TYPES, f"{owner.__name__}.{name}"


@EACH_RESULT
def test_a_result_is_described_and_never_null(view: type) -> None:
    assert inspect.getdoc(view), view.__name__
    for name, hint in hints(view).items():
        assert type(None) not in set(flat(hint)), f"{view.__name__}.{name}"
    TypeAdapter(view).json_schema(mode="serialization")


@pytest.mark.parametrize(
    "view", [one for one in RESULTS if one.__module__.endswith(".models")], ids=lambda view: view.__name__
)
def test_every_member_of_a_result_is_described(view: type) -> None:
    for name, hint in hints(view).items():
        bare, marks = annotated(hint)
        described = any(isinstance(mark, FieldInfo) and mark.description for mark in marks)
        explains_itself = any(is_typeddict(kind) for kind in flat(bare)) or bool(re.fullmatch(r"pieces|layers", name))
        assert described or explains_itself, f"{view.__name__}.{name} has no description"


def test_a_finding_needs_no_unit_suffix_because_it_names_its_unit() -> None:
    assert "unit" in hints(Finding)
