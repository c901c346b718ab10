"""Request of POST /v1/drawings."""

from collections.abc import Sequence
from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Closed
from storeyrod.junctions.models import ThermalJunctionRequest
from storeyrod.moisture.models import CondensationRequest
from storeyrod.options import Options
from storeyrod.take_off.models import TakeOffRequest
from storeyrod.units import WHOLE, count, identifier, quantity
from storeyrod.wall.opening_models import FARTHEST_MM
from storeyrod.wind.site_models import SideName

ElevationName = Annotated[str, identifier("Name of an elevation of the take-off.")]


class ElevationSheet(Closed):
    """One elevation with outline, openings, boards, fasteners, movement joints, courses and dimensions."""

    kind: Annotated[Literal["elevation"], Field(description="What the sheet shows.")]
    elevation: ElevationName
    scale: Annotated[
        int | None,
        count(1, 5000, "Denominator of the scale; absent: the largest standard scale at which the wall fits on A3."),
        WHOLE,
    ] = None


class SettingOutSheet(Closed):
    """One elevation as it is marked on the wall: datum, courses, levels, bays, perps, plumb lines and movement joints."""

    kind: Annotated[Literal["setting_out"], Field(description="What the sheet shows.")]
    elevation: ElevationName
    scale: Annotated[
        int | None,
        count(
            1,
            5000,
            "Denominator of the scale; absent: the largest standard scale at which the wall fits on A3, or on the smallest "
            "larger sheet that takes it at 1:50.",
        ),
        WHOLE,
    ] = None


class SlipsSheet(Closed):
    """One elevation with every slip: whole, cut, header, soldier, corner, return and voussoir."""

    kind: Annotated[Literal["slips"], Field(description="What the sheet shows.")]
    elevation: ElevationName
    scale: Annotated[
        int | None,
        count(
            1,
            5000,
            "Denominator of the scale; absent: the largest standard scale at which the wall fits on A3, or on the smallest "
            "larger sheet on which a slip is 3 mm long. Shorter slips are drawn by courses, ends, jambs and cuts alone.",
        ),
        WHOLE,
    ] = None


class BoardsSheet(Closed):
    """One elevation as it is boarded: every piece with the board it is cut from, its size, its sawn edges and its row."""

    kind: Annotated[Literal["boards"], Field(description="What the sheet shows.")]
    elevation: ElevationName
    scale: Annotated[
        int | None,
        count(
            1,
            5000,
            "Denominator of the scale; absent: the largest standard scale at which the wall fits on A3, or on the smallest "
            "larger sheet that takes it at 1:20.",
        ),
        WHOLE,
    ] = None


class JointsSheet(Closed):
    """One elevation with its movement joints: places, widths, reasons, and every bay against the limit that governs it."""

    kind: Annotated[Literal["joints"], Field(description="What the sheet shows.")]
    elevation: ElevationName
    scale: Annotated[
        int | None,
        count(
            1,
            5000,
            "Denominator of the scale; absent: the largest standard scale at which the wall fits on A3, or on the smallest "
            "larger sheet that takes it at 1:100.",
        ),
        WHOLE,
    ] = None


class FastenersSheet(Closed):
    """One elevation with every fastener by stage and wind zone, and a table of counts that add up to the schedule.

    Each fastener is an element with its id: that of its piece of board, a colon and its number in the piece. A part of a long
    wall is drawn between break lines; sheets of parts that follow one another hold every fastener once.
    """

    kind: Annotated[Literal["fasteners"], Field(description="What the sheet shows.")]
    elevation: ElevationName
    x_from_mm: Annotated[
        float | None,
        quantity("mm", -FARTHEST_MM, FARTHEST_MM, "Where the part that is drawn begins; absent: left end of the wall."),
    ] = None
    x_to_mm: Annotated[
        float | None,
        quantity(
            "mm",
            -FARTHEST_MM,
            FARTHEST_MM,
            "Where it ends, at least 100 mm further; absent: right end of the wall. What lies beyond the wall is left out.",
        ),
    ] = None
    scale: Annotated[
        int | None,
        count(
            1,
            5000,
            "Denominator of the scale; absent: the largest standard scale at which the wall fits on A3, or on the smallest "
            "larger sheet that takes it at 1:50.",
        ),
        WHOLE,
    ] = None


class WindSheet(Closed):
    """One elevation with its wind zones, their directions, suctions and pressures, and their distances from its ends."""

    kind: Annotated[Literal["wind"], Field(description="What the sheet shows; the take-off must have wind.")]
    elevation: ElevationName
    direction: Annotated[
        SideName | None,
        Field(description="Side on which the wind blows; absent: the envelope of all directions of the take-off."),
    ] = None
    scale: Annotated[
        int | None,
        count(
            1,
            5000,
            "Denominator of the scale; absent: the largest standard scale at which the wall fits on A3, or on the smallest "
            "larger sheet that takes it at 1:100.",
        ),
        WHOLE,
    ] = None


class CutSheets(Closed):
    """Every way in which boards and stock offcuts of the whole take-off are cut, many to a sheet.

    As many sheets are drawn as that takes, one below another; boards are pooled, so no elevation is named.
    """

    kind: Annotated[Literal["cut_sheets"], Field(description="What the sheets show.")]
    scale: Annotated[
        int | None,
        count(
            1,
            5000,
            "Denominator of the scale; absent: the largest standard scale at which about eight boards stand on A3, such as 1:20.",
        ),
        WHOLE,
    ] = None


class LoadPathSheet(Closed):
    """The load path of the whole take-off: a bar for each link under each action, as long as its use, or what is missing.

    It is not to scale, and no elevation is named: of fasteners the piece used most stands there.
    """

    kind: Annotated[
        Literal["load_path"],
        Field(description="What the sheet shows; the take-off must have dead loads, for which `links: []` will do."),
    ]


class IsothermsSheet(Closed):
    """The section of the thermal junction with its materials, isotherms at round temperatures, points, the coldest point of the
    inside surface, environments and results.
    """

    kind: Annotated[
        Literal["isotherms"], Field(description="What the sheet shows; the request must have a thermal_junction.")
    ]
    case: Annotated[
        str | None, identifier("Id of a case of the junction; absent: the temperatures of its boundaries.")
    ] = None
    scale: Annotated[
        int | None,
        count(
            1,
            5000,
            "Denominator of the scale; absent: the largest standard scale, from an enlarging 10:1 on, at which the section fits on A3 "
            "with its tables, or on the smallest larger sheet that takes it at 1:10. A larger scale leaves room for closer isotherms.",
        ),
        WHOLE,
    ] = None


class VapourPressureSheet(Closed):
    """Temperature, saturation and vapour pressure over thickness and over equivalent air layers in one month, planes where moisture
    condenses, and a table of all months. It is not to scale.
    """

    kind: Annotated[
        Literal["vapour_pressure"],
        Field(description="What the sheet shows; the request must have a condensation_check."),
    ]
    month: Annotated[
        int | None,
        count(
            1,
            12,
            "Month that is drawn, 1 for January; absent: the one in which most condenses, else the coldest. Of a steady climate "
            "no month can be drawn: leave it out.",
        ),
        WHOLE,
    ] = None


AnySheet = Annotated[
    ElevationSheet
    | SettingOutSheet
    | SlipsSheet
    | BoardsSheet
    | JointsSheet
    | FastenersSheet
    | WindSheet
    | CutSheets
    | LoadPathSheet
    | IsothermsSheet
    | VapourPressureSheet,
    Field(discriminator="kind"),
]


def elevation_of(sheet: AnySheet) -> str | None:
    """The elevation that a sheet shows; none where it shows no elevation, or all of them."""
    match sheet:
        case CutSheets() | LoadPathSheet() | IsothermsSheet() | VapourPressureSheet():
            return None
        case _:
            return sheet.elevation


def elevations_shown(sheet: AnySheet, every: Sequence[str]) -> Sequence[str]:
    """Elevations of which a sheet draws something, of all that there are."""
    if isinstance(sheet, CutSheets):
        return every
    name = elevation_of(sheet)
    return () if name is None else (name,)


def scale_of(sheet: AnySheet) -> int | None:
    """The scale asked for; none where it is left to the paper, or where there is none."""
    return None if isinstance(sheet, LoadPathSheet | VapourPressureSheet) else sheet.scale


class DrawingRequest(Closed):
    """The sheets wanted, and what they are drawn from."""

    take_off: Annotated[
        TakeOffRequest | None,
        Field(description="The job of which elevations, cut sheets and load path are drawn; other sheets need none."),
    ] = None
    thermal_junction: Annotated[
        ThermalJunctionRequest | None, Field(description="The junction of which isotherms are drawn.")
    ] = None
    condensation_check: Annotated[
        CondensationRequest | None, Field(description="The moisture check of which vapour pressures are drawn.")
    ] = None
    sheets: Annotated[
        list[AnySheet],
        Field(min_length=1, max_length=50, fail_fast=True, description="Sheets, drawn one below another."),
    ]
    options: Options = Options()
