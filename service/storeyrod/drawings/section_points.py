"""Points of a section with their temperatures, and the coldest point of the inside surface."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Group, Line, Marker, Point, Style, Text, View
from storeyrod.drawings.drawn_lines import DrawnLines
from storeyrod.drawings.free_room import FreeRoom, boxes_along, boxes_beside, middle_of
from storeyrod.drawings.lettering import box_around, width_of
from storeyrod.drawings.line_styles import FINE, LETTERS_SMALL, MEDIUM
from storeyrod.drawings.section_outline import is_off_material
from storeyrod.drawings.section_subject import SectionSubject

POINT: Final = Style(MEDIUM)
COLDEST: Final = Style(MEDIUM, fill=1.0)
_LEADER: Final = Style(FINE)

_SIZE: Final = 2.2
COLDEST_SIZE: Final = 3.2
_AROUND: Final = 1.0
_NEAR: Final = (1.4, 2.4, 4.0, 6.0, 8.0)
_FAR: Final = (12.0, 17.0)
"""Distances of words from their point, mm of paper; the far ones where near by they would stand over lines."""

_NEEDS_LINE: Final = 2.0
"""Words farther off than this get a line to their point."""


@dataclass(frozen=True, slots=True)
class Pointed:
    """Marks in mm of the section; lines and words on the paper, and how many points are without words."""

    marks: tuple[Group, ...]
    lines: Group
    words: tuple[Text, ...]
    left_out: int


@dataclass(frozen=True, slots=True)
class LinesKeptOff:
    """Lines of the outline, which words never stand on, and all lines, which they stand off where they can."""

    outline: DrawnLines
    every: DrawnLines


def pointed(subject: SectionSubject, view: View, room: FreeRoom, lines: LinesKeptOff) -> Pointed:
    """Marks and words of all points, those at the coldest point in one; words stand off all material and clear of lines where they can."""
    # words of a whole surface may stand anywhere along it, so points come first
    named = sorted(_named(subject), key=lambda one: not one.marked)
    for one in named:
        if one.marked:
            room.take(box_around(view.on_paper(one.at), _SIZE, _SIZE))
    texts: list[Text] = []
    leaders: list[Line] = []
    for one in named:
        for text in _words(subject, one, view, room, lines):
            texts.append(text)
            leaders += _line(view.on_paper(one.at), text) if one.marked else ()
            room.take(*(box for line in leaders[-1:] for box in boxes_along(line.start, line.end)))
    return Pointed(
        tuple(_marks(subject)), Group("point-leaders", _LEADER, tuple(leaders)), tuple(texts), len(named) - len(texts)
    )


@dataclass(frozen=True, slots=True)
class _Named:
    at: Point
    words: str
    bold: bool = False
    marked: bool = True


def _named(subject: SectionSubject) -> Iterator[_Named]:
    coldest, here = subject.coldest, subject.at_coldest
    if coldest is not None:
        names = ", ".join([subject.coldest_words, *(point.id for point in here)])
        factor = "" if coldest.factor is None else f", fRsi {coldest.factor:.3f}"
        yield _Named(coldest.at, f"{names} {coldest.temperature:.1f} °C{factor}", bold=True, marked=not subject.even)
    for point in subject.points:
        if point not in here:
            yield _Named(point.at, f"{point.id} {point.temperature:.1f} °C")


def _marks(subject: SectionSubject) -> Iterator[Group]:
    marks = tuple(Marker(one.at, "upright_cross", _SIZE, f"point:{one.id}") for one in subject.points)
    yield Group("points", POINT, marks)
    if subject.coldest is not None and not subject.even:
        yield Group("coldest-point", COLDEST, (Marker(subject.coldest.at, "ringed_cross", COLDEST_SIZE),))


def _words(subject: SectionSubject, one: _Named, view: View, room: FreeRoom, lines: LinesKeptOff) -> Iterator[Text]:
    size = width_of(one.words, LETTERS_SMALL) + _AROUND, LETTERS_SMALL + _AROUND
    near, far = (
        [box for box in boxes_beside(view.on_paper(one.at), *size, distances) if lines.outline.is_clear(box)]
        for distances in (_NEAR, _FAR)
    )
    clear, clear_far = ([box for box in boxes if lines.every.is_clear(box)] for boxes in (near, far))
    off_material = (box for box in clear if is_off_material(box, subject.regions, view))
    box = room.first([*off_material, *clear, *clear_far, *near, *far])
    if box is not None:
        yield Text(middle_of(box), one.words, LETTERS_SMALL, "middle", middle=True, bold=one.bold)


def _line(at: Point, text: Text) -> Iterator[Line]:
    """A fine line from a point to words that stand off it."""
    x, y = text.at
    half = width_of(text.words, text.height) / 2.0 + _AROUND / 2.0
    high = (text.height + _AROUND) / 2.0
    near = min(max(at[0], x - half), x + half), min(max(at[1], y - high), y + high)
    if max(abs(near[0] - at[0]), abs(near[1] - at[1])) > _NEEDS_LINE:
        yield Line(at, near)
