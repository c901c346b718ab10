"""Words of environments outside the surfaces of a section: letter, name and temperature."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Box, Point, Text, View
from storeyrod.drawings.free_room import FreeRoom, middle_of
from storeyrod.drawings.lettering import box_around, number, width_of
from storeyrod.drawings.line_styles import LETTERS_SMALL
from storeyrod.drawings.material_regions import NOTHING, Regions
from storeyrod.drawings.section_outline import is_off_material
from storeyrod.drawings.section_subject import SectionSubject, Stretch

MIDDLE_FIRST: Final = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
"""Where along a stretch its words are tried."""

ENDS_FIRST: Final = (0.99, 0.01, 0.9, 0.1, 0.8, 0.2, 0.65, 0.35, 0.5)
"""The same where numbers of materials need the middle."""

_BESIDE: Final = 0.02
"""How far beside an edge its two sides are looked at, mm of the section."""

_OFF: Final = 1.4
"""Between a surface and its words, mm of paper."""

_AROUND: Final = 1.2
_AGAIN: Final = 60.0
"""A further stretch of an environment has words too from this length on, mm of paper."""

_NAME: Final = 22.0
"""A longer name stands in the table alone, mm."""


@dataclass(frozen=True, slots=True)
class EnvironmentWords:
    """Words on the paper, and how many environments found no room for any."""

    words: tuple[Text, ...]
    left_out: int


def environment_words(subject: SectionSubject, view: View, room: FreeRoom, shares: Sequence[float]) -> EnvironmentWords:
    """Words outside the longest stretch of each environment, and outside other long ones."""
    found, left_out = [], 0
    for index in range(len(subject.environments)):
        stretches = [one for one in subject.stretches if one.environment == index]
        mine: list[Text] = []
        for stretch in sorted(stretches, key=lambda one: -math.dist(one.start, one.end)):
            if mine and math.dist(stretch.start, stretch.end) < _AGAIN * view.scale:
                break
            mine += _placed(subject, index, stretch, view, room, shares)
        found += mine
        left_out += bool(stretches) and not mine
    return EnvironmentWords(tuple(found), left_out)


def _placed(
    subject: SectionSubject, index: int, stretch: Stretch, view: View, room: FreeRoom, shares: Sequence[float]
) -> Iterator[Text]:
    """With the name where there is room for it."""
    for words in _words(subject, index):
        box = room.first(_boxes(stretch, words, subject.regions, view, shares))
        if box is not None:
            yield Text(middle_of(box), words, LETTERS_SMALL, "middle", middle=True, bold=True)
            return


def _words(subject: SectionSubject, index: int) -> Iterator[str]:
    letter, environment = subject.letters[index], subject.environments[index]
    temperature = f"{number(environment.temperature)} °C"
    if width_of(environment.name, LETTERS_SMALL) <= _NAME:
        yield f"{letter} {environment.name}: {temperature}"
    yield f"{letter} {temperature}"


def _boxes(stretch: Stretch, words: str, regions: Regions, view: View, shares: Sequence[float]) -> Iterator[Box]:
    """Boxes outside a stretch, off all material."""
    outward = _outward(stretch, regions)
    long, high = width_of(words, LETTERS_SMALL) + 2 * _AROUND, LETTERS_SMALL + _AROUND
    for off in (_OFF, 3 * _OFF, 5 * _OFF):
        for share in shares:
            x, y = view.on_paper(_between(stretch.start, stretch.end, share))
            box = box_around((x + outward[0] * (off + long / 2.0), y + outward[1] * (off + high / 2.0)), long, high)
            if is_off_material(box, regions, view):
                yield box


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _outward(stretch: Stretch, regions: Regions) -> Point:
    """Unit vector from the material to the environment."""
    x, y = _between(stretch.start, stretch.end, 0.5)
    across = (1.0, 0.0) if stretch.start[0] == stretch.end[0] else (0.0, 1.0)
    if regions.at((x + across[0] * _BESIDE, y + across[1] * _BESIDE)) == NOTHING:
        return across
    return -across[0], -across[1]
