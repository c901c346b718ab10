"""Plumb lines at which courses end: jambs of openings, and plumb edges of outline and features."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Box, Ring, rectangle
from storeyrod.wall.face import Face
from storeyrod.wall.openings import FaceOpening

End = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class JambLine:
    """A jamb: its opening, its side of it, which is where wall stands, its place and heights. Ticks."""

    opening: FaceOpening
    side: End
    x: float
    heights: Interval

    @property
    def ends_run(self) -> End:
        """End of the run beside it: a left jamb ends the wall on its left."""
        return "right" if self.side == "left" else "left"


@dataclass(frozen=True, slots=True)
class PlumbLines:
    """Plumb lines of a face, by their place."""

    jambs: tuple[JambLine, ...]
    edges: Mapping[float, Sequence[Interval]]
    by_place: Mapping[float, Sequence[JambLine]] = field(default_factory=dict)

    def jamb_at(self, x: float, ends_run: End, course: Interval) -> JambLine | None:
        """The jamb at which a run of a course ends."""
        return next(
            (one for one in self.by_place.get(x, ()) if one.ends_run == ends_run and _share(one.heights, course)), None
        )

    def is_plumb(self, x: float, course: Interval) -> bool:
        """Whether a course that ends here ends at a plumb edge of the outline or of a feature."""
        return any(_share(heights, course) for heights in self.edges.get(x, ()))


def plumb_lines(face: Face, upright: Sequence[Box] = ()) -> PlumbLines:
    """Plumb lines of a face; the ends of its upright slips are plumb too."""
    sides: tuple[End, End] = ("left", "right")
    jambs = tuple(
        JambLine(opening, side, edge.x, edge.heights)
        for opening in face.openings
        for side in sides
        for edge in opening.jambs(side)
    )
    by_place: dict[float, list[JambLine]] = {}
    for jamb in jambs:
        by_place.setdefault(jamb.x, []).append(jamb)
    edges: dict[float, list[Interval]] = {}
    zones = (rectangle(*zone) for zone in upright)
    for ring in (face.outline, *(feature.ring for feature in face.features), *zones):
        for x, heights in _plumb_edges(ring):
            edges.setdefault(x, []).append(heights)
    return PlumbLines(jambs, edges, by_place)


def _plumb_edges(ring: Ring) -> list[tuple[float, Interval]]:
    corners = pairwise((*ring, ring[0]))
    return [(a[0], (min(a[1], b[1]), max(a[1], b[1]))) for a, b in corners if a[0] == b[0]]


def _share(one: Interval, other: Interval) -> bool:
    return one[0] < other[1] and other[0] < one[1]
