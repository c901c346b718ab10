"""Request and result of POST /v1/take-offs."""

from typing import Annotated, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.boards.models import BoardLayoutResult, StockOffcuts
from storeyrod.fasteners.models import FastenerScheduleResult
from storeyrod.fasteners.resistance_models import ProofTests
from storeyrod.movement_joints.models import MovementJointsResult
from storeyrod.options import Options
from storeyrod.quantities.models import QuantitiesResult
from storeyrod.site.models import Site
from storeyrod.slips.models import SlipLayoutResult
from storeyrod.thermal.correction_models import Corrections
from storeyrod.thermal.models import BuildUp, UValueResult
from storeyrod.units import figure, identifier, quantity, words
from storeyrod.wall.models import Elevations
from storeyrod.wall.substrate_models import PartialFactors, Substrate
from storeyrod.wall.system import System
from storeyrod.weights.models import DeadLoadResult, LoadPathMembers
from storeyrod.wind.models import WindLoadResult
from storeyrod.wind.site_models import WindSite


class Project(Closed):
    """What the job is called, and its site."""

    name: Annotated[str | None, words(200, "Name of the job; printed on drawings.")] = None
    site: Annotated[
        Site | None, Field(description="Where the building stands and how high: for reminders of fire codes.")
    ] = None


class SurveyedLength(Closed):
    """Measured length of the wall behind an elevation."""

    elevation: Annotated[str, identifier("Name of the elevation.")]
    substrate_length_mm: Annotated[
        float, quantity("mm", 10.0, 500_000.0, "Length of the bare wall between its ends or corners.")
    ]


class Work(Closed):
    """What the gang can do in a day and how cold it may be; kept for a plan of the work, not used by a take-off."""

    facing_m2_per_day: Annotated[
        float | None, quantity("m2_per_day", 0.01, 10_000.0, "Wall that is faced with slips in a day.")
    ] = None
    minimum_temperature_deg_c: Annotated[
        float | None, quantity("deg_c", -20.0, 40.0, "Air temperature below which work stops.")
    ] = None


class TakeOffRequest(LoadPathMembers):
    """A whole job: its walls, the system that clads them, and what else is known."""

    project: Project | None = None
    system: System
    build_up: Annotated[
        BuildUp | None, Field(description="Layers from inside to outside, when a U-value is wanted.")
    ] = None
    corrections: Annotated[
        Corrections, Field(description="Corrections of the U-value; absent fasteners are taken from the schedule.")
    ] = Corrections()
    elevations: Elevations
    wind: Annotated[
        WindSite | None, Field(description="Wind on the building; absent: fasteners follow the common pattern alone.")
    ] = None
    substrate: Annotated[Substrate | None, Field(description="What the fasteners are driven into.")] = None
    partial_factors: PartialFactors = PartialFactors()
    proof_tests: Annotated[
        ProofTests | None, Field(description="Proof tests of working fasteners; absent: none are listed.")
    ] = None
    stock_offcuts: StockOffcuts = []
    survey: Annotated[
        list[SurveyedLength],
        Field(max_length=400, fail_fast=True, description="Measured lengths, to be compared with the outlines."),
    ] = []
    work: Work | None = None
    options: Options = Options()

    @property
    def asks_for_dead_loads(self) -> bool:
        """Whether anything is said of weights or of their load path."""
        return bool(self.model_fields_set & LoadPathMembers.model_fields.keys())

    def idle_members(self) -> frozenset[str]:
        """Without wind or weights no partial factor is used; without weights no gravity is."""
        if self.asks_for_dead_loads:
            return frozenset()
        idle = frozenset({"gravity_m_per_s2"})
        return idle if self.wind is not None else idle | {"partial_factors"}


class SurveyCheck(TypedDict):
    """A measured length beside the outline, in both planes."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    surveyed_substrate_length_mm: Annotated[float, figure("mm", "Length measured on the bare wall.")]
    surveyed_finished_length_mm: Annotated[
        float, figure("mm", "That length with the build-up added at external corners and taken off at internal ones.")
    ]
    outline_finished_length_mm: Annotated[float, figure("mm", "Length of the outline in the finished plane.")]
    difference_mm: Annotated[float, figure("mm", "Outline less survey, in the finished plane.")]


class ElevationTakeOff(TypedDict):
    """One elevation at a glance; the rooms below say more under its name."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    finished_length_mm: Annotated[float, figure("mm", "Length of the finished face.")]
    substrate_length_mm: Annotated[float, figure("mm", "Length of the bare wall behind it.")]
    gross_area_m2: Annotated[float, figure("m2", "Area of the outline.")]
    openings_area_m2: Annotated[float, figure("m2", "Area of the openings.")]
    net_area_m2: Annotated[float, figure("m2", "Outline less openings.")]
    reveal_area_m2: Annotated[float, figure("m2", "Lined reveals; no part of the net area.")]
    board_pieces_count: Annotated[int, Field(description="Pieces of board.")]
    boards_needed_count: Annotated[int, Field(description="Boards when this elevation is cut on its own.")]
    fasteners_count: Annotated[int, Field(description="Fasteners, without allowance.")]
    movement_joints_count: Annotated[int, Field(description="Movement joints.")]
    slip_pieces_count: Annotated[int, Field(description="Pieces of slip in courses, whole and cut.")]
    soldiers_count: Annotated[int, Field(description="Soldiers.")]
    voussoirs_count: Annotated[int, Field(description="Voussoirs.")]
    return_slips_count: Annotated[int, Field(description="L slips at lined jambs.")]
    bead_length_m: Annotated[float, figure("m", "Beads of adhesive.")]
    base_trim_length_m: Annotated[float, figure("m", "Base trim.")]


class TakeOffResult(TypedDict):
    """The whole job. Every part is what its own operation answers for the same input."""

    elevations: Annotated[list[ElevationTakeOff], Field(description="In the order of the request.")]
    gross_area_m2: Annotated[float, figure("m2", "Outlines.")]
    net_area_m2: Annotated[float, figure("m2", "Outlines less openings.")]
    boards: BoardLayoutResult
    fasteners: FastenerScheduleResult
    movement_joints: MovementJointsResult
    slips: SlipLayoutResult
    quantities: QuantitiesResult
    wind: NotRequired[
        Annotated[WindLoadResult, Field(description="Zones on the faces; absent when the request has no wind.")]
    ]
    dead_loads: NotRequired[
        Annotated[
            DeadLoadResult,
            Field(description="Masses and load path; absent when the request has no member about weights."),
        ]
    ]
    u_value: NotRequired[
        Annotated[UValueResult, Field(description="Of the build-up; absent when the request has none.")]
    ]
    survey: NotRequired[
        Annotated[list[SurveyCheck], Field(description="As surveyed; absent when the request has no survey.")]
    ]
