"""One call as bytes to send, and what to make of what comes back. No input or output happens here: both twins share it."""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final, Generic, Literal, TypeVar

import httpx2
from pydantic import BaseModel, ValidationError

from storeyrod_client.errors import (
    ConnectionFailed,
    StoreyrodError,
    TimedOut,
    UnreadableAnswer,
    problem_error,
)
from storeyrod_client.problem_documents import media_type, problem_report, request_id
from storeyrod_client.received import Received
from storeyrod_client.retries import Outcome
from storeyrod_client.version import __version__

T = TypeVar("T")
R = TypeVar("R", bound=Received)

JSON: Final = "application/json"
USER_AGENT: Final = f"storeyrod-client/{__version__}"

DEFAULT_TIMEOUT: Final = httpx2.Timeout(30.0, connect=5.0, read=60.0)
"""Seconds per attempt: to connect, to send and to wait for the next bytes; the service itself stops long before 60 s."""

_BROKEN: Final = (httpx2.NetworkError, httpx2.RemoteProtocolError)
"""Failures in which a connection broke that might hold the next time."""


@dataclass(frozen=True, slots=True)
class Call(Generic[T]):
    """What to send, and how to read the answer of a success."""

    method: Literal["GET", "POST"]
    path: str
    read: Callable[[httpx2.Response], T]
    accept: str = JSON
    body: bytes | None = None

    @property
    def headers(self) -> dict[str, str]:
        """Headers that belong to this call."""
        headers = {"Accept": self.accept}
        if self.body is not None:
            headers["Content-Type"] = JSON
        return headers

    def result(self, outcome: Outcome) -> T:
        """The answer of the last attempt; raises a ``StoreyrodError`` when there is none."""
        if isinstance(outcome, StoreyrodError):
            raise outcome
        if outcome.status_code >= 400:
            raise problem_error(problem_report(outcome))
        if outcome.status_code != 200:
            raise UnreadableAnswer(f"{self.path} answered with status {outcome.status_code}")
        return self.read(outcome)


def service_url(base_url: str) -> httpx2.URL:
    """The address of the service; raises ``ValueError`` for one without http, https or a host."""
    try:
        url = httpx2.URL(base_url)
    except httpx2.InvalidURL as error:
        raise ValueError(f"not an address: {error}") from None
    if url.scheme not in ("http", "https") or not url.host:
        raise ValueError("base_url must be an http:// or https:// address with a host")
    return url


def standing_headers(headers: Mapping[str, str] | None) -> dict[str, str]:
    """Headers of every call; the caller's own win."""
    return {"User-Agent": USER_AGENT, **(headers or {})}


def body_of(request: BaseModel | Mapping[str, Any]) -> bytes:
    """The request as JSON: models without the members that are ``None``, so that defaults stay the service's.

    Raises ``ValueError`` for a number that is not finite and ``TypeError`` for what JSON cannot hold.
    """
    return json.dumps(request, default=_plain, allow_nan=False, separators=(",", ":")).encode()


def _plain(value: object) -> object:
    if isinstance(value, BaseModel):
        return value.model_dump(by_alias=True, exclude_none=True)
    if isinstance(value, Mapping):
        return dict(value)
    raise TypeError(f"a request holds a {type(value).__name__}, which JSON cannot")


def reads(answer: type[R]) -> Callable[[httpx2.Response], R]:
    """Reader of an answer in JSON."""

    def read(response: httpx2.Response) -> R:
        if media_type(response) != JSON:
            raise UnreadableAnswer(f"expected {JSON}, got {media_type(response) or 'no media type'}")
        try:
            received = answer.model_validate_json(response.content)
        except ValidationError as error:
            raise UnreadableAnswer(f"the answer is no {answer.__name__}: {_summary(error)}") from error
        received._raw_body = response.content
        received._request_id = request_id(response)
        return received

    return read


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing as received: its bytes, their media type, and the id of the request."""

    content: bytes
    media_type: str
    request_id: str


def read_drawing(response: httpx2.Response) -> Drawing:
    """Reader of a drawing in any format."""
    return Drawing(response.content, media_type(response), request_id(response))


def failure(error: httpx2.RequestError) -> StoreyrodError:
    """The error that a failed attempt stands for."""
    what = str(error) or type(error).__name__
    if isinstance(error, httpx2.TimeoutException):
        failed: StoreyrodError = TimedOut(what)
    elif isinstance(error, httpx2.DecodingError):
        failed = UnreadableAnswer(what)
    else:
        failed = ConnectionFailed(what)
        failed.repeatable = isinstance(error, _BROKEN)
    failed.__cause__ = error
    return failed


def _summary(error: ValidationError) -> str:
    first = error.errors(include_url=False, include_input=False)[0]
    place = "/".join(str(part) for part in first["loc"])
    return f"{error.error_count()} member(s) unfit, first {place or 'the whole'}: {first['msg']}"
