"""Which format a caller wants (RFC 9110, section 12.5.1), and whether a body is JSON."""

from collections.abc import Sequence
from functools import lru_cache

from storeyrod.api.problems import Problem
from storeyrod.api.reply import JSON

_LONGEST_ACCEPT = 1000


def chosen_format(accept: str | None, available: Sequence[str]) -> str:
    """The available media type that ``Accept`` rates highest, the first among equals; raises problem 406."""
    best = _best(accept if accept is None else accept[:_LONGEST_ACCEPT], tuple(available))
    if best is None:
        detail = f"This operation answers in: {', '.join(available)}. Accept one of these."
        raise Problem("not-acceptable", detail, members={"available": list(available)})
    return best


@lru_cache(maxsize=256)
def _best(accept: str | None, available: tuple[str, ...]) -> str | None:
    if accept is None or not accept.strip():
        return available[0]
    ranges = [_range(part) for part in accept.split(",") if part.strip()]
    rated = [(_rating(media_type, ranges), -place, media_type) for place, media_type in enumerate(available)]
    quality, _, media_type = max(rated)
    return media_type if quality > 0 else None


def _range(part: str) -> tuple[str, float]:
    """Media range and quality of one member of ``Accept``; an unreadable quality counts as 0."""
    name, *parameters = (piece.strip() for piece in part.split(";"))
    quality = 1.0
    for parameter in parameters:
        key, _, value = parameter.partition("=")
        if key.strip().lower() == "q":
            quality = _quality(value.strip())
    return name.lower(), quality


def _quality(text: str) -> float:
    digits = text.replace(".", "", 1)
    return min(float(text), 1.0) if digits.isdecimal() and digits.isascii() else 0.0


def _rating(media_type: str, ranges: list[tuple[str, float]]) -> float:
    """Quality of the most specific range that covers a media type; 0 when none does."""
    covering = (media_type, media_type.partition("/")[0] + "/*", "*/*")
    for name in covering:
        rated = [quality for media_range, quality in ranges if media_range == name]
        if rated:
            return max(rated)
    return 0.0


def require_json(content_type: str | None, content_encoding: str | None) -> None:
    """Refuse, with 415, a body that is not declared as plain JSON in UTF-8."""
    if content_type != JSON and not _is_json(content_type or ""):
        raise Problem("media-type-unsupported", headers=(("Accept", JSON),))
    if content_encoding not in (None, "", "identity"):
        raise Problem("media-type-unsupported", headers=(("Accept-Encoding", "identity"),))


def _is_json(content_type: str) -> bool:
    name, *parameters = (piece.strip().lower() for piece in content_type.split(";"))
    return name == JSON and all(parameter in ("", "charset=utf-8", 'charset="utf-8"') for parameter in parameters)
