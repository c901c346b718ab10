"""Request and result of POST /v1/wind-loads."""

from typing import Annotated, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.options import Options
from storeyrod.units import figure
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wind.site_models import SideName, WindSite

_ZONE = Field(description="A, B, C along the wind from the upwind edge, D on the side that it blows on, E behind.")
_DIRECTION = Field(description="Side on which the wind blows.")


class WindLoadRequest(Closed):
    """The wind, its building, and the elevations on which zones are wanted."""

    wind: WindSite
    elevations: Annotated[
        list[Elevation],
        Field(max_length=200, fail_fast=True, description="The faces of the building; none: zones of its four sides."),
    ] = []
    system: Annotated[
        System | None,
        Field(description="Moves outlines of the substrate to the finished face; absent: outlines are taken as drawn."),
    ] = None
    options: Options = Options()


class WindBasis(TypedDict):
    """What the figures rest on."""

    document: Annotated[str, Field(description="Standard and edition.")]
    national_choice: Annotated[str, Field(description="Whose choices were taken.")]
    coefficients: Annotated[str, Field(description="Document of the wall coefficients.")]
    remark: Annotated[str, Field(description="What to know about editions and annexes.")]


class ReferenceHeight(TypedDict):
    """Peak pressure at one height."""

    direction: Annotated[SideName, _DIRECTION]
    height_m: Annotated[float, figure("m", "Reference height above ground.")]
    roughness_factor: NotRequired[Annotated[float, figure("count", "Roughness factor.")]]
    turbulence_intensity: NotRequired[Annotated[float, figure("count", "Turbulence intensity.")]]
    mean_velocity_m_per_s: NotRequired[Annotated[float, figure("m_per_s", "Mean velocity.")]]
    exposure_factor: NotRequired[Annotated[float, figure("count", "Exposure factor.")]]
    peak_pressure_pa: Annotated[float, figure("pa", "Peak velocity pressure.")]


class ZoneCoefficient(TypedDict):
    """External coefficients of one zone."""

    zone: Annotated[str, _ZONE]
    on_10_square_metres: Annotated[float, figure("count", "For loaded areas of 10 m2 and more.")]
    on_1_square_metre: Annotated[float, figure("count", "For loaded areas up to 1 m2.")]
    pressure_coefficient: Annotated[float, figure("count", "For the loaded area.")]


class WindDirection(TypedDict):
    """Wind on one side of the building."""

    direction: Annotated[SideName, _DIRECTION]
    basic_velocity_m_per_s: NotRequired[Annotated[float, figure("m_per_s", "Basic velocity.")]]
    breadth_m: Annotated[float, figure("m", "Across the wind: b.")]
    depth_m: Annotated[float, figure("m", "Along the wind: d.")]
    edge_m: Annotated[float, figure("m", "e, the lesser of b and 2 h.")]
    height_to_depth: Annotated[float, figure("count", "h/d.")]
    zone_a_m: Annotated[float, figure("m", "Length of zone A from the upwind edge.")]
    zone_b_m: Annotated[float, figure("m", "Length of zone B.")]
    zone_c_m: Annotated[float, figure("m", "Length of zone C.")]
    coefficients: list[ZoneCoefficient]
    internal_high: Annotated[float, figure("count", "Highest internal coefficient.")]
    internal_low: Annotated[float, figure("count", "Lowest internal coefficient.")]


class WindZone(TypedDict):
    """A zone of one direction on an elevation, in its coordinates; without elevations on a side, from its left end and the ground."""

    elevation: NotRequired[Annotated[str, Field(description="Name of the elevation.")]]
    side: NotRequired[Annotated[SideName, Field(description="Side of the building; absent where it is not known.")]]
    direction: Annotated[SideName, _DIRECTION]
    zone: Annotated[str, _ZONE]
    x_from_mm: Annotated[float, figure("mm", "Left end.")]
    x_to_mm: Annotated[float, figure("mm", "Right end.")]
    y_from_mm: Annotated[float, figure("mm", "Foot.")]
    y_to_mm: Annotated[float, figure("mm", "Head.")]
    area_m2: Annotated[float, figure("m2", "Area of the outline inside it, openings not deducted.")]
    reference_height_m: Annotated[float, figure("m", "Height at which the peak pressure is read.")]
    pressure_coefficient: Annotated[float, figure("count", "External coefficient for the loaded area.")]
    pressure_pa: Annotated[float, figure("pa", "External pressure; suction is negative.")]
    net_suction_pa: Annotated[
        float, figure("pa", "Net pressure with the highest internal pressure behind; suction is negative.")
    ]
    net_pressure_pa: Annotated[float, figure("pa", "Net pressure with the lowest internal pressure behind.")]


class WindEnvelope(TypedDict):
    """A rectangle of an elevation with the strongest wind of all directions; suction and pressure both positive, characteristic."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    x_from_mm: Annotated[float, figure("mm", "Left end.")]
    x_to_mm: Annotated[float, figure("mm", "Right end.")]
    y_from_mm: Annotated[float, figure("mm", "Foot.")]
    y_to_mm: Annotated[float, figure("mm", "Head.")]
    zone: Annotated[str, Field(description="Zone of the strongest suction.")]
    direction: Annotated[SideName, Field(description="Direction of the strongest suction.")]
    suction_pa: Annotated[float, figure("pa", "Strongest net suction, 0 where there is none.")]
    pressure_pa: Annotated[float, figure("pa", "Strongest net pressure, 0 where there is none.")]


class WindLoadResult(TypedDict):
    """Wind on a building and its elevations. All values are characteristic, without partial factors."""

    basis: WindBasis
    basic_velocity_m_per_s: NotRequired[
        Annotated[
            float, figure("m_per_s", "Highest basic velocity of all directions; absent where pressures are given.")
        ]
    ]
    basic_pressure_pa: NotRequired[Annotated[float, figure("pa", "Its velocity pressure.")]]
    peak_pressure_pa: Annotated[float, figure("pa", "Highest peak pressure at the top of the building.")]
    heights: Annotated[list[ReferenceHeight], Field(description="By direction, in rising height.")]
    directions: list[WindDirection]
    zones: Annotated[
        list[WindZone], Field(description="By elevation and direction; of the four sides without elevations.")
    ]
    envelope: Annotated[list[WindEnvelope], Field(description="By elevation; empty without elevations.")]
