"""The survey of a wall: elevations with their outline, edges, openings and base."""

from typing import Annotated, Any, Literal

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import COMMON_PRACTICE, HOUSE, Clause
from storeyrod.units import WHOLE, count, identifier, quantity, words

_FARTHEST_MM = 500_000.0
_JOINT_THICKNESS = Clause("EN 1996-1-1", "8.1.5, bed and perpend joints 6 to 15 mm", "memory")
_DAMP_PROOF_HEIGHT = Clause("common practice", "damp-proof level at least 150 mm above ground", "common_practice")


class Point(Closed):
    """A point of an elevation: x to the right as seen from outside, y up from the datum."""

    x_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "To the right, seen from outside.")]
    y_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Upwards from the datum.")]


class Edge(Closed):
    """How an elevation ends at its left or right."""

    kind: Annotated[
        Literal["external_corner", "internal_corner", "abutment", "free_end", "movement_joint"],
        Field(description="What stands at this end of the elevation."),
    ]
    to: Annotated[
        str | None,
        Field(
            max_length=67,
            pattern=r"^[^\x00-\x1f\x7f:]+:(left|right)$",
            description="The edge met here, as elevation:left or elevation:right.",
        ),
    ] = None
    joint_mm: Annotated[
        float, quantity("mm", 0.0, 60.0, "Width of the joint at an abutment or movement joint."), Assumed("mm", HOUSE)
    ] = 10.0
    angle_deg: Annotated[
        float,
        quantity(
            "deg",
            30.0,
            175.0,
            "Angle between the two faces of a corner: measured inside the building at an external corner, outside at an internal "
            "one. Not used at other ends.",
        ),
        Assumed("deg", HOUSE, "corners are square"),
    ] = 90.0

    @property
    def is_corner(self) -> bool:
        """Whether another face is met at an angle."""
        return self.kind in ("external_corner", "internal_corner")

    def idle_members(self) -> frozenset[str]:
        """Only a corner has an angle."""
        return frozenset() if self.is_corner else frozenset({"angle_deg"})


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
    x_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Left jamb.")]
    y_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Sill or threshold.")]
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
    x_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Left jamb.")]
    width_mm: Annotated[float, quantity("mm", 10.0, 50_000.0, "Clear width.")]
    sill_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Height of the sill.")]
    springing_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Height at which the arch springs.")]
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
    x_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Centre.")]
    y_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Centre.")]
    diameter_mm: Annotated[float, quantity("mm", 10.0, 50_000.0, "Clear diameter.")]


Opening = Annotated[
    RectangleOpening | ArchOpening | PolygonOpening | CircleOpening,
    Field(discriminator="kind"),
]


class _Feature(Closed):
    """What features share."""

    id: Annotated[str, identifier("Name of the feature, unique among the features of its elevation.")]
    facing: Annotated[str | None, words(60, "What covers it, as drawings name it: render, stone, tiles.")] = None


class RectangleFeature(_Feature):
    """A rectangle of the face that something else than slips covers, from its lower left corner."""

    kind: Literal["rectangle"]
    x_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Left end.")]
    y_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Foot.")]
    width_mm: Annotated[float, quantity("mm", 10.0, _FARTHEST_MM, "Width.")]
    height_mm: Annotated[float, quantity("mm", 10.0, _FARTHEST_MM, "Height.")]


class PolygonFeature(_Feature):
    """An area of the face, of any straight-edged shape, that something else than slips covers."""

    kind: Literal["polygon"]
    points: Annotated[
        list[Point],
        Field(min_length=3, max_length=500, fail_fast=True, description="Corners in order, either way round."),
    ]


Feature = Annotated[RectangleFeature | PolygonFeature, Field(discriminator="kind")]


class Base(Closed):
    """The ground along the foot of an elevation."""

    ground: Annotated[
        list[Point],
        Field(
            min_length=2,
            max_length=200,
            fail_fast=True,
            description="Ground level from left to right, joined by straight lines.",
        ),
    ]
    clearance_mm: Annotated[
        float,
        quantity("mm", 0.0, 1000.0, "Least height of the cladding above ground."),
        Assumed("mm", _DAMP_PROOF_HEIGHT),
    ] = 150.0
    plinth_projection_mm: Annotated[
        float | None,
        quantity(
            "mm", 0.0, 1000.0, "How far a plinth below the cladding stands out of the substrate; absent: not checked."
        ),
    ] = None


class Elevation(Closed):
    """One face of a building, given by its outline, for a plain rectangle by width and height, or as a mirror image."""

    id: Annotated[str, identifier("Name of the elevation, unique in the request.")]
    mirror_of: Annotated[
        str | None,
        identifier(
            "Elevation whose mirror image this one is, in the same coordinates: left and right change places, openings keep "
            "their ids. Beside it stand only id, viewed and edges that differ; other edges are mirrored without `to`."
        ),
    ] = None
    plane: Annotated[
        Literal["substrate", "finished"],
        Field(
            description="Plane in which outline and openings are given; substrate is moved out by the build-up at corners."
        ),
        Assumed("", HOUSE, "sizes are taken as finished sizes when no plane is given"),
    ] = "finished"
    viewed: Annotated[str | None, words(200, "A remark on the side from which the elevation is seen; not used.")] = None
    outline: Annotated[
        list[Point] | None,
        Field(
            min_length=3,
            max_length=2000,
            fail_fast=True,
            description="Corners in order, either way round; give this or width and height.",
        ),
    ] = None
    width_mm: Annotated[float | None, quantity("mm", 100.0, _FARTHEST_MM, "Width of a plain rectangle from x = 0.")] = (
        None
    )
    height_mm: Annotated[
        float | None, quantity("mm", 50.0, _FARTHEST_MM, "Height of a plain rectangle from y = 0.")
    ] = None
    openings: Annotated[
        list[Opening], Field(max_length=2000, fail_fast=True, description="Openings, none overlapping another.")
    ] = []
    features: Annotated[
        list[Feature],
        Field(
            max_length=500,
            fail_fast=True,
            description="Render bands, stone heads, quoins of stone and the like, beside openings and one another: boards run on "
            "behind them, slips do not.",
        ),
    ] = []
    left_edge: Annotated[Edge, Assumed("", HOUSE, "a free end when no edge is given")] = Edge(kind="free_end")
    right_edge: Annotated[Edge, Assumed("", HOUSE, "a free end when no edge is given")] = Edge(kind="free_end")
    base: Base | None = None
    existing_joints_x_mm: Annotated[
        list[Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Centre of a joint in the structure.")]],
        Field(max_length=500, fail_fast=True, description="Movement joints of the structure behind; always repeated."),
    ] = []
    existing_joints_y_mm: Annotated[
        list[Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Level of a joint in the structure.")]],
        Field(
            max_length=200,
            fail_fast=True,
            description="Level movement joints of the structure behind; each must lie behind a bed joint and is repeated there, "
            "round the building.",
        ),
    ] = []
    joints_x_mm: Annotated[
        list[Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Centre of a movement joint.")]] | None,
        Field(
            max_length=500,
            fail_fast=True,
            description="The designer's own movement joints: exactly these are taken, and joints of the structure must be among "
            "them. Absent: joints are placed.",
        ),
    ] = None
    joints_at_jambs: Annotated[
        bool,
        Field(
            strict=True,
            description="true: a movement joint may stand on the jamb line of an opening, where one is saved by it.",
        ),
    ] = False
    parapet_from_mm: Annotated[
        float | None,
        quantity(
            "mm",
            -_FARTHEST_MM,
            _FARTHEST_MM,
            "Level above which the elevation is a parapet; its closer joints then run down the whole face. Absent: no parapet.",
        ),
    ] = None
    bond_start: Annotated[
        Literal["full", "half", "carried"] | None,
        Field(
            description="First unit of course 0 at the end from which the bond is set out: full; half, the bond one course "
            "later; carried round the corner from the neighbouring face. Absent: full with nominal perps, carried with "
            "equalised ones."
        ),
    ] = None
    bond_from: Annotated[
        Literal["left", "right"],
        Field(description="End of the face from which the bond is set out, unless it is carried in at the other one."),
        Assumed("", HOUSE, "from the left end"),
    ] = "left"
    bond_origin_x_mm: Annotated[
        float | None,
        quantity(
            "mm",
            -_FARTHEST_MM,
            _FARTHEST_MM,
            "Where the first unit of course 0 starts; absent: at the end from which the bond is set out. Give the same place "
            "on all parts of a face that is drawn in parts.",
        ),
    ] = None
    board_seams: Annotated[
        Literal["staggered", "stacked"] | None,
        Field(description="Upright seams of the boards on this face; absent: as board.seams of the system says."),
    ] = None
    storey_levels_mm: Annotated[
        list[Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Level of a storey, as of a floor.")]],
        Field(
            max_length=200,
            fail_fast=True,
            description="Levels between which storeys repeat, in any order; level movement joints stand there where the system's "
            "movement_joint has at_storeys.",
        ),
    ] = []

    def idle_members(self) -> frozenset[str]:
        """Members that a mirror image takes from the elevation that it mirrors."""
        if self.mirror_of is None:
            return frozenset()
        return frozenset(type(self).model_fields) - self.model_fields_set

    @model_serializer(mode="wrap")
    def _without_idle_defaults(self, write: SerializerFunctionWrapHandler) -> dict[str, Any]:
        """A free end that is given differs from a mirrored end, so only what stands for itself is written."""
        idle = self.idle_members()
        return {name: value for name, value in write(self).items() if name not in idle}


Elevations = Annotated[
    list[Elevation],
    Field(min_length=1, max_length=200, fail_fast=True, description="The faces of the building, in any order."),
]
