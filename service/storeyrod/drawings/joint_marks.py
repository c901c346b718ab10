"""Movement joints on an elevation: long-dashed dotted lines over their sealed lengths, named above the wall."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from storeyrod.drawings.display_list import Group, Line, Text
from storeyrod.drawings.lettering import width_of
from storeyrod.drawings.line_styles import JOINT, JOINT_BLANK, LETTERING, LETTERS_SMALL, finer
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan, Slot
from storeyrod.wall.face import Face

ABOVE: Final = 5.0
"""How far a joint line runs over the top of the wall on paper, mm."""

_CLEAR: Final = 1.0


BLANK_ON_THE_WALL: Final = 60.0


def joint_blanks(face: Face, plan: JointPlan, scale: float) -> tuple[Group, ...]:
    """A white ground under each joint, so that its dashes show between the edges of boards; fasteners stay outside it."""
    lines = tuple(line for slot in plan.slots for line in _sealed(face, slot))
    style = replace(JOINT_BLANK, weight=min(JOINT_BLANK.weight, BLANK_ON_THE_WALL / scale))
    return (Group("joint-blank", style, lines),)


def joint_groups(face: Face, plan: JointPlan, scale: float) -> tuple[Group, ...]:
    """Joints of a face; each is a group with the id of the joint."""
    lines = tuple(
        Group("movement-joint", finer(JOINT, scale), tuple(joint_lines(face, slot, scale)), f"{face.id}:joint-{number}")
        for number, slot in enumerate(plan.slots, start=1)
    )
    return (*lines, Group("joint-names", LETTERING, tuple(_names(face, plan, scale))))


def joint_lines(face: Face, slot: Slot, scale: float) -> Iterator[Line]:
    """Sealed lengths of a joint in mm, the highest run over the top of the wall."""
    *lower, highest = _sealed(face, slot)
    yield from lower
    yield Line(highest.start, (highest.end[0], millimetres(face.top) + ABOVE * scale))


def _sealed(face: Face, slot: Slot) -> list[Line]:
    """Sealed lengths of a joint, bottom to top; a joint has at least one, since its bays have wall."""
    x = millimetres(slot.centre)
    return [Line((x, millimetres(low)), (x, millimetres(high))) for low, high in face.joint_heights(slot.centre)]


def _names(face: Face, plan: JointPlan, scale: float) -> Iterator[Text]:
    """Number and width of each joint; left out where the one before stands too near."""
    taken = float("-inf")
    y = millimetres(face.top) + (ABOVE + _CLEAR) * scale
    for index, slot in enumerate(plan.slots, start=1):
        words = f"MJ {index}" + (" (existing)" if slot.existing else "")
        half = width_of(words, LETTERS_SMALL) * scale / 2.0
        x = millimetres(slot.centre)
        if x - half >= taken:
            taken = x + half
            yield Text((x, y), words, LETTERS_SMALL, "middle")
