"""Request and result of POST /v1/setting-out."""

from typing import Annotated, Literal

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.options import Options
from storeyrod.setting_out.bond_models import BondLoop, CornerSetOut, ElevationSetOut
from storeyrod.setting_out.level_models import DatumResult, ElevationBase, FinishedFace
from storeyrod.units import figure, quantity
from storeyrod.wall.models import Elevations
from storeyrod.wall.system import System

_FARTHEST_MM = 500_000.0


class DatumAsGiven(Closed):
    """Courses from the system's course_datum_mm."""

    kind: Literal["as_given"]


class DatumFixed(Closed):
    """Courses from a level of the site."""

    kind: Literal["fixed"]
    level_mm: Annotated[float, quantity("mm", -_FARTHEST_MM, _FARTHEST_MM, "Level of the foot of course 0.")]


class DatumMatchBed(Closed):
    """Courses in line with those of an adjoining building."""

    kind: Literal["match_bed"]
    match_bed_at_mm: Annotated[
        float,
        quantity(
            "mm",
            -_FARTHEST_MM,
            _FARTHEST_MM,
            "Level of the top of one of its bed joints, where its next course stands.",
        ),
    ]


class DatumBest(Closed):
    """The candidate at which heads, sills and tops fall best."""

    kind: Literal["best"]


Datum = Annotated[DatumAsGiven | DatumFixed | DatumMatchBed | DatumBest, Field(discriminator="kind")]


class SettingOutRequest(Closed):
    """The elevations to be set out; all of a building together, so that the bond goes round it."""

    elevations: Elevations
    system: System
    datum: Annotated[Datum | None, Field(description="Which level courses are gauged from; absent: as given.")] = None
    options: Options = Options()


class UnitRates(TypedDict):
    """Units for each square metre of wall without ends or openings."""

    straight_per_m2: Annotated[float, figure("per_m2", "Stretchers.")]
    header_per_m2: Annotated[float, figure("per_m2", "Headers.")]
    face_per_m2: Annotated[float, figure("per_m2", "All units on the face.")]


class CoordinatingSize(TypedDict):
    """Sizes of a number of modules."""

    modules: Annotated[float, Field(description="Modules, in halves.")]
    co_mm: Annotated[float, figure("mm", "Modules with one joint each.")]
    co_plus_mm: Annotated[float, figure("mm", "With a joint more: an opening.")]
    co_minus_mm: Annotated[float, figure("mm", "With a joint less: a pier.")]


class SizeTolerance(TypedDict):
    """A category of size tolerance for clay units, and what it does to perps on the module."""

    category: Annotated[Literal["T1", "T2"], Field(description="Category of the mean size; T1 is the wider.")]
    length_mm: Annotated[float, figure("mm", "By how much the mean length may differ from the work size.")]
    length_mm_declared: Annotated[int, Field(description="That in whole millimetres, as declared.")]
    height_mm: Annotated[float, figure("mm", "By how much the mean height may differ from the work size.")]
    height_mm_declared: Annotated[int, Field(description="That in whole millimetres, as declared.")]
    length_range_mm: Annotated[float, figure("mm", "Between the longest and the shortest slip of a delivery (R1, R2).")]
    height_range_mm: Annotated[float, figure("mm", "Between the highest and the lowest slip of a delivery.")]
    perp_least_mm: Annotated[float, figure("mm", "Perp on the module with slips that much too long.")]
    perp_most_mm: Annotated[float, figure("mm", "Perp on the module with slips that much too short.")]
    perps_within: Annotated[bool, Field(description="Whether both lie inside perp_min_mm to perp_max_mm.")]


class BondLap(TypedDict):
    """Overlap of units in neighbouring courses."""

    overlap_mm: Annotated[float, figure("mm", "Least overlap in the field of the bond.")]
    masonry_rule_mm: Annotated[float, figure("mm", "Least overlap of masonry laid in mortar, for comparison.")]
    keeps_masonry_rule: Annotated[bool, Field(description="Whether the bond has that overlap.")]


class SettingOutResult(TypedDict):
    """What a gang marks on the wall before the first board."""

    faces: Annotated[list[FinishedFace], Field(description="In the order of the request.")]
    datum: DatumResult
    bases: Annotated[list[ElevationBase], Field(description="In the order of the request.")]
    elevations: Annotated[list[ElevationSetOut], Field(description="In the order of the request.")]
    corners: Annotated[list[CornerSetOut], Field(description="By name of their edges.")]
    loops: Annotated[list[BondLoop], Field(description="By name of their first face.")]
    coordinating_sizes: Annotated[
        list[CoordinatingSize], Field(description="Of half, one, one and a half modules, ...")
    ]
    lap: BondLap
    size_tolerances: Annotated[list[SizeTolerance], Field(description="Both categories, beside the slips' work sizes.")]
