"""Points of a section with their temperatures, and the coldest point of the inside surface."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Group, Line, Marker, Point, Style, Text, View
from storeyrod.drawings.drawn_lines import DrawnLines
from storeyrod.drawings.free_room import FreeRoom, boxes_beside, middle_of
from storeyrod.drawings.lettering import box_around, width_of
from storeyrod.drawings.line_styles import FINE, LETTERS_SMALL, MEDIUM
from storeyrod.drawings.section_outline import is_off_material
from storeyrod.drawings.section_subject import MarkedPoint, SectionSubject

POINT: Final = Style(MEDIUM)
COLDEST: Final = Style(MEDIUM, fill=1.0)
_LEADER: Final = Style(FINE)

_SIZE: Final = 2.2
COLDEST_SIZE: Final = 3.2
_AROUND: Final = 1.0
_NEAR: Final = (1.4, 2.4, 4.0, 6.0, 8.0)
"""Distances of words from their point, mm of paper."""

_NEEDS_LINE: Final = 2.0
"""Words farther off than this get a line to their point."""


@dataclass(frozen=True, slots=True)
class Pointed:
    """Marks in mm of the section; lines and words on the paper, and how many points are without words."""

    marks: tuple[Group, ...]
    lines: Group
    words: tuple[Text, ...]
    left_out: int


def pointed(subject: SectionSubject, view: View, room: FreeRoom, drawn: DrawnLines) -> Pointed:
    """Marks and words of all points, those at the coldest point in one; words stand off all material and clear of lines where they can."""
    named = list(_named(subject))
    for point, _, _ in named:
        room.take(box_around(view.on_paper(point.at), _SIZE, _SIZE))
    placed = [
        (point, text) for point, words, bold in named for text in _words(subject, point, words, bold, view, room, drawn)
    ]
    lines = tuple(line for point, text in placed for line in _line(view.on_paper(point.at), text))
    texts = tuple(text for _, text in placed)
    return Pointed(tuple(_marks(subject)), Group("point-leaders", _LEADER, lines), texts, len(named) - len(placed))


def _named(subject: SectionSubject) -> Iterator[tuple[MarkedPoint, str, bool]]:
    """Points with their words, and whether these are bold."""
    coldest = subject.coldest
    if coldest is not None:
        names = ", ".join(["coldest", *(point.id for point in subject.points if point.at == coldest.at)])
        factor = "" if coldest.factor is None else f", fRsi {coldest.factor:.3f}"
        yield coldest, f"{names} {coldest.temperature:.1f} °C{factor}", True
    for point in subject.points:
        if coldest is None or point.at != coldest.at:
            yield point, f"{point.id} {point.temperature:.1f} °C", False


def _marks(subject: SectionSubject) -> Iterator[Group]:
    marks = tuple(Marker(one.at, "upright_cross", _SIZE, f"point:{one.id}") for one in subject.points)
    yield Group("points", POINT, marks)
    if subject.coldest is not None:
        yield Group("coldest-point", COLDEST, (Marker(subject.coldest.at, "ringed_cross", COLDEST_SIZE),))


def _words(
    subject: SectionSubject,
    point: MarkedPoint,
    words: str,
    bold: bool,
    view: View,
    room: FreeRoom,
    drawn: DrawnLines,
) -> Iterator[Text]:
    size = width_of(words, LETTERS_SMALL) + _AROUND, LETTERS_SMALL + _AROUND
    tried = list(boxes_beside(view.on_paper(point.at), *size, _NEAR))
    clear = [box for box in tried if drawn.is_clear(box)]
    box = room.first([*(box for box in clear if is_off_material(box, subject.regions, view)), *clear, *tried])
    if box is not None:
        yield Text(middle_of(box), words, LETTERS_SMALL, "middle", middle=True, bold=bold)


def _line(at: Point, text: Text) -> Iterator[Line]:
    """A fine line from a point to words that stand off it."""
    x, y = text.at
    half = width_of(text.words, text.height) / 2.0 + _AROUND / 2.0
    high = (text.height + _AROUND) / 2.0
    near = min(max(at[0], x - half), x + half), min(max(at[1], y - high), y + high)
    if max(abs(near[0] - at[0]), abs(near[1] - at[1])) > _NEEDS_LINE:
        yield Line(at, near)
