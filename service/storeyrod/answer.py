"""What every calculation hands back, and the assumptions that its request left to defaults."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache
from typing import Any, Generic, NotRequired, TypeVar, get_args

from pydantic import BaseModel, ConfigDict
from typing_extensions import TypedDict

from storeyrod.findings import Fault, Finding, Refusal
from storeyrod.reference.documents import Clause, Status

R = TypeVar("R")


class Closed(BaseModel):
    """Base of every request model: frozen, and closed to members it does not know."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False, protected_namespaces=())

    def idle_members(self) -> frozenset[str]:
        """Members whose defaults stand for nothing here: another member supplies them, or rules them out."""
        return frozenset()


@dataclass(frozen=True, slots=True)
class Assumed:
    """Metadata of a defaulted field: its unit code and where the default comes from."""

    unit: str
    clause: Clause
    note: str = ""


class Assumption(TypedDict):
    """A default that this request relied on."""

    field: str
    value: float | str | bool
    unit: NotRequired[str]
    status: Status
    source: str


@dataclass
class Answer(Generic[R]):
    """Result of a calculation with what a reader must know beside it."""

    result: R
    findings: list[Finding] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)
    not_checked: list[str] = field(default_factory=list)


def assumptions_of(request: BaseModel) -> list[Assumption]:
    """Every default with a source that this request left untouched, in field order."""
    return list(_assumptions(request, ""))


def _assumptions(model: BaseModel, pointer: str) -> Iterator[Assumption]:
    idle = model.idle_members() if isinstance(model, Closed) else frozenset()
    for name, assumed, nests in _fields(type(model)):
        if name in idle:
            continue
        value = getattr(model, name)
        here = f"{pointer}/{name}"
        if assumed is not None and value is not None and name not in model.model_fields_set:
            yield stated(here, getattr(value, "kind", value), assumed)
        if nests:
            yield from _nested(value, here)


def _nested(value: object, pointer: str) -> Iterator[Assumption]:
    if isinstance(value, BaseModel):
        if _fields(type(value)):
            yield from _assumptions(value, pointer)
    elif isinstance(value, list | tuple):
        for index, item in enumerate(value):
            if not isinstance(item, BaseModel) or _fields(type(item)):
                yield from _nested(item, f"{pointer}/{index}")


@cache
def _fields(model: type[BaseModel]) -> tuple[tuple[str, Assumed | None, bool], ...]:
    """Fields that are assumed themselves, or hold models that have such fields: the others need no visit."""
    rows = (
        (
            name,
            next((mark for mark in info.metadata if isinstance(mark, Assumed)), None),
            _holds_assumed(info.annotation),
        )
        for name, info in model.model_fields.items()
    )
    return tuple(row for row in rows if row[1] is not None or row[2])


def _holds_assumed(annotation: Any) -> bool:  # noqa: ANN401  any type
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return bool(_fields(annotation))
    return any(_holds_assumed(part) for part in get_args(annotation))


def stated(pointer: str, value: Any, assumed: Assumed) -> Assumption:  # noqa: ANN401  a number or a word
    """One assumption row; a note of the default stands behind its source."""
    source = f"{assumed.clause} ({assumed.note})" if assumed.note else str(assumed.clause)
    made: Assumption = {"field": pointer, "value": value, "status": assumed.clause.status, "source": source}
    if assumed.unit:
        made["unit"] = assumed.unit
    return made


def unique(findings: Iterable[Finding]) -> list[Finding]:
    """The findings in order, each once: rooms that share a check may both report it."""
    seen: dict[str, Finding] = {}
    for item in findings:
        seen.setdefault(repr(item), item)
    return list(seen.values())


def refuse_cautions(findings: Iterable[Finding]) -> None:
    """The ``strict`` option: raise every caution and stop as one refusal."""
    faults = tuple(
        Fault(item["where"].get("pointer", ""), item["code"], item["advice"])
        for item in findings
        if item["level"] != "info"
    )
    if faults:
        raise Refusal("strict-cautions", f"{len(faults)} caution(s) with options.strict; see errors", faults)
