"""What must not be in a face: one id twice, areas outside the outline, areas that overlap."""

from collections.abc import Iterable, Sequence
from typing import Final, Protocol

from storeyrod.findings import Refusal, refuse
from storeyrod.geometry.plane import SMALLEST_PART, Region, Ring, area_outside, overlap_area
from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.wall.features import FaceFeature
from storeyrod.wall.openings import FaceOpening
from storeyrod.wall.rings import meeting

ALONG_CURVES: Final = ticks(1.0)
"""House limit: a feature beside an arch or circle, its corners on the curve, may cut across it between them by this."""


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


def shared_areas(openings: Sequence[FaceOpening], features: Sequence[FaceFeature]) -> list[float]:
    """How much of each feature openings take: where it is drawn along an arch or circle, a little. Square ticks.

    Refuses openings that overlap one another, and features that overlap anything deeper than that.
    """
    areas: list[FaceOpening | FaceFeature] = [*openings, *features]
    taken = [0.0] * len(areas)
    for first, second in meeting([area.ring for area in areas]):
        lower, upper = sorted((first, second))
        shared = overlap_area(areas[lower].ring, areas[upper].ring)
        if shared > SMALLEST_PART and not _is_drawn_along(areas[lower], areas[upper]):
            raise _overlap(areas, len(openings), first, second, shared / TICKS_PER_MM**2)
        taken[upper] += shared
    return taken[len(openings) :]


def _is_drawn_along(first: FaceOpening | FaceFeature, second: FaceOpening | FaceFeature) -> bool:
    """Whether a feature keeps off the curve of an opening but for its outermost millimetre."""
    if not isinstance(first, FaceOpening) or not isinstance(second, FaceFeature) or not first.is_curved:
        return False
    core = Region((second.ring,)).inset(ALONG_CURVES).rings
    return sum(overlap_area(ring, first.ring) for ring in core) <= SMALLEST_PART


def _overlap(areas: Sequence[Area], openings: int, first: int, second: int, shared_mm2: float) -> Refusal:
    if max(first, second) < openings:
        slug, at, other = "opening-overlap", second, first
    else:
        slug, at, other = "feature-overlap", max(first, second), min(first, second)
    detail = f"Shares {shared_mm2:.10g} mm2 with {areas[other].pointer}; move one of them, or join them."
    return refuse(slug, areas[at].pointer, detail)
