"""Features of a face: areas that something else than slips covers. Boards run on behind them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from storeyrod.findings import refuse
from storeyrod.geometry.plane import Ring, bounds, rectangle, signed_area
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.models import Feature, PolygonFeature
from storeyrod.wall.moved_ends import moved_ends
from storeyrod.wall.rings import PlumbEdge, checked_ring, sides_of


@dataclass(frozen=True, slots=True)
class FaceFeature:
    """A feature in the finished plane: its ring in ticks, and the pointer of its request member.

    ``taken`` is the area of the slivers that an arch or circle beside it takes from the ring.
    """

    model: Feature
    pointer: str
    ring: Ring
    taken: float = 0.0

    @property
    def id(self) -> str:
        """Name of the feature."""
        return self.model.id

    @property
    def area(self) -> float:
        """Area that is seen, in square ticks."""
        return signed_area(self.ring) - self.taken

    def sides(self, side: Literal["left", "right"]) -> list[PlumbEdge]:
        """Its plumb edges at the left or right."""
        return sides_of(self.ring, side)


def face_features(features: Sequence[Feature], pointer: str, drawn: Ring, finished: Ring) -> tuple[FaceFeature, ...]:
    """Features of an elevation; ``drawn`` is its outline in the plane of the request, ``finished`` in the finished plane.

    A feature that reaches an end of the outline goes with it when that moves.
    """
    return tuple(
        FaceFeature(
            feature,
            f"{pointer}/{index}",
            _moved(_ring(feature, f"{pointer}/{index}"), f"{pointer}/{index}", drawn, finished),
        )
        for index, feature in enumerate(features)
    )


def _ring(feature: Feature, pointer: str) -> Ring:
    if isinstance(feature, PolygonFeature):
        return checked_ring(feature.points, f"{pointer}/points")
    left, foot = ticks(feature.x_mm), ticks(feature.y_mm)
    return rectangle(left, foot, left + ticks(feature.width_mm), foot + ticks(feature.height_mm))


def _moved(ring: Ring, pointer: str, drawn: Ring, finished: Ring) -> Ring:
    before, after, box = bounds(drawn), bounds(finished), bounds(ring)
    left = _outwards(before[0] - after[0], box[0] - before[0])
    right = _outwards(after[2] - before[2], before[2] - box[2])
    if left == right == 0.0:
        return ring
    moved = moved_ends(ring, left, right).rings
    if len(moved) != 1:
        detail = "The build-up of the corner takes the feature away, or cuts it apart; draw what of it is seen."
        raise refuse("feature-outside-outline", pointer, detail)
    return moved[0]


def _outwards(shift: float, inside: float) -> float:
    """How far the end of a feature goes outwards with an end of the outline that lies so far beyond it."""
    if shift >= 0.0:
        return shift if inside == 0.0 else 0.0
    return min(0.0, shift + inside) if inside >= 0.0 else 0.0
