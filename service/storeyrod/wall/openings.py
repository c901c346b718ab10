"""Openings of a face: their sizes in the finished plane and in the substrate, and their rings."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from storeyrod.findings import refuse
from storeyrod.geometry.arc import arc_vertices
from storeyrod.geometry.plane import Ring, rectangle, signed_area, tidy
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.models import ArchOpening, Opening


@dataclass(frozen=True, slots=True)
class FaceOpening:
    """An opening in one plane: its ring and levels in ticks, and the pointer of its request member."""

    model: Opening
    pointer: str
    ring: Ring
    left: float
    right: float
    sill: float
    springing: float
    head: float
    mirrored: bool = False

    def reveal_pointer(self, side: Literal["left", "right"]) -> str:
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
    def area(self) -> float:
        """Area in square ticks."""
        return signed_area(self.ring)

    @property
    def jamb_height(self) -> float:
        """Height of the jambs, sill to springing or head, in ticks."""
        return self.springing - self.sill


Sizes = tuple[float, float, float, float, float]
"""Left, right, sill, springing and head of an opening, in ticks; springing equals head for a level head."""


def sizes_of(opening: Opening) -> Sizes:
    """Sizes as the request gives them."""
    left = ticks(opening.x_mm)
    right = left + ticks(opening.width_mm)
    if isinstance(opening, ArchOpening):
        springing = ticks(opening.springing_mm)
        return left, right, ticks(opening.sill_mm), springing, springing + ticks(opening.rise_mm)
    sill = ticks(opening.y_mm)
    head = sill + ticks(opening.height_mm)
    return left, right, sill, head, head


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
    """The opening of those sizes; raises the refusals of linings and arches."""
    left, right, sill, springing, head = sizes
    if right - left <= 0 or head <= sill or (model.kind == "arch" and head <= springing):
        raise refuse(
            "opening-lining-too-thick", f"{pointer}/reveal", "The linings leave no clear opening; check lining_mm."
        )
    if model.kind == "rectangle":
        return FaceOpening(model, pointer, rectangle(left, sill, right, head), left, right, sill, head, head)
    rise = head - springing
    if rise > (right - left) / 2.0 or springing < sill:
        detail = (
            f"rise {millimetres(rise):g} mm over a width of {millimetres(right - left):g} mm: a circular arch rises at most half "
            "its width, and springs at or above its sill"
        )
        raise refuse("arch-too-high", pointer, detail)
    ring = tidy([(left, sill), (right, sill), *arc_vertices(left, springing, right - left, rise)])
    if model.head == "soldier":
        raise refuse(
            "soldier-over-arch", f"{pointer}/head", "A soldier course stands over a level head; set head to plain."
        )
    return FaceOpening(model, pointer, ring, left, right, sill, springing, head)


def neighbours(openings: Sequence[FaceOpening]) -> Iterator[tuple[FaceOpening, FaceOpening]]:
    """Pairs of openings whose widths overlap, by a sweep from left to right."""
    open_now: list[FaceOpening] = []
    for opening in sorted(openings, key=lambda one: (one.left, one.sill, one.pointer)):
        open_now = [earlier for earlier in open_now if earlier.right > opening.left]
        for earlier in open_now:
            if earlier.head > opening.sill and opening.head > earlier.sill:
                yield earlier, opening
        open_now.append(opening)
