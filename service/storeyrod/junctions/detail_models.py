"""Ready details of a build-up: what each kind of junction needs to be told, in millimetres and W/(m.K)."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import HOUSE, Clause
from storeyrod.units import WHOLE, count, quantity

_MATERIALS = Clause("EN 12524", "table 1", "published")
_TIMBER = Assumed("w_per_m_k", _MATERIALS, "timber of 500 kg/m3")
_CONCRETE = Assumed("w_per_m_k", _MATERIALS, "concrete reinforced with 1 % of steel")
_ALUMINIUM = Assumed("w_per_m_k", _MATERIALS, "aluminium alloys")
_FOAM = Assumed("w_per_m_k", _MATERIALS, "polyurethane or polyethylene foam in a joint")
_SILICONE = Assumed("w_per_m_k", _MATERIALS, "silicone, pure")

_conductivity = quantity("w_per_m_k", 0.001, 500.0, "Design thermal conductivity.")
_Conductivity = Annotated[float, _conductivity]
_Thickness = Annotated[float, quantity("mm", 0.1, 1000.0, "Thickness.")]

_Leg = Annotated[
    float | None,
    quantity(
        "mm",
        10.0,
        20_000.0,
        "Length of wall drawn on each side of the junction, to the cut-off plane; absent: 1 m, or three times the wall's thickness where "
        "that is more, beyond the end of a lintel or rail.",
    ),
]
_InsulationLayer = Annotated[
    int | None,
    count(
        0,
        49,
        "Index of the insulation layer, from 0 at the inside: the cladding is this layer and all outside it; needed when two could be "
        "meant.",
    ),
    WHOLE,
]


_GAP = "the gap belongs to the junction: no flank takes its heat off, and its face inside counts with the wall's."


class DetailTemperatures(Closed):
    """Temperatures on both sides; transmittances and temperature factors do not depend on them."""

    internal_deg_c: Annotated[
        float, quantity("deg_c", -60.0, 100.0, "Inside."), Assumed("deg_c", HOUSE, "a difference of 20 K")
    ] = 20.0
    external_deg_c: Annotated[
        float, quantity("deg_c", -60.0, 100.0, "Outside."), Assumed("deg_c", HOUSE, "a difference of 20 K")
    ] = 0.0


class AnyDetail(Closed):
    """What every detail has."""

    temperatures: DetailTemperatures = DetailTemperatures()


class CornerParameters(Closed):
    """Two walls of the same build-up at a right angle, its layers running round the corner."""

    leg_mm: _Leg = None


class ExternalCornerDetail(AnyDetail):
    """A corner that points outwards."""

    kind: Literal["external_corner"]
    parameters: CornerParameters = CornerParameters()


class InternalCornerDetail(AnyDetail):
    """A corner that points into the building."""

    kind: Literal["internal_corner"]
    parameters: CornerParameters = CornerParameters()


class OpeningFrame(Closed):
    """Frame of a window or door, drawn as a solid block: what is drawn of it is cut off by a plane without heat flow."""

    width_mm: Annotated[
        float, quantity("mm", 1.0, 1000.0, "Along the wall, from the edge at the junction to the cut-off plane.")
    ]
    depth_mm: Annotated[float, quantity("mm", 1.0, 1000.0, "Through the wall.")]
    conductivity_w_per_m_k: Annotated[_Conductivity, _TIMBER] = 0.13
    u_value_w_per_m2_k: Annotated[
        float | None,
        quantity("w_per_m2_k", 0.05, 20.0, "U-value of the frame; the block gets the conductivity that gives it."),
    ] = None

    def idle_members(self) -> frozenset[str]:
        """A U-value supplies the conductivity."""
        return frozenset() if self.u_value_w_per_m2_k is None else frozenset({"conductivity_w_per_m_k"})


class RevealLining(Closed):
    """Lining of the reveal from the finished face to the frame; it narrows the opening."""

    thickness_mm: _Thickness
    conductivity_w_per_m_k: _Conductivity
    overlap_mm: Annotated[
        float | None,
        quantity(
            "mm",
            0.0,
            1000.0,
            "How far it covers the frame; absent: its thickness, so that the frame stands against the wall.",
        ),
    ] = None


class SillPiece(Closed):
    """A sill piece that covers the foot of the reveal and stands out of the finished face."""

    thickness_mm: _Thickness
    conductivity_w_per_m_k: _Conductivity
    projection_mm: Annotated[
        float,
        quantity("mm", 0.0, 500.0, "How far it stands out of the finished face."),
        Assumed("mm", HOUSE, "a drip clear of the slips"),
    ] = 30.0
    overlap_mm: Annotated[
        float | None,
        quantity(
            "mm",
            0.0,
            1000.0,
            "How far it covers the frame; absent: its thickness, so that the frame stands on the wall.",
        ),
    ] = None


def _leaves_gap(cover: RevealLining | SillPiece | None) -> bool:
    """Whether what covers the reveal covers less of the frame than its own thickness."""
    return cover is not None and cover.overlap_mm is not None and cover.overlap_mm < cover.thickness_mm


class JambParameters(Closed):
    """A frame at the side of an opening."""

    frame: OpeningFrame
    setback_mm: Annotated[
        float,
        quantity(
            "mm", 0.0, 2000.0, "From the finished face, that of a ventilated cladding too, to the front of the frame."
        ),
    ]
    lining: RevealLining | None = None
    gap_conductivity_w_per_m_k: Annotated[
        float,
        quantity(
            "w_per_m_k", 0.001, 500.0, f"What fills the gap that a small overlap leaves behind the lining; {_GAP}"
        ),
        _FOAM,
    ] = 0.05
    leg_mm: _Leg = None

    def idle_members(self) -> frozenset[str]:
        """Without a gap there is nothing that fills it."""
        return frozenset() if _leaves_gap(self.lining) else frozenset({"gap_conductivity_w_per_m_k"})


class JambDetail(AnyDetail):
    """The side of an opening, cut level."""

    kind: Literal["jamb"]
    parameters: JambParameters


class Lintel(Closed):
    """A lintel that takes the place of one layer over the opening."""

    height_mm: Annotated[float, quantity("mm", 1.0, 2000.0, "From the head of the opening up.")]
    conductivity_w_per_m_k: Annotated[_Conductivity, _CONCRETE] = 2.3
    layer: Annotated[
        int | None,
        count(0, 49, "Index of the layer whose place it takes; absent: the thickest behind the cladding."),
        WHOLE,
    ] = None


class HeadParameters(JambParameters):
    """A frame under the head of an opening."""

    lintel: Lintel | None = None
    insulation_layer: _InsulationLayer = None


class HeadDetail(AnyDetail):
    """The head of an opening, cut upright."""

    kind: Literal["head"]
    parameters: HeadParameters


class SillParameters(Closed):
    """A frame over the sill of an opening."""

    frame: OpeningFrame
    setback_mm: Annotated[
        float,
        quantity(
            "mm", 0.0, 2000.0, "From the finished face, that of a ventilated cladding too, to the front of the frame."
        ),
    ]
    piece: SillPiece | None = None
    gap_conductivity_w_per_m_k: Annotated[
        float,
        quantity(
            "w_per_m_k", 0.001, 500.0, f"What fills the gap that a small overlap leaves behind the sill piece; {_GAP}"
        ),
        _FOAM,
    ] = 0.05
    leg_mm: _Leg = None

    def idle_members(self) -> frozenset[str]:
        """Without a gap there is nothing that fills it."""
        return frozenset() if _leaves_gap(self.piece) else frozenset({"gap_conductivity_w_per_m_k"})


class SillDetail(AnyDetail):
    """The sill of an opening, cut upright."""

    kind: Literal["sill"]
    parameters: SillParameters


class Rail(Closed):
    """A metal angle under the cladding: one leg level beneath it, one upright against the wall behind."""

    thickness_mm: Annotated[float, quantity("mm", 0.1, 20.0, "Thickness of both legs.")]
    conductivity_w_per_m_k: Annotated[_Conductivity, _ALUMINIUM] = 160.0
    depth_mm: Annotated[
        float | None,
        quantity("mm", 1.0, 1000.0, "Level leg, out from the wall behind; absent: as deep as the cladding."),
    ] = None
    upright_mm: Annotated[
        float,
        quantity("mm", 1.0, 500.0, "Upright leg, from the underside of the rail."),
        Assumed("mm", HOUSE, "an ordinary angle"),
    ] = 40.0


class Plinth(Closed):
    """Insulation on the wall behind, under the rail."""

    thickness_mm: Annotated[float, quantity("mm", 1.0, 1000.0, "Thickness, out from the wall behind.")]
    conductivity_w_per_m_k: _Conductivity


class BaseRailParameters(Closed):
    """Foot of the cladding on a rail; the wall behind it goes on down, bare or insulated, with the room behind it."""

    rail: Rail
    plinth: Annotated[Plinth | None, Field(description="Absent: the wall behind is bare below the rail.")] = None
    insulation_layer: _InsulationLayer = None
    leg_mm: _Leg = None


class BaseRailDetail(AnyDetail):
    """The foot of the cladding, cut upright."""

    kind: Literal["base_rail"]
    parameters: BaseRailParameters


class SlabEdgeParameters(Closed):
    """A floor slab that bears in the wall, rooms above and below it at one temperature."""

    slab_thickness_mm: Annotated[float, quantity("mm", 1.0, 2000.0, "Thickness of the slab.")]
    slab_conductivity_w_per_m_k: Annotated[_Conductivity, _CONCRETE] = 2.3
    embedment_mm: Annotated[
        float | None,
        quantity("mm", 0.0, 2000.0, "How far it reaches into the wall; absent: through all behind the cladding."),
    ] = None
    insulation_layer: _InsulationLayer = None
    leg_mm: _Leg = None


class SlabEdgeDetail(AnyDetail):
    """The edge of a floor slab, cut upright."""

    kind: Literal["slab_edge"]
    parameters: SlabEdgeParameters


class SlotSealant(Closed):
    """Sealant in the mouth of a joint."""

    depth_mm: Annotated[float, quantity("mm", 0.1, 100.0, "Depth from the finished face.")]
    conductivity_w_per_m_k: Annotated[_Conductivity, _SILICONE] = 0.35


class MovementJointParameters(Closed):
    """A slot through the whole cladding."""

    width_mm: Annotated[float, quantity("mm", 0.5, 200.0, "Width of the slot.")]
    filling_conductivity_w_per_m_k: Annotated[
        float, quantity("w_per_m_k", 0.001, 500.0, "What fills the slot behind the sealant."), _FOAM
    ] = 0.05
    sealant: SlotSealant | None = None
    insulation_layer: _InsulationLayer = None
    leg_mm: _Leg = None


class MovementJointDetail(AnyDetail):
    """A movement joint through board and slip, cut level."""

    kind: Literal["movement_joint"]
    parameters: MovementJointParameters


class FastenerShank(Closed):
    """Round shank of a fastener."""

    diameter_mm: Annotated[float, quantity("mm", 0.5, 100.0, "Diameter.")]
    conductivity_w_per_m_k: _Conductivity


class FastenerHead(Closed):
    """Round head or plate of a fastener, its outside level with the insulation unless recessed."""

    diameter_mm: Annotated[float, quantity("mm", 0.5, 500.0, "Diameter.")]
    thickness_mm: Annotated[float, quantity("mm", 0.1, 100.0, "Thickness.")]
    conductivity_w_per_m_k: _Conductivity


class FastenerRecess(Closed):
    """Sinking of the head into the insulation, closed by a plug as wide as the head."""

    depth_mm: Annotated[float, quantity("mm", 0.1, 500.0, "From the outside of the insulation to the head.")]
    plug_conductivity_w_per_m_k: Annotated[
        float | None, quantity("w_per_m_k", 0.001, 500.0, "Plug; absent: that of the insulation.")
    ] = None


class PointFastenerParameters(Closed):
    """A fastener through the insulation into the wall behind, in a disc of wall round it."""

    shank: FastenerShank
    embedment_mm: Annotated[
        float, quantity("mm", 0.0, 1000.0, "From the inside of the insulation to the end of the shank.")
    ]
    head: FastenerHead | None = None
    recess: FastenerRecess | None = None
    count_per_m2: Annotated[
        float | None, quantity("per_m2", 0.1, 100.0, "Fasteners per square metre; gives the disc the area of each.")
    ] = None
    radius_of_influence_mm: Annotated[
        float | None, quantity("mm", 10.0, 10_000.0, "Radius of the disc; absent: by count_per_m2, else 500 mm.")
    ] = None
    insulation_layer: _InsulationLayer = None


class PointFastenerDetail(AnyDetail):
    """A fastener and the wall round it, turned about its axis."""

    kind: Literal["point_fastener"]
    parameters: PointFastenerParameters


Detail = Annotated[
    ExternalCornerDetail
    | InternalCornerDetail
    | JambDetail
    | HeadDetail
    | SillDetail
    | BaseRailDetail
    | SlabEdgeDetail
    | MovementJointDetail
    | PointFastenerDetail,
    Field(discriminator="kind"),
]
