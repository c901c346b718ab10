"""Level movement joints on an elevation: long-dashed dotted lines over their sealed lengths, named at the right of the wall."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from storeyrod.drawings.courses import NUMBER_AWAY
from storeyrod.drawings.display_list import Group, Line, Style, Text
from storeyrod.drawings.joint_marks import BLANK_ON_THE_WALL
from storeyrod.drawings.lettering import number
from storeyrod.drawings.line_styles import JOINT, JOINT_BLANK, LETTERING, LETTERS_SMALL, finer
from storeyrod.drawings.wall_part import WallPart, whole_of
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.storey_strips import StoreyStrip, storey_strips
from storeyrod.wall.face import Face
from storeyrod.wall.storey_joints import StoreyJoint

_NAME_AWAY: Final = NUMBER_AWAY + 5.0
"""Distance of the names from the wall on paper, mm: beside the numbers of courses."""


def level_joint_blanks(face: Face, joints: Sequence[StoreyJoint], scale: float) -> tuple[Group, ...]:
    """A white ground under each joint, so that its dashes show between the edges of boards."""
    lines = tuple(line for strip in storey_strips(face, joints) for line in _lines(strip))
    style = replace(JOINT_BLANK, weight=min(JOINT_BLANK.weight, BLANK_ON_THE_WALL / scale))
    return (Group("joint-blank", style, lines),) if lines else ()


def level_joint_groups(
    face: Face, joints: Sequence[StoreyJoint], scale: float, existing: Style = JOINT
) -> tuple[Group, ...]:
    """Joints of a face; each is a group with the id of the joint. Those of the structure may have a style of their own."""
    return tuple(
        Group(
            "movement-joint",
            finer(existing if strip.joint.existing else JOINT, scale),
            tuple(_lines(strip)),
            f"{face.id}:storey-joint-{place}",
        )
        for place, strip in enumerate(storey_strips(face, joints), start=1)
    )


def level_joint_names(
    face: Face,
    joints: Sequence[StoreyJoint],
    right: float,
    scale: float,
    *,
    sizes: bool = False,
    part: WallPart | None = None,
) -> tuple[Group, ...]:
    """Numbers of the joints in a part of the wall right of x = ``right`` in mm, and their widths and levels if they are wanted."""
    shown = part or whole_of(face)
    names = tuple(
        Text(
            (right + _NAME_AWAY * scale, _height(strip)),
            f"LJ {place}{_sizes(strip) if sizes else ''}",
            LETTERS_SMALL,
            middle=True,
        )
        for place, strip in enumerate(storey_strips(face, joints), start=1)
        if any(shown.overlaps(millimetres(low), millimetres(high)) for low, high in strip.runs)
    )
    return (Group("joint-names", LETTERING, names),) if names else ()


def level_joint_marks(face: Face, joints: Sequence[StoreyJoint]) -> list[tuple[float, str]]:
    """Feet of the courses that stand on joints, in ticks, with what lies below them."""
    return [
        (strip.joint.top, f"LJ {place} below, {number(millimetres(strip.joint.width))} wide")
        for place, strip in enumerate(storey_strips(face, joints), start=1)
    ]


def _sizes(strip: StoreyStrip) -> str:
    """Width of a joint, level of its head, and whether the structure has it."""
    joint = strip.joint
    old = ", existing" if joint.existing else ""
    return f": {number(millimetres(joint.width))} below {number(millimetres(joint.top))}{old}"


def _lines(strip: StoreyStrip) -> list[Line]:
    y = _height(strip)
    return [Line((millimetres(left), y), (millimetres(right), y)) for left, right in strip.runs]


def _height(strip: StoreyStrip) -> float:
    return millimetres(strip.joint.bottom + strip.joint.top) / 2.0
