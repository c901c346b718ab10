"""The fingerprint of a request: equal for requests that mean the same, whatever their key order and white space."""

import hashlib
from typing import Any

import orjson
import rfc8785
from pydantic import BaseModel

from storeyrod import DATA_EDITION, __version__


def fingerprint(request: BaseModel) -> str:
    """SHA-256, in hex, over the default-filled request in RFC 8785 form, the engine version and the data edition."""
    text = canonical_bytes(request.model_dump(mode="python", exclude_none=True))
    return hashlib.sha256(b"\n".join((text, __version__.encode(), DATA_EDITION.encode()))).hexdigest()


def canonical_bytes(document: Any) -> bytes:  # noqa: ANN401  any JSON value
    """The document in RFC 8785 form; keys are the ASCII names of request models.

    orjson sorts keys and writes texts and most numbers as the RFC does. Only whole numbers differ, by a trailing ``.0``,
    which is taken off between the quotation marks; where a text holds an escape, or a number an exponent or a negative
    zero, the reference library writes it all.
    """
    body = orjson.dumps(document, option=orjson.OPT_SORT_KEYS)
    parts = body.split(b'"')
    between = b'"'.join(parts[::2])
    if b"\\" in body or b"-0.0" in between or _holds_exponent(between):
        return rfc8785.dumps(document)
    bare = between.replace(b".0,", b",").replace(b".0}", b"}").replace(b".0]", b"]").removesuffix(b".0")
    parts[::2] = bare.split(b'"')
    return b'"'.join(parts)


def _holds_exponent(between: bytes) -> bool:
    """Outside texts an e stands in an exponent, in true or in false."""
    return between.count(b"e") > between.count(b"true") + between.count(b"false")
