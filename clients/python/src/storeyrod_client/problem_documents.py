"""Reading problem documents (RFC 9457), and whatever a proxy may send in their place."""

import json
import time
from collections.abc import Mapping
from typing import Any, Final

import httpx2

from storeyrod_client.errors import ErrorItem, ProblemReport
from storeyrod_client.retries import retry_after_s

PROBLEM_JSON: Final = "application/problem+json"
SLUG_PREFIX: Final = "urn:storeyrod:problem:"


def media_type(response: httpx2.Response) -> str:
    """Media type of an answer, in lower case and without parameters; empty when it names none."""
    return response.headers.get("content-type", "").partition(";")[0].strip().lower()


def request_id(response: httpx2.Response) -> str:
    """The ``Request-Id`` of an answer; empty when it has none."""
    return response.headers.get("request-id", "")


def problem_report(response: httpx2.Response) -> ProblemReport:
    """The problem that an answer describes; of anything else, only what the status line says."""
    members = _members(response)
    return ProblemReport(
        status=response.status_code,
        slug=_text(members, "type").removeprefix(SLUG_PREFIX),
        title=_text(members, "title") or response.reason_phrase,
        detail=_text(members, "detail"),
        errors=_error_items(members.get("errors")),
        request_id=request_id(response),
        retry_after_s=retry_after_s(response, now=time.time()),
        members=members,
    )


def _members(response: httpx2.Response) -> dict[str, Any]:
    if media_type(response) != PROBLEM_JSON:
        return {}
    try:
        document = json.loads(response.content)
    except (ValueError, RecursionError):
        return {}
    return document if isinstance(document, dict) else {}


def _text(members: Mapping[str, Any], name: str) -> str:
    value = members.get(name)
    return value if isinstance(value, str) else ""


def _error_items(rows: object) -> tuple[ErrorItem, ...]:
    if not isinstance(rows, list):
        return ()
    return tuple(
        ErrorItem(_text(row, "pointer"), _text(row, "code"), _text(row, "detail"))
        for row in rows
        if isinstance(row, dict)
    )
