"""Documents that figures come from, and the clause that a figure or formula cites."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final, Literal

from storeyrod.reference.tables import rows_of

Status = Literal["published", "memory", "common_practice", "independent_calculation", "house"]
"""How a value is known: seen in the document, from memory of it, a rule of the trade without a document,
calculated independently of this project, or this service's own suggestion."""


@dataclass(frozen=True, slots=True)
class Document:
    """One document: key, title, edition and what it is used for here."""

    key: str
    title: str
    edition: str
    use: str
    status: Status


@dataclass(frozen=True, slots=True)
class Clause:
    """A place in a document: key of the document, number of the clause or table, and how well it is known."""

    document: str
    number: str
    status: Status

    def __post_init__(self) -> None:
        """Fail at import on a document that the table does not hold."""
        DOCUMENTS[self.document]

    @property
    def edition(self) -> str:
        """Edition of the cited document."""
        return DOCUMENTS[self.document].edition

    def __str__(self) -> str:
        """Short citation, as it stands in ``source`` members."""
        return _citation(self.document, self.number)


@cache
def _citation(document: str, number: str) -> str:
    """Made once for each place: a short answer would spend a tenth of its time on citing."""
    edition = DOCUMENTS[document].edition
    named = f"{document}:{edition}" if edition else document
    return f"{named}, {number}" if number else named


def _documents() -> Mapping[str, Document]:
    return MappingProxyType({row["key"]: Document(**row) for row in rows_of("documents")})


DOCUMENTS: Final = _documents()

GEOMETRY: Final = Clause("geometry", "", "independent_calculation")
"""Plain geometry and arithmetic: true without a document."""

COMMON_PRACTICE: Final = Clause("common practice", "", "common_practice")
"""A rule of the trade for which no document is quoted."""

HOUSE: Final = Clause("storeyrod", "", "house")
"""This service's own suggestion, always editable."""
