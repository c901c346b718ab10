"""ASGI endpoints: what stands between a route and a pure function. No framework work is done for a request."""

import hashlib
from collections.abc import Awaitable, Callable, Mapping
from typing import Final

from starlette.requests import ClientDisconnect
from starlette.types import Receive, Scope, Send

from storeyrod.api.compute import Compute
from storeyrod.api.negotiation import chosen_format, require_json
from storeyrod.api.operations import Operation
from storeyrod.api.problems import NO_STORE, Problem, size_problem
from storeyrod.api.reply import JSON, Reply
from storeyrod.api.respond import respond
from storeyrod.api.settings import Settings
from storeyrod.api.watch import send_reply

_CLOSE: Final = (("Connection", "close"),)
_PUBLIC: Final = ("Cache-Control", "public, max-age=86400")
_LONGEST_LENGTH_DIGITS: Final = 15


def header(scope: Scope, name: bytes) -> str | None:
    """Value of a request header; several lines of one header are joined by commas, as RFC 9110 has it."""
    lines = [value for key, value in scope["headers"] if key == name]
    return b", ".join(lines).decode("latin-1") if lines else None


class CalculationEndpoint:
    """POST of one operation: negotiate, read, calculate, send."""

    def __init__(self, operation: Operation, compute: Compute, settings: Settings) -> None:
        """One endpoint for one row of the table."""
        self._operation = operation
        self._formats = tuple(operation.writers)
        self._compute = compute
        self._settings = settings
        self._vary = (("Vary", "Accept"),) if len(operation.writers) > 1 else ()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        scope["operation"] = self._operation.operation_id
        try:
            reply = await self._reply(scope, receive)
        except Problem as problem:
            reply = problem.reply()
        await send_reply(reply, send, self._vary)

    async def _reply(self, scope: Scope, receive: Receive) -> Reply:
        media_type = chosen_format(header(scope, b"accept"), self._formats)
        require_json(header(scope, b"content-type"), header(scope, b"content-encoding"))
        body = await read_body(scope, receive, self._settings.body_limit_bytes)
        if self._operation.cost == "long" or len(body) > self._settings.inline_limit_bytes:
            return await self._compute.run(respond, self._operation, media_type, body, self._settings)
        return respond(self._operation, media_type, body, self._settings)


async def read_body(scope: Scope, receive: Receive, limit: int) -> bytes:
    """The whole body, counted as it comes; raises problem 413 at the first byte over the limit."""
    length = header(scope, b"content-length") or "0"
    if len(length) > _LONGEST_LENGTH_DIGITS or (length.isdecimal() and int(length) > limit):
        raise _too_large(limit)
    parts: list[bytes] = []
    total = 0
    while True:
        message = await receive()
        if message["type"] == "http.disconnect":
            raise ClientDisconnect
        part = message.get("body", b"")
        total += len(part)
        if total > limit:
            raise _too_large(limit)
        if part:
            parts.append(part)
        if not message.get("more_body", False):
            return parts[0] if len(parts) == 1 else b"".join(parts)


def _too_large(limit: int) -> Problem:
    problem = size_problem("body-too-large", "The body is too long", limit, "bytes")
    problem.headers = _CLOSE
    return problem


class FixedEndpoint:
    """GET of bytes that change only with the version: strong ETag, cached for a day, 304 when unchanged."""

    def __init__(self, name: str, bodies: Mapping[str, bytes], *, parameter: str | None = None) -> None:
        """``bodies`` by the value of the path parameter, or one body under the empty string."""
        self._name = name
        self._parameter = parameter
        self._replies = {key: (_etag(body), body) for key, body in bodies.items()}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        scope["operation"] = self._name
        try:
            reply = self._reply(scope)
        except Problem as problem:
            reply = problem.reply()
        await send_reply(reply, send, head=scope["method"] == "HEAD")

    def _reply(self, scope: Scope) -> Reply:
        chosen_format(header(scope, b"accept"), (JSON,))
        key = scope["path_params"][self._parameter] if self._parameter else ""
        if key not in self._replies:
            raise Problem("problem-unknown")
        etag, body = self._replies[key]
        headers = (("ETag", etag), _PUBLIC)
        if _matches(header(scope, b"if-none-match"), etag):
            return Reply(304, JSON, b"", headers)
        return Reply(200, JSON, body, headers)


class LiveEndpoint:
    """GET of bytes made anew each time."""

    def __init__(self, name: str, make: Callable[[], Awaitable[bytes]]) -> None:
        """``make`` gives the body or raises a problem."""
        self._name = name
        self._make = make

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        scope["operation"] = self._name
        try:
            chosen_format(header(scope, b"accept"), (JSON,))
            reply = Reply(200, JSON, await self._make(), (NO_STORE,))
        except Problem as problem:
            reply = problem.reply()
        await send_reply(reply, send, head=scope["method"] == "HEAD")


def _etag(body: bytes) -> str:
    return f'"{hashlib.sha256(body).hexdigest()[:32]}"'


def _matches(if_none_match: str | None, etag: str) -> bool:
    """Weak comparison, as RFC 9110 asks for If-None-Match."""
    if if_none_match is None:
        return False
    tags = {tag.strip().removeprefix("W/") for tag in if_none_match.split(",")}
    return "*" in tags or etag in tags
