"""Where zones of wind end on a face: broken lines over its wall, and their distances from its ends and levels."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import Final

from storeyrod.drawings.dimensions import stops_of
from storeyrod.drawings.display_list import Group, Line, Style
from storeyrod.drawings.lettering import number
from storeyrod.drawings.line_styles import MEDIUM, finer
from storeyrod.drawings.stops import ends_of_face
from storeyrod.drawings.wall_part import WallPart
from storeyrod.geometry.intervals import Interval, intersection
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face
from storeyrod.wind.face_wind import WindPatch
from storeyrod.wind.site_models import SideName

ZONE_EDGE: Final = Style(MEDIUM, dashes=(3.0, 1.0))


@dataclass(frozen=True, slots=True)
class DrawnZone:
    """A rectangle of one zone, suction and pressure in Pa, and the directions that give this suction; ticks."""

    left: float
    right: float
    bottom: float
    top: float
    zone: str
    directions: tuple[SideName, ...]
    suction: float
    pressure: float


@dataclass(frozen=True)
class ZoneEdges:
    """Zones of a face from disjoint patches in rows; what they leave uncovered, such as a parapet, was not assessed."""

    face: Face
    patches: Sequence[WindPatch]
    part: WallPart | None = None
    """What of the face is shown; absent: all of it."""

    @cached_property
    def zones(self) -> list[DrawnZone]:
        """Zones from the lowest and leftmost; neighbours that differ by direction alone are one."""
        found: list[DrawnZone] = []
        for one in sorted(self.patches, key=lambda patch: (patch.bottom, patch.left)):
            zone = DrawnZone(
                one.left, one.right, one.bottom, one.top, one.zone, (one.direction,), one.suction, one.pressure
            )
            if (
                found
                and found[-1].bottom == one.bottom
                and found[-1].right == one.left
                and not _differ(found[-1], zone)
            ):
                before = found.pop()
                directions = tuple(dict.fromkeys((*before.directions, *zone.directions)))
                zone = replace(zone, left=before.left, directions=directions)
            found.append(zone)
        return found

    @cached_property
    def assessed_to(self) -> float:
        """Level up to which wind was assessed, in ticks."""
        return max((zone.top for zone in self.zones), default=self.face.foot)

    @cached_property
    def plumb(self) -> list[tuple[float, float, float]]:
        """Edges between neighbours that differ: x, low and high, in ticks."""
        return [
            (second.left, first.bottom, first.top)
            for first, second in pairwise(self.zones)
            if first.bottom == second.bottom and first.right == second.left
        ]

    @cached_property
    def level(self) -> list[tuple[float, float, float]]:
        """Edges between patches over one another that differ, and above the highest ones: y, left and right, in ticks."""
        return sorted({*self._between(), *self._above()})

    def _between(self) -> Iterator[tuple[float, float, float]]:
        by_foot: dict[float, list[DrawnZone]] = {}
        for zone in self.zones:
            by_foot.setdefault(zone.bottom, []).append(zone)
        for lower in self.zones:
            for upper in by_foot.get(lower.top, ()):
                left, right = max(lower.left, upper.left), min(lower.right, upper.right)
                if left < right and _differ(lower, upper):
                    yield lower.top, left, right

    def _above(self) -> Iterator[tuple[float, float, float]]:
        if self.zones and self.assessed_to < self.face.top:
            yield self.assessed_to, self.face.left, self.face.right

    @property
    def any(self) -> bool:
        """Whether a zone ends on the face."""
        return bool(self.plumb or self.level)

    @cached_property
    def stops(self) -> tuple[float, ...]:
        """Ends of what is shown, and plumb edges in it, in mm."""
        stops = stops_of([*ends_of_face(self.face), *(millimetres(x) for x, _, _ in self.plumb)])
        return self.part.stops(stops) if self.part is not None else stops

    @cached_property
    def levels(self) -> tuple[float, ...]:
        """Foot and top of the face and level edges in mm."""
        ends = (millimetres(self.face.foot), millimetres(self.face.top))
        return stops_of([*ends, *(millimetres(y) for y, _, _ in self.level)])

    @cached_property
    def words(self) -> tuple[tuple[str, ...], ...]:
        """For each length between stops: its zone with its distances from the nearer end, its zone, or its figure alone."""
        first, last = ends_of_face(self.face)
        return tuple(self._said(low, high, first, last) for low, high in pairwise(self.stops))

    def _said(self, low: float, high: float, first: float, last: float) -> tuple[str, ...]:
        zones = "/".join(sorted({one.zone for one in self.zones if _covers(one, (low + high) / 2.0)}))
        from_left = low - first <= last - high
        near, far = (low - first, high - first) if from_left else (last - high, last - low)
        short = f"{zones}: {number(high - low)}"
        if (low, high) == (first, last):
            return (short,)
        return f"{short}, {number(near)} to {number(far)} from {'left' if from_left else 'right'} end", short


def _covers(zone: DrawnZone, x: float) -> bool:
    return millimetres(zone.left) < x < millimetres(zone.right)


def _differ(first: DrawnZone, second: DrawnZone) -> bool:
    return (first.zone, first.suction, first.pressure) != (second.zone, second.suction, second.pressure)


def zone_edge_groups(edges: ZoneEdges, scale: float) -> tuple[Group, ...]:
    """Edges of zones where there is wall."""
    lines = (*_plumb_lines(edges), *_level_lines(edges))
    return (Group("zone-edge", finer(ZONE_EDGE, scale), lines),) if lines else ()


def _plumb_lines(edges: ZoneEdges) -> Iterator[Line]:
    for x, low, high in edges.plumb:
        for bottom, top in _on_wall(edges.face.region.heights_at(x), low, high):
            yield Line((millimetres(x), bottom), (millimetres(x), top))


def _level_lines(edges: ZoneEdges) -> Iterator[Line]:
    for y, low, high in edges.level:
        for left, right in _on_wall(edges.face.region.level_runs(y), low, high):
            yield Line((left, millimetres(y)), (right, millimetres(y)))


def _on_wall(runs: Sequence[Interval], low: float, high: float) -> list[tuple[float, float]]:
    return [(millimetres(start), millimetres(end)) for start, end in intersection(runs, [(low, high)])]
