"""What must not be in a face: one id twice, areas outside the outline, areas that overlap."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from storeyrod.findings import Refusal, refuse
from storeyrod.geometry.plane import SMALLEST_PART, Ring, area_outside, overlap_area
from storeyrod.geometry.ticks import TICKS_PER_MM
from storeyrod.wall.rings import meeting


class Area(Protocol):
    """An opening or feature."""

    @property
    def ring(self) -> Ring:
        """Its ring in ticks."""

    @property
    def pointer(self) -> str:
        """Its member of the request."""


def refuse_repeated(ids: Iterable[str], pointer: str) -> None:
    """Refuse an id that is used twice in the list at a pointer."""
    seen: dict[str, int] = {}
    for index, name in enumerate(ids):
        if name in seen:
            raise refuse(
                "duplicate-id",
                f"{pointer}/{index}/id",
                f"The id is already used by {pointer}/{seen[name]}; give each its own.",
            )
        seen[name] = index


def refuse_outside(areas: Sequence[Area], outline: Ring, slug: str, what: str) -> None:
    """Refuse areas that leave the outline."""
    for area in areas:
        outside = area_outside(area.ring, outline)
        if outside > SMALLEST_PART:
            lies = f"{outside / TICKS_PER_MM**2:.10g} mm2 of the {what} lie outside the outline"
            raise refuse(slug, area.pointer, f"{lies}; move it inside, or enlarge the outline.")


def refuse_shared(openings: Sequence[Area], features: Sequence[Area]) -> None:
    """Refuse openings that overlap one another, and features that overlap anything."""
    areas = [*openings, *features]
    for first, second in meeting([area.ring for area in areas]):
        shared = overlap_area(areas[first].ring, areas[second].ring)
        if shared > SMALLEST_PART:
            raise _overlap(areas, len(openings), first, second, shared / TICKS_PER_MM**2)


def _overlap(areas: Sequence[Area], openings: int, first: int, second: int, shared_mm2: float) -> Refusal:
    if max(first, second) < openings:
        slug, at, other = "opening-overlap", second, first
    else:
        slug, at, other = "feature-overlap", max(first, second), min(first, second)
    detail = f"Shares {shared_mm2:.10g} mm2 with {areas[other].pointer}; move one of them, or join them."
    return refuse(slug, areas[at].pointer, detail)
