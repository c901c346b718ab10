"""Movement joints of a face with why they stand there: a letter and a width above each, and lines that tell old from new."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from storeyrod.drawings.display_list import Group, Style, Text
from storeyrod.drawings.joint_marks import ABOVE, joint_lines
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.lettering import number, width_of
from storeyrod.drawings.line_styles import EXISTING_JOINT, JOINT, LETTERING, LETTERS, LETTERS_SMALL, finer
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan, Slot
from storeyrod.movement_joints.positions import Reason
from storeyrod.wall.face import Face

LETTERS_OF: Final[Mapping[Reason, tuple[str, str]]] = MappingProxyType(
    {
        "existing": ("E", "existing joint of the structure"),
        "designer": ("D", "given by the designer"),
        "height_change": ("H", "at a change of height"),
        "spacing": ("S", "on a perp, for spacing"),
        "jamb": ("J", "on a declared jamb line"),
    }
)
"""Letter and legend by reason."""

_CLEAR: Final = 1.0
_LINE: Final = 2.7
_LEVELS: Final = 3
ROOM_FOR_NAMES: Final = ABOVE + _CLEAR + _LEVELS * 2 * _LINE
"""Room that names of joints take above a wall on paper, mm."""


@dataclass(frozen=True, slots=True)
class JointNames:
    """Joints with their names, and how many names found no room."""

    groups: tuple[Group, ...]
    left_out: int


def reasoned_joints(face: Face, plan: JointPlan, scale: float) -> JointNames:
    """Joints of a face; each is a group with the id of the joint."""
    lines = tuple(
        Group("movement-joint", _style(slot, scale), tuple(joint_lines(face, slot, scale)), f"{face.id}:joint-{place}")
        for place, slot in enumerate(plan.slots, start=1)
    )
    names = list(_names(face, plan, scale))
    return JointNames((*lines, Group("joint-names", LETTERING, tuple(names))), len(plan.slots) - len(names) // 2)


def _style(slot: Slot, scale: float) -> Style:
    return finer(EXISTING_JOINT if slot.existing else JOINT, scale)


def _names(face: Face, plan: JointPlan, scale: float) -> Iterator[Text]:
    """Number over letter and width of each joint, set higher where the one before stands too near."""
    taken = [float("-inf")] * _LEVELS
    foot = millimetres(face.top) + (ABOVE + _CLEAR) * scale
    for place, slot in enumerate(plan.slots, start=1):
        lines = (f"{LETTERS_OF[slot.reason][0]} {number(millimetres(slot.width))}", f"MJ {place}")
        x, half = millimetres(slot.centre), max(width_of(words, LETTERS_SMALL) for words in lines) * scale / 2.0
        level = next((level for level in range(_LEVELS) if taken[level] <= x - half), None)
        if level is not None:
            taken[level] = x + half
            for line, words in enumerate(lines):
                yield Text((x, foot + (2 * level + line) * _LINE * scale), words, LETTERS_SMALL, "middle")


def reason_entries(plan: JointPlan) -> Iterator[Entry]:
    """Letters that occur, in words."""
    for reason, (letter, words) in LETTERS_OF.items():
        if any(slot.reason == reason for slot in plan.slots):
            shown = Text((SYMBOL / 2.0, 0.0), letter, LETTERS, "middle", middle=True)
            yield Entry((("joint-reason", LETTERING, shown),), words)
