"""Short ways to ask for quantities in tests."""

from typing import Any

from storeyrod.answer import Answer
from storeyrod.quantities.calculation import calculate
from storeyrod.quantities.models import OrderLine, QuantitiesRequest, QuantitiesResult
from storeyrod.trace import SILENT, Trace
from unit.wall.survey import PLAIN


def asked(*elevations: dict[str, Any], options: dict[str, Any] | None = None, **system: Any) -> QuantitiesRequest:
    """A request with the plain system, parts of it replaced member by member."""
    parts = {
        name: {**PLAIN.get(name, {}), **system[name]} if isinstance(system.get(name), dict) else system.get(name, PLAIN.get(name))
        for name in {*PLAIN, *system}
    }  # fmt: skip
    return QuantitiesRequest.model_validate(
        {"elevations": list(elevations), "system": parts, "options": {"detail": "summary", **(options or {})}}
    )


def answer(
    *elevations: dict[str, Any], options: dict[str, Any] | None = None, trace: Trace = SILENT, **system: Any
) -> Answer[QuantitiesResult]:
    return calculate(asked(*elevations, options=options, **system), trace)


def quantities(*elevations: dict[str, Any], options: dict[str, Any] | None = None, **system: Any) -> QuantitiesResult:
    return answer(*elevations, options=options, **system).result


def line(lines: list[OrderLine], role: str) -> OrderLine:
    (found,) = [one for one in lines if one["role"] == role]
    return found
