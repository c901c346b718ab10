"""Numbers of materials: in the material where it is thick enough, else at the end of a line that leads out of the section."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Line, Marker, Point, Style, Text, View
from storeyrod.drawings.drawn_lines import DrawnLines
from storeyrod.drawings.free_room import FreeRoom, middle_of
from storeyrod.drawings.led_numbers import RING, Led, led_out
from storeyrod.drawings.lettering import box_around
from storeyrod.drawings.line_styles import FINE, LETTERING, LETTERS_SMALL, LETTERS_SMALLEST, SOLID, THIN
from storeyrod.drawings.material_regions import Regions

_DOT: Final = 0.8
_THREE_FIGURES: Final = 100
RINGED: Final = Style(THIN, fill=1.0)
_LEADER: Final = Style(FINE)


@dataclass(frozen=True, slots=True)
class Numbered:
    """Groups of paper, their texts among them, and how many materials found no room for their number."""

    groups: tuple[Group, ...]
    left_out: int


def material_numbers(
    regions: Regions,
    count: int,
    closed: Sequence[tuple[Point, Point]],
    view: View,
    room: FreeRoom,
    drawn: DrawnLines,
) -> Numbered:
    """Rings, numbers and leading lines of materials 1 to ``count``; lines leave by edges in ``closed`` first, where the section is cut.

    Numbers keep off lines that are drawn where they can.
    """
    rings: list[tuple[int, Point]] = []
    thin: list[tuple[int, list[Box]]] = []
    for index in range(count):
        boxes = sorted((_on_paper(box, view) for box in regions.boxes(index)), key=_roomy, reverse=True)
        inside = next((place for box in boxes[:3] for place in _inside(box, room, drawn)), None)
        if inside is not None:
            rings.append((index, inside))
        elif boxes:
            thin.append((index, boxes))
    cuts = [_segment(one, view) for one in closed]
    led = led_out(thin, _on_paper(regions.box, view), cuts, room)
    rings += [(one.index, one.ring) for one in led]
    return Numbered(tuple(_groups(rings, led)), len(thin) - len(led))


def _on_paper(box: Box, view: View) -> Box:
    return *view.on_paper(box[:2]), *view.on_paper(box[2:])


def _segment(segment: tuple[Point, Point], view: View) -> tuple[Point, Point]:
    return view.on_paper(segment[0]), view.on_paper(segment[1])


def _roomy(box: Box) -> tuple[float, float]:
    width, height = box[2] - box[0], box[3] - box[1]
    return round(min(width, height), 6), round(max(width, height), 6)


def _inside(box: Box, room: FreeRoom, drawn: DrawnLines) -> Iterator[Point]:
    """The middle of a thick box, or another place along it, if one is free: off isotherms where it can be."""
    left, bottom, right, top = box
    if min(right - left, top - bottom) < RING:
        return
    level = right - left >= top - bottom
    x, y = middle_of(box)
    shares = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
    tried = [(left + share * (right - left), y) if level else (x, bottom + share * (top - bottom)) for share in shares]
    places = [box_around(at, RING, RING) for at in tried if _holds(box, at)]
    found = room.first([*(place for place in places if drawn.is_clear(place)), *places])
    if found is not None:
        yield middle_of(found)


def _holds(box: Box, at: Point) -> bool:
    half = RING / 2.0
    return box[0] + half <= at[0] <= box[2] - half and box[1] + half <= at[1] <= box[3] - half


def _groups(rings: Sequence[tuple[int, Point]], led: Sequence[Led]) -> Iterator[Group]:
    lines = [line for one in led for line in (Line(one.at, one.turn), Line(one.turn, one.ring))]
    yield Group("material-leaders", _LEADER, tuple(lines))
    yield Group("material-dots", SOLID, tuple(Marker(one.at, "ring", _DOT) for one in led if not one.at_end))
    yield Group("material-rings", RINGED, tuple(Marker(at, "ring", RING) for _, at in rings))
    texts = tuple(_number(index + 1, at) for index, at in rings)
    yield Group("material-numbers", LETTERING, texts)


def _number(number: int, at: Point) -> Text:
    """Three figures and more are smaller, so that the ring holds them."""
    height = LETTERS_SMALL if number < _THREE_FIGURES else LETTERS_SMALLEST
    return Text(at, f"{number}", height, "middle", middle=True, bold=True)
