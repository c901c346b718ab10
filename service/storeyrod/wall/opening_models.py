"""Openings of an elevation, with their reveals and arches."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import COMMON_PRACTICE, Clause
from storeyrod.units import WHOLE, count, identifier, quantity

FARTHEST_MM = 500_000.0
"""How far from the origin of an elevation a coordinate may lie."""

_JOINT_THICKNESS = Clause("EN 1996-1-1", "8.1.5, bed and perpend joints 6 to 15 mm", "memory")


class Point(Closed):
    """A point of an elevation: x to the right as seen from outside, y up from the datum."""

    x_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "To the right, seen from outside.")]
    y_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Upwards from the datum.")]


class RevealSide(Closed):
    """One side of a reveal: depth lined with slips and thickness of that lining."""

    depth_mm: Annotated[
        float, quantity("mm", 0.0, 1000.0, "Depth of reveal faced with slips; 0 is an unlined reveal.")
    ] = 0.0
    lining_mm: Annotated[
        float,
        quantity("mm", 0.0, 300.0, "Thickness of the lining; it narrows an opening given in the substrate plane."),
    ] = 0.0


class Reveal(Closed):
    """The reveals of an opening."""

    left: RevealSide = RevealSide()
    right: RevealSide = RevealSide()
    head: RevealSide = RevealSide()


class _AnyOpening(Closed):
    """What all openings share."""

    id: Annotated[str, identifier("Name of the opening, unique in its elevation.")]
    use: Annotated[Literal["window", "door", "vent"], Field(description="What fills the opening.")] = "window"


class _OpeningParts(_AnyOpening):
    """What rectangles and arches share."""

    head: Annotated[
        Literal["plain", "soldier"], Field(description="soldier: a course of upright slips over the head.")
    ] = "plain"
    reveal: Reveal = Reveal()
    sill_projection_mm: Annotated[
        float | None,
        quantity("mm", 0.0, 1000.0, "How far an old sill that stays stands out of the substrate; absent: not checked."),
    ] = None


class RectangleOpening(_OpeningParts):
    """A rectangular opening from its lower left corner."""

    kind: Literal["rectangle"]
    x_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Left jamb.")]
    y_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Sill or threshold.")]
    width_mm: Annotated[float, quantity("mm", 10.0, 50_000.0, "Clear width.")]
    height_mm: Annotated[float, quantity("mm", 10.0, 50_000.0, "Clear height.")]


class Voussoirs(Closed):
    """A ring of slips around the arch of an opening, their length pointing to its centre."""

    depth: Annotated[
        Literal["header", "stretcher"],
        Field(description="Depth of one ring: a header (half a slip less half a perp) or a whole slip."),
        Assumed("", COMMON_PRACTICE, "rings of headers"),
    ] = "header"
    rings_count: Annotated[int, count(1, 6, "Rings one above another."), WHOLE, Assumed("count", COMMON_PRACTICE)] = 1
    units_count: Annotated[
        int | None,
        count(
            3,
            2000,
            "Voussoirs of the innermost ring. Absent: with square slips the odd number that brings the joint at the intrados "
            "nearest to perp_mm, of those that keep both joints inside their limits where there are any; with tapered ones "
            "the least odd number whose wedges come out of slips.",
        ),
        WHOLE,
    ] = None
    cut: Annotated[
        Literal["square", "taper"] | None,
        Field(
            description="square: slips as they are, with joints that widen outwards; taper: each cut to a wedge with equal "
            "joints; absent: square where the joints keep their limits, else taper."
        ),
    ] = None
    joint_min_mm: Annotated[
        float, quantity("mm", 0.0, 50.0, "Least joint, at the intrados."), Assumed("mm", _JOINT_THICKNESS)
    ] = 6.0
    joint_max_mm: Annotated[
        float, quantity("mm", 0.0, 50.0, "Widest joint, at the extrados."), Assumed("mm", _JOINT_THICKNESS)
    ] = 15.0


class ArchOpening(_OpeningParts):
    """An opening under a circular arch: a semicircle when the rise is half the width, else segmental."""

    kind: Literal["arch"]
    x_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Left jamb.")]
    width_mm: Annotated[float, quantity("mm", 10.0, 50_000.0, "Clear width.")]
    sill_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Height of the sill.")]
    springing_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Height at which the arch springs.")]
    rise_mm: Annotated[
        float, quantity("mm", 1.0, 25_000.0, "Rise of the intrados above the springing; at most half the width.")
    ]
    voussoirs: Annotated[
        Voussoirs | None, Field(description="Ring of slips over the arch; absent: courses are cut to the arch.")
    ] = None


class _UnlinedOpening(_AnyOpening):
    """What openings without plain jambs share: courses run over them, and their reveals have no slips."""

    @property
    def head(self) -> Literal["plain"]:
        """No soldiers stand over the head."""
        return "plain"

    @property
    def reveal(self) -> Reveal:
        """No reveal is lined."""
        return Reveal()


class PolygonOpening(_UnlinedOpening):
    """An opening of any straight-edged shape; its reveals are not lined. Only its level edges count as heads and sills."""

    kind: Literal["polygon"]
    points: Annotated[
        list[Point],
        Field(min_length=3, max_length=500, fail_fast=True, description="Corners in order, either way round."),
    ]


class CircleOpening(_UnlinedOpening):
    """A round opening; its reveals are not lined."""

    kind: Literal["circle"]
    x_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Centre.")]
    y_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Centre.")]
    diameter_mm: Annotated[float, quantity("mm", 10.0, 50_000.0, "Clear diameter.")]


Opening = Annotated[
    RectangleOpening | ArchOpening | PolygonOpening | CircleOpening,
    Field(discriminator="kind"),
]
