"""Bays and spacings as they stand in the answer."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.reference.documents import Status
from storeyrod.units import figure

Limited = Literal["length", "boards", "area", "ratio", "corner", "change_of_height"]
"""What a spacing limits."""


class Bay(TypedDict):
    """The wall between two joints, or a joint and an end, as it is left to clad."""

    x_from_mm: Annotated[float, figure("mm", "Left end of the bay.")]
    x_to_mm: Annotated[float, figure("mm", "Right end of the bay.")]
    length_mm: Annotated[float, figure("mm", "Clear length of the bay.")]
    height_mm: Annotated[float, figure("mm", "Height of the bay, from its lowest to its highest point.")]
    gross_area_m2: Annotated[float, figure("m2", "Area of the bay, openings not deducted.")]
    largest_area_m2: Annotated[
        float, figure("m2", "Largest area of the bay between level joints; without any, its whole area.")
    ]
    ratio: Annotated[
        float, Field(description="Longer to shorter side of the most slender part of the bay between level joints.")
    ]
    governs: Annotated[Limited, Field(description="The limit to which the bay comes nearest, or exceeds most.")]
    limit_fraction: Annotated[float, figure("fraction", "What the bay takes of that limit; over 1 exceeds it.")]


class ProfileLimit(TypedDict):
    """One limit of a profile, and the place on the wall that comes nearest to it or exceeds it most."""

    kind: Annotated[
        Limited,
        Field(
            description="length in mm; boards as many lengths; area in m2; ratio of the longer to the shorter side; corner: distance "
            "to the first joint in mm; change_of_height: changes of height without a joint."
        ),
    ]
    kept: Annotated[bool, Field(description="Whether every bay keeps it.")]
    value: Annotated[float, Field(description="What was found there.")]
    limit: Annotated[float, Field(description="What it is held against, closer where a parapet asks for it.")]
    unit: Annotated[str, Field(description="Unit code of value and limit.")]
    elevation: Annotated[str, Field(description="Name of the elevation.")]
    x_from_mm: Annotated[float, figure("mm", "Left end of the place.")]
    x_to_mm: Annotated[float, figure("mm", "Right end of the place.")]
    document: Annotated[str, Field(description="Document that sets the limit.")]
    number: Annotated[str, Field(description="Where it stands in the document; empty without one.")]
    status: Annotated[Status, Field(description="How well it is known.")]


class ProfileCheck(TypedDict):
    """The joints as placed, held against one named spacing as its document has it, whatever the request changed of it."""

    profile: Annotated[str, Field(description="Name of the spacing, as movement_joint.profile takes it.")]
    title: Annotated[str, Field(description="What it is.")]
    document: Annotated[str, Field(description="Document that it is from.")]
    status: Annotated[Status, Field(description="How well the document is known.")]
    applies: Annotated[
        bool,
        Field(description="false: written for masonry of full thickness, shown so that nobody borrows it for slips."),
    ]
    chosen: Annotated[bool, Field(description="Whether the request keeps this one.")]
    kept: Annotated[bool, Field(description="Whether the joints keep all limits listed.")]
    limits: Annotated[list[ProfileLimit], Field(description="Its limits.")]
    also_asks: NotRequired[Annotated[str, Field(description="What it asks beside them, and was not looked at.")]]
