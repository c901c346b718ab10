"""Answers of level movement joints: where they lie, what they move, and what of them is sealed."""

from typing import Annotated

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.units import figure


class LevelSegment(TypedDict):
    """A sealed length of a level joint between openings or ends."""

    x_from_mm: Annotated[float, figure("mm", "Left end of the sealed length.")]
    x_to_mm: Annotated[float, figure("mm", "Right end of the sealed length.")]


class LevelJoint(TypedDict):
    """A level movement joint, as it runs round the building."""

    course: Annotated[int, Field(description="Course that stands on the joint.")]
    level_mm: Annotated[float, figure("mm", "Level of the storey, or of the joint in the structure, that it is for.")]
    existing: Annotated[bool, Field(description="Whether it repeats a joint of the structure.")]
    moved_mm: Annotated[
        float,
        figure(
            "mm",
            "Its course line less that level, positive above it; 0 where the level lies between that line and where a wide joint "
            "moves it. For a joint of the structure, the middle of this one less its level.",
        ),
    ]
    y_from_mm: Annotated[float, figure("mm", "Foot of the joint: head of the slips under it.")]
    y_to_mm: Annotated[float, figure("mm", "Head of the joint: foot of the slips on it.")]
    width_mm: Annotated[float, figure("mm", "Width of the joint.")]
    shift_mm: Annotated[
        float, figure("mm", "By so much it is wider than a bed, and moves the courses beyond it, seen from the datum.")
    ]


class StoreyJointTotal(LevelJoint):
    """A level movement joint with what is sealed of it on all elevations."""

    sealed_length_m: Annotated[float, figure("m", "Length to seal on all elevations, openings left out.")]


class PlacedStoreyJoint(LevelJoint):
    """A level movement joint on one elevation; it runs where wall stands below and above it."""

    id: Annotated[str, Field(description="Elevation and number from the lowest.")]
    segments: Annotated[list[LevelSegment], Field(description="Sealed lengths from left to right.")]
    sealed_length_m: Annotated[float, figure("m", "Length to seal, openings left out.")]
    area_m2: Annotated[
        float, figure("m2", "Area of the joint in the finished face; where it crosses a vertical one, that one has it.")
    ]
