"""The substrate that carries the cladding, and partial factors of what acts on it."""

from typing import Annotated

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import HOUSE, Clause
from storeyrod.units import quantity
from storeyrod.wall.fastener_models import Category

_WIND_FACTOR = Clause("EN 1990", "Table A1.2(B), variable action, unfavourable", "memory")
_WEIGHT_FACTOR = Clause("EN 1990", "Table A1.2(B), permanent action, unfavourable", "memory")


class Flatness(Closed):
    """The worst gap found under a straight edge on the bare wall."""

    spacing_m: Annotated[float, quantity("m", 0.1, 15.0, "Distance of the two points that the edge rests on.")]
    gap_mm: Annotated[float, quantity("mm", 0.0, 500.0, "Greatest gap under it.")]


class Substrate(Closed):
    """The wall behind the boards."""

    category: Annotated[
        Category | None,
        Field(
            description="A normal concrete, B solid masonry, C hollow or perforated masonry, D lightweight aggregate concrete, E aerated "
            "concrete; absent: unknown."
        ),
    ] = None
    thickness_mm: Annotated[
        float | None, quantity("mm", 10.0, 3000.0, "Thickness without render; absent: holes are not held against it.")
    ] = None
    render_mm: Annotated[
        float,
        quantity("mm", 0.0, 200.0, "Old render, plaster or paint, which does not count as substrate."),
        Assumed("mm", HOUSE, "none"),
    ] = 0.0
    levelling_mm: Annotated[
        float,
        quantity("mm", 0.0, 200.0, "Adhesive and packing behind the boards, up to the deepest hollow."),
        Assumed("mm", HOUSE),
    ] = 10.0
    flatness: Annotated[
        Flatness | None,
        Field(description="Flatness as surveyed, to be held against published limits; absent: not checked."),
    ] = None
    cover_mm: Annotated[
        float,
        quantity("mm", 0.0, 500.0, "Thickness that is left behind a hole, so that drilling does not break through."),
        Assumed("mm", HOUSE),
    ] = 20.0


class PartialFactors(Closed):
    """Partial factors of actions."""

    wind: Annotated[float, quantity("count", 1.0, 3.0, "On wind."), Assumed("count", _WIND_FACTOR)] = 1.5
    weight: Annotated[
        float, quantity("count", 1.0, 3.0, "On weight where it is unfavourable."), Assumed("count", _WEIGHT_FACTOR)
    ] = 1.35
