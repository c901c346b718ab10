"""Request and result of POST /v1/fastener-schedules."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.options import Options
from storeyrod.site.models import Site
from storeyrod.units import figure
from storeyrod.wall.models import Elevations
from storeyrod.wall.substrate_models import PartialFactors, Substrate
from storeyrod.wall.system import System
from storeyrod.wind.site_models import WindSite

StageName = Annotated[
    Literal["first", "rest", "after_trim"],
    Field(
        description="first: hold the board for checking level, plane and ribs; rest: follow; after_trim: wait until the base trim is slotted."
    ),
]


class FastenerScheduleRequest(Closed):
    """The elevations whose boards are to be fastened."""

    elevations: Elevations
    system: System
    wind: Annotated[
        WindSite | None, Field(description="Wind on the building; absent: fasteners follow the common pattern alone.")
    ] = None
    substrate: Annotated[Substrate | None, Field(description="What the fasteners are driven into.")] = None
    partial_factors: PartialFactors = PartialFactors()
    site: Annotated[
        Site | None, Field(description="Where the building stands and how high: for reminders of fire codes.")
    ] = None
    options: Options = Options()

    def idle_members(self) -> frozenset[str]:
        """Without wind no partial factor is used."""
        return frozenset() if self.wind is not None else frozenset({"partial_factors"})


class FastenerPosition(TypedDict):
    """One fastener."""

    piece: Annotated[str, Field(description="Id of the piece of board, as in the board layout.")]
    x_mm: Annotated[float, figure("mm", "To the right, in the coordinates of the elevation.")]
    y_mm: Annotated[float, figure("mm", "Upwards: the middle of a slip.")]
    stage: StageName


class PieceCount(TypedDict):
    """Fasteners of one piece."""

    piece: Annotated[str, Field(description="Id of the piece.")]
    fasteners_count: Annotated[int, Field(description="Its fasteners.")]


class ElevationFasteners(TypedDict):
    """Fasteners of one elevation."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    fasteners_count: Annotated[int, Field(description="All of them.")]
    first_count: Annotated[int, Field(description="Driven first.")]
    rest_count: Annotated[int, Field(description="Driven after the check.")]
    after_trim_count: Annotated[int, Field(description="Driven after the base trim is slotted.")]
    piece_area_m2: Annotated[float, figure("m2", "Area of its boards.")]
    density_per_m2: Annotated[float, figure("per_m2", "Fasteners on a square metre of board, on average.")]


class FastenerScheduleResult(TypedDict):
    """Fasteners of all elevations."""

    fasteners_count: Annotated[int, Field(description="All of them, without allowance.")]
    first_count: Annotated[int, Field(description="Driven first.")]
    rest_count: Annotated[int, Field(description="Driven after the check.")]
    after_trim_count: Annotated[int, Field(description="Driven after the base trim is slotted.")]
    density_per_m2: Annotated[float, figure("per_m2", "Fasteners on a square metre of board, on average.")]
    full_board_count: Annotated[int, Field(description="Fasteners that the pattern puts into a whole board.")]
    elevations: Annotated[list[ElevationFasteners], Field(description="In the order of the request.")]
    pieces: NotRequired[
        Annotated[
            list[PieceCount], Field(description="In the order of the board layout; absent with options.detail summary.")
        ]
    ]
    positions: NotRequired[
        Annotated[list[FastenerPosition], Field(description="Every fastener; absent with options.detail summary.")]
    ]
