"""Openings of a face: their sizes in the finished plane and in the substrate, and their rings."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from storeyrod.findings import refuse
from storeyrod.geometry.arc import arc_vertices
from storeyrod.geometry.circle import circle_ring
from storeyrod.geometry.plane import Ring, Vertex, bounds, rectangle, signed_area, tidy
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.opening_models import ArchOpening, CircleOpening, Opening, PolygonOpening, RectangleOpening
from storeyrod.wall.rings import LevelEdge, PlumbEdge, checked_ring, feet_of, heads_of, sides_of

Jamb = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class FaceOpening:
    """An opening in one plane: its ring, the box around it in ticks, and the pointer of its request member.

    ``springing`` is the head of the jambs: below ``head`` under an arch, at it under a level head, and at the sill where an
    opening has no jambs.
    """

    model: Opening
    pointer: str
    ring: Ring
    left: float
    right: float
    sill: float
    springing: float
    head: float
    mirrored: bool = False

    def reveal_pointer(self, side: Jamb) -> str:
        """Request member of the lining of a jamb: of a mirror image, the other jamb of the opening it mirrors."""
        sides = ("right", "left") if self.mirrored else ("left", "right")
        return f"{self.pointer}/reveal/{sides[side == 'right']}"

    @property
    def id(self) -> str:
        """Name of the opening."""
        return self.model.id

    @property
    def is_arch(self) -> bool:
        """Whether the head is an arch; then ``springing`` lies below ``head``."""
        return self.model.kind == "arch"

    @property
    def is_box(self) -> bool:
        """Whether it is a rectangle."""
        return self.model.kind == "rectangle"

    @property
    def is_curved(self) -> bool:
        """Whether its ring stands for a curve."""
        return self.model.kind in ("arch", "circle")

    @property
    def area(self) -> float:
        """Area in square ticks."""
        return (self.right - self.left) * (self.head - self.sill) if self.is_box else signed_area(self.ring)

    @property
    def jamb_height(self) -> float:
        """Height of the jambs of a rectangle or arch, sill to springing or head, in ticks."""
        return self.springing - self.sill

    @property
    def heads(self) -> list[LevelEdge]:
        """Level edges with wall above them; arches and circles have none."""
        if self.is_box:
            return [LevelEdge(self.head, (self.left, self.right))]
        return [] if self.is_curved else heads_of(self.ring)

    @property
    def sills(self) -> list[LevelEdge]:
        """Level edges with wall, or the foot of it, below them; circles have none."""
        if self.is_box:
            return [LevelEdge(self.sill, (self.left, self.right))]
        return [] if self.model.kind == "circle" else feet_of(self.ring)

    def jambs(self, side: Jamb) -> list[PlumbEdge]:
        """Plumb edges with wall on that side of them; circles have none."""
        return [] if self.model.kind == "circle" else sides_of(self.ring, side)

    @property
    def corners(self) -> list[Vertex]:
        """Corners from which a crack may start: not the vertices that stand for a curve."""
        match self.model.kind:
            case "circle":
                return []
            case "arch":
                return [(x, y) for y in (self.sill, self.springing) for x in (self.left, self.right)]
            case _:
                return list(self.ring)


Sizes = tuple[float, float, float, float, float]
"""Left, right, sill, springing and head of an opening, in ticks; springing equals head for a level head."""


def sizes_of(opening: Opening) -> Sizes:
    """Sizes as the request gives them."""
    match opening:
        case RectangleOpening():
            left, sill = ticks(opening.x_mm), ticks(opening.y_mm)
            head = sill + ticks(opening.height_mm)
            return left, left + ticks(opening.width_mm), sill, head, head
        case ArchOpening():
            left, springing, width = ticks(opening.x_mm), ticks(opening.springing_mm), ticks(opening.width_mm)
            head = springing + _rise(ticks(opening.rise_mm), width)
            return left, left + width, ticks(opening.sill_mm), springing, head
        case CircleOpening():
            x, y, radius = ticks(opening.x_mm), ticks(opening.y_mm), ticks(opening.diameter_mm) / 2.0
            return x - radius, x + radius, y - radius, y - radius, y + radius
        case PolygonOpening():
            left, sill, right, head = bounds((ticks(point.x_mm), ticks(point.y_mm)) for point in opening.points)
            return left, right, sill, head, head


def _rise(rise: float, width: float) -> float:
    """Half of an odd number of ticks, as of a semicircle in sixteenths of an inch, is rounded down; up, it would be too high."""
    return rise - 1.0 if rise - width / 2.0 == 0.5 else rise


def narrowed(opening: Opening) -> Sizes:
    """Finished sizes of an opening given in the substrate plane: its linings taken off."""
    left, right, sill, springing, head = sizes_of(opening)
    reveal = opening.reveal
    lowered = ticks(reveal.head.lining_mm)
    level = springing == head
    return (
        left + ticks(reveal.left.lining_mm),
        right - ticks(reveal.right.lining_mm),
        sill,
        springing - lowered if level else springing,
        head - lowered,
    )


def sizes_in_plane(opening: FaceOpening) -> Sizes:
    """Sizes of an opening in its own plane."""
    return opening.left, opening.right, opening.sill, opening.springing, opening.head


def widened(opening: FaceOpening) -> Sizes:
    """Sizes in the substrate of a finished opening: its linings added."""
    reveal = opening.model.reveal
    raised = ticks(reveal.head.lining_mm)
    return (
        opening.left - ticks(reveal.left.lining_mm),
        opening.right + ticks(reveal.right.lining_mm),
        opening.sill,
        opening.springing if opening.is_arch else opening.springing + raised,
        opening.head + raised,
    )


def face_opening(model: Opening, pointer: str, sizes: Sizes) -> FaceOpening:
    """The opening of those sizes; raises the refusals of linings, arches and polygons."""
    left, right, sill, springing, head = sizes
    closed = right - left <= 0 or head <= sill or (model.kind == "arch" and head <= springing)
    if closed and model.kind != "polygon":
        raise refuse(
            "opening-lining-too-thick", f"{pointer}/reveal", "The linings leave no clear opening; check lining_mm."
        )
    match model:
        case RectangleOpening():
            ring = rectangle(left, sill, right, head)
        case ArchOpening():
            ring = _arch_ring(model, pointer, sizes)
        case CircleOpening():
            ring = circle_ring((left + right) / 2.0, (sill + head) / 2.0, (right - left) / 2.0)
        case PolygonOpening():
            ring = checked_ring(model.points, f"{pointer}/points")
            springing = head if any(a[0] == b[0] for a, b in pairwise((*ring, ring[0]))) else sill
    return FaceOpening(model, pointer, ring, left, right, sill, springing, head)


def _arch_ring(model: ArchOpening, pointer: str, sizes: Sizes) -> Ring:
    left, right, sill, springing, head = sizes
    rise = head - springing
    if rise > (right - left) / 2.0 or springing < sill:
        detail = (
            f"rise {millimetres(rise):g} mm over a width of {millimetres(right - left):g} mm: a circular arch rises at most half "
            "its width, and springs at or above its sill"
        )
        raise refuse("arch-too-high", pointer, detail)
    if model.head == "soldier":
        raise refuse(
            "soldier-over-arch", f"{pointer}/head", "A soldier course stands over a level head; set head to plain."
        )
    return tidy([(left, sill), (right, sill), *arc_vertices(left, springing, right - left, rise)])
