"""Types of the catalogue: a kind of finding, a kind of refusal, and one finding as it stands in an answer."""

from dataclasses import dataclass
from typing import Literal, NotRequired

from typing_extensions import TypedDict

Level = Literal["stop", "caution", "info"]


@dataclass(frozen=True, slots=True)
class FindingKind:
    """Catalogue entry of a finding."""

    code: str
    level: Level
    meaning: str
    trigger: str
    advice: str


@dataclass(frozen=True, slots=True)
class RefusalKind:
    """Catalogue entry of a domain problem that stops the whole request."""

    slug: str
    title: str
    trigger: str
    advice: str


class Where(TypedDict):
    """Where on the wall, or in the request, a finding lies."""

    pointer: NotRequired[str]
    elevation: NotRequired[str]
    opening: NotRequired[str]
    openings: NotRequired[list[str]]
    x_mm: NotRequired[float]
    x_to_mm: NotRequired[float]
    y_mm: NotRequired[float]
    pieces: NotRequired[list[str]]


class Finding(TypedDict):
    """One remark on the answer: code, place, measured value, limit and what to do."""

    code: str
    level: Level
    where: Where
    value: NotRequired[float]
    limit: NotRequired[float]
    unit: NotRequired[str]
    advice: str
