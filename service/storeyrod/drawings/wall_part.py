"""A part of a wall along its length: where it begins and ends, whether the wall goes on there, and what of a drawing it shows."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.clipping import clipped, clipped_polygon, clipped_polyline
from storeyrod.drawings.display_list import Group, Point, Polygon
from storeyrod.drawings.lettering import number
from storeyrod.drawings.sheet_frame import Extent
from storeyrod.findings import refuse
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import bounds
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face

EVERYWHERE: Final[Interval] = (-math.inf, math.inf)
"""What is drawn of a whole wall."""

LEAST: Final = 100.0
"""A shorter part would show less than a course of its wall, mm (a rule of this service)."""


@dataclass(frozen=True, slots=True)
class WallPart:
    """From ``left`` to ``right`` of a face that reaches from ``first`` to ``last``; all in mm."""

    left: float
    right: float
    first: float
    last: float

    @property
    def breaks(self) -> tuple[float, ...]:
        """Where the drawing is broken off: ends of the part at which the wall goes on."""
        return tuple(x for x, end in ((self.left, self.first), (self.right, self.last)) if x != end)

    @property
    def window(self) -> Interval:
        """What is drawn: all that stands beyond an end of the wall too, such as boards that run past a corner."""
        return (
            self.left if self.left in self.breaks else -math.inf,
            self.right if self.right in self.breaks else math.inf,
        )

    @property
    def words(self) -> str:
        """Its ends as a drawing names them; empty for a whole wall."""
        return f"x {number(self.left)} to {number(self.right)}" if self.breaks else ""

    def holds(self, x: float) -> bool:
        """Whether a point is of this part; one on a break is of the part at its right, so that neighbours share none."""
        low, high = self.window
        return low <= x < high

    def overlaps(self, low: float, high: float) -> bool:
        """Whether something between two places is seen, if only in part."""
        return low < self.window[1] and high > self.window[0]

    def stops(self, stops: Sequence[float]) -> tuple[float, ...]:
        """Those of the stops that are seen, with the ends of the part."""
        if not self.breaks:
            return tuple(stops)
        return tuple(sorted({self.left, self.right, *(stop for stop in stops if self.left < stop < self.right)}))

    def seen(self, face: Face) -> Face:
        """The face with the openings and features that are seen."""
        if not self.breaks:
            return face
        openings = tuple(one for one in face.openings if self._sees(one.left, one.right))
        features = tuple(one for one in face.features if self._sees(bounds(one.ring)[0], bounds(one.ring)[2]))
        return replace(face, openings=openings, features=features)

    def _sees(self, low: float, high: float) -> bool:
        """Whether something between two places, in ticks, is seen, if only in part."""
        return self.overlaps(millimetres(low), millimetres(high))

    def extent(self, extent: Extent) -> Extent:
        """What of an extent is seen."""
        if not self.breaks:
            return extent
        (left, bottom, right, top), (low, high) = extent.box, self.window
        ground: tuple[Point, ...] = next(iter(clipped_polyline(extent.ground, self.window)), ())
        return Extent((max(left, low), bottom, min(right, high), top), ground)

    def clipped(self, groups: Iterable[Group], scale: float) -> tuple[Group, ...]:
        """What of groups on the wall is seen at one to ``scale``."""
        return clipped(groups, self.window, scale) if self.breaks else tuple(groups)

    def polygon(self, shape: Polygon) -> Polygon:
        """What of a shape is seen; it must be seen in part."""
        return next(iter(clipped_polygon(shape, self.window)), shape) if self.breaks else shape


def whole_of(face: Face) -> WallPart:
    """All of a face."""
    left, right = millimetres(face.left), millimetres(face.right)
    return WallPart(left, right, left, right)


def part_of(face: Face, x_from: float | None, x_to: float | None, pointer: str) -> WallPart:
    """The part between two places in mm, as far as there is wall; without one of them, from or to that end of the face.

    Raises ``part-off-wall`` where less than ``LEAST`` of the wall lies between them; ``pointer`` is that of the sheet.
    """
    whole = whole_of(face)
    left = whole.left if x_from is None else min(max(x_from, whole.left), whole.right)
    right = whole.right if x_to is None else min(max(x_to, whole.left), whole.right)
    if right - left >= min(LEAST, whole.right - whole.left):
        return replace(whole, left=left, right=right)
    member = "x_to_mm" if x_to is not None else "x_from_mm"
    detail = (
        f"The elevation reaches from x {number(whole.left)} to {number(whole.right)} mm, and x_from_mm to x_to_mm takes "
        f"{number(max(0.0, right - left))} mm of it; give x_from_mm, and an x_to_mm that is at least {LEAST:g} mm greater, on the wall."
    )
    raise refuse("part-off-wall", f"{pointer}/{member}", detail)
