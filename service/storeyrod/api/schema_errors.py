"""What a request has against its schema, in this service's own words: the rule and what to do, never the input."""

from collections.abc import Callable, Mapping, Sequence
from itertools import islice
from types import MappingProxyType
from typing import Any, Final

from pydantic import ValidationError

from storeyrod.api.pointers import DISCRIMINATOR, Segment, pointer, sent
from storeyrod.api.problems import Problem
from storeyrod.units import unit_of_member

Context = Mapping[str, Any]


def _limit(words: str, key: str) -> Callable[[Context], str]:
    return lambda context: words.format(f"{context[key]:.10g}{context['unit']}")


def _plural(words: str, key: str) -> Callable[[Context], str]:
    return lambda context: words.format(context[key], "" if context[key] == 1 else "s")


def _says(words: str) -> Callable[[Context], str]:
    return lambda context: words


def _pattern_words(pattern: str) -> str:
    """Patterns of this service leave out characters; only edges of elevations have a form."""
    if pattern.endswith(":(left|right)$"):
        return "Must be the id of an elevation, a colon, and left or right, like north:left."
    colon = "no colon and " if pattern.endswith(":]+$") else ""
    return f"Must hold {colon}no line break or other control character."


_WORDS: Final[Mapping[str, Callable[[Context], str]]] = MappingProxyType(
    {
        "missing": _says("This member is required; add it."),
        "extra_forbidden": _says("No such member here; check its spelling, or remove it."),
        "greater_than_equal": _limit("Must be at least {}.", "ge"),
        "less_than_equal": _limit("Must be at most {}.", "le"),
        "greater_than": _limit("Must be over {}.", "gt"),
        "less_than": _limit("Must be under {}.", "lt"),
        "multiple_of": _limit("Must be a multiple of {}.", "multiple_of"),
        "finite_number": _says("Must be a finite number."),
        "float_type": _says("Must be a number, without quotation marks."),
        "float_parsing": _says("Must be a number."),
        "int_type": _says("Must be a whole number, without quotation marks."),
        "int_parsing": _says("Must be a whole number."),
        "int_from_float": _says("Must be a whole number, without a fraction."),
        "bool_type": _says("Must be true or false, without quotation marks."),
        "string_type": _says("Must be a string."),
        "list_type": _says("Must be an array."),
        "dict_type": _says("Must be an object."),
        "model_type": _says("Must be an object."),
        "model_attributes_type": _says("Must be an object."),
        "none_required": _says("Must be null or absent."),
        "literal_error": lambda context: f"Must be one of: {context['expected']}.",
        "too_short": _plural("Must hold at least {} item{}.", "min_length"),
        "too_long": _plural("Must hold at most {} item{}; split the request.", "max_length"),
        "repeated_item": _says("Must name each item once; leave out what is repeated."),
        "string_too_short": _plural("Must have at least {} character{}.", "min_length"),
        "string_too_long": _plural("Must have at most {} character{}.", "max_length"),
        "string_pattern_mismatch": lambda context: _pattern_words(context["pattern"]),
        "union_tag_not_found": _says(f"`{DISCRIMINATOR}` is required here; it says which members apply."),
        "union_tag_invalid": lambda context: f"Must be one of: {context['expected_tags']}.",
    }
)
_OTHERWISE: Final = _says("Does not fit the schema of this operation; see /openapi.json.")
_AT_THE_TAG: Final = ("union_tag_not_found", "union_tag_invalid")


def invalid_request(error: ValidationError, document: Any, errors_limit: int) -> Problem:  # noqa: ANN401  any JSON value
    """The problem ``request-invalid`` with at most ``errors_limit`` errors and the number of those left out."""
    listed = error.errors(include_url=False, include_input=False)
    rows = [_row(item, document) for item in islice(listed, errors_limit)]
    count = len(listed)
    left_out = count - len(rows)
    more = f"; the first {len(rows)} are listed" if left_out else ""
    first = f"{rows[0]['pointer'] or 'The body'}: {rows[0]['detail']}"
    detail = f"{count} error{'' if count == 1 else 's'} against the schema{more}. {first}"
    return Problem("request-invalid", detail, errors=rows, left_out=left_out)


def _row(item: Any, document: Any) -> dict[str, str]:  # noqa: ANN401  pydantic's ErrorDetails, any JSON value
    kind: str = item["type"]
    place = sent(item["loc"], document, missing=kind == "missing")
    if kind in _AT_THE_TAG:
        place = f"{place}{pointer([DISCRIMINATOR])}"
    context = {**item.get("ctx", {}), "unit": _unit(item["loc"])}
    return {"pointer": place, "code": _code(kind), "detail": _WORDS.get(kind, _OTHERWISE)(context)}


def _unit(location: Sequence[Segment]) -> str:
    """What the name of the nearest member says its unit is, behind a space; empty when it says nothing."""
    name = next((segment for segment in reversed(location) if isinstance(segment, str)), "")
    unit = unit_of_member(name)
    return f" {unit.label}" if unit is not None and unit.label else ""


def _code(kind: str) -> str:
    return kind.replace("_", "-")
