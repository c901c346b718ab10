"""A request's body: counted as it is read, and read to its end, within limits, when it was refused before."""

import asyncio
from typing import Final

from starlette.requests import ClientDisconnect
from starlette.types import Receive, Scope

from storeyrod.api.problems import Problem, size_problem

DISCARD_LIMIT_BYTES: Final = 16_000_000
DISCARD_LIMIT_S: Final = 5.0
_CLOSE: Final = (("Connection", "close"),)
_LONGEST_LENGTH_DIGITS: Final = 15


class RequestBody:
    """The body of one request."""

    __slots__ = ("_receive", "_scope", "unread")

    def __init__(self, scope: Scope, receive: Receive) -> None:
        """Nothing is read yet."""
        self._scope = scope
        self._receive = receive
        self.unread = True

    async def whole(self, limit: int) -> bytes:
        """The whole body, counted as it comes; raises problem 413 at the first byte over the limit."""
        length = next((value for name, value in self._scope["headers"] if name == b"content-length"), b"0")
        if len(length) > _LONGEST_LENGTH_DIGITS or (length.isdigit() and int(length) > limit):
            raise _too_large(limit)
        parts: list[bytes] = []
        total = 0
        while self.unread:
            part = await self._part()
            total += len(part)
            if total > limit:
                raise _too_large(limit)
            if part:
                parts.append(part)
        return parts[0] if len(parts) == 1 else b"".join(parts)

    async def hang_up(self) -> None:
        """Return when the caller closes the connection; to be awaited once the body is read."""
        while (await self._receive())["type"] != "http.disconnect":
            pass

    async def discard(self) -> None:
        """Read on after the answer went out, up to a size and a time.

        A connection closed over unread bytes is reset, and a reset takes the answer away from a caller who still sends.
        """
        try:
            await asyncio.wait_for(self._read_on(), DISCARD_LIMIT_S)
        except (TimeoutError, ClientDisconnect):
            self.unread = False

    async def _read_on(self) -> None:
        total = 0
        while self.unread and total <= DISCARD_LIMIT_BYTES:
            total += len(await self._part())

    async def _part(self) -> bytes:
        message = await self._receive()
        if message["type"] == "http.disconnect":
            raise ClientDisconnect
        self.unread = message.get("more_body", False)
        part: bytes = message.get("body", b"")
        return part


def _too_large(limit: int) -> Problem:
    problem = size_problem("body-too-large", "The body is too long", limit, "bytes")
    problem.headers = _CLOSE
    return problem
