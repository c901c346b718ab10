"""Request and result of POST /v1/fastener-schedules."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.fasteners.resistance_models import FastenerLength, ProofTestArea, ProofTests
from storeyrod.options import Options
from storeyrod.site.models import Site
from storeyrod.units import figure
from storeyrod.wall.flatness_models import FlatnessRow
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

ZoneName = Annotated[
    str, Field(description="Zone of the wind that governs suction there: A, B, C along it, D before, E behind.")
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
    proof_tests: Annotated[
        ProofTests | None, Field(description="Proof tests of working fasteners; absent: none are listed.")
    ] = None
    options: Options = Options()

    def idle_members(self) -> frozenset[str]:
        """Without wind no partial factor is used."""
        return frozenset() if self.wind is not None else frozenset({"partial_factors"})


class FastenerPosition(TypedDict):
    """One fastener."""

    id: Annotated[
        str, Field(description="Id of its piece and its number there: row by row from the lowest, left to right.")
    ]
    piece: Annotated[str, Field(description="Id of the piece of board, as in the board layout.")]
    x_mm: Annotated[float, figure("mm", "To the right, in the coordinates of the elevation.")]
    y_mm: Annotated[float, figure("mm", "Upwards: the middle of a slip.")]
    stage: StageName
    zone: NotRequired[ZoneName]


class PieceCount(TypedDict):
    """Fasteners of one piece; members of wind are absent where it was not assessed."""

    piece: Annotated[str, Field(description="Id of the piece.")]
    fasteners_count: Annotated[int, Field(description="Its fasteners.")]
    minimum_count: NotRequired[
        Annotated[int, Field(description="Fasteners that the common pattern puts there, whatever the wind.")]
    ]
    zone: NotRequired[ZoneName]
    suction_pa: NotRequired[
        Annotated[float, figure("pa", "Strongest net suction of the zones that it touches, characteristic.")]
    ]
    area_m2: NotRequired[Annotated[float, figure("m2", "Its area, notches and holes deducted.")]]
    action_kn: NotRequired[
        Annotated[float, figure("kn", "Design action: suction, times the partial factor of wind, on its area.")]
    ]
    needed_count: NotRequired[
        Annotated[
            int, Field(description="Fasteners that pull-out needs, rounded up; absent where no resistance is known.")
        ]
    ]
    governed_by: NotRequired[
        Annotated[
            Literal["minimum", "pull_out", "pull_through"],
            Field(description="What decides the number: the common pattern, or what the substrate or the board holds."),
        ]
    ]
    pull_out_kn: NotRequired[Annotated[float, figure("kn", "Design resistance of its fasteners to pull-out.")]]
    pull_out_utilisation_fraction: NotRequired[Annotated[float, figure("fraction", "Action over that resistance.")]]
    heads_near_edge_count: NotRequired[
        Annotated[int, Field(description="Heads counted as near an edge, where pull-through was assessed.")]
    ]
    pull_through_kn: NotRequired[
        Annotated[float, figure("kn", "Design resistance of the board at its heads; absent where it was not assessed.")]
    ]
    pull_through_utilisation_fraction: NotRequired[Annotated[float, figure("fraction", "Action over that resistance.")]]
    working: NotRequired[
        Annotated[
            str,
            Field(
                description="Id of the step that gave what governs; its inputs lead back to wind, area and resistance. Alike pieces share "
                "it. Only with options.trace steps."
            ),
        ]
    ]


class ZoneFasteners(TypedDict):
    """Fasteners of one zone of an elevation; a piece that a stronger zone touches counts there as a whole."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    zone: NotRequired[ZoneName]
    pieces_count: Annotated[int, Field(description="Pieces of board.")]
    fasteners_count: Annotated[int, Field(description="Their fasteners.")]
    piece_area_m2: Annotated[float, figure("m2", "Their area.")]
    density_per_m2: Annotated[float, figure("per_m2", "Fasteners on a square metre of these boards, on average.")]


class PullOutResistance(TypedDict):
    """What one fastener holds in the substrate; a value that is withheld is absent, and a finding says why."""

    basis: Annotated[
        Literal["declared", "tests"],
        Field(description="The caller's declared value, or the caller's tests by the rule named."),
    ]
    document: Annotated[str, Field(description="Document of the rule.")]
    rule: Annotated[str, Field(description="The rule.")]
    status: Annotated[str, Field(description="How sure the rule is.")]
    tests_count: NotRequired[Annotated[int, Field(description="Tests given.")]]
    mean_kn: NotRequired[Annotated[float, figure("kn", "Mean of the tests that counted.")]]
    characteristic_kn: NotRequired[Annotated[float, figure("kn", "Characteristic resistance.")]]
    design_kn: NotRequired[Annotated[float, figure("kn", "Design resistance: over the partial factor.")]]


class FastenerHeat(TypedDict):
    """Heat through the fasteners by their declared point transmittance; the shank route of ISO 6946 must not be added to it."""

    chi_w_per_k: Annotated[float, figure("w_per_k", "Declared point thermal transmittance of one fastener.")]
    density_per_m2: Annotated[float, figure("per_m2", "Fasteners on a square metre of board, on average.")]
    addition_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "What they add to the U-value.")]


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
    flatness: NotRequired[
        Annotated[FlatnessRow, Field(description="Flatness of the substrate; absent where it was not surveyed.")]
    ]
    elevations: Annotated[list[ElevationFasteners], Field(description="In the order of the request.")]
    zones: NotRequired[
        Annotated[
            list[ZoneFasteners],
            Field(
                description="By elevation and zone; a row without zone holds pieces for which wind was not assessed. Absent without wind."
            ),
        ]
    ]
    resistance: NotRequired[PullOutResistance]
    length: NotRequired[FastenerLength]
    proof_tests: NotRequired[
        Annotated[list[ProofTestArea], Field(description="By elevation; absent unless the request asks for them.")]
    ]
    heat: NotRequired[FastenerHeat]
    pieces: NotRequired[
        Annotated[
            list[PieceCount], Field(description="In the order of the board layout; absent with options.detail summary.")
        ]
    ]
    positions: NotRequired[
        Annotated[list[FastenerPosition], Field(description="Every fastener; absent with options.detail summary.")]
    ]
