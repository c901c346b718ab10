"""Request and result of POST /v1/quantities."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.boards.models import StockOffcuts
from storeyrod.movement_joints.width_models import RodRow
from storeyrod.options import Options
from storeyrod.units import figure
from storeyrod.wall.models import Elevations
from storeyrod.wall.substrate_models import PartialFactors, Substrate
from storeyrod.wall.system import System
from storeyrod.wind.site_models import WindSite

Role = Literal[
    "board",
    "slip",
    "header_slip",
    "corner_slip",
    "fastener",
    "adhesive",
    "mortar",
    "sealant",
    "backer_rod",
    "base_trim",
]
"""What is bought."""

OrderUnit = Literal["count", "l", "kg", "m"]
"""Unit of a line."""

SealedPlace = Literal["movement_joint", "storey_joint", "edge", "frame"]
"""Where sealant goes."""


class QuantitiesRequest(Closed):
    """The elevations to buy for."""

    elevations: Elevations
    system: System
    wind: Annotated[
        WindSite | None, Field(description="Wind on the building; absent: fasteners follow the common pattern alone.")
    ] = None
    substrate: Annotated[Substrate | None, Field(description="What the fasteners are driven into.")] = None
    partial_factors: PartialFactors = PartialFactors()
    stock_offcuts: StockOffcuts = []
    options: Options = Options()

    def idle_members(self) -> frozenset[str]:
        """Without wind no partial factor is used."""
        return frozenset() if self.wind is not None else frozenset({"partial_factors"})


class OrderLine(TypedDict):
    """One thing to buy. Nothing is rounded but the packs: once, last, upwards."""

    role: Annotated[Role, Field(description="What is bought; corner_slip holds L slips of corners and of lined jambs.")]
    diameter_mm: NotRequired[
        Annotated[float, figure("mm", "Diameter of a backer rod: each has its own line; absent for all else.")]
    ]
    net: Annotated[float, Field(description="What the wall takes, in `unit`: by area or length, without cut waste.")]
    cut_waste: Annotated[float, Field(description="What cutting adds, from the layout, in `unit`.")]
    allowance_fraction: Annotated[
        float, figure("fraction", "Share for breakage and loss, 0 to 1, of net and cut waste together.")
    ]
    allowance: Annotated[float, Field(description="What that share adds, in `unit`.")]
    order: Annotated[float, Field(description="Net, cut waste and allowance, in `unit`, not rounded.")]
    unit: Annotated[
        OrderUnit,
        Field(description="count: boards, slips, fasteners, lengths of trim; l: litres; kg: kilograms; m: metres."),
    ]
    pack_size: NotRequired[Annotated[float, Field(description="Contents of a pack, in `unit`; absent when not known.")]]
    pack_unit: NotRequired[Annotated[str, Field(description="What a pack is called.")]]
    packs_count: NotRequired[Annotated[int, Field(description="Whole packs for the order.")]]
    spare: NotRequired[Annotated[float, Field(description="What the packs hold beyond the order, in `unit`.")]]
    explanation: Annotated[str, Field(description="The working in a sentence, with rounded figures.")]
    step: NotRequired[
        Annotated[str, Field(description="With a trace: the step that gives the packs, or else the order.")]
    ]


class AdhesiveBead(TypedDict):
    """Adhesive behind slips, in beads or in a bed over all."""

    slip_face_area_m2: Annotated[
        float, figure("m2", "Face area of all slips: courses, soldiers, voussoirs, corner legs and slips in reveals.")
    ]
    bead_length_m: Annotated[float, figure("m", "Length of all beads; 0 for a bed over all.")]
    bead_section_mm2: Annotated[float, figure("mm2", "Section of a bead.")]
    bead_volume_ml_per_m: Annotated[float, figure("ml_per_m", "Adhesive in a metre of bead.")]
    pack_bead_length_m: NotRequired[
        Annotated[float, figure("m", "Length of bead from one pack, without allowance; absent for a bed over all.")]
    ]
    volume_l: Annotated[float, figure("l", "Adhesive in the beads, or in the bed, without allowance.")]
    packs_used: Annotated[float, Field(description="Volume in cartridges, foil packs or tubs, not rounded.")]
    coverage_fraction: Annotated[
        float,
        figure("fraction", "Share of the slip's back that pressed-out adhesive covers, at most 1: information only."),
    ]


class PointingMortar(TypedDict):
    """Mortar that fills the joints between slips."""

    joint_area_m2: Annotated[float, figure("m2", "Joints on the elevations; movement joints and end joints apart.")]
    reveal_joint_area_m2: Annotated[float, figure("m2", "Joints in lined reveals.")]
    profile_volume_l: Annotated[float, figure("l", "What tooling takes off a flush joint.")]
    volume_l: Annotated[float, figure("l", "Mortar in the joints, without allowance.")]
    volume_l_per_m2: Annotated[float, figure("l_per_m2", "Mortar for each square metre of net wall that slips cover.")]
    mass_kg: Annotated[float, figure("kg", "Mass of the mortar, without allowance.")]


class SealantRun(TypedDict):
    """Sealant of one section in one kind of place."""

    place: Annotated[
        SealedPlace,
        Field(
            description=(
                "movement_joint: plumb; storey_joint: level; edge: an abutment or a movement joint at the end of a face; frame: "
                "round openings."
            )
        ),
    ]
    length_m: Annotated[float, figure("m", "Length to seal.")]
    width_mm: Annotated[float, figure("mm", "Width of the joint.")]
    depth_mm: Annotated[float, figure("mm", "Depth of the sealant.")]
    section_mm2: Annotated[float, figure("mm2", "Section of the sealant.")]
    volume_ml_per_m: Annotated[float, figure("ml_per_m", "Sealant in a metre of joint.")]
    pack_run_length_m: NotRequired[
        Annotated[float, figure("m", "Length sealed from one pack, without allowance; absent when packs has no size.")]
    ]
    volume_l: Annotated[float, figure("l", "Sealant, without allowance.")]
    backer_rod: RodRow


class Sealant(TypedDict):
    """Sealant by place and section."""

    runs: Annotated[list[SealantRun], Field(description="By place, then by width.")]
    length_m: Annotated[float, figure("m", "Length of all runs.")]
    volume_l: Annotated[float, figure("l", "Sealant, without allowance.")]


class TrimRun(TypedDict):
    """A level run of base trim."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    x_from_mm: Annotated[float, figure("mm", "Left end.")]
    x_to_mm: Annotated[float, figure("mm", "Right end.")]
    y_mm: Annotated[float, figure("mm", "Height over the datum.")]
    length_mm: Annotated[float, figure("mm", "Length of the run.")]


class TrimStock(TypedDict):
    """Stock lengths that are cut alike."""

    pieces_mm: Annotated[
        list[Annotated[float, figure("mm", "Length of a piece.")]],
        Field(description="Pieces cut from it, longest first."),
    ]
    rest_mm: Annotated[float, figure("mm", "What is left of it after the last cut.")]
    count: Annotated[int, Field(description="Stock lengths cut in this way.")]


class BaseTrim(TypedDict):
    """Base trim along the foot of the cladding."""

    runs: Annotated[list[TrimRun], Field(description="By elevation, from left to right.")]
    length_m: Annotated[float, figure("m", "Length of all runs.")]
    steps_count: Annotated[int, Field(description="Steps between two runs that meet.")]
    stop_ends_count: Annotated[int, Field(description="Stop ends: two at each step.")]
    splices_count: Annotated[int, Field(description="Joints inside runs that are longer than a stock length.")]
    stock_length_mm: Annotated[float, figure("mm", "Length in which the trim is sold.")]
    lengths_count: Annotated[int, Field(description="Stock lengths used up.")]
    lengths_lower_bound_count: Annotated[int, Field(description="No cutting of these runs needs fewer.")]
    cutting: Annotated[list[TrimStock], Field(description="How stock lengths are cut, fullest first.")]


class ElevationQuantities(TypedDict):
    """What one elevation takes when it is bought for on its own."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    lines: Annotated[list[OrderLine], Field(description="Things to buy; corner slips count with the edge named first.")]
    adhesive: AdhesiveBead
    mortar: PointingMortar
    sealant: Sealant
    base_trim: BaseTrim


class QuantitiesResult(TypedDict):
    """What is bought for all elevations together, and for each on its own."""

    lines: Annotated[list[OrderLine], Field(description="Things to buy for all elevations together.")]
    adhesive: AdhesiveBead
    mortar: PointingMortar
    sealant: Sealant
    base_trim: BaseTrim
    elevations: Annotated[list[ElevationQuantities], Field(description="In the order of the request.")]
