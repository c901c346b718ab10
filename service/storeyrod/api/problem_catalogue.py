"""Every problem that the service can answer with: those of HTTP, and the refusals of the rooms below."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from storeyrod.findings import REFUSALS

URN: Final = "urn:storeyrod:problem:"
"""Problem types carry no host, so that equal requests get equal bytes everywhere."""


@dataclass(frozen=True, slots=True)
class ProblemKind:
    """Catalogue entry of a problem: its word, HTTP status, and what sets it off and helps."""

    slug: str
    status: int
    title: str
    trigger: str
    advice: str

    @property
    def type(self) -> str:
        """The ``type`` member of the problem document."""
        return URN + self.slug


_TRANSPORT: Final = (
    ProblemKind(
        "malformed-json", 400, "The body is not JSON",
        "The body breaks the grammar of JSON, or is empty.",
        "Send one JSON object; the position says where reading stopped.",
    ),
    ProblemKind(
        "text-not-utf-8", 400, "The body is not plain UTF-8",
        "The body holds bytes that are not UTF-8, or starts with a byte order mark.",
        "Encode the body as UTF-8 without a byte order mark.",
    ),
    ProblemKind(
        "character-not-allowed", 400, "A string holds a character that is no text",
        "A string holds half of a surrogate pair, or the character NUL.",
        "Remove the character; escape characters beyond the basic plane as a pair.",
    ),
    ProblemKind(
        "duplicate-member", 400, "A member stands twice in one object",
        "Two members of one object have the same name.",
        "Keep one of them.",
    ),
    ProblemKind(
        "number-not-finite", 400, "A number is not finite",
        "NaN, Infinity, or a number too large for a double.",
        "Send a finite decimal number, or leave the member out.",
    ),
    ProblemKind(
        "number-too-long", 400, "A whole number is too long",
        "A whole number of more than 20 characters.",
        "Send no more digits than the value has meaning.",
    ),
    ProblemKind(
        "nesting-too-deep", 400, "The body is nested too deep",
        "Arrays and objects are nested beyond the limit.",
        "No request of this service needs such depth; check the program that wrote it.",
    ),
    ProblemKind(
        "not-found", 404, "Nothing stands at this address",
        "The path is none of the service's.",
        "See /openapi.json for the paths; none ends in a slash.",
    ),
    ProblemKind(
        "problem-unknown", 404, "No problem of that name",
        "The catalogue holds no problem of that slug.",
        "See /v1/findings for all names.",
    ),
    ProblemKind(
        "method-not-allowed", 405, "This address has another method",
        "The path exists, but not with this method.",
        "Use a method of the Allow header.",
    ),
    ProblemKind(
        "not-acceptable", 406, "No such format",
        "The Accept header rules out every format of the operation.",
        "Accept one of the media types listed in `available`.",
    ),
    ProblemKind(
        "origin-not-allowed", 403, "Pages of this origin may not call",
        "A browser asked on behalf of an origin, method or header that is not on the allow-list.",
        "Have the origin added to STOREYROD_ALLOWED_ORIGINS, or call from a server.",
    ),
    ProblemKind(
        "body-too-large", 413, "The body is too long",
        "The body has more bytes than the limit.",
        "Split the request, for instance by elevation.",
    ),
    ProblemKind(
        "media-type-unsupported", 415, "The body is not declared as JSON",
        "Content-Type is not application/json, names a charset other than UTF-8, or the body is compressed.",
        "Send Content-Type: application/json, without Content-Encoding.",
    ),
    ProblemKind(
        "request-invalid", 422, "The request does not fit its schema",
        "A member is missing, unknown, of the wrong type or outside its limits.",
        "See errors: each names the place, the rule and what to do.",
    ),
    ProblemKind(
        "over-time-limit", 422, "The calculation takes too long",
        "The calculation was stopped at the time limit; no half answer goes out.",
        "Ask for less at once: fewer elevations, sheets or rectangles, or a lower options.effort; on a busy server ask again later.",
    ),
    ProblemKind(
        "internal-error", 500, "The service failed",
        "A fault of the service, not of the request. It has been logged under the Request-Id.",
        "Report the Request-Id to whoever runs the service.",
    ),
    ProblemKind(
        "service-busy", 503, "The service is busy",
        "All workers are taken and the queue is full.",
        "Send the same request again after the seconds of Retry-After; nothing was kept.",
    ),
)  # fmt: skip

DOMAIN_STATUS: Final = 422

CATALOGUE: Final[Mapping[str, ProblemKind]] = MappingProxyType(
    {kind.slug: kind for kind in _TRANSPORT}
    | {row.slug: ProblemKind(row.slug, DOMAIN_STATUS, row.title, row.trigger, row.advice) for row in REFUSALS.values()}
)
"""All problems by slug."""
