"""The envelope that every JSON answer comes in, and its one encoding."""

import math
from typing import Annotated, Any, Final

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


_NEGATIVE_ZEROS: Final = (b"-0.0,", b"-0.0}", b"-0.0]")


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

    orjson writes ``null`` for NaN and infinities, and no answer of this service holds a null: the word, or a negative
    zero, in the bytes sends the document through a walk that refuses the one and mends the other.
    """
    body = orjson.dumps(document, default=float)
    if b"null" in body or any(sign in body for sign in _NEGATIVE_ZEROS):
        return orjson.dumps(_mended(document, ""))
    return body


def _mended(value: Any, place: str) -> Any:  # noqa: ANN401  any JSON value
    if isinstance(value, dict):
        return {key: _mended(item, f"{place}/{key}") for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_mended(item, f"{place}/{index}") for index, item in enumerate(value)]
    if isinstance(value, float):
        if not math.isfinite(value):
            raise Unsendable(f"{value} at {place}")
        return float(value) or 0.0
    if value is None:
        raise Unsendable(f"nothing at {place}")
    return value
