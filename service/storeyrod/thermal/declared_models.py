"""A layer by its declared conductivity, and the conditions from which and to which that is converted."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import Clause
from storeyrod.units import UNITS, WHOLE, quantity, words

_REFERENCE = Clause("ISO 10456", "reference condition of 10 degrees Celsius", "memory")
_AGEING = Clause("ISO 10456", "7.3, ageing inside the declared value", "memory")


class MoistureConversion(Closed):
    """Moisture of the material as declared and in the wall; both on one basis."""

    basis: Annotated[
        Literal["by_mass", "by_volume"],
        Field(description="by_mass: kg of water per kg; by_volume: m3 of water per m3."),
    ]
    content_declared_fraction: Annotated[
        float, quantity("fraction", 0.0, 5.0, "Moisture content at which the conductivity is declared; dry is 0.")
    ]
    content_design_fraction: Annotated[
        float | None,
        quantity("fraction", 0.0, 5.0, "Moisture content in the wall; give this or air_humidity_percent."),
    ] = None
    air_humidity_percent: Annotated[
        Literal[50, 80] | None,
        Field(
            description="Relative humidity at 23 degrees Celsius for which the table gives the content in the wall.",
            json_schema_extra={"x-unit": UNITS["percent"].ucum},
        ),
        WHOLE,
    ] = None
    coefficient: Annotated[
        float | None,
        quantity("count", 0.0, 20.0, "Conversion coefficient for moisture, per unit of content; absent: by material."),
    ] = None


class Conversion(Closed):
    """From declared to design conductivity: temperature, moisture, ageing."""

    material: Annotated[
        str | None,
        words(80, "Key of a row of conversions in /v1/materials; needed where a coefficient is not given."),
    ] = None
    temperature_declared_deg_c: Annotated[
        float,
        quantity("deg_c", -50.0, 100.0, "Mean temperature at which the conductivity is declared."),
        Assumed("deg_c", _REFERENCE),
    ] = 10.0
    temperature_design_deg_c: Annotated[
        float | None, quantity("deg_c", -50.0, 100.0, "Mean temperature in the wall; absent: as declared.")
    ] = None
    temperature_coefficient_per_k: Annotated[
        float | None, quantity("per_k", 0.0, 0.1, "Conversion coefficient for temperature; absent: by material.")
    ] = None
    moisture: Annotated[MoistureConversion | None, Field(description="Moisture; absent: as declared.")] = None
    ageing_factor: Annotated[
        float,
        quantity("fraction", 0.5, 3.0, "What ageing multiplies the conductivity by."),
        Assumed("fraction", _AGEING, "the declared value holds ageing already"),
    ] = 1.0

    def idle_members(self) -> frozenset[str]:
        """A temperature of declaration stands for nothing where none is converted."""
        return frozenset({"temperature_declared_deg_c"} if self.temperature_design_deg_c is None else ())


class DeclaredLayer(Closed):
    """A homogeneous layer by its declared conductivity, converted to the conditions in the wall."""

    kind: Literal["declared"]
    name: Annotated[str, words(80, "What the layer is, for the reader.")]
    thickness_mm: Annotated[float, quantity("mm", 0.01, 3000.0, "Thickness of the layer.")]
    conductivity_declared_w_per_m_k: Annotated[
        float, quantity("w_per_m_k", 0.001, 500.0, "Declared thermal conductivity.")
    ]
    conversion: Conversion
    vapour_resistance_factor: Annotated[
        float | None, quantity("count", 1.0, 10_000_000.0, "Water vapour resistance factor; not used for a U-value.")
    ] = None
    vapour_sd_m: Annotated[
        float | None, quantity("m", 0.0, 100_000.0, "Equivalent air layer for vapour; not used for a U-value.")
    ] = None
    vapour_tight: Annotated[
        bool, Field(strict=True, description="true: passes no vapour, as metal or glass; not used for a U-value.")
    ] = False
    density_kg_per_m3: Annotated[
        float | None, quantity("kg_per_m3", 1.0, 25_000.0, "Density; not used for a U-value.")
    ] = None
