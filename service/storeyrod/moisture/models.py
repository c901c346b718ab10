"""A build-up and the climates on its two sides, and through which parts of its bridged layers moisture is followed."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.options import Options
from storeyrod.reference.documents import HOUSE, Clause
from storeyrod.thermal.models import BuildUp, MaterialLayer
from storeyrod.units import WHOLE, count, quantity

_MARGIN = Clause("ISO 13788", "4.3, margin on the moisture excess", "memory")
_INDOORS = Clause("ISO 13788", "Annex A, temperature of heated rooms", "memory")
_MOULD_SURFACE = Clause("ISO 13788", "table 2, internal surfaces but windows", "memory")
_NO_FILM = Clause("ISO 13788", "6.3, vapour resistance of surfaces left out", "memory")
_LESS_FAVOURABLE = Clause("DIN 4108-3", "less favourable factor on either side", "memory")

_Temperature = Annotated[float, quantity("deg_c", -60.0, 60.0, "Temperature of the air, mean of the period.")]
_Humidity = Annotated[
    float,
    quantity("fraction", 0.0, 100.0, "Relative humidity, mean of the period: 0.8 for 80 %; over 1 is refused."),
]
_Days = Annotated[float, quantity("days", 0.1, 3650.0, "How long it lasts.")]
_MouldSurface = Annotated[
    float,
    quantity("m2_k_per_w", 0.04, 2.0, "Internal surface resistance at which mould and surface humidity are judged."),
    Assumed("m2_k_per_w", _MOULD_SURFACE, "behind furniture and in corners air is stiller than on an open wall"),
]


class AirState(Closed):
    """Air by temperature and relative humidity."""

    temperature_deg_c: _Temperature
    humidity_fraction: _Humidity


class OutdoorMonth(Closed):
    """Mean outdoor air of a month."""

    temperature_deg_c: _Temperature
    humidity_fraction: _Humidity
    days: Annotated[
        float | None, quantity("days", 28.0, 31.0, "Length of the month; absent: of the calendar, 28 for February.")
    ] = None


class HumidityClass(Closed):
    """Indoor air by the excess of its vapour pressure over that outdoors."""

    kind: Literal["class"]
    humidity_class: Annotated[
        Literal[1, 2, 3, 4, 5],
        Field(
            description="1: stores; 2: offices, shops; 3: dwellings with few people; 4: sports halls, kitchens, dwellings with many; "
            "5: laundries, breweries, pools."
        ),
        WHOLE,
    ]
    margin_factor: Annotated[
        float, quantity("count", 1.0, 3.0, "Factor on the excess of the class."), Assumed("count", _MARGIN)
    ] = 1.1
    temperature_deg_c: Annotated[
        float, quantity("deg_c", -60.0, 60.0, "Indoor temperature all year."), Assumed("deg_c", _INDOORS)
    ] = 20.0


class ConstantIndoors(Closed):
    """Indoor air of one temperature and humidity all year; used as given, without a margin."""

    kind: Literal["constant"]
    temperature_deg_c: _Temperature
    humidity_fraction: _Humidity


class MonthlyIndoors(Closed):
    """Indoor air month by month; used as given, without a margin."""

    kind: Literal["monthly"]
    months: Annotated[
        list[AirState],
        Field(max_length=366, fail_fast=True, description="Mean indoor air of twelve months, January first."),
    ]


Indoors = Annotated[HumidityClass | ConstantIndoors | MonthlyIndoors, Field(discriminator="kind")]


class MonthlyClimate(Closed):
    """Twelve months outdoors, and the air indoors."""

    kind: Literal["monthly"]
    months: Annotated[
        list[OutdoorMonth],
        Field(max_length=366, fail_fast=True, description="Mean outdoor air of twelve months, January first."),
    ]
    indoor: Indoors
    surface_internal_mould_m2_k_per_w: _MouldSurface = 0.25


class Block(Closed):
    """A period of constant air on both sides."""

    days: _Days
    outdoor: AirState
    indoor: AirState


class SteadyClimate(Closed):
    """A period of constant air on both sides, and another one after it in which moisture may dry."""

    kind: Literal["steady"]
    days: _Days
    outdoor: AirState
    indoor: AirState
    drying: Annotated[
        Block | None, Field(description="Period that follows; absent: whether moisture dries is not answered.")
    ] = None
    surface_internal_mould_m2_k_per_w: _MouldSurface = 0.25


Climate = Annotated[MonthlyClimate | SteadyClimate, Field(discriminator="kind")]


class SurfaceVapour(Closed):
    """Vapour resistance of the air films at the two surfaces, as equivalent air layers."""

    internal_sd_m: Annotated[
        float, quantity("m", 0.0, 10.0, "Equivalent air layer of the internal film."), Assumed("m", _NO_FILM)
    ] = 0.0
    external_sd_m: Annotated[
        float, quantity("m", 0.0, 10.0, "Equivalent air layer of the external film."), Assumed("m", _NO_FILM)
    ] = 0.0


class SectionPart(Closed):
    """The part of a bridged layer through which the section goes."""

    layer: Annotated[int, count(0, 49, "Index of a bridged layer, from 0 at the inside."), WHOLE]
    part: Annotated[int, count(0, 49, "Index of the part in that layer."), WHOLE]


class CondensationRequest(Closed):
    """A build-up between two climates: does moisture condense in it, and does it dry?"""

    build_up: BuildUp
    climate: Climate
    surface_vapour: SurfaceVapour = SurfaceVapour()
    section_parts: Annotated[
        list[SectionPart],
        Field(
            max_length=50,
            fail_fast=True,
            description="Through which part of each bridged layer the section goes, and so of all layers in line with it; lines not "
            "named: the part with the largest share.",
        ),
    ] = []
    tabulated_factors: Annotated[
        Literal["less_favourable", "dry", "wet"],
        Field(
            description="Which vapour factor layers of kind material take: less_favourable is the lower one as far as the layer that "
            "insulates most, and the higher one outside it."
        ),
        Assumed("", _LESS_FAVOURABLE, "lets most vapour in and least out in the heating season"),
    ] = "less_favourable"
    options: Options = Options()

    def idle_members(self) -> frozenset[str]:
        """Which tabulated factor is taken matters only where a layer takes one."""
        if any(isinstance(layer, MaterialLayer) for layer in self.build_up.layers):
            return frozenset()
        return frozenset({"tabulated_factors"})


PART_OF_LARGEST_SHARE = Assumed("", HOUSE, "the part with the largest share of the area")
"""How a bridged layer is passed when the request names no part of it."""
