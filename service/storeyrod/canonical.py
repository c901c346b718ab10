"""The fingerprint of a request: equal for requests that mean the same, whatever their key order and white space."""

import hashlib
import math
from typing import Any, Final

import orjson
import rfc8785
from pydantic import BaseModel

from storeyrod import DATA_EDITION, __version__

_SMALLEST_PLAIN: Final = 1e-3
_LARGEST_PLAIN: Final = 1e15
"""Between these two, orjson writes a number exactly as RFC 8785 asks; outside, the reference library does it."""


class _UnusualNumberError(Exception):
    """A number outside the plain range."""


def fingerprint(request: BaseModel) -> str:
    """SHA-256, in hex, over the default-filled request in RFC 8785 form, the engine version and the data edition."""
    text = canonical_bytes(request.model_dump(mode="python", exclude_none=True))
    return hashlib.sha256(b"\n".join((text, __version__.encode(), DATA_EDITION.encode()))).hexdigest()


def canonical_bytes(document: Any) -> bytes:  # noqa: ANN401  any JSON value
    """The document in RFC 8785 form; keys are the ASCII names of request models."""
    try:
        return orjson.dumps(_plain(document), option=orjson.OPT_SORT_KEYS)
    except _UnusualNumberError:
        return rfc8785.dumps(document)


def _plain(value: Any) -> Any:  # noqa: ANN401  any JSON value
    kind = type(value)
    if kind is float:
        return _plain_number(value)
    if kind is dict:
        return {key: _plain(item) for key, item in value.items()}
    if kind is list or kind is tuple:
        return [_plain(item) for item in value]
    return value


def _plain_number(value: float) -> float | int:
    if value == 0.0:
        return 0
    if not _SMALLEST_PLAIN <= math.fabs(value) < _LARGEST_PLAIN:
        raise _UnusualNumberError
    return int(value) if value.is_integer() else value
