"""The build-up of a wall, roof or floor, what corrects its U-value, and what comes back."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Assumed, Closed
from storeyrod.options import Options
from storeyrod.reference.documents import Clause
from storeyrod.thermal.correction_models import Corrections
from storeyrod.thermal.declared_models import DeclaredLayer
from storeyrod.thermal.question_models import (
    AirTemperatures,
    Band,
    PlaneTemperature,
    Sensitivity,
    Tapered,
    TaperedResult,
    Target,
    TargetResult,
    Tolerances,
)
from storeyrod.units import WHOLE, count, figure, quantity, words

_EMISSIVITY = Clause("ISO 6946", "Annex D, ordinary building materials", "memory")
_SURFACES = Clause("ISO 6946", "Annex C", "memory")

Element = Literal["wall", "roof", "floor"]
"""Which way heat flows: level through a wall, up through a roof, down through a floor."""

_Name = Annotated[str, words(80, "What the layer is, for the reader.")]
_Thickness = Annotated[float, quantity("mm", 0.01, 3000.0, "Thickness of the layer.")]
_Conductivity = quantity("w_per_m_k", 0.001, 500.0, "Design thermal conductivity.")
_VapourFactor = Annotated[
    float | None, quantity("count", 1.0, 10_000_000.0, "Water vapour resistance factor; not used for a U-value.")
]
_VapourSd = Annotated[
    float | None, quantity("m", 0.0, 100_000.0, "Equivalent air layer for vapour; not used for a U-value.")
]
_VapourTight = Annotated[
    bool,
    Field(strict=True, description="true: passes no vapour, as metal or glass; not used for a U-value."),
]
_Density = Annotated[float | None, quantity("kg_per_m3", 1.0, 25_000.0, "Density; not used for a U-value.")]


class SolidLayer(Closed):
    """A homogeneous layer by thickness and conductivity."""

    kind: Literal["solid"]
    name: _Name
    thickness_mm: _Thickness
    conductivity_w_per_m_k: Annotated[float, _Conductivity]
    vapour_resistance_factor: _VapourFactor = None
    vapour_sd_m: _VapourSd = None
    vapour_tight: _VapourTight = False
    density_kg_per_m3: _Density = None


class MaterialLayer(Closed):
    """A homogeneous layer of a tabulated material."""

    kind: Literal["material"]
    material: Annotated[str, words(80, "Key of a material in /v1/materials.")]
    thickness_mm: _Thickness
    vapour_resistance_factor: _VapourFactor = None
    vapour_sd_m: _VapourSd = None
    vapour_tight: _VapourTight = False
    density_kg_per_m3: _Density = None


class ResistanceLayer(Closed):
    """A layer whose resistance is declared."""

    kind: Literal["resistance"]
    name: _Name
    resistance_m2_k_per_w: Annotated[float, quantity("m2_k_per_w", 0.0, 100.0, "Thermal resistance of the layer.")]
    vapour_sd_m: _VapourSd = None
    vapour_tight: _VapourTight = False


class AirLayer(Closed):
    """An air layer; its resistance follows from thickness, emissivities and direction of heat flow."""

    kind: Literal["air"]
    thickness_mm: Annotated[
        float,
        quantity("mm", 0.1, 5000.0, "Thickness of the air layer; its resistance is known up to 300 mm."),
    ]
    ventilation: Annotated[
        Literal["none", "slight", "strong"],
        Field(
            description="By openings to the outside: none up to 500, slight from 500 to 1500, strong from 1500 mm2 per m."
        ),
    ]
    opening_mm2_per_m: Annotated[
        float | None,
        quantity(
            "mm2_per_m",
            0.0,
            1_000_000.0,
            "Openings per metre of length, per square metre if level; needed when slight.",
        ),
    ] = None
    emissivity_inner: Annotated[
        float,
        quantity("fraction", 0.01, 1.0, "Emissivity of the inner face, 0 to 1."),
        Assumed("fraction", _EMISSIVITY),
    ] = 0.9
    emissivity_outer: Annotated[
        float,
        quantity("fraction", 0.01, 1.0, "Emissivity of the outer face, 0 to 1."),
        Assumed("fraction", _EMISSIVITY),
    ] = 0.9
    void_width_mm: Annotated[
        float | None,
        quantity(
            "mm",
            1.0,
            100_000.0,
            "Width of a void across the heat flow; absent, or ten times the thickness and more: a wide layer.",
        ),
    ] = None
    temperature_difference_k: Annotated[
        float | None, quantity("k", 0.0, 100.0, "Difference between the two faces; absent: up to 5 K.")
    ] = None
    temperature_mean_deg_c: Annotated[
        float | None, quantity("deg_c", -50.0, 100.0, "Mean temperature of the layer; absent: 10 degrees Celsius.")
    ] = None
    vapour_sd_m: _VapourSd = None


class BridgedPart(Closed):
    """One part of a bridged layer: its share of the area, and its conductivity or its resistance."""

    name: _Name
    fraction: Annotated[
        float, quantity("fraction", 1e-9, 1.0, "Share of the area, 0 to 1; the parts of a layer add up to 1.")
    ]
    conductivity_w_per_m_k: Annotated[float | None, _Conductivity] = None
    resistance_m2_k_per_w: Annotated[
        float | None, quantity("m2_k_per_w", 0.00001, 100.0, "Resistance of the part over the layer's thickness.")
    ] = None
    vapour_resistance_factor: _VapourFactor = None
    vapour_sd_m: _VapourSd = None
    vapour_tight: _VapourTight = False


class BridgedLayer(Closed):
    """A layer of parts side by side, such as studs and insulation."""

    kind: Literal["bridged"]
    name: _Name
    thickness_mm: _Thickness
    parts: Annotated[
        list[BridgedPart],
        Field(min_length=1, max_length=50, fail_fast=True, description="Parts side by side, in any order."),
    ]
    in_line_with: Annotated[
        int | None,
        count(
            0, 48, "Index of an inner bridged layer behind whose parts these stand, one by one; absent: independent."
        ),
        WHOLE,
    ] = None
    vapour_resistance_factor: _VapourFactor = None
    vapour_sd_m: _VapourSd = None
    vapour_tight: _VapourTight = False
    density_kg_per_m3: _Density = None


Layer = Annotated[
    SolidLayer | MaterialLayer | DeclaredLayer | ResistanceLayer | AirLayer | BridgedLayer, Field(discriminator="kind")
]


class SurfaceConditions(Closed):
    """What surface resistances follow from, instead of the conventional ones."""

    emissivity_internal: Annotated[
        float, quantity("fraction", 0.0, 1.0, "Emissivity of the internal surface."), Assumed("fraction", _SURFACES)
    ] = 0.9
    emissivity_external: Annotated[
        float, quantity("fraction", 0.0, 1.0, "Emissivity of the external surface."), Assumed("fraction", _SURFACES)
    ] = 0.9
    wind_speed_m_per_s: Annotated[
        float, quantity("m_per_s", 0.0, 50.0, "Wind at the external surface."), Assumed("m_per_s", _SURFACES)
    ] = 4.0
    temperature_internal_deg_c: Annotated[
        float,
        quantity("deg_c", -50.0, 100.0, "Mean temperature of the internal surface and what it faces."),
        Assumed("deg_c", _SURFACES),
    ] = 20.0
    temperature_external_deg_c: Annotated[
        float,
        quantity("deg_c", -50.0, 100.0, "Mean temperature of the external surface and what it faces."),
        Assumed("deg_c", _SURFACES),
    ] = 0.0


class BuildUp(Closed):
    """Layers of a wall, roof or floor from inside to outside, with the surfaces that bound them."""

    element: Annotated[Element, Field(description="Gives the direction of heat flow: level, up or down.")]
    surface_internal_m2_k_per_w: Annotated[
        float | None, quantity("m2_k_per_w", 0.0, 2.0, "Internal surface resistance; absent: by element.")
    ] = None
    surface_external_m2_k_per_w: Annotated[
        float | None, quantity("m2_k_per_w", 0.0, 2.0, "External surface resistance; absent: by element.")
    ] = None
    surface_conditions: Annotated[
        SurfaceConditions | None,
        Field(description="Emissivities, wind and temperatures for surface resistances that are not given."),
    ] = None
    layers: Annotated[
        list[Layer], Field(min_length=1, max_length=50, fail_fast=True, description="Layers from inside to outside.")
    ]


class UValueRequest(Closed):
    """A build-up whose U-value is asked."""

    build_up: BuildUp
    corrections: Corrections = Corrections()
    tapered: Annotated[Tapered | None, Field(description="A layer of tapered insulation.")] = None
    target: Annotated[Target | None, Field(description="Asks how thick a layer must be for a U-value.")] = None
    tolerances: Annotated[Tolerances | None, Field(description="Asks for the band of U-values inside tolerances.")] = (
        None
    )
    temperatures: Annotated[AirTemperatures | None, Field(description="Asks for the temperature of every plane.")] = (
        None
    )
    sensitivity: Annotated[
        bool, Field(strict=True, description="true: what each input does to the U-value comes back.")
    ] = False
    options: Options = Options()


class LayerResult(TypedDict):
    """Resistance of one layer; of a bridged layer the parallel value that the lower limit uses."""

    index: Annotated[int, Field(description="Position in the request, from 0 at the inside.")]
    kind: Annotated[str, Field(description="Kind of the layer, as sent.")]
    name: Annotated[str, Field(description="What the layer is.")]
    counted: Annotated[bool, Field(description="false: a well-ventilated air layer, or a layer outside one.")]
    resistance_m2_k_per_w: NotRequired[Annotated[float, figure("m2_k_per_w", "Resistance; absent when not counted.")]]
    conductivity_w_per_m_k: NotRequired[
        Annotated[float, figure("w_per_m_k", "Design value that was calculated with; of a layer of kind declared.")]
    ]
    conductivity_rounded_w_per_m_k: NotRequired[
        Annotated[float, figure("w_per_m_k", "The same as it is stated, rounded as the standard rounds.")]
    ]


class Surfaces(TypedDict):
    """Surface resistances used."""

    internal_m2_k_per_w: Annotated[float, figure("m2_k_per_w", "Internal surface resistance.")]
    external_m2_k_per_w: Annotated[
        float, figure("m2_k_per_w", "External surface resistance; still air behind strong ventilation.")
    ]


class CorrectionResult(TypedDict):
    """One correction and whether the 3 % rule kept it."""

    kind: Annotated[str, Field(description="air_gap or fasteners.")]
    delta_u_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "What it adds to the U-value.")]
    applied: Annotated[bool, Field(description="false: all corrections together are under 3 % and were left out.")]


class UValueResult(TypedDict):
    """Resistance and U-value of a build-up."""

    u_value_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "U-value with the corrections that the 3 % rule keeps.")]
    u_value_declared_w_per_m2_k: Annotated[
        float, figure("w_per_m2_k", "u_value_w_per_m2_k to two significant figures.")
    ]
    u_value_uncorrected_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "1 / R, without any correction.")]
    u_value_corrected_w_per_m2_k: Annotated[
        float, figure("w_per_m2_k", "With every correction, whether the 3 % rule keeps it or not.")
    ]
    u_value_without_fasteners_w_per_m2_k: NotRequired[
        Annotated[
            float,
            figure(
                "w_per_m2_k",
                "With every correction but the fasteners, 3 % rule aside; present when fasteners are given.",
            ),
        ]
    ]
    u_value_with_fasteners_w_per_m2_k: NotRequired[
        Annotated[
            float,
            figure(
                "w_per_m2_k",
                "With every correction, 3 % rule aside; for undeclared fasteners the upper end of the range.",
            ),
        ]
    ]
    u_value_with_fasteners_low_w_per_m2_k: NotRequired[
        Annotated[float, figure("w_per_m2_k", "Lower end of the range; present when fasteners are undeclared.")]
    ]
    r_total_m2_k_per_w: Annotated[
        float,
        figure(
            "m2_k_per_w",
            "Total resistance with surfaces: mean of the two limits; with a tapered layer the inverse of its mean U-value.",
        ),
    ]
    r_total_declared_m2_k_per_w: Annotated[float, figure("m2_k_per_w", "Total resistance to two decimals.")]
    r_upper_m2_k_per_w: Annotated[
        float, figure("m2_k_per_w", "Upper limit: heat flows straight through; with a tapered layer, of the rest.")
    ]
    r_lower_m2_k_per_w: Annotated[
        float,
        figure(
            "m2_k_per_w", "Lower limit: planes between layers have one temperature; with a tapered layer, of the rest."
        ),
    ]
    relative_error_fraction: Annotated[float, figure("fraction", "Greatest relative error of the combined method.")]
    surfaces: Surfaces
    layers: list[LayerResult]
    corrections: list[CorrectionResult]
    tapered: NotRequired[TaperedResult]
    target: NotRequired[TargetResult]
    band: NotRequired[Band]
    sensitivity: NotRequired[
        Annotated[list[Sensitivity], Field(description="One row for each input, in the order in which they are used.")]
    ]
    temperatures: NotRequired[Annotated[list[PlaneTemperature], Field(description="Planes from inside to outside.")]]
