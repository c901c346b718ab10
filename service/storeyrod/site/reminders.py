"""What fire codes remind of at a site: heights, boundary, use. Reminders as of a date, and never a verdict."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from storeyrod.findings import Finding, finding
from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of
from storeyrod.site.models import Site

AS_OF: Final = "November 2026"

STRICTEST_M: Final = 11.0
"""A height that is not given is read as this: the lowest at which a code known here rules out combustible walls."""

CLOSE_TO_BOUNDARY_M: Final = 1.0
"""AD B, walls under 1 m from a boundary (from memory); taken everywhere."""

THICKEST_FOAM_MM: Final = 300.0
"""Notice of the German building institute of May 2015 on barriers in rendered systems."""

SAID_OF_FIRE: Final = (
    f"Fire: nothing here is a verdict on fire. Heights named are reminders as of {AS_OF}, measured differently in each code; reaction to "
    "fire of the wall as built, barriers and distances must be checked by licensed practice under the local code.",
    "Fire, where country or height is not given: read the wall as one with a top storey at 11 m and more, from which several codes ask "
    "for non-combustible outer walls, and ask a fire engineer first.",
)
"""For what was not checked: the strictest text stands whether or not a site is given."""


@dataclass(frozen=True, slots=True)
class Threshold:
    """A height in m from which a code speaks of outer walls: at it, or only above it; hard ones withhold the verdict."""

    jurisdiction: str
    hard: bool
    limit: float
    inclusive: bool
    clause: Clause
    text: str

    def reached(self, height: float) -> bool:
        """Whether a top storey at this height is spoken of."""
        return height >= self.limit if self.inclusive else height > self.limit


def _threshold(row: Mapping[str, Any]) -> Threshold:
    clause = Clause(row["document"], row["number"], row["status"])
    return Threshold(row["jurisdiction"], row["level"] == "stop", row["limit_m"], row["inclusive"], clause, row["text"])


THRESHOLDS: Final = tuple(_threshold(row) for row in rows_of("fire_reminders"))
_NAMES: Final[Mapping[str, str]] = MappingProxyType(
    {row["name"]: row["jurisdiction"] for row in rows_of("jurisdiction_names")}
)
_SENSITIVE: Final[Mapping[str, bool]] = MappingProxyType(
    {row["word"]: row["sensitive"] for row in rows_of("building_uses")}
)
_NON_COMBUSTIBLE: Final = ("A1", "A2")


def jurisdiction_of(name: str | None) -> str:
    """The place of the table that a name stands for; ``unknown`` where none does."""
    return _NAMES.get(" ".join((name or "").lower().split()), "unknown")


def fire_reminders(site: Site, pointer: str, reaction: str | None, insulation_mm: float) -> list[Finding]:
    """Reminders for a site, its boards' class of reaction to fire and their thickness; of boards of class A1 or A2 only what their class leaves open."""
    if reaction in _NON_COMBUSTIBLE:
        return [finding("fire-class-of-board", {"pointer": "/system/board/reaction_to_fire"})]
    return [
        finding("fire-insulation", {"pointer": "/system/board"}),
        *_by_height(site, pointer),
        *_by_place(site, pointer, insulation_mm),
    ]


def _by_height(site: Site, pointer: str) -> Iterator[Finding]:
    place, height = jurisdiction_of(site.jurisdiction), site.top_storey_height_m
    if place == "unknown" or height is None:
        missing = "jurisdiction" if place == "unknown" else "top_storey_height_m"
        yield finding("fire-site-unknown", {"pointer": f"{pointer}/{missing}" if _given(site, missing) else pointer})
    for row in THRESHOLDS:
        if row.jurisdiction in (place, "everywhere") and row.reached(STRICTEST_M if height is None else height):
            yield _reached(row, site, pointer)


def _reached(row: Threshold, site: Site, pointer: str) -> Finding:
    """A threshold that the top storey reaches; a height that is missing is read as the strictest of them."""
    code = "fire-height-stop" if row.hard else "fire-height-reminder"
    advice = f"{row.text} ({row.clause}; a reminder as of {AS_OF}, local law decides.)"
    if site.top_storey_height_m is None:
        return finding(code, {"pointer": pointer}, advice=f"Height not given, read as {STRICTEST_M:g} m. {advice}")
    where, value = f"{pointer}/top_storey_height_m", site.top_storey_height_m
    return finding(code, {"pointer": where}, value=value, limit=row.limit, unit="m", advice=advice)


def _by_place(site: Site, pointer: str, insulation_mm: float) -> Iterator[Finding]:
    distance = site.boundary_distance_m
    if distance is None:
        yield finding("fire-boundary", {"pointer": pointer})
    elif distance < CLOSE_TO_BOUNDARY_M:
        where = f"{pointer}/boundary_distance_m"
        yield finding("fire-boundary", {"pointer": where}, value=distance, limit=CLOSE_TO_BOUNDARY_M, unit="m")
    if is_sensitive(site.use):
        yield finding("fire-use", {"pointer": f"{pointer}/use" if site.use is not None else pointer})
    if jurisdiction_of(site.jurisdiction) == "germany" and insulation_mm > THICKEST_FOAM_MM:
        where = "/system/board/thickness_mm"
        yield finding("fire-thickness", {"pointer": where}, value=insulation_mm, limit=THICKEST_FOAM_MM, unit="mm")


def is_sensitive(use: str | None) -> bool:
    """Whether a use is one where codes ask more: so named, or not known by any word."""
    words = "".join(letter if letter.isalpha() else " " for letter in (use or "").lower()).split()
    known = [_SENSITIVE[word] for word in words if word in _SENSITIVE]
    return any(known) or not known


def _given(site: Site, member: str) -> bool:
    return getattr(site, member) is not None
