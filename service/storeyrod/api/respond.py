"""From the bytes of a request to the bytes of its answer: a pure function, run in the event loop or in a worker."""

from typing import Any

from pydantic import ValidationError

from storeyrod.api import strict_json
from storeyrod.api.envelope import calculation_of
from storeyrod.api.limits import require_size, require_work
from storeyrod.api.operations import Operation
from storeyrod.api.pointers import existing
from storeyrod.api.problems import NO_STORE, Problem
from storeyrod.api.reply import Reply
from storeyrod.api.schema_errors import invalid_request
from storeyrod.api.settings import Settings
from storeyrod.findings import Refusal
from storeyrod.trace import SILENT, Recorder

_HEADERS = (NO_STORE,)


def respond(operation: Operation, media_type: str, body: bytes, settings: Settings) -> Reply:
    """The answer, or the problem that the request deserves; only a fault of the service raises."""
    try:
        document = strict_json.read(body, settings.nesting_limit)
        require_size(document, len(body), settings)
        return Reply(200, media_type, _calculated(operation, media_type, document, settings), _HEADERS)
    except Problem as problem:
        return problem.reply()


def _calculated(operation: Operation, media_type: str, document: Any, settings: Settings) -> bytes:  # noqa: ANN401  any JSON value
    try:
        request = operation.request.model_validate(document)
    except ValidationError as error:
        raise invalid_request(error, document, settings.errors_limit) from None
    require_work(operation.work(request), settings)
    traced = request.options.trace == "steps"
    trace = Recorder() if traced else SILENT
    try:
        answer = operation.calculate(request, trace)
    except Refusal as refusal:
        raise _refused(refusal, document, settings.errors_limit) from None
    return operation.writers[media_type](answer, calculation_of(request), trace)


def _refused(refusal: Refusal, document: Any, errors_limit: int) -> Problem:  # noqa: ANN401  any JSON value
    rows = [
        {"pointer": existing(fault.pointer, document), "code": fault.code, "detail": fault.detail}
        for fault in refusal.faults[:errors_limit]
    ]
    return Problem(refusal.slug, refusal.detail, errors=rows, left_out=max(0, len(refusal.faults) - errors_limit))
