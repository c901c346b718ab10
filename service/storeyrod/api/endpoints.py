"""ASGI endpoints: what stands between a route and a pure function. No framework work is done for a request."""

import asyncio
import hashlib
from collections.abc import Awaitable, Callable, Coroutine, Mapping
from typing import Any, Final

from starlette.requests import ClientDisconnect
from starlette.types import Receive, Scope, Send

from storeyrod.api.compute import Compute
from storeyrod.api.negotiation import chosen_format, require_json
from storeyrod.api.operations import Operation
from storeyrod.api.problems import NO_STORE, Problem
from storeyrod.api.reply import JSON, Reply
from storeyrod.api.request_body import RequestBody
from storeyrod.api.respond import respond
from storeyrod.api.settings import Settings
from storeyrod.api.watch import send_reply

_PUBLIC: Final = ("Cache-Control", "public, max-age=86400")


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
        body = RequestBody(scope, receive)
        try:
            reply = await self._reply(scope, body)
        except Problem as problem:
            reply = problem.reply()
        await send_reply(reply, send, self._vary, before_end=body.discard if body.unread else None)

    async def _reply(self, scope: Scope, request_body: RequestBody) -> Reply:
        media_type = chosen_format(header(scope, b"accept"), self._formats)
        require_json(header(scope, b"content-type"), header(scope, b"content-encoding"))
        body = await request_body.whole(self._settings.body_limit_bytes)
        if self._operation.cost == "long" or len(body) > self._settings.inline_limit_bytes:
            work = self._compute.run(respond, self._operation, media_type, body, self._settings)
            return await _unless_hung_up(work, request_body)
        return respond(self._operation, media_type, body, self._settings)


async def _unless_hung_up(work: Coroutine[Any, Any, Reply], request_body: RequestBody) -> Reply:
    """The reply, unless its caller hangs up first: what nobody waits for leaves its worker or its place in the queue."""
    job = asyncio.ensure_future(work)
    hang_up = asyncio.ensure_future(request_body.hang_up())
    try:
        await asyncio.wait((job, hang_up), return_when=asyncio.FIRST_COMPLETED)
        if job.done():
            return job.result()
    finally:
        hang_up.cancel()
        job.cancel()
    await asyncio.gather(job, return_exceptions=True)
    raise ClientDisconnect


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
