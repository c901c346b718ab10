"""The survey of a wall: elevations with their outline, edges, openings and base."""

from typing import Annotated, Any, Literal

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import HOUSE, Clause
from storeyrod.units import identifier, quantity, words
from storeyrod.wall.opening_models import FARTHEST_MM, Opening, Point

_DAMP_PROOF_HEIGHT = Clause("common practice", "damp-proof level at least 150 mm above ground", "common_practice")


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
        """Only a corner has an angle; only an abutment or a movement joint has a joint of its own width."""
        angle = frozenset() if self.is_corner else frozenset({"angle_deg"})
        joint = frozenset() if self.kind in ("abutment", "movement_joint") else frozenset({"joint_mm"})
        return angle | joint


class _Feature(Closed):
    """What features share."""

    id: Annotated[str, identifier("Name of the feature, unique among the features of its elevation.")]
    facing: Annotated[str | None, words(60, "What covers it, as drawings name it: render, stone, tiles.")] = None


class RectangleFeature(_Feature):
    """A rectangle of the face that something else than slips covers, from its lower left corner."""

    kind: Literal["rectangle"]
    x_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Left end.")]
    y_mm: Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Foot.")]
    width_mm: Annotated[float, quantity("mm", 10.0, FARTHEST_MM, "Width.")]
    height_mm: Annotated[float, quantity("mm", 10.0, FARTHEST_MM, "Height.")]


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


class BuildingFace(Closed):
    """Where an elevation stands on the building, for the wind: its side, and how far along it."""

    side: Annotated[
        Literal["front", "right", "rear", "left"],
        Field(
            description="Side of the building's plan: front and rear are breadth_m long, right and left depth_m. right is the side met at "
            "the right end of the front, seen from outside."
        ),
    ]
    offset_mm: Annotated[
        float,
        quantity(
            "mm",
            0.0,
            FARTHEST_MM,
            "From the left end of that side to the nearer end of the elevation, both as seen from outside.",
        ),
        Assumed("mm", HOUSE, "the elevation starts at the left end of its side"),
    ] = 0.0
    seen_from: Annotated[
        Literal["outside", "inside"],
        Field(
            description="From where the elevation is drawn. inside: its left end is the right one seen from outside, and zones of the wind are "
            "turned round with it."
        ),
        Assumed("", HOUSE, "elevations are drawn as seen from outside"),
    ] = "outside"


class Elevation(Closed):
    """One face of a building, given by its outline, for a plain rectangle by width and height, or as a mirror image."""

    id: Annotated[str, identifier("Name of the elevation, unique in the request.")]
    mirror_of: Annotated[
        str | None,
        identifier(
            "Elevation whose mirror image this one is, in the same coordinates: left and right change places, openings keep "
            "their ids. Beside it stand only id, viewed, face and edges that differ; other edges are mirrored without `to`."
        ),
    ] = None
    plane: Annotated[
        Literal["substrate", "finished"],
        Field(
            description="Plane in which outline and openings are given; substrate is moved out by the build-up at corners."
        ),
        Assumed("", HOUSE, "sizes are taken as finished sizes when no plane is given"),
    ] = "finished"
    viewed: Annotated[
        str | None,
        words(200, "A remark on the side from which the elevation is seen; not used: face.seen_from tells the wind."),
    ] = None
    outline: Annotated[
        list[Point] | None,
        Field(
            min_length=3,
            max_length=2000,
            fail_fast=True,
            description="Corners in order, either way round; give this or width and height.",
        ),
    ] = None
    width_mm: Annotated[float | None, quantity("mm", 100.0, FARTHEST_MM, "Width of a plain rectangle from x = 0.")] = (
        None
    )
    height_mm: Annotated[float | None, quantity("mm", 50.0, FARTHEST_MM, "Height of a plain rectangle from y = 0.")] = (
        None
    )
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
    face: Annotated[
        BuildingFace | None,
        Field(description="Side of the building; without it wind takes the strongest zone all over this elevation."),
    ] = None
    left_edge: Annotated[Edge, Assumed("", HOUSE, "a free end when no edge is given")] = Edge(kind="free_end")
    right_edge: Annotated[Edge, Assumed("", HOUSE, "a free end when no edge is given")] = Edge(kind="free_end")
    base: Base | None = None
    existing_joints_x_mm: Annotated[
        list[Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Centre of a joint in the structure.")]],
        Field(max_length=500, fail_fast=True, description="Movement joints of the structure behind; always repeated."),
    ] = []
    existing_joints_y_mm: Annotated[
        list[Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Level of a joint in the structure.")]],
        Field(
            max_length=200,
            fail_fast=True,
            description="Level movement joints of the structure behind; each must lie behind a bed joint and is repeated there, "
            "round the building.",
        ),
    ] = []
    joints_x_mm: Annotated[
        list[Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Centre of a movement joint.")]] | None,
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
            -FARTHEST_MM,
            FARTHEST_MM,
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
            -FARTHEST_MM,
            FARTHEST_MM,
            "Where the first unit of course 0 starts; absent: at the end from which the bond is set out. Give the same place "
            "on all parts of a face that is drawn in parts.",
        ),
    ] = None
    board_seams: Annotated[
        Literal["staggered", "stacked"] | None,
        Field(description="Upright seams of the boards on this face; absent: as board.seams of the system says."),
    ] = None
    storey_levels_mm: Annotated[
        list[Annotated[float, quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Level of a storey, as of a floor.")]],
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
