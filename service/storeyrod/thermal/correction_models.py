"""What adds to a plain U-value: air gaps round the insulation, and fasteners through it."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import HOUSE, Clause
from storeyrod.units import WHOLE, count, quantity

_AIR_GAPS = Clause("ISO 6946", "Annex F, level 0", "memory")

_FastenerCount = Annotated[float, quantity("per_m2", 0.0, 100.0, "Fasteners per square metre.")]


class DeclaredFasteners(Closed):
    """Fasteners with a declared point thermal transmittance."""

    kind: Literal["declared"]
    chi_w_per_k: Annotated[
        float, quantity("w_per_k", 0.0, 0.1, "Declared point thermal transmittance of one fastener.")
    ]
    count_per_m2: _FastenerCount


class CalculatedFasteners(Closed):
    """Fasteners by the approximate procedure, from shank and insulation."""

    kind: Literal["calculated"]
    conductivity_w_per_m_k: Annotated[float, quantity("w_per_m_k", 0.01, 500.0, "Conductivity of the shank.")]
    area_mm2: Annotated[float, quantity("mm2", 0.01, 10_000.0, "Cross-section of one shank.")]
    count_per_m2: _FastenerCount
    length_in_insulation_mm: Annotated[
        float | None,
        quantity("mm", 0.1, 5000.0, "Length of a recessed shank inside the insulation; absent: its thickness."),
    ] = None
    insulation_thickness_mm: Annotated[
        float | None,
        quantity(
            "mm",
            0.1,
            3000.0,
            "Insulation that is pierced, where its layer has no thickness; else it is that of the layer.",
        ),
    ] = None
    recessed: Annotated[
        bool,
        Field(strict=True, description="true: the head is sunk, so only length_in_insulation_mm conducts."),
        Assumed("", HOUSE, "the shank pierces the whole insulation"),
    ] = False


class UndeclaredFasteners(Closed):
    """Fasteners whose heat loss is not declared: the answer is a range."""

    kind: Literal["undeclared"]
    count_per_m2: _FastenerCount


Fasteners = Annotated[DeclaredFasteners | CalculatedFasteners | UndeclaredFasteners, Field(discriminator="kind")]


class Corrections(Closed):
    """What adds to the plain U-value: air gaps round the insulation, and fasteners through it."""

    insulation_layer: Annotated[
        int | None,
        count(0, 49, "Index of the insulation layer, from 0 at the inside; needed when two could be meant."),
        WHOLE,
    ] = None
    air_gap_level: Annotated[
        Literal[0, 1, 2],
        Field(
            description="0: no gaps through the insulation; 1: gaps, no air circulation on the warm side; 2: gaps and circulation."
        ),
        WHOLE,
        Assumed("", _AIR_GAPS, "no gaps through the whole insulation"),
    ] = 0
    fasteners: Fasteners | None = None
