"""Answers of the width of joints and of what seals them: movement, both conventions, sealant and rod."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.reference.documents import Status
from storeyrod.units import figure
from storeyrod.wall.movement import Backer, Convention

Direction = Literal["closing", "opening", "total"]
"""Movement that a width must serve."""


class CoefficientRow(TypedDict):
    """Movement of a material as one document gives it."""

    key: Annotated[str, Field(description="Name used by `movement.material`.")]
    name: Annotated[str, Field(description="The material, in the document's words.")]
    material: Annotated[str, Field(description="Material whose rows may be compared.")]
    expansion_um_per_m_k: Annotated[
        float, figure("um_per_m_k", "Coefficient of thermal expansion used: the upper end of a range.")
    ]
    expansion_low_um_per_m_k: Annotated[float, figure("um_per_m_k", "Lower end of the document's range.")]
    expansion_high_um_per_m_k: Annotated[float, figure("um_per_m_k", "Upper end of the document's range.")]
    moisture_expansion_mm_per_m: NotRequired[Annotated[float, figure("mm_per_m", "Growth by moisture.")]]
    moisture_shrinkage_mm_per_m: NotRequired[Annotated[float, figure("mm_per_m", "Shrinkage by drying.")]]
    document: Annotated[str, Field(description="Document that gives the values.")]
    number: Annotated[str, Field(description="Where they stand in it.")]
    status: Annotated[Status, Field(description="How well they are known.")]


class Coefficient(CoefficientRow):
    """A row of the material asked for."""

    used: Annotated[bool, Field(description="Whether the answer rests on this row.")]


class ConventionWidth(TypedDict):
    """Width by one of the two published conventions."""

    convention: Annotated[
        Convention,
        Field(description="factor: M / X + t; factor_plus_movement: M / X + M + t, as documents print them."),
    ]
    used: Annotated[bool, Field(description="Whether the request asks for this one.")]
    width_mm: Annotated[float, figure("mm", "Width that the movement asks for, not rounded.")]
    width_rounded_mm: Annotated[float, figure("mm", "That width up to whole millimetres, at least 6 mm.")]
    longest_bay_mm: NotRequired[
        Annotated[
            float,
            figure("mm", "Longest bay that the width of the joints can serve; absent when no bay is too long."),
        ]
    ]
    document: Annotated[str, Field(description="Document of the convention.")]
    number: Annotated[str, Field(description="Where it stands in it.")]
    status: Annotated[Status, Field(description="How well it is known.")]


class WidthWorking(TypedDict):
    """Movement of the joints of a face, and the width that it asks for."""

    bay_mm: Annotated[
        float, figure("mm", "Length that moves into a joint: half of the bay on each side, so at most the longest bay.")
    ]
    closing_mm: Annotated[float, figure("mm", "Greatest closing: heating, growth by moisture, drift.")]
    opening_mm: Annotated[float, figure("mm", "Greatest opening: cooling, shrinkage, drift.")]
    total_mm: Annotated[
        float,
        figure("mm", "Movement from widest to narrowest: less than both together where the range may come either way."),
    ]
    governing: Annotated[
        Direction,
        Field(description="total with that basis of the capability, or else the larger of closing and opening."),
    ]
    governing_mm: Annotated[float, figure("mm", "Movement that the width must serve.")]
    widths: Annotated[list[ConventionWidth], Field(description="By both conventions.")]
    coefficients: NotRequired[
        Annotated[list[Coefficient], Field(description="With `material`: what documents say of it, which disagree.")]
    ]


class DepthByRule(TypedDict):
    """Depth of sealant that one rule gives for the width of the joints."""

    rule: Annotated[str, Field(description="The rule in words.")]
    depth_least_mm: Annotated[float, figure("mm", "Least depth.")]
    depth_most_mm: Annotated[float, figure("mm", "Greatest depth.")]
    used: Annotated[bool, Field(description="Whether the answer rests on this rule; on none where a depth was given.")]
    document: Annotated[str, Field(description="Document of the rule.")]
    number: Annotated[str, Field(description="Where it stands in it.")]
    status: Annotated[Status, Field(description="How well it is known.")]


class RodRow(TypedDict):
    """Rod behind sealant."""

    kind: Annotated[Backer, Field(description="Foam of the rod.")]
    diameter_mm: Annotated[
        float, figure("mm", "Diameter given, or the least in whole millimetres that the foam asks for.")
    ]
    diameter_least_mm: Annotated[float, figure("mm", "Least diameter for the width of the joint.")]
    diameter_most_mm: Annotated[float, figure("mm", "Greatest diameter for the width of the joint.")]
    length_m: Annotated[float, figure("m", "Length of rod, without allowance: as much as is sealed.")]


class JointSeal(TypedDict):
    """Section of the seal of a face's joints."""

    section: Annotated[
        Literal["rectangle", "over_round_rod"],
        Field(description="What the litres are reckoned by; a rectangle too where the rod is no wider than the joint."),
    ]
    section_mm2: Annotated[float, figure("mm2", "Section of the sealant.")]
    volume_ml_per_m: Annotated[float, figure("ml_per_m", "Sealant in a metre of joint.")]
    backer_rod: RodRow
    depths: Annotated[list[DepthByRule], Field(description="What published rules give for this width: they disagree.")]
