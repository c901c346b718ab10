"""Rows of the tables of materials, as /v1/materials shows them."""

from typing import Annotated, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.units import figure


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
