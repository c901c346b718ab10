"""What goes back to a caller, before the server turns it into an HTTP response."""

from dataclasses import dataclass

JSON = "application/json"
SVG = "image/svg+xml"
PROBLEM_JSON = "application/problem+json"


@dataclass(frozen=True, slots=True)
class Reply:
    """Status, media type and bytes of one answer, with the headers that belong to it alone."""

    status: int
    media_type: str
    body: bytes
    headers: tuple[tuple[str, str], ...] = ()
