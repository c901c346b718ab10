"""The envelope that every JSON answer comes in, and its one encoding."""

import math
from typing import Annotated, Any, Final

import numpy
import orjson
from pydantic import Field
from typing_extensions import TypedDict

from storeyrod import DATA_EDITION, __version__
from storeyrod.answer import Answer, Closed
from storeyrod.canonical import fingerprint
from storeyrod.trace import Trace


class Calculation(TypedDict):
    """What calculated: equal calculations with equal fingerprints give equal answers."""

    engine_version: Annotated[str, Field(description="Version of the service.")]
    data_edition: Annotated[str, Field(description="Edition of the reference data.")]
    fingerprint: Annotated[
        str, Field(description="SHA-256, in hex, over the request with its defaults filled in, and both versions.")
    ]


class Unsendable(Exception):  # noqa: N818  what it is, not that it failed
    """A result holds NaN, an infinity or nothing at all: a fault of the service."""


_LONG_BODY: Final = 20_000
_NULL_WORD: Final = int.from_bytes(b"null", "little")


def calculation_of(request: Closed) -> Calculation:
    """Versions and fingerprint of a request."""
    return {"engine_version": __version__, "data_edition": DATA_EDITION, "fingerprint": fingerprint(request)}


def envelope(answer: Answer[Any], calculation: Calculation, trace: Trace, *, traced: bool) -> dict[str, Any]:
    """The answer as it is sent; the trace only when it was asked for."""
    made: dict[str, Any] = {
        "calculation": calculation,
        "result": answer.result,
        "findings": answer.findings,
        "assumptions": answer.assumptions,
        "not_checked": answer.not_checked,
    }
    if traced:
        made["trace"] = trace.steps
    return made


def encoded(document: Any) -> bytes:  # noqa: ANN401  any JSON value
    """The document as JSON bytes.

    orjson writes ``null`` for NaN and infinities, and no answer of this service holds a null: the word in the bytes, which
    may stand in a text, sends the document through a walk that makes sure.
    """
    body = orjson.dumps(document, default=float)
    if _holds_null(body):
        _require_finite(document, "")
    return body


def _holds_null(body: bytes) -> bool:
    """Long bodies are compared four bytes at a time, at each of the four offsets: over twice as fast as a search."""
    if len(body) < _LONG_BODY:
        return b"null" in body
    return any(
        (numpy.frombuffer(body, "<u4", (len(body) - start) // 4, start) == _NULL_WORD).any() for start in range(4)
    )


def _require_finite(value: Any, place: str) -> None:  # noqa: ANN401  any JSON value
    if isinstance(value, dict):
        for key, item in value.items():
            _require_finite(item, f"{place}/{key}")
    elif isinstance(value, list | tuple):
        for index, item in enumerate(value):
            _require_finite(item, f"{place}/{index}")
    elif value is None or (isinstance(value, float) and not math.isfinite(value)):
        raise Unsendable(f"{value} at {place}")
