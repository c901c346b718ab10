"""Rows of the tables of materials, as /v1/materials shows them."""

from typing import Annotated, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.units import figure


class MaterialConflict(TypedDict):
    """Another document that gives another value."""

    member: Annotated[str, Field(description="Member of the material that it speaks of.")]
    value: Annotated[float, Field(description="Its value, in the unit of that member.")]
    value_high: NotRequired[Annotated[float, Field(description="Upper end, where it gives a range.")]]
    unit: Annotated[str, Field(description="UCUM code of the unit.")]
    document: Annotated[str, Field(description="The other document.")]
    number: Annotated[str, Field(description="Place in it.")]
    status: Annotated[str, Field(description="How that value is known.")]


class VapourMeasurement(TypedDict):
    """A permeance measured, as a vapour factor."""

    vapour_factor: Annotated[float, figure("count", "Water vapour resistance factor.")]
    vapour_factor_high: NotRequired[Annotated[float, figure("count", "Upper end, where a range was measured.")]]
    density_kg_per_m3: NotRequired[Annotated[float, figure("kg_per_m3", "Density of what was measured.")]]
    document: Annotated[str, Field(description="Document of the measurement.")]
    number: Annotated[str, Field(description="Place in the document, permeance and thickness.")]
    status: Annotated[str, Field(description="How the measurement is known.")]


class MaterialRow(TypedDict):
    """A tabulated material with its source."""

    key: Annotated[str, Field(description="Name used by layers of kind material.")]
    name: Annotated[str, Field(description="What it is.")]
    conductivity_w_per_m_k: Annotated[
        float, figure("w_per_m_k", "Design value used; the unfavourable end where the source gives a range.")
    ]
    conductivity_low_w_per_m_k: NotRequired[
        Annotated[float, figure("w_per_m_k", "Favourable end of the source's range.")]
    ]
    density_kg_per_m3: NotRequired[Annotated[float, figure("kg_per_m3", "Density.")]]
    specific_heat_j_per_kg_k: NotRequired[Annotated[float, figure("j_per_kg_k", "Specific heat capacity.")]]
    vapour_factor_dry: NotRequired[Annotated[float, figure("count", "Water vapour resistance factor, dry.")]]
    vapour_factor_wet: NotRequired[Annotated[float, figure("count", "Water vapour resistance factor, wet.")]]
    vapour_tight: NotRequired[Annotated[bool, Field(description="true: passes no vapour.")]]
    document: Annotated[str, Field(description="Document of the conductivity.")]
    number: Annotated[str, Field(description="Place in the document.")]
    status: Annotated[str, Field(description="How the conductivity is known.")]
    vapour_status: NotRequired[Annotated[str, Field(description="How the vapour factors are known.")]]
    note: NotRequired[Annotated[str, Field(description="What a user of the value must know.")]]
    vapour_measured: NotRequired[
        Annotated[list[VapourMeasurement], Field(description="What was measured; the row's own factors are used.")]
    ]
    conflicts: NotRequired[
        Annotated[list[MaterialConflict], Field(description="What other documents give; the row itself is used.")]
    ]


class TemperatureCoefficient(TypedDict):
    """Coefficient for temperature, at one declared conductivity or at any."""

    conductivity_w_per_m_k: NotRequired[
        Annotated[float, figure("w_per_m_k", "Declared conductivity that it belongs to; absent: any.")]
    ]
    coefficient_per_k: Annotated[float, figure("per_k", "Conversion coefficient.")]


class MoistureCoefficient(TypedDict):
    """Coefficient for moisture, and contents in equilibrium with air at 23 degrees Celsius."""

    basis: Annotated[str, Field(description="by_mass or by_volume.")]
    coefficient: Annotated[
        float, figure("count", "Conversion coefficient; the unfavourable one where memory gives two.")
    ]
    coefficient_low: NotRequired[Annotated[float, figure("count", "The other one, where memory gives two.")]]
    content_most_fraction: NotRequired[Annotated[float, figure("fraction", "Content up to which it holds.")]]
    content_50_percent_fraction: Annotated[float, figure("fraction", "Content in air of 50 %.")]
    content_80_percent_fraction: Annotated[float, figure("fraction", "Content in air of 80 %.")]


class ConversionRow(TypedDict):
    """Coefficients by which declared conductivities of a material are converted."""

    key: Annotated[str, Field(description="Name used by layers of kind declared.")]
    name: Annotated[str, Field(description="What it is.")]
    temperature: NotRequired[
        Annotated[list[TemperatureCoefficient], Field(description="By declared conductivity, lowest first.")]
    ]
    moisture: MoistureCoefficient
    document: Annotated[str, Field(description="Document of the coefficients.")]
    number: Annotated[str, Field(description="Place in the document.")]
    status: Annotated[str, Field(description="How the coefficients are known.")]
    note: NotRequired[Annotated[str, Field(description="What a user of the values must know.")]]
