"""Sizes and shapes to which slips are sawn, so that equal pieces are counted together."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from storeyrod.geometry.arc import Circle
from storeyrod.geometry.parts import made
from storeyrod.slips.arch_rings import VoussoirRing, arc_over
from storeyrod.slips.courses import Cut, LaidCourse
from storeyrod.slips.rake import SQUARE, CutShape, shape_of
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge


class CutSize(NamedTuple):
    """Length and height of a cut piece over its bounding box in ticks, and how it is sawn."""

    length: float
    height: float
    shape: CutShape = SQUARE


def circles_of(face: Face, rings: Sequence[VoussoirRing]) -> tuple[Circle, ...]:
    """Circles that bound the courses of a face: arches, the rings over them, and round openings."""
    return tuple(_circles(face, rings))


def _circles(face: Face, rings: Sequence[VoussoirRing]) -> Iterator[Circle]:
    for opening in face.openings:
        if opening.is_arch:
            arc = arc_over(opening)
            yield Circle(arc.x, arc.y, arc.radius)
        elif opening.model.kind == "circle":
            radius = (opening.right - opening.left) / 2.0
            yield Circle(opening.left + radius, opening.sill + radius, radius)
    for ring in rings:
        yield Circle(ring.arc.x, ring.arc.y, ring.outer_radius)


@dataclass(slots=True)
class Sawing:
    """Sizes of the cut pieces of one face, each worked out once."""

    gauge: Gauge
    circles: tuple[Circle, ...]
    _known: dict[int, CutSize] = field(default_factory=dict)

    def sizes(self, laid: LaidCourse, number: int) -> Iterator[tuple[Cut, CutSize]]:
        """Cut pieces of a laid course; ``number`` is one of the courses in which it lies."""
        near = self._near(self.gauge.bottom(number), laid.height) if self.circles else ()
        for cut in laid.cuts:
            left, bottom, right, top, _, _ = cut.part
            size = made(CutSize, (right - left, top - bottom, shape_of(cut.part, near)))
            self._known[id(cut)] = size
            yield cut, size

    def _near(self, foot: float, height: float) -> list[Circle]:
        """Circles that a course may meet, with heights from its foot."""
        return [
            Circle(circle.x, circle.y - foot, circle.radius)
            for circle in self.circles
            if abs(foot + height / 2.0 - circle.y) <= circle.radius + height
        ]

    def size_of(self, cut: Cut) -> CutSize:
        """Size of a cut piece of a laid course that was gone through already."""
        return self._known[id(cut)]
