"""What moves a movement joint, what its sealant can follow, and the rod behind it."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import HOUSE
from storeyrod.units import quantity

CoefficientKey = Literal[
    "clay_brick_note",
    "clay_design_exercises",
    "clay_handbook",
    "clay_textbook",
    "clay_digest",
    "clay_eurocode",
    "clay_annex",
    "calcium_silicate_digest",
    "calcium_silicate_eurocode",
    "calcium_silicate_annex",
    "dense_concrete_handbook",
    "dense_concrete_masonry_page",
    "dense_concrete_digest",
    "dense_concrete_eurocode",
    "dense_concrete_annex",
    "lightweight_concrete_digest",
    "lightweight_concrete_eurocode",
    "lightweight_concrete_annex",
    "aerated_concrete_digest",
    "aerated_concrete_eurocode",
    "aerated_concrete_annex",
    "granite_digest",
    "limestone_digest",
    "sandstone_digest",
    "slate_digest",
    "marble_digest",
    "stone_annex",
    "mortar_digest",
    "rendered_insulation_handbook",
]
"""Rows of the table of movement coefficients: a material and the document that gives its values."""

Convention = Literal["factor", "factor_plus_movement"]
"""How width follows from movement M and capability X: M / X, or M / X + M."""

Basis = Literal["total", "plus_minus"]
"""What a movement capability is a share of the width of: all movement from end to end, or each way from as made."""

Backer = Literal["closed_cell", "open_cell"]
"""Foam of a backer rod."""


class MovementCapability(Closed):
    """How much of the joint's width its sealant can follow; the two meanings of the percentage differ by a factor of two."""

    value_percent: Annotated[float, quantity("percent", 5.0, 200.0, "Movement capability, as declared.")]
    basis: Annotated[
        Basis,
        Field(
            description=(
                "Required, since declarations differ. total: closing and opening together are at most this share of the width. "
                "plus_minus: closing is at most this share of the width, and opening too."
            )
        ),
    ]


class SealantDeclaration(Closed):
    """What the supplier declares of the sealant."""

    movement_capability: MovementCapability


class Movement(Closed):
    """Movement that joints must take: temperature of the face, moisture, drift of the structure, tolerance of making."""

    temperature_min_deg_c: Annotated[float, quantity("deg_c", -60.0, 120.0, "Lowest temperature of the face.")]
    temperature_max_deg_c: Annotated[float, quantity("deg_c", -60.0, 120.0, "Highest temperature of the face.")]
    installation_temperature_deg_c: Annotated[
        float | None,
        quantity(
            "deg_c",
            -60.0,
            120.0,
            "Temperature of the face when joints are sealed; absent: it may be either end of the range, so the whole range may "
            "come in one direction.",
        ),
    ] = None
    expansion_um_per_m_k: Annotated[
        float | None,
        quantity(
            "um_per_m_k", 0.0, 100.0, "Coefficient of thermal expansion: 6 stands for 6e-6/K; or else give material."
        ),
    ] = None
    material: Annotated[
        CoefficientKey | None,
        Field(description="Row of the table of movement coefficients; or else give expansion_um_per_m_k."),
    ] = None
    moisture_expansion_mm_per_m: Annotated[
        float | None,
        quantity(
            "mm_per_m",
            0.0,
            5.0,
            "Growth by moisture, which only closes joints; absent: of the material's row, or none.",
        ),
    ] = None
    moisture_shrinkage_mm_per_m: Annotated[
        float | None,
        quantity(
            "mm_per_m",
            0.0,
            5.0,
            "Shrinkage by drying, which only opens joints; absent: of the material's row, or none.",
        ),
    ] = None
    drift_mm: Annotated[
        float,
        quantity("mm", 0.0, 50.0, "Movement of the structure at a joint, taken as closing and as opening."),
        Assumed("mm", HOUSE, "no movement of the structure"),
    ] = 0.0
    tolerance_mm: Annotated[
        float,
        quantity("mm", 0.0, 30.0, "Width that making the joint may lose, added to what movement needs."),
        Assumed("mm", HOUSE, "joints are made as wide as they are drawn"),
    ] = 0.0
    convention: Annotated[
        Convention,
        Field(
            description=(
                "Convention that gives the width; both are answered. factor: movement over capability. factor_plus_movement: "
                "that and the movement itself."
            )
        ),
        Assumed("", HOUSE, "published conventions differ; both widths are in the answer"),
    ] = "factor"
    sealant: SealantDeclaration


class BackerRod(Closed):
    """Foam rod that the sealant is pressed against."""

    kind: Annotated[Backer, Field(description="Foam of the rod.")]
    diameter_mm: Annotated[
        float | None,
        quantity("mm", 1.0, 150.0, "Diameter in movement joints; absent: by the oversize that its foam asks for."),
    ] = None
