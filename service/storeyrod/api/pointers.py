"""JSON Pointers (RFC 6901) into the document that was sent."""

from collections.abc import Iterator, Sequence
from typing import Any, Final

DISCRIMINATOR: Final = "kind"
LONGEST_POINTER: Final = 400
"""A member name can be as long as the body; beyond this the pointer stops at its parent."""

Segment = str | int


def pointer(segments: Sequence[Segment]) -> str:
    """The segments as one pointer, ``~`` and ``/`` escaped, shortened to a parent when it gets too long."""
    made = ""
    for segment in segments:
        longer = f"{made}/{str(segment).replace('~', '~0').replace('/', '~1')}"
        if len(longer) > LONGEST_POINTER:
            break
        made = longer
    return made


def segments_of(text: str) -> list[str]:
    """Segments of a pointer, unescaped."""
    return [part.replace("~1", "/").replace("~0", "~") for part in text.split("/")[1:]]


def value_at(document: Any, text: str) -> Any:  # noqa: ANN401  any JSON value
    """Value that a pointer names; raises ``KeyError`` when nothing stands there."""
    for segment in segments_of(text):
        document = _child(document, segment)
    return document


def existing(text: str, document: Any) -> str:  # noqa: ANN401  any JSON value
    """The pointer itself, or its nearest parent that stands in the document.

    Calculations point into the request with its defaults filled in; a caller knows only what was sent.
    """
    kept: list[str] = []
    for segment in segments_of(text):
        try:
            document = _child(document, segment)
        except KeyError:
            break
        kept.append(segment)
    return pointer(kept)


def sent(location: Sequence[Segment], document: Any, *, missing: bool) -> str:  # noqa: ANN401  any JSON value
    """Pointer for the location of a schema error, which holds the tags of unions between real members.

    A missing member is pointed at where it would stand.
    """
    found = _resolved(tuple(location), document, missing=missing)
    return pointer(found if found is not None else list(_plain_walk(location, document)))


def _child(document: Any, segment: Segment) -> Any:  # noqa: ANN401  any JSON value
    if isinstance(document, dict) and isinstance(segment, str) and segment in document:
        return document[segment]
    if isinstance(document, list) and str(segment).isdecimal() and int(segment) < len(document):
        return document[int(segment)]
    raise KeyError(segment)


def _resolved(location: tuple[Segment, ...], document: Any, *, missing: bool) -> list[Segment] | None:  # noqa: ANN401  any JSON value
    """Segments left when tags are skipped, such that the last one stands (or would stand) in the document."""
    if not location:
        return []
    head, rest = location[0], location[1:]
    if missing and not rest:
        return [head] if isinstance(document, dict) and head not in document else None
    skipped = _skip(head, rest, document, missing=missing)
    if skipped is not None and isinstance(document, dict) and document.get(DISCRIMINATOR) == head:
        return skipped
    try:
        below = _resolved(rest, _child(document, head), missing=missing)
    except KeyError:
        return skipped
    return [head, *below] if below is not None else skipped


def _skip(head: Segment, rest: tuple[Segment, ...], document: Any, *, missing: bool) -> list[Segment] | None:  # noqa: ANN401  any JSON value
    return _resolved(rest, document, missing=missing) if isinstance(head, str) and rest else None


def _plain_walk(location: Sequence[Segment], document: Any) -> Iterator[Segment]:  # noqa: ANN401  any JSON value
    """Every segment that stands, the others skipped: for a location that no reading resolves whole."""
    for segment in location:
        try:
            document = _child(document, segment)
        except KeyError:
            continue
        yield segment
