"""Request and result of POST /v1/thermal-junctions."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.junctions.detail_models import Detail
from storeyrod.options import Options
from storeyrod.thermal.models import BuildUp
from storeyrod.units import figure, identifier, quantity, words

_FURTHEST = 100_000.0
_X = Annotated[float, quantity("mm", -_FURTHEST, _FURTHEST, "To the right; from the axis in an axisymmetric section.")]
_Y = Annotated[float, quantity("mm", -_FURTHEST, _FURTHEST, "Up.")]
_Temperature = Annotated[float, quantity("deg_c", -100.0, 1000.0, "Temperature of the environment.")]


class JunctionRectangle(Closed):
    """A rectangle of one material, from its lower left corner."""

    x_mm: _X
    y_mm: _Y
    width_mm: Annotated[float, quantity("mm", 0.001, _FURTHEST, "To the right.")]
    height_mm: Annotated[float, quantity("mm", 0.001, _FURTHEST, "Up.")]
    conductivity_w_per_m_k: Annotated[
        float, quantity("w_per_m_k", 0.001, 500.0, "Design thermal conductivity; of a cavity the equivalent one.")
    ]
    name: Annotated[str, words(80, "What it is, for the reader.")] = ""


class OutlineSegment(Closed):
    """A straight stretch of the outline, level or upright."""

    x_from_mm: _X
    y_from_mm: _Y
    x_to_mm: _X
    y_to_mm: _Y


class JunctionBoundary(Closed):
    """What bounds a stretch of the outline: an environment behind a surface resistance, or nothing that heat passes."""

    segment: OutlineSegment
    environment: Annotated[
        str | None,
        identifier("Name of the environment; absent: boundaries of one temperature are one environment."),
    ] = None
    temperature_deg_c: Annotated[float | None, quantity("deg_c", -100.0, 1000.0, "Temperature of the environment.")] = (
        None
    )
    surface_resistance_m2_k_per_w: Annotated[
        float | None, quantity("m2_k_per_w", 0.0, 10.0, "Surface resistance; 0 holds the surface at the temperature.")
    ] = None
    adiabatic: Annotated[
        bool, Field(strict=True, description="true: no heat passes, as at cut-off planes and planes of symmetry.")
    ] = False


class JunctionPoint(Closed):
    """A place whose temperature is wanted."""

    id: Annotated[str, identifier("Name of the point.")]
    x_mm: _X
    y_mm: _Y


class JunctionFlank(Closed):
    """A plane element next to the junction, whose own heat loss is taken off."""

    u_value_w_per_m2_k: Annotated[float, quantity("w_per_m2_k", 0.0, 1000.0, "U-value of the element.")]
    internal_length_mm: Annotated[
        float, quantity("mm", 0.0, _FURTHEST, "Length by internal dimensions; the radius in an axisymmetric section.")
    ]
    external_length_mm: Annotated[
        float, quantity("mm", 0.0, _FURTHEST, "Length by external dimensions; the radius in an axisymmetric section.")
    ]


class JunctionSides(Closed):
    """Which two environments transmittances and temperature factors lie between."""

    inside: Annotated[str, identifier("Environment that is taken for the inside.")]
    outside: Annotated[str, identifier("Environment that is taken for the outside.")]


class EnvironmentTemperature(Closed):
    """Temperature of one environment in a case."""

    environment: Annotated[str, identifier("Name of the environment.")]
    temperature_deg_c: _Temperature


class TemperatureCase(Closed):
    """The same junction at other temperatures."""

    id: Annotated[str, identifier("Name of the case.")]
    temperatures: Annotated[
        list[EnvironmentTemperature],
        Field(
            max_length=20,
            fail_fast=True,
            description="Environments that change, each once; the others stay as they are.",
        ),
    ]


class Junction(Closed):
    """A section drawn by rectangles and boundaries, or a ready detail made from the build-up; never both."""

    rectangles: Annotated[
        list[JunctionRectangle], Field(max_length=500, fail_fast=True, description="Materials; they fill the section.")
    ] = []
    overlaps: Annotated[
        Literal["refuse", "later_covers"],
        Field(description="refuse: no two rectangles may overlap; later_covers: where they do, the later one counts."),
    ] = "refuse"
    geometry: Annotated[
        Literal["plane", "axisymmetric"],
        Field(description="plane: per metre of length; axisymmetric: turned about x = 0, which needs no boundary."),
    ] = "plane"
    boundaries: Annotated[
        list[JunctionBoundary],
        Field(
            max_length=500,
            fail_fast=True,
            description="Together they cover the outline, each place once. The warmest environment counts as the inside and the coldest "
            "as the outside, whatever their names, unless between says otherwise.",
        ),
    ] = []
    between: Annotated[
        JunctionSides | None,
        Field(
            description="Inside and outside of a drawn section; absent: the warmest and the coldest environment, and with more than two "
            "environments no transmittance. With more than two, flanks are those between these two, and no temperature factors are given."
        ),
    ] = None
    flanks: Annotated[
        list[JunctionFlank],
        Field(
            max_length=20,
            fail_fast=True,
            description="Elements whose heat loss is taken off for psi or chi; an axisymmetric section has one at most.",
        ),
    ] = []
    detail: Annotated[Detail | None, Field(description="A ready detail; it draws rectangles and boundaries.")] = None
    points: Annotated[
        list[JunctionPoint], Field(max_length=200, fail_fast=True, description="Places whose temperature is wanted.")
    ] = []
    cases: Annotated[
        list[TemperatureCase],
        Field(
            max_length=50,
            fail_fast=True,
            description="Further temperatures; the environments of a detail are inside and outside.",
        ),
    ] = []


class ThermalJunctionRequest(Closed):
    """A junction whose transmittance and surface temperatures are asked."""

    junction: Junction
    build_up: Annotated[BuildUp | None, Field(description="The wall of a ready detail.")] = None
    options: Options = Options()


class Coupling(TypedDict):
    """Thermal coupling between two environments."""

    environments: Annotated[list[str], Field(description="The two environments.")]
    coupling_w_per_m_k: NotRequired[Annotated[float, figure("w_per_m_k", "Per metre of length; of a plane section.")]]
    coupling_w_per_k: NotRequired[Annotated[float, figure("w_per_k", "Of the whole body; of an axisymmetric section.")]]


class FlankResult(TypedDict):
    """What a flank takes off."""

    name: Annotated[str, Field(description="What it is.")]
    u_value_w_per_m2_k: Annotated[float, figure("w_per_m2_k", "U-value of the element.")]
    internal_length_mm: Annotated[float, figure("mm", "By internal dimensions; a radius where axisymmetric.")]
    external_length_mm: Annotated[float, figure("mm", "By external dimensions; a radius where axisymmetric.")]


class RectangleResult(TypedDict):
    """A rectangle that a ready detail drew; later ones cover earlier ones."""

    name: Annotated[str, Field(description="What it is.")]
    x_mm: Annotated[float, figure("mm", "Left side.")]
    y_mm: Annotated[float, figure("mm", "Foot.")]
    width_mm: Annotated[float, figure("mm", "To the right.")]
    height_mm: Annotated[float, figure("mm", "Up.")]
    conductivity_w_per_m_k: Annotated[float, figure("w_per_m_k", "Conductivity used.")]


class BoundaryResult(TypedDict):
    """One boundary: where it runs, what it faces, and the heat through it."""

    name: Annotated[str, Field(description="What it is; in a drawn section its environment.")]
    x_from_mm: Annotated[float, figure("mm", "Left or lower end.")]
    y_from_mm: Annotated[float, figure("mm", "Left or lower end.")]
    x_to_mm: Annotated[float, figure("mm", "Right or upper end.")]
    y_to_mm: Annotated[float, figure("mm", "Right or upper end.")]
    adiabatic: Annotated[bool, Field(description="true: no heat passes, and the members below are absent.")]
    environment: NotRequired[Annotated[str, Field(description="Environment behind it.")]]
    temperature_deg_c: NotRequired[Annotated[float, figure("deg_c", "Temperature of that environment.")]]
    surface_resistance_m2_k_per_w: NotRequired[Annotated[float, figure("m2_k_per_w", "Surface resistance used.")]]
    heat_flow_w_per_m: NotRequired[Annotated[float, figure("w_per_m", "Into the section; out of it is negative.")]]
    heat_flow_w: NotRequired[Annotated[float, figure("w", "Into the section; out of it is negative.")]]


class PointResult(TypedDict):
    """Temperature at a point."""

    id: Annotated[str, Field(description="Name of the point.")]
    x_mm: Annotated[float, figure("mm", "To the right.")]
    y_mm: Annotated[float, figure("mm", "Up.")]
    temperature_deg_c: Annotated[float, figure("deg_c", "Temperature there.")]
    temperature_factor: NotRequired[
        Annotated[float, figure("fraction", "Its share of the way from the cold environment to the warm one.")]
    ]
    temperature_factor_mould: NotRequired[
        Annotated[float, figure("fraction", "The same with a surface resistance of 0.25 m2.K/W all over the inside.")]
    ]


class SurfacePlace(TypedDict):
    """The coldest place of the inside surface, frames of details left out, and its temperature factor."""

    x_mm: Annotated[float, figure("mm", "To the right.")]
    y_mm: Annotated[float, figure("mm", "Up.")]
    temperature_deg_c: Annotated[float, figure("deg_c", "Surface temperature there.")]
    temperature_factor: Annotated[float, figure("fraction", "f_Rsi.")]


class MeshResult(TypedDict):
    """The mesh and how far it was refined."""

    nodes_count: Annotated[int, Field(description="Nodes of the finest mesh.")]
    refinements_count: Annotated[int, Field(description="How often the subdivisions were doubled.")]
    change_fraction: Annotated[
        float, figure("fraction", "Change of the heat flow when the subdivisions were last doubled.")
    ]
    change_w_per_m_k: NotRequired[Annotated[float, figure("w_per_m_k", "The same change of the coupling.")]]
    change_w_per_k: NotRequired[Annotated[float, figure("w_per_k", "The same change of the coupling.")]]
    criterion_met: Annotated[bool, Field(description="Whether that is within the 1 % of ISO 10211.")]


class CaseBoundary(TypedDict):
    """Heat through one environment's boundaries in a case."""

    environment: Annotated[str, Field(description="Name of the environment.")]
    temperature_deg_c: Annotated[float, figure("deg_c", "Its temperature.")]
    heat_flow_w_per_m: NotRequired[Annotated[float, figure("w_per_m", "Into the section.")]]
    heat_flow_w: NotRequired[Annotated[float, figure("w", "Into the section.")]]


class CaseResult(TypedDict):
    """The junction at the temperatures of one case."""

    id: Annotated[str, Field(description="Name of the case.")]
    environments: list[CaseBoundary]
    points: list[PointResult]


class TransmittanceUse(TypedDict):
    """Whether and how the transmittance enters a U-value."""

    in_u_value: Annotated[bool, Field(description="Whether it may be given to /v1/u-values.")]
    how: Annotated[str, Field(description="How to use it.")]
    chi_w_per_k: NotRequired[Annotated[float, figure("w_per_k", "For corrections.fasteners of kind declared.")]]
    count_per_m2: NotRequired[Annotated[float, figure("per_m2", "For the same: what the disc stands for.")]]
    delta_u_w_per_m2_k: NotRequired[Annotated[float, figure("w_per_m2_k", "What that many add to the U-value.")]]


class ThermalJunctionResult(TypedDict):
    """Heat through a junction and temperatures in it."""

    geometry: Annotated[Literal["plane", "axisymmetric"], Field(description="Of the section.")]
    environments: Annotated[list[str], Field(description="In order of first mention.")]
    couplings: Annotated[list[Coupling], Field(description="Between every two environments.")]
    coupling_w_per_m_k: NotRequired[
        Annotated[float, figure("w_per_m_k", "Thermal coupling L2D; of plane sections, between inside and outside.")]
    ]
    coupling_w_per_k: NotRequired[
        Annotated[
            float, figure("w_per_k", "Thermal coupling L3D; of axisymmetric sections, between inside and outside.")
        ]
    ]
    flanks: list[FlankResult]
    psi_w_per_m_k: NotRequired[
        Annotated[float, figure("w_per_m_k", "Linear thermal transmittance by internal dimensions.")]
    ]
    psi_internal_w_per_m_k: NotRequired[Annotated[float, figure("w_per_m_k", "By internal dimensions.")]]
    psi_external_w_per_m_k: NotRequired[Annotated[float, figure("w_per_m_k", "By external dimensions.")]]
    chi_w_per_k: NotRequired[Annotated[float, figure("w_per_k", "Point thermal transmittance.")]]
    use: NotRequired[TransmittanceUse]
    temperature_factor: NotRequired[
        Annotated[
            float,
            figure(
                "fraction",
                "Lowest f_Rsi of the inside surface, frames left out, with its surface resistances as given.",
            ),
        ]
    ]
    temperature_factor_mould: NotRequired[
        Annotated[
            float,
            figure(
                "fraction",
                "The same with a surface resistance of 0.25 m2.K/W all over the inside, for mould. Frames and panes have it too, which makes "
                "what is near them warmer or colder than with the 0.13 that ISO 13788 takes for windows.",
            ),
        ]
    ]
    coldest: NotRequired[SurfacePlace]
    coldest_mould: NotRequired[SurfacePlace]
    points: list[PointResult]
    boundaries: Annotated[list[BoundaryResult], Field(description="The whole outline, in order.")]
    rectangles: NotRequired[
        Annotated[
            list[RectangleResult], Field(description="What a ready detail drew; may be sent as a section of its own.")
        ]
    ]
    balance_fraction: Annotated[float, figure("fraction", "Sum of all heat flows over half the sum of their amounts.")]
    mesh: MeshResult
    cases: list[CaseResult]
