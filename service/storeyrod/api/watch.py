"""The outermost layer of the service: a Request-Id on every answer, faults turned into problems, one log line each."""

import logging
import os
import time
from collections.abc import Awaitable, Callable, Sequence
from typing import Any, Final

from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from storeyrod.api.observability import log, trace_id_of
from storeyrod.api.problems import Problem
from storeyrod.api.reply import Reply

NOT_MODIFIED: Final = 304
_ALWAYS: Final = ((b"x-content-type-options", b"nosniff"),)


class Watch:
    """Pure ASGI middleware; it adds headers to what passes through and answers 500 itself when nothing was sent yet."""

    def __init__(self, app: ASGIApp, *, log_requests: bool) -> None:
        """Wrap an application."""
        self._app = app
        self._log_requests = log_requests

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass one request through."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        passing = _Passing(send)
        started = time.perf_counter()
        try:
            await self._app(scope, receive, passing.send)
        except ClientDisconnect:
            log(logging.INFO, "disconnect", {"request_id": passing.request_id, **_about(scope)})
        except Exception as error:  # the last resort: an answer instead of a dropped connection
            log(logging.ERROR, "fault", {"request_id": passing.request_id, **_about(scope)}, fault=error)
            if passing.status == 0:
                await send_reply(Problem("internal-error").reply(), passing.send)
        if self._log_requests:
            elapsed = round((time.perf_counter() - started) * 1e3, 3)
            log(
                logging.INFO,
                "request",
                {
                    "request_id": passing.request_id,
                    **_about(scope),
                    "status": passing.status,
                    "duration_ms": elapsed,
                    "bytes_out": passing.bytes_out,
                },
            )


class _Passing:
    """What is known of one answer on its way out."""

    __slots__ = ("_send", "bytes_out", "request_id", "status")

    def __init__(self, send: Send) -> None:
        self._send = send
        self.request_id = os.urandom(16).hex()
        self.status = 0
        self.bytes_out = 0

    async def send(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self.status = message["status"]
            message["headers"] = [*message["headers"], (b"request-id", self.request_id.encode()), *_ALWAYS]
        else:
            self.bytes_out += len(message.get("body", b""))
        await self._send(message)


def _about(scope: Scope) -> dict[str, Any]:
    """Method, operation and trace of a request; never the path, which may hold anything."""
    about: dict[str, Any] = {"method": scope["method"], "operation": scope.get("operation", "")}
    traceparent = next((value for name, value in scope["headers"] if name == b"traceparent"), None)
    if (trace_id := trace_id_of(traceparent)) is not None:
        about["trace_id"] = trace_id
    return about


async def send_reply(
    reply: Reply,
    send: Send,
    more: Sequence[tuple[str, str]] = (),
    *,
    head: bool = False,
    before_end: Callable[[], Awaitable[None]] | None = None,
) -> None:
    """Send a reply with ``more`` headers; the answer to HEAD tells the length of a body that it leaves out.

    ``before_end`` runs when the reply is out and the connection may still not be closed or used again.
    """
    headers = [(name.lower().encode(), value.encode()) for name, value in (*reply.headers, *more)]
    if reply.status != NOT_MODIFIED:
        headers.append((b"content-type", reply.media_type.encode()))
        headers.append((b"content-length", str(len(reply.body)).encode()))
    await send({"type": "http.response.start", "status": reply.status, "headers": headers})
    body = b"" if head else reply.body
    if before_end is not None:
        await send({"type": "http.response.body", "body": body, "more_body": True})
        await before_end()
        body = b""
    await send({"type": "http.response.body", "body": body})
