"""Request and result of POST /v1/dead-loads."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Assumed, Closed
from storeyrod.options import Options
from storeyrod.reference.documents import Clause
from storeyrod.units import WHOLE, count, figure, identifier, quantity
from storeyrod.wall.models import Elevations
from storeyrod.wall.substrate_models import PartialFactors, Substrate
from storeyrod.wall.system import System
from storeyrod.weights.load_path_models import LoadPath, ResistanceOfLink
from storeyrod.wind.site_models import WindSite

_GRAVITY = Clause("ISO 80000-4", "standard acceleration of free fall", "memory")

Role = Literal["slips", "header_slips", "corner_slips", "boards", "mortar", "adhesive"]
"""What is lifted and stacked."""


LayerName = Literal["slips", "pointing", "adhesive", "board", "bonding"]
"""Layers from outside to inside."""


class ScaffoldClass(Closed):
    """A scaffold by its load class."""

    kind: Literal["load_class"]
    load_class: Annotated[int, count(1, 6, "Load class of the working area."), WHOLE]


class ScaffoldLoad(Closed):
    """A scaffold by what its boards may carry."""

    kind: Literal["load"]
    load_kn_per_m2: Annotated[float, quantity("kn_per_m2", 0.1, 50.0, "Uniform load that it may carry.")]


class Pallet(Closed):
    """A pallet or stack as it is set down: by its mass, or by packs of the system's content."""

    role: Annotated[Role, Field(description="What is on it.")]
    mass_kg: Annotated[float | None, quantity("kg", 1.0, 20_000.0, "Mass with packing; or give packs_count.")] = None
    packs_count: Annotated[int | None, count(1, 10_000, "Packs on it; or give mass_kg."), WHOLE] = None
    length_m: Annotated[float, quantity("m", 0.1, 20.0, "Length of its footprint.")]
    width_m: Annotated[float, quantity("m", 0.1, 20.0, "Width of its footprint.")]


class Handling(Closed):
    """What is lifted, and where it is set down."""

    lifting_limit_kg: Annotated[
        float | None, quantity("kg", 1.0, 1000.0, "Most that one person lifts on this site; absent: not checked.")
    ] = None
    scaffold: Annotated[ScaffoldClass | ScaffoldLoad | None, Field(discriminator="kind")] = None
    pallets: Annotated[list[Pallet], Field(max_length=50, fail_fast=True, description="Pallets and stacks.")] = []


class MassLimit(Closed):
    """A limit that the caller has from an assessment or a design."""

    name: Annotated[str, identifier("What sets the limit.")]
    of: Annotated[
        Literal["face", "cladding"],
        Field(description="face: slips, pointing and adhesive; cladding: face and boards."),
    ] = "cladding"
    mass_kg_per_m2: Annotated[float, quantity("kg_per_m2", 0.1, 1000.0, "Most that it allows.")]


MassLimits = Annotated[
    list[MassLimit], Field(max_length=50, fail_fast=True, description="The caller's limits of mass.")
]
LinkResistances = Annotated[
    list[ResistanceOfLink],
    Field(
        max_length=50,
        fail_fast=True,
        description="Declared resistances of links; of two for one link the lower counts.",
    ),
]


class LoadPathMembers(Closed):
    """What weights and their load path need beside the wall."""

    handling: Handling = Handling()
    mass_limits: MassLimits = []
    links: LinkResistances = []
    supplementary_adhesive: Annotated[
        bool, Field(strict=True, description="Whether boards are bonded to the substrate as well as fastened.")
    ] = False
    bonding_kg_per_m2: Annotated[
        float | None,
        quantity("kg_per_m2", 0.1, 50.0, "Mass of adhesive and packing behind the boards; absent: left out."),
    ] = None
    gravity_m_per_s2: Annotated[
        float,
        quantity("m_per_s2", 9.7, 10.0, "Acceleration of free fall; some take 10."),
        Assumed("m_per_s2", _GRAVITY),
    ] = 9.80665


class DeadLoadRequest(LoadPathMembers):
    """The wall whose weight is wanted, how it is handled, and what its links carry."""

    elevations: Elevations
    system: System
    wind: Annotated[WindSite | None, Field(description="Wind, for the links that carry suction.")] = None
    substrate: Annotated[Substrate | None, Field(description="What the fasteners are driven into.")] = None
    partial_factors: PartialFactors = PartialFactors()
    options: Options = Options()


class MassLayer(TypedDict):
    """One layer of a square metre of wall without openings."""

    layer: Annotated[LayerName, Field(description="What it is.")]
    mass_kg_per_m2: Annotated[float, figure("kg_per_m2", "Its mass.")]
    density_kg_per_m3: NotRequired[
        Annotated[float, figure("kg_per_m3", "Its density; absent where only its mass is given.")]
    ]


class ElevationMass(TypedDict):
    """Masses of one elevation as it is laid, reveals apart."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    slips_kg: Annotated[float, figure("kg", "Slips on the face.")]
    pointing_kg: Annotated[float, figure("kg", "Joints filled to their depth, less what tooling leaves hollow.")]
    adhesive_kg: Annotated[float, figure("kg", "Adhesive behind the slips.")]
    boards_kg: NotRequired[Annotated[float, figure("kg", "Pieces of board; absent where their mass is not known.")]]
    bonding_kg: NotRequired[
        Annotated[float, figure("kg", "Adhesive and packing behind the boards, where bonding_kg_per_m2 is given.")]
    ]
    total_kg: NotRequired[Annotated[float, figure("kg", "All of it; absent where the mass of boards is not known.")]]
    net_area_m2: Annotated[float, figure("m2", "Outline less openings.")]


class PieceMass(TypedDict):
    """A thing that is lifted by itself."""

    what: Annotated[str, Field(description="slip, header slip, corner slip, board, or the id of a piece of board.")]
    mass_kg: Annotated[float, figure("kg", "Its mass.")]


class PackMass(TypedDict):
    """A pack of the system."""

    role: Annotated[Role, Field(description="What is in it.")]
    mass_kg: Annotated[float, figure("kg", "Content, without packing.")]
    over_limit: NotRequired[Annotated[bool, Field(description="Whether it is over handling.lifting_limit_kg.")]]


class PalletLoad(TypedDict):
    """A pallet on the boards of a scaffold."""

    role: Annotated[Role, Field(description="What is on it.")]
    mass_kg: Annotated[float, figure("kg", "Its mass.")]
    load_kn_per_m2: Annotated[float, figure("kn_per_m2", "Spread over its footprint.")]
    least_class: NotRequired[
        Annotated[int, Field(description="Lowest scaffold class with this load; absent where no class has it.")]
    ]


class LiftingFilter(TypedDict):
    """A published filter value for handling by one person, and packs over it. Information, never a verdict."""

    who: Annotated[str, Field(description="Whom it is for.")]
    zone: Annotated[str, Field(description="Where the hands are.")]
    mass_kg: Annotated[float, figure("kg", "The value.")]
    over: Annotated[list[str], Field(description="Packs and pieces that are heavier.")]
    source: Annotated[str, Field(description="Document.")]
    status: Annotated[str, Field(description="How the value is known.")]


class ScopeLimit(TypedDict):
    """A limit of a published document's scope beside this system. Information, never a verdict."""

    what: Annotated[str, Field(description="What is limited.")]
    value: Annotated[float, Field(description="Of this system.")]
    limit: Annotated[float, Field(description="Of the document.")]
    unit: Annotated[str, Field(description="Unit of both.")]
    exceeded: Annotated[bool, Field(description="Whether the system lies outside.")]
    finding: Annotated[str, Field(description="Finding that says so.")]
    source: Annotated[str, Field(description="Document.")]
    status: Annotated[str, Field(description="How the limit is known.")]


class LimitCheck(TypedDict):
    """One of the caller's limits."""

    name: Annotated[str, Field(description="Its name.")]
    mass_kg_per_m2: Annotated[float, figure("kg_per_m2", "Of this system, less what is missing.")]
    limit_kg_per_m2: Annotated[float, figure("kg_per_m2", "Of the caller.")]
    exceeded: NotRequired[
        Annotated[bool, Field(description="Whether the system is heavier; absent where that turns on what is missing.")]
    ]
    missing: NotRequired[Annotated[str, Field(description="What the mass leaves out because it is not known.")]]


class DeadLoadResult(TypedDict):
    """Masses, what is lifted, and the load path."""

    layers: Annotated[list[MassLayer], Field(description="From outside to inside.")]
    face_kg_per_m2: Annotated[float, figure("kg_per_m2", "Slips, pointing and adhesive.")]
    face_kn_per_m2: Annotated[float, figure("kn_per_m2", "Its weight.")]
    cladding_kg_per_m2: NotRequired[
        Annotated[float, figure("kg_per_m2", "Face, boards and bonding; absent where the board's mass is not known.")]
    ]
    cladding_kn_per_m2: NotRequired[Annotated[float, figure("kn_per_m2", "Its weight.")]]
    coverage_fraction: Annotated[
        float,
        figure(
            "fraction", "Share of the backs of slips that adhesive covers, at most 1: arithmetic, not a measurement."
        ),
    ]
    bonded_fraction: Annotated[
        float, figure("fraction", "Share of the face on which slips are bonded: that of slips by their coverage.")
    ]
    elevations: Annotated[list[ElevationMass], Field(description="In the order of the request.")]
    total_kg: NotRequired[Annotated[float, figure("kg", "All elevations; absent where the board's mass is not known.")]]
    heaviest: Annotated[list[PieceMass], Field(description="What this job lifts piece by piece, the heaviest first.")]
    pieces: NotRequired[
        Annotated[list[PieceMass], Field(description="Every piece of board; absent with options.detail summary.")]
    ]
    packs: Annotated[list[PackMass], Field(description="Packs of the system whose content is given.")]
    pallets: Annotated[list[PalletLoad], Field(description="In the order of the request.")]
    lifting: Annotated[list[LiftingFilter], Field(description="Published filter values for one person.")]
    scopes: Annotated[list[ScopeLimit], Field(description="Limits of the scopes of published documents.")]
    limits: Annotated[list[LimitCheck], Field(description="All of the caller's limits, in the order of the request.")]
    load_path: Annotated[LoadPath, Field(description="From slip to structure, link by link.")]
