"""The outline of a section: surfaces with the letter and temperature of their environment, edges that no heat passes, the axis."""

import math
from collections.abc import Iterator
from string import ascii_uppercase
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Line, Point, Strokes, Style, Text, View
from storeyrod.drawings.free_room import FreeRoom, middle_of
from storeyrod.drawings.lettering import box_around, number, width_of
from storeyrod.drawings.line_styles import LETTERS_SMALL, MEDIUM, THICK, THIN
from storeyrod.drawings.material_regions import NOTHING, Regions
from storeyrod.drawings.section_subject import SectionSubject, Stretch

SURFACE: Final = Style(THICK)
NO_HEAT: Final = Style(MEDIUM, dashes=(4.0, 0.8, 0.3, 0.8))
AXIS: Final = Style(MEDIUM, dashes=(8.0, 1.0, 1.0, 1.0))
SEAM: Final = Style(THIN)

_BESIDE: Final = 0.02
"""How far beside an edge its two sides are looked at, mm of the section."""

_OFF: Final = 1.4
"""Between a surface and its words, mm of paper."""

_AXIS_BEYOND: Final = 7.0
"""An axis runs on beyond the section, mm of paper."""

_AROUND: Final = 0.6
_SHARES: Final = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
_AGAIN: Final = 60.0
"""A further stretch of an environment has words too from this length on, mm of paper."""


def letter_of(index: int) -> str:
    """Letter of an environment: A to Z, then AA and on."""
    more, last = divmod(index, len(ascii_uppercase))
    return (letter_of(more - 1) if more else "") + ascii_uppercase[last]


def outline_groups(subject: SectionSubject, scale: float) -> Iterator[Group]:
    """Seams of materials and the outline by what it meets, in mm of the section."""
    yield Group("material-seams", SEAM, (Strokes(tuple(subject.regions.seams())),))
    shut = tuple(Line(one.start, one.end) for one in subject.stretches if one.environment is None)
    yield Group("no-heat", NO_HEAT, shut)
    for index in range(len(subject.environments)):
        lines = tuple(Line(one.start, one.end) for one in subject.stretches if one.environment == index)
        yield Group("surface", SURFACE, lines, id=f"surface-{letter_of(index)}")
    if subject.turned:
        _, low, _, high = subject.regions.box
        beyond = _AXIS_BEYOND * scale
        yield Group("axis-of-turning", AXIS, (Line((0.0, low - beyond), (0.0, high + beyond)),))


def environment_words(subject: SectionSubject, view: View, room: FreeRoom) -> list[Text]:
    """Letter and temperature outside the longest stretch of each environment, and outside other long ones."""
    found = []
    for index, environment in enumerate(subject.environments):
        words = f"{letter_of(index)} {number(environment.temperature)} °C"
        stretches = [one for one in subject.stretches if one.environment == index]
        ranked = sorted(stretches, key=lambda one: -math.dist(one.start, one.end))
        placed = 0
        for stretch in ranked:
            if placed and math.dist(stretch.start, stretch.end) < _AGAIN * view.scale:
                break
            box = room.first(_boxes(stretch, words, subject.regions, view))
            if box is not None:
                placed += 1
                found.append(Text(middle_of(box), words, LETTERS_SMALL, "middle", middle=True, bold=True))
    return found


def _boxes(stretch: Stretch, words: str, regions: Regions, view: View) -> Iterator[Box]:
    """Boxes outside a stretch, off all material."""
    outward = _outward(stretch, regions)
    long, high = width_of(words, LETTERS_SMALL) + 2 * _AROUND, LETTERS_SMALL + 2 * _AROUND
    for off in (_OFF, 3 * _OFF, 5 * _OFF):
        for share in _SHARES:
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


def is_off_material(box: Box, regions: Regions, view: View) -> bool:
    """Whether a box of the paper lies over no material."""
    left, bottom, right, top = ((value - view.origin[index % 2]) * view.scale for index, value in enumerate(box))
    return regions.is_empty((left, bottom, right, top))
