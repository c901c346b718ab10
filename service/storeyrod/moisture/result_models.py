"""What a moisture check gives back: the section, the climates as used, the surface, and condensation plane by plane."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.units import figure


class InPeriod(TypedDict):
    """A row of a month, or of a block of a steady climate."""

    month: NotRequired[Annotated[int, Field(description="Month, 1 for January; absent with a steady climate.")]]
    block: NotRequired[
        Annotated[Literal["condensing", "drying"], Field(description="Block of a steady climate; absent with months.")]
    ]


class AirResult(TypedDict):
    """Air on one side in a month or block."""

    temperature_deg_c: Annotated[float, figure("deg_c", "Temperature.")]
    humidity_fraction: Annotated[float, figure("fraction", "Relative humidity.")]
    vapour_pressure_pa: Annotated[float, figure("pa", "Vapour pressure, any margin included.")]
    dew_point_deg_c: NotRequired[Annotated[float, figure("deg_c", "Dew point; absent where the air holds no vapour.")]]


class ClimatePeriod(InPeriod):
    """Air on both sides in a month or block."""

    days: Annotated[float, figure("days", "Length.")]
    outdoor: AirResult
    indoor: AirResult


class SectionLayer(TypedDict):
    """A layer as the section passes it."""

    index: Annotated[int, Field(description="Position in the request, from 0 at the inside.")]
    name: Annotated[str, Field(description="What the layer is; of a bridged layer the part that is passed.")]
    part: NotRequired[Annotated[int, Field(description="Index of the part of a bridged layer that is passed.")]]
    resistance_m2_k_per_w: Annotated[float, figure("m2_k_per_w", "Thermal resistance.")]
    vapour_sd_m: NotRequired[Annotated[float, figure("m", "Equivalent air layer; absent when vapour-tight.")]]
    vapour_tight: Annotated[bool, Field(description="true: passes no vapour.")]
    sublayers_count: Annotated[int, Field(description="Into how many sub-layers it was divided.")]


class InterfacePeriod(InPeriod):
    """A plane in a month or block."""

    temperature_deg_c: Annotated[float, figure("deg_c", "Temperature of the plane.")]
    saturation_pressure_pa: Annotated[float, figure("pa", "Saturation pressure at that temperature.")]
    vapour_pressure_pa: NotRequired[
        Annotated[float, figure("pa", "Vapour pressure; absent between two vapour-tight layers.")]
    ]
    condensed_kg_per_m2: Annotated[
        float, figure("kg_per_m2", "What condenses; negative: what could dry, of which no more dries than is there.")
    ]
    accumulated_kg_per_m2: Annotated[float, figure("kg_per_m2", "Moisture at the plane at the end.")]
    working: NotRequired[
        Annotated[str, Field(description="Step of the trace that gives the moisture, or where it is dry the pressure.")]
    ]
    condensed_working: NotRequired[
        Annotated[str, Field(description="Step that gives what condenses; absent where nothing does or could dry.")]
    ]


class Interface(TypedDict):
    """A plane between layers, or inside an insulating one where moisture condenses."""

    inside_layer: NotRequired[
        Annotated[int, Field(description="Layer on the inner side of the plane; absent at the internal surface.")]
    ]
    outside_layer: NotRequired[
        Annotated[int, Field(description="Layer on the outer side; absent at the external surface.")]
    ]
    depth_fraction: NotRequired[
        Annotated[float, figure("fraction", "Share of the layer's thickness inside the plane; within a layer only.")]
    ]
    depth_working: NotRequired[Annotated[str, Field(description="Step that gives depth_fraction.")]]
    start_month: NotRequired[
        Annotated[
            int,
            Field(
                description="Month from which the plane is summed up, dry before; if it dries in no month, the one from which it comes to "
                "hold most within twelve. Absent where it stays dry."
            ),
        ]
    ]
    greatest_accumulated_kg_per_m2: Annotated[float, figure("kg_per_m2", "Greatest moisture at the plane.")]
    months: Annotated[list[InterfacePeriod], Field(description="Month by month, January first; or block by block.")]


class VapourBalance(InPeriod):
    """What flows through the section and stays in it in a month or block."""

    flux_in_kg_per_m2_s: Annotated[
        float, figure("kg_per_m2_s", "Vapour from indoors into the section; negative: out of it.")
    ]
    flux_out_kg_per_m2_s: Annotated[
        float, figure("kg_per_m2_s", "Vapour from the section to outdoors; negative: into it.")
    ]
    condensed_kg_per_m2: Annotated[float, figure("kg_per_m2", "Condensed, all planes; negative: could dry.")]
    accumulated_kg_per_m2: Annotated[float, figure("kg_per_m2", "Moisture at the end, all planes.")]
    working: NotRequired[Annotated[str, Field(description="Step of the trace that adds up what the planes hold.")]]
    condensed_working: NotRequired[Annotated[str, Field(description="Step that adds up what condenses at the planes.")]]
    flux_in_working: NotRequired[Annotated[str, Field(description="Step that gives flux_in_kg_per_m2_s.")]]
    flux_out_working: NotRequired[Annotated[str, Field(description="Step that gives flux_out_kg_per_m2_s.")]]


class SurfacePeriod(InPeriod):
    """The internal surface in a month or block, at the surface resistance for mould."""

    surface_factor_required: NotRequired[
        Annotated[
            float, figure("fraction", "Least temperature factor that keeps mould off; absent: not warmer inside.")
        ]
    ]
    surface_temperature_required_deg_c: NotRequired[
        Annotated[float, figure("deg_c", "Least surface temperature that keeps mould off.")]
    ]
    surface_temperature_deg_c: Annotated[float, figure("deg_c", "Surface temperature of the plane element.")]
    surface_humidity_fraction: Annotated[float, figure("fraction", "Relative humidity at that surface.")]


class Condensation(TypedDict):
    """Interstitial condensation and the internal surface, in a year that repeats itself or through blocks."""

    verdict: NotRequired[
        Annotated[
            Literal["none", "dries_out", "remains"],
            Field(
                description="Of moisture between layers, not of surfaces. none: nothing condenses; dries_out: each layer and each face is dry in "
                "some month; remains: one never is, or not after the last block. Absent where moisture condenses in a "
                "steady climate without a drying block."
            ),
        ]
    ]
    surface_verdict: Annotated[
        Literal["none", "mould_risk", "condenses"],
        Field(
            description="Of the internal surface of the plane element. condenses: its humidity is over 1 in a month or block; mould_risk: it "
            "is colder than surface_factor_required asks for; none: neither. What condenses there is in no amount."
        ),
    ]
    start_month: NotRequired[
        Annotated[
            int,
            Field(
                description="Month from which the plane that comes to hold most is summed up; absent when nothing condenses."
            ),
        ]
    ]
    greatest_accumulated_kg_per_m2: Annotated[
        float,
        figure(
            "kg_per_m2",
            "Greatest moisture, all planes together, in a year like all that follow; planes that dry in no month are counted from their start_month.",
        ),
    ]
    greatest_month: NotRequired[Annotated[int, Field(description="Month at whose end it is there.")]]
    remaining_kg_per_m2: Annotated[
        float,
        figure(
            "kg_per_m2",
            "What planes that never dry gain in a year, and what layers and faces hold in their driest month; after blocks, what is left.",
        ),
    ]
    remaining_working: NotRequired[Annotated[str, Field(description="Step that adds up what remains.")]]
    interfaces: Annotated[
        list[Interface],
        Field(description="Planes from inside to outside: between layers, and those within a layer that get wet."),
    ]
    balances: Annotated[list[VapourBalance], Field(description="Vapour of the whole section, month by month.")]
    surface_factor: Annotated[
        float, figure("fraction", "Temperature factor of the plane element at the surface resistance for mould.")
    ]
    surface_factor_required: NotRequired[
        Annotated[float, figure("fraction", "Greatest of the months; absent where it is never warmer inside.")]
    ]
    critical_month: NotRequired[Annotated[int, Field(description="Month that asks for the greatest surface factor.")]]
    surface_months: Annotated[list[SurfacePeriod], Field(description="The internal surface, month by month.")]


class CondensationResult(TypedDict):
    """Moisture of a build-up between two climates."""

    condensation: Condensation
    r_total_m2_k_per_w: Annotated[float, figure("m2_k_per_w", "Thermal resistance of the section with surfaces.")]
    vapour_sd_total_m: NotRequired[
        Annotated[float, figure("m", "Equivalent air layer of the section; absent with a vapour-tight layer.")]
    ]
    layers: Annotated[list[SectionLayer], Field(description="Layers that count, from inside to outside.")]
    climate: Annotated[list[ClimatePeriod], Field(description="The climates as used, January first.")]
