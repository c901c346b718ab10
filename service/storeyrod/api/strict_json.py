"""Reading a request body as strict JSON.

orjson refuses most of what is wrong (grammar, UTF-8, lone surrogates, NaN, overflow). What it lets through is found by
counting: an object that lost a member to a duplicate has fewer members than the text has colons outside strings.
Only when something is wrong does the slow reader look for the place; no message ever repeats what was sent.
"""

import json
import re
from typing import Any, Final

import orjson

from storeyrod.api.problem_catalogue import CATALOGUE
from storeyrod.api.problems import Problem

LONGEST_INTEGER: Final = 20

# Possessive and closed at the end of the text, so that no body makes them scan twice.
_STRING: Final = re.compile(rb'"(?:[^"\\]|\\.)*+(?:"|\\?\Z)', re.DOTALL)
_TOKEN: Final = re.compile(rb'"(?:[^"\\]|\\.)*+(?:"|\\?\Z)|[{}\[\],:]', re.DOTALL)
_NUMBER: Final = re.compile(rb"-?(?:NaN|Infinity|\d++(?:\.\d++)?+(?:[eE][+-]?\d++)?+)")
_DIGITS_ALIKE: Final = bytes.maketrans(b"123456789", b"000000000")
_LONG_DIGITS: Final = b"0" * LONGEST_INTEGER
_CONTAINERS: Final = (dict, list)
_NUL: Final = re.compile(rb"(?<!\\)(?:\\\\)*+(\\u0000)")
_HALF_PAIR: Final = re.compile("[\ud800-\udfff]")


class _TooDeep(Exception):  # noqa: N818  caught here, never seen
    """Nesting beyond the limit."""


def read(body: bytes, nesting_limit: int) -> Any:  # noqa: ANN401  any JSON value
    """The value of a JSON text; raises a ``Problem`` of status 400 that says where it went wrong."""
    try:
        value = orjson.loads(body)
        members = _members(value, nesting_limit)
    except (orjson.JSONDecodeError, _TooDeep):
        raise _fault(body, nesting_limit) from None
    if body.count(b":") != members and _masked(body).count(b":") != members:
        raise _fault(body, nesting_limit)
    if b"\\u0000" in body or _LONG_DIGITS in body.translate(_DIGITS_ALIKE):
        _refuse_nul(body)
        _refuse_numbers(body)
    return value


def _members(value: Any, nesting_limit: int) -> int:  # noqa: ANN401  any JSON value
    """Members of all objects in a value, level by level; written for speed, since every request pays for it."""
    members = depth = 0
    level = [value] if type(value) in _CONTAINERS else []
    while level:
        depth += 1
        if depth > nesting_limit:
            raise _TooDeep
        inner: list[Any] = []
        for item in level:
            if type(item) is dict:
                members += len(item)
                inner += item.values()
            else:
                inner += item
        level = [item for item in inner if type(item) in _CONTAINERS]
    return members


def _masked(body: bytes) -> bytes:
    """The text with every string blanked, byte for byte, so that positions hold."""
    return _STRING.sub(lambda found: b" " * len(found[0]), body)


def _fault(body: bytes, nesting_limit: int) -> Problem:
    """What is wrong with a text that was refused, looked for in the order of reading."""
    try:
        _refuse_encoding(body)
        _refuse_depth(body, nesting_limit)
        _refuse_numbers(body)
        _refuse_grammar(body)
        _refuse_nul(body)
        _refuse_duplicates(body)
    except Problem as problem:
        return problem
    return Problem("malformed-json")


def _problem(slug: str, body: bytes, offset: int, what: str) -> Problem:
    line = body.count(b"\n", 0, offset) + 1
    column = offset - (body.rfind(b"\n", 0, offset) + 1) + 1
    detail = f"{what} at line {line}, column {column} (byte {offset}). {CATALOGUE[slug].advice}"
    return Problem(slug, detail, members={"position": {"line": line, "column": column, "offset": offset}})


def _refuse_encoding(body: bytes) -> None:
    if body.startswith((b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")):
        raise _problem("text-not-utf-8", body, 0, "A byte order mark stands")
    try:
        body.decode("utf-8")
    except UnicodeDecodeError as error:
        raise _problem("text-not-utf-8", body, error.start, "A byte that is not UTF-8 stands") from None


def _refuse_depth(body: bytes, nesting_limit: int) -> None:
    depth = 0
    for found in re.finditer(rb"[\[\]{}]", _masked(body)):
        depth += 1 if found[0] in b"[{" else -1
        if depth > nesting_limit:
            raise _problem("nesting-too-deep", body, found.start(), f"Nesting passes {nesting_limit} levels")


def _refuse_numbers(body: bytes) -> None:
    for found in _NUMBER.finditer(_masked(body)):
        text = found[0]
        if text.lstrip(b"-").isdigit():
            if len(text) > LONGEST_INTEGER:
                raise _problem(
                    "number-too-long",
                    body,
                    found.start(),
                    f"A whole number of over {LONGEST_INTEGER} characters stands",
                )
        elif text[-1:] in b"Ny" or float(text) in (float("inf"), float("-inf")):
            raise _problem("number-not-finite", body, found.start(), "A number that is not finite stands")


def _refuse_grammar(body: bytes) -> None:
    text = body.decode("utf-8")
    try:
        json.loads(text, parse_int=float)
    except json.JSONDecodeError as error:
        raise _problem("malformed-json", body, len(text[: error.pos].encode()), "Reading stopped") from None
    for found in _STRING.finditer(body):
        if _HALF_PAIR.search(json.loads(found[0])):
            raise _problem("character-not-allowed", body, found.start(), "Half of a surrogate pair is in the string")


def _refuse_nul(body: bytes) -> None:
    found = _NUL.search(body)
    if found:
        raise _problem("character-not-allowed", body, found.start(1), "The character NUL stands")


def _refuse_duplicates(body: bytes) -> None:
    """Expects a text of sound grammar."""
    open_objects: list[set[str] | None] = []
    last: re.Match[bytes] | None = None
    for found in _TOKEN.finditer(body):
        sign = found[0]
        if sign in b"{[":
            open_objects.append(set() if sign == b"{" else None)
        elif sign in b"}]":
            open_objects.pop()
        elif sign == b":" and last is not None and open_objects and (seen := open_objects[-1]) is not None:
            name = json.loads(last[0])
            if name in seen:
                raise _problem("duplicate-member", body, last.start(), "A member stands twice in its object, again")
            seen.add(name)
        last = found
