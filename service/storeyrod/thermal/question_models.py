"""What more may be asked of a U-value, and the answers: tapered layers, a target, tolerances, sensitivity, temperatures."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import HOUSE
from storeyrod.units import WHOLE, count, figure, quantity

Shape = Literal["rectangle", "triangle_thickest_at_apex", "triangle_thinnest_at_apex"]
"""Plan of a part over which insulation rises from nothing to its greatest thickness."""

_Layer = Annotated[int, count(0, 49, "Index of the layer, from 0 at the inside."), WHOLE]


class TaperedPart(Closed):
    """One part of a tapered layer, by its plan."""

    shape: Annotated[Shape, Field(description="Plan of the part, and where a triangle is thickest.")]
    area_m2: Annotated[float, quantity("m2", 0.001, 1_000_000.0, "Area of the part.")]
    thickness_mm: Annotated[
        float | None, quantity("mm", 0.01, 3000.0, "Greatest thickness of the part; absent: that of the layer.")
    ] = None


class Tapered(Closed):
    """A layer that rises from no thickness to its greatest; a least thickness is a layer of its own beside it."""

    layer: _Layer
    slope_percent: Annotated[float, quantity("percent", 0.0, 1000.0, "Slope of the layer; the method holds up to 5 %.")]
    parts: Annotated[
        list[TaperedPart],
        Field(min_length=1, max_length=50, fail_fast=True, description="Parts of the area, in any order."),
    ]


class Target(Closed):
    """A U-value that is to be reached by the thickness of one layer."""

    u_value_w_per_m2_k: Annotated[float, quantity("w_per_m2_k", 0.01, 10.0, "U-value to be reached.")]
    layer: _Layer
    thicknesses_held_mm: Annotated[
        list[Annotated[float, quantity("mm", 0.01, 3000.0, "A thickness that is held.")]],
        Field(max_length=100, fail_fast=True, description="Thicknesses that are held, in any order."),
    ] = []


class LayerTolerance(Closed):
    """Half the tolerance of what describes a layer: the member may be so much more or less."""

    layer: _Layer
    thickness_mm: Annotated[float | None, quantity("mm", 0.0, 3000.0, "Of its thickness.")] = None
    conductivity_fraction: Annotated[
        float | None,
        quantity("fraction", 0.0, 0.9, "Of its conductivity, or of those of its parts, as a share of each."),
    ] = None
    resistance_fraction: Annotated[
        float | None, quantity("fraction", 0.0, 0.9, "Of its resistance, or of those of its parts, as a share of each.")
    ] = None
    part_fraction: Annotated[
        float | None,
        quantity(
            "fraction",
            0.0,
            0.5,
            "Of the share of the first part of a bridged layer; the others give way in proportion.",
        ),
    ] = None


class Tolerances(Closed):
    """Tolerances of inputs, of which a band of U-values is made."""

    layers: Annotated[
        list[LayerTolerance],
        Field(max_length=50, fail_fast=True, description="Tolerances of layers, each layer once."),
    ] = []
    surfaces_fraction: Annotated[
        float | None, quantity("fraction", 0.0, 0.9, "Of both surface resistances, as a share of each.")
    ] = None
    fastener_count_fraction: Annotated[
        float | None, quantity("fraction", 0.0, 0.9, "Of the number of fasteners, as a share of it.")
    ] = None
    fastener_heat_fraction: Annotated[
        float | None,
        quantity("fraction", 0.0, 0.9, "Of the point transmittance of a fastener, or of its conductivity, as a share."),
    ] = None
    samples_count: Annotated[
        int,
        count(100, 100_000, "Draws of the random part; equal requests draw alike."),
        WHOLE,
        Assumed("", HOUSE, "draws"),
    ] = 10_000


class AirTemperatures(Closed):
    """Temperatures of the air on both sides."""

    internal_deg_c: Annotated[float, quantity("deg_c", -50.0, 100.0, "Inside.")]
    external_deg_c: Annotated[float, quantity("deg_c", -50.0, 100.0, "Outside.")]


class TaperedPartResult(TypedDict):
    """U-value of one part of a tapered layer, before corrections."""

    shape: Annotated[str, Field(description="As sent.")]
    area_m2: Annotated[float, figure("m2", "Area of the part.")]
    r_wedge_m2_k_per_w: Annotated[float, figure("m2_k_per_w", "Greatest resistance of the wedge.")]
    u_value_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "Mean over the part, before corrections.")]


class TaperedResult(TypedDict):
    """How a tapered layer was taken."""

    layer: Annotated[int, Field(description="Index of the layer.")]
    r_rest_m2_k_per_w: Annotated[float, figure("m2_k_per_w", "Resistance of all but the wedge, with surfaces.")]
    parts: Annotated[list[TaperedPartResult], Field(description="Parts, in the order of the request.")]


class TargetResult(TypedDict):
    """Thickness at which a U-value is reached, corrections included as in the answer's own U-value."""

    layer: Annotated[int, Field(description="Index of the layer.")]
    thickness_mm: Annotated[
        float, figure("mm", "Least thickness from which on every thicker layer reaches the target too.")
    ]
    u_value_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "U-value at that thickness.")]
    thickness_held_mm: NotRequired[
        Annotated[float, figure("mm", "Thinnest of those held that reaches the target; absent when none does.")]
    ]
    u_value_held_w_per_m2_k: NotRequired[Annotated[float, figure("w_per_m2_k", "U-value at the thickness held.")]]
    u_value_least_w_per_m2_k: NotRequired[
        Annotated[
            float,
            figure(
                "w_per_m2_k",
                "Least U-value that this layer can reach, at 3000 mm; absent where the combined method does not hold there.",
            ),
        ]
    ]


class Sensitivity(TypedDict):
    """What one input does to the U-value."""

    input: Annotated[
        str, Field(description="JSON Pointer of the member; where it is absent, of the value assumed for it.")
    ]
    value: Annotated[float, Field(description="Its value, in its unit.")]
    unit: Annotated[str, Field(description="Code of its unit, as names of members end in it.")]
    u_value_change_w_per_m2_k: Annotated[
        float, figure("w_per_m2_k", "Change of the U-value for one more of that unit, at this point.")
    ]
    relative_change_fraction: Annotated[
        float,
        figure("fraction", "Relative change of the U-value over relative change of the input; 0 for an input of 0."),
    ]


class BandPlace(TypedDict):
    """Where in its tolerance an input stands at an end of the band."""

    input: Annotated[
        str, Field(description="JSON Pointer of the member; where it is absent, of the value assumed for it.")
    ]
    place_fraction: Annotated[
        float, figure("fraction", "-1: its least value; 0: as given; 1: its greatest; between where U turns there.")
    ]


class Band(TypedDict):
    """U-values inside the tolerances; corrections count as in the answer's own U-value.

    Ends are searched for: corners of the tolerances, then grids along every input, ever finer, until none gains, from the best
    corner and where U turns on the way from the best draw; so they hold the answer's own U-value and every draw.
    """

    u_value_low_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "Least U-value inside the tolerances.")]
    u_value_high_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "Greatest U-value inside the tolerances.")]
    low_at: Annotated[list[BandPlace], Field(description="Where the least U-value was found, input by input.")]
    high_at: Annotated[list[BandPlace], Field(description="Where the greatest U-value was found, input by input.")]
    ends_settled: Annotated[
        bool, Field(description="false: the search was stopped by its limit, and ends may lie farther out by a little.")
    ]
    samples_count: Annotated[int, Field(description="Draws, each input evenly inside its tolerance and by itself.")]
    u_value_mean_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "Mean of the draws.")]
    u_value_standard_deviation_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "Standard deviation of the draws.")]
    u_value_p05_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "One draw in twenty is lower.")]
    u_value_p95_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "One draw in twenty is higher.")]


class PlaneTemperature(TypedDict):
    """Temperature of a plane between layers, or of a surface."""

    index: Annotated[int, Field(description="0: internal surface; k: outer face of layer k - 1.")]
    name: Annotated[str, Field(description="What the plane is.")]
    temperature_deg_c: Annotated[float, figure("deg_c", "Temperature.")]
