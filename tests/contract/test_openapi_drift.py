"""The committed document is the served one, and keeps the rules of this interface (OpenAPI 3.1, RFC 9457)."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from openapi_spec_validator import validate
from starlette.routing import Route
from starlette.testclient import TestClient

import storeyrod
from storeyrod.api.app import create_app
from storeyrod.api.operations import OPERATIONS
from storeyrod.api.settings import Settings
from storeyrod.units import UNITS

COMMITTED = Path(__file__).parents[2] / "openapi" / "openapi.json"
APP = create_app(Settings(workers=0, log_requests=False))
DOCUMENT = json.loads(COMMITTED.read_text(encoding="utf-8"))
SCHEMAS = DOCUMENT["components"]["schemas"]
CALLS = [(path, method, call) for path, item in DOCUMENT["paths"].items() for method, call in item.items()]
REQUESTS = {operation.request.__name__ for operation in OPERATIONS}


def test_the_committed_document_is_the_one_that_is_served():
    served = TestClient(APP).get("/openapi.json").content
    assert served == COMMITTED.read_bytes(), "run: python -m storeyrod openapi > openapi/openapi.json"


def test_the_command_prints_the_committed_document():
    source = str(Path(storeyrod.__file__).parents[1])
    command = [sys.executable, "-m", "storeyrod", "openapi"]
    assert (
        subprocess.run(command, capture_output=True, env={"PYTHONPATH": source}, check=True).stdout
        == COMMITTED.read_bytes()
    )


def test_the_document_is_openapi_3_1():
    validate(DOCUMENT)
    assert DOCUMENT["openapi"].startswith("3.1.")


def test_every_route_is_documented_and_every_documented_call_has_a_route():
    routes = {
        (route.path, method.lower())
        for route in APP.router.routes
        if isinstance(route, Route)
        for method in route.methods
    }
    routes = {(path, method) for path, method in routes if method != "head" and path != "/openapi.json"}
    assert routes == {(path, method) for path, method, _ in CALLS}


@pytest.mark.parametrize(("path", "method", "call"), CALLS, ids=[call["operationId"] for _, _, call in CALLS])
def test_a_call_is_named_summed_up_and_tagged(path, method, call):
    assert re.fullmatch("[a-z]+([A-Z][a-z]*)+", call["operationId"])
    assert 0 < len(call["summary"]) <= 60
    assert call["tags"][0] in {tag["name"] for tag in DOCUMENT["tags"]}
    assert re.fullmatch("(/[a-z0-9-]+|/{[a-z]+})+", path)


def test_operation_ids_are_unique():
    names = [call["operationId"] for _, _, call in CALLS]
    assert len(set(names)) == len(names)


def resolved(response):
    return DOCUMENT["components"]["responses"][response["$ref"].rpartition("/")[2]] if "$ref" in response else response


@pytest.mark.parametrize(("path", "method", "call"), CALLS, ids=[call["operationId"] for _, _, call in CALLS])
def test_every_error_is_declared_as_a_problem(path, method, call):
    errors = {status: resolved(response) for status, response in call["responses"].items() if status >= "400"}
    assert {"406", "500"} <= set(errors)
    if method == "post":
        assert {"400", "413", "415", "422"} <= set(errors)
    for response in errors.values():
        assert list(response["content"]) == ["application/problem+json"]
        assert response["content"]["application/problem+json"]["schema"] == {
            "$ref": "#/components/schemas/ProblemDocument"
        }
        assert "Request-Id" in response["headers"]


@pytest.mark.parametrize("operation", OPERATIONS, ids=[operation.operation_id for operation in OPERATIONS])
def test_an_operation_has_a_minimal_and_a_full_example(operation):
    examples = DOCUMENT["paths"][operation.path]["post"]["requestBody"]["content"]["application/json"]["examples"]
    assert list(examples)[:2] == ["minimal", "full"]


def test_no_schema_is_left_over_from_a_framework_or_made_twice():
    assert not [
        name for name in SCHEMAS if "HTTPValidation" in name or "-Input" in name or "-Output" in name or "__" in name
    ]


def reached(name, seen):
    """Components that a component leads to."""
    if name not in seen:
        seen.add(name)
        for other in re.findall(r'"#/components/schemas/([^"]+)"', json.dumps(SCHEMAS[name])):
            reached(other, seen)
    return seen


REQUEST_SCHEMAS = sorted(set().union(*(reached(name, set()) for name in REQUESTS)))
ANSWER_SCHEMAS = sorted(set(SCHEMAS) - set(REQUEST_SCHEMAS))


@pytest.mark.parametrize("name", REQUEST_SCHEMAS)
def test_a_request_is_closed(name):
    assert SCHEMAS[name]["additionalProperties"] is False


@pytest.mark.parametrize("name", ANSWER_SCHEMAS)
def test_an_answer_is_open(name):
    assert '"additionalProperties": false' not in json.dumps(SCHEMAS[name])


MEMBERS = [(name, member, schema) for name in SCHEMAS for member, schema in SCHEMAS[name].get("properties", {}).items()]


def test_every_member_is_described_or_is_a_described_component():
    silent = [
        f"{name}.{member}"
        for name, member, schema in MEMBERS
        if "description" not in schema and "$ref" not in json.dumps(schema)
    ]
    assert silent == []
    assert [name for name, schema in SCHEMAS.items() if not schema.get("description")] == []


def numbers(schema):
    """Every schema of a number inside a member's."""
    if isinstance(schema, dict):
        if schema.get("type") in ("number", "integer"):
            yield schema
        for inner in schema.values():
            yield from numbers(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from numbers(inner)


def test_every_number_of_a_request_has_bounds():
    loose = [
        f"{name}.{member}"
        for name, member, schema in MEMBERS
        if name in REQUEST_SCHEMAS
        for number in numbers(schema)
        if not ({"minimum", "maximum"} <= set(number) or "enum" in number)
    ]
    assert loose == []


def strings(schema):
    """Every schema of free text inside a member's."""
    if isinstance(schema, dict):
        if schema.get("type") == "string" and not {"enum", "const"} & set(schema):
            yield schema
        for inner in schema.values():
            yield from strings(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from strings(inner)


def test_every_text_of_a_request_is_bounded_and_rules_out_control_characters():
    loose = [
        f"{name}.{member}"
        for name, member, schema in MEMBERS
        if name in REQUEST_SCHEMAS
        for text in strings(schema)
        if not ("maxLength" in text and "x00" in text.get("pattern", ""))
    ]
    assert loose == []


def test_every_list_of_a_request_is_bounded():
    loose = [
        f"{name}.{member}"
        for name, member, schema in MEMBERS
        if name in REQUEST_SCHEMAS and schema.get("type") == "array" and "maxItems" not in schema
    ]
    assert loose == []


PARTIAL_FACTOR = "gamma_m"
"""Symbol of a partial factor of a resistance: its last letter is no unit."""


def test_a_dimensioned_number_is_a_double_with_the_unit_of_its_name():
    wrong = []
    for name, member, schema in MEMBERS:
        code = next((code for code in sorted(UNITS, key=len, reverse=True) if member.endswith(f"_{code}")), None)
        if member == PARTIAL_FACTOR:
            continue
        for number in numbers(schema) if code else ():
            if (
                number["type"] == "number"
                and (schema if "x-unit" in schema else number).get("x-unit") != UNITS[code].ucum
            ):
                wrong.append(f"{name}.{member}")
    assert [row for row in wrong if not row.startswith("ProblemDocument.")] == []


def test_discriminators_are_required_and_without_default():
    for name in REQUEST_SCHEMAS:
        for member in ("kind",):
            schema = SCHEMAS[name].get("properties", {}).get(member)
            assert schema is None or (member in SCHEMAS[name]["required"] and "default" not in schema), name
