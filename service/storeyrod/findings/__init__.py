"""The closed catalogue of findings and of the problems that stop a request.

A *finding* stands in an answer and points at one place of the wall. A *refusal* stops the request: the HTTP side turns it
into a problem document whose slug is the same word. Every entry says what triggers it; ``tests/unit/findings``
holds a case that does and one just inside that does not.
"""

from dataclasses import dataclass, field

from storeyrod.findings.catalogue import FINDINGS
from storeyrod.findings.kinds import Finding, FindingKind, Level, RefusalKind, Where
from storeyrod.findings.refusals import REFUSALS

__all__ = [
    "FINDINGS",
    "REFUSALS",
    "Fault",
    "Finding",
    "FindingKind",
    "Level",
    "Refusal",
    "RefusalKind",
    "Where",
    "finding",
    "refuse",
]


def finding(
    code: str,
    where: Where,
    *,
    value: float | None = None,
    limit: float | None = None,
    unit: str | None = None,
    advice: str | None = None,
) -> Finding:
    """One finding of the catalogue; ``advice`` replaces the catalogue's where the case allows a sharper one."""
    kind = FINDINGS[code]
    made: Finding = {"code": code, "level": kind.level, "where": where, "advice": advice or kind.advice}
    if value is not None:
        made["value"] = value
    if limit is not None:
        made["limit"] = limit
    if unit is not None:
        made["unit"] = unit
    return made


@dataclass(frozen=True)
class Fault:
    """One place of the request at fault: a JSON Pointer into it, a code and a sentence."""

    pointer: str
    code: str
    detail: str


@dataclass(eq=False)
class Refusal(Exception):  # noqa: N818  a refusal is the trade's word for it
    """A request that cannot be answered: slug of the catalogue, a sentence, and the places at fault."""

    slug: str
    detail: str
    faults: tuple[Fault, ...] = field(default=())

    def __post_init__(self) -> None:
        """Fail at once on a slug that the catalogue does not hold."""
        super().__init__(self.slug, self.detail, self.faults)
        REFUSALS[self.slug]

    def __str__(self) -> str:
        """Slug and sentence."""
        return f"{self.slug}: {self.detail}"


def refuse(slug: str, pointer: str, detail: str) -> Refusal:
    """A refusal with one place at fault; the sentence names value, limit and what to do."""
    return Refusal(slug, detail, (Fault(pointer, slug, detail),))
