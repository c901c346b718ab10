"""Request of POST /v1/drawings."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Closed
from storeyrod.options import Options
from storeyrod.take_off.models import TakeOffRequest
from storeyrod.units import WHOLE, count, identifier


class ElevationSheet(Closed):
    """One elevation with outline, openings, boards, fasteners, movement joints, courses and dimensions."""

    kind: Annotated[Literal["elevation"], Field(description="What the sheet shows.")]
    elevation: Annotated[str, identifier("Name of an elevation of the take-off.")]
    scale: Annotated[
        int | None,
        count(1, 5000, "Denominator of the scale; absent: the largest standard scale at which the wall fits on A3."),
        WHOLE,
    ] = None


class DrawingRequest(Closed):
    """A take-off and the sheets wanted of it."""

    take_off: TakeOffRequest
    sheets: Annotated[
        list[ElevationSheet],
        Field(min_length=1, max_length=50, fail_fast=True, description="Sheets, drawn one below another."),
    ]
    options: Options = Options()
