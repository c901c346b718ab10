"""What fire codes remind of at a site: heights, boundary, use. Reminders as of a date, and never a verdict."""

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from storeyrod.findings import Finding, Where, finding
from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of
from storeyrod.site.models import Site

AS_OF: Final = "November 2026"

CLOSE_TO_BOUNDARY_M: Final = 1.0
"""AD B, walls under 1 m from a boundary (from memory); taken everywhere."""

THICKEST_FOAM_MM: Final = 300.0
"""Notice of the German building institute of May 2015 on barriers in rendered systems."""

SAID_OF_FIRE: Final = (
    f"Fire: nothing here is a verdict on fire. Heights named are reminders as of {AS_OF}, measured differently in each code; reaction to "
    "fire of the wall as built, barriers and distances must be checked by licensed practice under the local code.",
    "Fire, where country or height is not given: the strictest text known here stands. Several codes ask for non-combustible outer walls "
    "from a top storey at 11 m, some ask for more at any height; ask a fire engineer first.",
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
_SENSITIVE: Final[Mapping[str, bool]] = MappingProxyType(
    {row["word"]: row["sensitive"] for row in rows_of("building_uses")}
)
_NON_COMBUSTIBLE: Final = ("A1", "A2")
_EVERYWHERE: Final = "everywhere"


def _plain(name: str) -> str:
    """A name without case, accents and points, with single spaces."""
    letters = unicodedata.normalize("NFKD", name.casefold())
    kept = "".join(letter for letter in letters if not unicodedata.combining(letter) and letter != ".")
    return " ".join(kept.replace("-", " ").split())


def _places_by_name() -> dict[str, tuple[str, ...]]:
    places: dict[str, tuple[str, ...]] = {}
    for row in rows_of("jurisdiction_names"):
        name = _plain(row["name"])
        places[name] = (*places.get(name, ()), row["jurisdiction"])
    return places


_NAMES: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(_places_by_name())
_ALL_PLACES: Final = tuple(dict.fromkeys(row.jurisdiction for row in THRESHOLDS if row.jurisdiction != _EVERYWHERE))


def places_of(name: str | None) -> tuple[str, ...]:
    """The places of the table that a name may stand for: one, the parts of a country, or all of them where it is not known."""
    return _NAMES.get(_plain(name or ""), _ALL_PLACES)


def fire_reminders(site: Site, pointer: str, reaction: str | None, insulation_mm: float) -> list[Finding]:
    """Reminders for a site, its boards' class of reaction to fire and their thickness; a class of the bare board takes none of them away."""
    board = "fire-class-of-board" if reaction in _NON_COMBUSTIBLE else "fire-insulation"
    where = "/system/board/reaction_to_fire" if reaction in _NON_COMBUSTIBLE else "/system/board"
    foam_mm = 0.0 if reaction in _NON_COMBUSTIBLE else insulation_mm
    return [finding(board, {"pointer": where}), *_by_height(site, pointer), *_by_place(site, pointer, foam_mm)]


def _by_height(site: Site, pointer: str) -> Iterator[Finding]:
    places, height = places_of(site.jurisdiction), site.top_storey_height_m
    if len(places) > 1 or height is None:
        missing = "jurisdiction" if len(places) > 1 else "top_storey_height_m"
        where: Where = {"pointer": f"{pointer}/{missing}" if _given(site, missing) else pointer}
        yield finding("fire-site-unknown", where, advice=_what_to_give(places, height))
    for row in _held_against(places):
        if height is None or row.reached(height):
            yield _reached(row, site, pointer, read_as=row.jurisdiction if len(places) > 1 else None)


def _what_to_give(places: Sequence[str], height: float | None) -> str:
    lacking = []
    if len(places) > 1:
        lacking.append("site.jurisdiction by a name that is known here (of the United Kingdom, its part)")
    if height is None:
        lacking.append("site.top_storey_height_m")
    named = "the lowest heights of the places that it may be" if len(places) > 1 else "all heights known there"
    return f"Give {' and '.join(lacking)}; until then {named} are named."


def _held_against(places: Sequence[str]) -> list[Threshold]:
    """Thresholds of a place; of several places the lowest reminder and the lowest hard one, for it may be any of them."""
    everywhere = [row for row in THRESHOLDS if row.jurisdiction == _EVERYWHERE]
    rows = [row for row in THRESHOLDS if row.jurisdiction in places]
    if len(places) > 1:
        rows = [min((row for row in rows if row.hard is hard), key=_by_limit) for hard in (False, True)]
    return [*everywhere, *rows]


def _by_limit(row: Threshold) -> tuple[float, bool]:
    return row.limit, not row.inclusive


def _reached(row: Threshold, site: Site, pointer: str, *, read_as: str | None) -> Finding:
    """A threshold that the top storey reaches, or may reach where its height is missing."""
    code = "fire-height-stop" if row.hard else "fire-height-reminder"
    advice = f"{row.text} ({row.clause}; a reminder as of {AS_OF}, local law decides.)"
    if read_as is not None and read_as != _EVERYWHERE:
        advice = f"Country not known for sure; this is the rule of {read_as.title()}, one of the places that it may be. {advice}"
    if site.top_storey_height_m is None:
        return finding(code, {"pointer": pointer}, advice=f"Height not given, read as any height. {advice}")
    where, value = f"{pointer}/top_storey_height_m", site.top_storey_height_m
    return finding(code, {"pointer": where}, value=value, limit=row.limit, unit="m", advice=advice)


def _by_place(site: Site, pointer: str, foam_mm: float) -> Iterator[Finding]:
    distance = site.boundary_distance_m
    if distance is None:
        yield finding("fire-boundary", {"pointer": pointer})
    elif distance < CLOSE_TO_BOUNDARY_M:
        where = f"{pointer}/boundary_distance_m"
        yield finding("fire-boundary", {"pointer": where}, value=distance, limit=CLOSE_TO_BOUNDARY_M, unit="m")
    if is_sensitive(site.use):
        yield finding("fire-use", {"pointer": f"{pointer}/use" if site.use is not None else pointer})
    if "germany" in places_of(site.jurisdiction) and foam_mm > THICKEST_FOAM_MM:
        where = "/system/board/thickness_mm"
        yield finding("fire-thickness", {"pointer": where}, value=foam_mm, limit=THICKEST_FOAM_MM, unit="mm")


def is_sensitive(use: str | None) -> bool:
    """Whether a use is one where codes ask more: so named, or not known by any word."""
    words = "".join(letter if letter.isalpha() else " " for letter in (use or "").lower()).split()
    known = [_SENSITIVE[word] for word in words if word in _SENSITIVE]
    return any(known) or not known


def _given(site: Site, member: str) -> bool:
    return getattr(site, member) is not None
