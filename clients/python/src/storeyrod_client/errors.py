"""Every way in which a call can fail.

::

    StoreyrodError
      ConnectionFailed      no answer came: refused, lost, or not speakable
      TimedOut              no answer came in time
      UnreadableAnswer      an answer came that is not one of this service
      ProblemError          the service, or what stands before it, said no
        MalformedRequest    400
        NotFound            404
        NotAcceptable       406
        TooLarge            413
        UnsupportedMedia    415
        RequestInvalid      422, the request does not fit its schema
        Refused             422, a domain problem of the catalogue
        TooManyRequests     429
        ServerFault         5xx
          Unavailable       503
"""

# ruff: noqa: N818  errors are named for what happened
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final


class StoreyrodError(Exception):
    """Base of everything that a call raises once it was sent."""


class ConnectionFailed(StoreyrodError):
    """No answer came. ``repeatable`` tells a connection that broke from one that can never work."""

    repeatable: bool = False


class TimedOut(StoreyrodError):
    """No answer came within the timeout; the same request would take as long again, so it is not repeated."""


class UnreadableAnswer(StoreyrodError):
    """An answer came that this client cannot read: another service, or another major version."""


@dataclass(frozen=True, slots=True)
class ErrorItem:
    """One place at fault: a JSON Pointer into what was sent, a code and a sentence."""

    pointer: str
    code: str
    detail: str


@dataclass(frozen=True)
class ProblemReport:
    """A problem document as read; ``members`` holds the whole of it, extensions included."""

    status: int
    slug: str = ""
    title: str = ""
    detail: str = ""
    errors: tuple[ErrorItem, ...] = ()
    request_id: str = ""
    retry_after_s: float | None = None
    members: Mapping[str, Any] = field(default_factory=dict)


class ProblemError(StoreyrodError):
    """The call was answered with a problem; ``slug`` is empty when the answer was no problem document."""

    def __init__(self, report: ProblemReport) -> None:
        """Keep the report; its main members are attributes of the error."""
        super().__init__(report)
        self.report = report

    @property
    def status(self) -> int:
        """HTTP status."""
        return self.report.status

    @property
    def slug(self) -> str:
        """Word of the catalogue; ``client.problem(slug)`` explains it."""
        return self.report.slug

    @property
    def title(self) -> str:
        """What is wrong, the same for every problem of this slug."""
        return self.report.title

    @property
    def detail(self) -> str:
        """What is wrong with this request and what to do."""
        return self.report.detail

    @property
    def errors(self) -> tuple[ErrorItem, ...]:
        """Places at fault, in the order of the service."""
        return self.report.errors

    @property
    def request_id(self) -> str:
        """The ``Request-Id`` of the last answer, for whoever runs the service."""
        return self.report.request_id

    @property
    def retry_after_s(self) -> float | None:
        """Seconds that the service asked to wait, when it did."""
        return self.report.retry_after_s

    def __str__(self) -> str:
        """Status, slug, sentence, the first places at fault and the request id."""
        lines = [f"{self.status} {self.slug or self.title}: {self.detail or self.title}"]
        lines += [f"  {item.pointer or '(whole request)'}: {item.detail}" for item in self.errors[:_PLACES_SHOWN]]
        if len(self.errors) > _PLACES_SHOWN:
            lines.append(f"  and {len(self.errors) - _PLACES_SHOWN} more")
        if self.request_id:
            lines.append(f"  Request-Id: {self.request_id}")
        return "\n".join(lines)


_PLACES_SHOWN: Final = 5


class MalformedRequest(ProblemError):
    """400: the body is not strict JSON."""


class NotFound(ProblemError):
    """404: no such path, or no such name."""


class NotAcceptable(ProblemError):
    """406: the operation has no such format."""


class TooLarge(ProblemError):
    """413: the body is longer than the service takes."""


class UnsupportedMedia(ProblemError):
    """415: the body is not declared as JSON."""


class RequestInvalid(ProblemError):
    """422 ``request-invalid``: the request does not fit its schema; see ``errors``."""


class Refused(ProblemError):
    """422 with a slug of its own: well formed, but it describes no wall that can be answered."""


class TooManyRequests(ProblemError):
    """429: a quota before the service is used up."""


class ServerFault(ProblemError):
    """5xx: a fault of the service or of what stands before it, not of the request."""


class Unavailable(ServerFault):
    """503: busy or starting; the same request may succeed later."""


_BY_STATUS: Final[Mapping[int, type[ProblemError]]] = {
    400: MalformedRequest,
    404: NotFound,
    406: NotAcceptable,
    413: TooLarge,
    415: UnsupportedMedia,
    429: TooManyRequests,
    503: Unavailable,
}


def problem_error(report: ProblemReport) -> ProblemError:
    """The error of the family that a report belongs to."""
    if report.status == 422:
        family: type[ProblemError] = RequestInvalid if report.slug == "request-invalid" else Refused
    elif report.status in _BY_STATUS:
        family = _BY_STATUS[report.status]
    else:
        family = ServerFault if report.status >= 500 else ProblemError
    return family(report)
