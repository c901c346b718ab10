"""The OpenAPI 3.1 document, built wholly from the table of operations."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import orjson

from storeyrod import __version__
from storeyrod.api.examples import example_names, example_of
from storeyrod.api.operations import OPERATIONS, Operation
from storeyrod.api.problem_catalogue import CATALOGUE
from storeyrod.api.reply import JSON, PROBLEM_JSON
from storeyrod.api.schemas import component_schemas, ref

_ABOUT: Final = (
    "One description of a wall goes in; every quantity, position, check and drawing that follows from it comes out, each figure "
    "with its working. Calculations are pure: the same request gets the same bytes, so any of them may be repeated. Requests are "
    "closed: unknown members are refused. Answers are open: ignore members you do not know. Every dimensioned member carries its "
    "unit in its name. Results support, and never replace, the judgement of licensed practice and the local code."
)
_TAGS: Final[Mapping[str, str]] = {
    "take-off": "A whole job in one call.",
    "setting-out": "Joints, boards, fasteners and slips, placed.",
    "quantities": "What has to be bought.",
    "thermal": "Heat through the wall.",
    "loads": "Wind and weight on the cladding.",
    "drawings": "The wall on paper.",
    "reference": "Data, words and proofs that stand behind every answer.",
    "health": "State of the service.",
}
_POST_STATUSES: Final = (400, 406, 413, 415, 422, 500, 503)
_GET_STATUSES: Final = (406, 500)
_REQUEST_ID: Final = {"Request-Id": {"$ref": "#/components/headers/Request-Id"}}


@dataclass(frozen=True, slots=True)
class Address:
    """One GET address, as documented; its endpoint is in ``app``."""

    path: str
    operation_id: str
    summary: str
    tag: str
    schema: str
    cached: bool = False
    statuses: tuple[int, ...] = _GET_STATUSES


ADDRESSES: Final = (
    Address("/v1/materials", "listMaterials", "Tabulated materials with their sources", "reference", "Materials", True),
    Address("/v1/standards", "listStandards", "Documents that figures come from", "reference", "Standards", True),
    Address("/v1/findings", "listFindings", "Words of findings and problems", "reference", "Findings", True),
    Address(
        "/v1/problems/{slug}", "explainProblem", "What a problem means and what helps", "reference", "ProblemView", True,
        (404, *_GET_STATUSES),
    ),
    Address(
        "/v1/self-tests", "runSelfTests", "Published worked examples, calculated now", "reference", "SelfTests", False,
        (422, *_GET_STATUSES, 503),
    ),
    Address("/health/live", "getLiveness", "Whether the process answers", "health", "Status"),
    Address(
        "/health/ready", "getReadiness", "Whether requests should be sent here", "health", "Status", False,
        (*_GET_STATUSES, 503),
    ),
)  # fmt: skip


def document(operations: Sequence[Operation] = OPERATIONS) -> dict[str, Any]:
    """The whole document."""
    posts = {operation.path: {"post": _post(operation)} for operation in operations}
    gets = {address.path: {"get": _get(address)} for address in ADDRESSES}
    used = {row["tags"][0] for item in (*posts.values(), *gets.values()) for row in item.values()}
    return {
        "openapi": "3.1.0",
        "info": {"title": "Storeyrod", "version": __version__, "summary": "Setting out walls", "description": _ABOUT},
        "servers": [{"url": "/", "description": "The host that serves this document."}],
        "tags": [{"name": name, "description": about} for name, about in _TAGS.items() if name in used],
        "paths": posts | gets,
        "components": _components(operations),
    }


def document_bytes(operations: Sequence[Operation] = OPERATIONS) -> bytes:
    """The document as committed and served."""
    return orjson.dumps(document(operations), option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)


def answer_name(operation: Operation) -> str:
    """Component name of an operation's whole answer."""
    return f"{str(operation.result.__name__).removesuffix('Result')}Answer"


def _post(operation: Operation) -> dict[str, Any]:
    content: dict[str, Any] = {"schema": ref(operation.request.__name__)}
    examples = {
        name: {"value": example_of(operation.operation_id, name)} for name in example_names(operation.operation_id)
    }
    if examples:
        content["examples"] = examples
    return {
        "operationId": operation.operation_id,
        "summary": operation.summary,
        "description": _sentence(operation.calculate.__doc__),
        "tags": [operation.tag],
        "requestBody": {"required": True, "content": {JSON: content}},
        "responses": {
            "200": {
                "description": "The answer.",
                "headers": _REQUEST_ID,
                "content": {
                    media_type: {"schema": _answer_schema(operation, media_type)} for media_type in operation.writers
                },
            },
            **_problems(_POST_STATUSES),
        },
    }


def _answer_schema(operation: Operation, media_type: str) -> dict[str, Any]:
    if media_type == JSON:
        return ref(answer_name(operation))
    return {"type": "string", "contentMediaType": media_type}


def _sentence(docstring: str | None) -> str:
    return re.sub(r"\s+", " ", (docstring or "").partition("\n\n")[0].replace("``", "`"))


def _get(address: Address) -> dict[str, Any]:
    made: dict[str, Any] = {"operationId": address.operation_id, "summary": address.summary, "tags": [address.tag]}
    headers: dict[str, Any] = dict(_REQUEST_ID)
    unchanged: dict[str, Any] = {}
    if "{slug}" in address.path:
        made["parameters"] = [{"$ref": "#/components/parameters/slug"}]
    if address.cached:
        headers["ETag"] = {"$ref": "#/components/headers/ETag"}
        unchanged["304"] = {"description": "Unchanged since the ETag of If-None-Match.", "headers": headers}
    data = {"description": "The data.", "headers": headers, "content": {JSON: {"schema": ref(address.schema)}}}
    made["responses"] = {"200": data, **unchanged, **_problems(address.statuses)}
    return made


def _problems(statuses: Sequence[int]) -> dict[str, Any]:
    return {str(status): {"$ref": f"#/components/responses/Problem{status}"} for status in sorted(statuses)}


def _components(operations: Sequence[Operation]) -> dict[str, Any]:
    schemas = component_schemas(operations)
    schemas |= {answer_name(operation): _answer(operation) for operation in operations if JSON in operation.writers}
    return {
        "schemas": dict(sorted(schemas.items())),
        "responses": {
            f"Problem{status}": _problem(status) for status in sorted({*_POST_STATUSES, *_GET_STATUSES, 404})
        },
        "headers": {
            "Request-Id": {
                "description": "Names this answer in the service's log.",
                "schema": {"type": "string", "pattern": "^[0-9a-f]{32}$"},
            },
            "ETag": {"description": "Changes when the data does.", "schema": {"type": "string"}},
            "Retry-After": {"description": "Seconds to wait.", "schema": {"type": "integer", "minimum": 1}},
        },
        "parameters": {
            "slug": {
                "name": "slug",
                "in": "path",
                "required": True,
                "description": "The last part of a problem's type.",
                "schema": {"type": "string", "pattern": "^[a-z0-9-]+$", "maxLength": 60},
                "example": "request-invalid",
            }
        },
    }


def _problem(status: int) -> dict[str, Any]:
    kinds = [kind for kind in CATALOGUE.values() if kind.status == status]
    headers: dict[str, Any] = dict(_REQUEST_ID)
    if status == 503:
        headers["Retry-After"] = {"$ref": "#/components/headers/Retry-After"}
    return {
        "description": f"One of: {', '.join(kind.slug for kind in kinds)}.",
        "headers": headers,
        "content": {PROBLEM_JSON: {"schema": ref("ProblemDocument")}},
    }


def _answer(operation: Operation) -> dict[str, Any]:
    members: dict[str, Any] = {
        "calculation": ref("Calculation"),
        "result": ref(operation.result.__name__),
        "findings": _list_of("Finding", "Remarks on this answer; none is a promise that nothing else is wrong."),
        "assumptions": _list_of("Assumption", "Defaults that this answer relies on."),
        "not_checked": {"type": "array", "items": {"type": "string"}, "description": "What was not checked."},
        "trace": _list_of("Step", "The working of every figure, when options.trace is steps."),
    }
    required = [name for name in members if name != "trace"]
    return {
        "type": "object",
        "description": f"Answer of {operation.operation_id}.",
        "properties": members,
        "required": required,
    }


def _list_of(name: str, words: str) -> dict[str, Any]:
    return {"type": "array", "items": ref(name), "description": words}
