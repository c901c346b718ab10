"""Numbers of materials: in the material where it is thick enough, else at the end of a line that leads out of the section."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from storeyrod.drawings.display_list import Box, Group, Line, Marker, Point, Style, Text, View
from storeyrod.drawings.drawn_lines import DrawnLines
from storeyrod.drawings.free_room import FreeRoom, middle_of
from storeyrod.drawings.lettering import box_around
from storeyrod.drawings.line_styles import FINE, LETTERING, LETTERS_SMALL, SOLID, THIN
from storeyrod.drawings.material_regions import Regions
from storeyrod.drawings.spreading import spread

RING: Final = 4.6
"""Width of the ring round a number, mm of paper."""

OUT: Final = 9.0
"""From the section to the middle of a ring outside it, mm of paper."""

_GAP: Final = 5.2
_STRAIGHT: Final = 2.5
"""A leading line runs straight out so far before it turns to its ring, mm of paper."""

_DOT: Final = 0.8
_CORRIDOR: Final = 0.4
_TOUCHES: Final = 1e-6
RINGED: Final = Style(THIN, fill=1.0)
_LEADER: Final = Style(FINE)

Edge = Literal["left", "right", "below", "above"]


@dataclass(frozen=True, slots=True)
class _Led:
    """A material too thin for its number: the point that is meant and the side to which a line leads, on paper."""

    index: int
    at: Point
    edge: Edge
    cut: bool
    """Whether the material ends there, so that no dot is needed."""


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
    led = [_led(index, boxes, _on_paper(regions.box, view), cuts, room) for index, boxes in thin]
    placed = list(_placed(led, _on_paper(regions.box, view), room))
    rings += [(one.index, at) for one, at in placed]
    return Numbered(tuple(_groups(rings, placed)), len(led) - len(placed))


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


def _led(index: int, boxes: Sequence[Box], section: Box, closed: Sequence[tuple[Point, Point]], room: FreeRoom) -> _Led:
    """Out of the end of the roomiest box that lies on the edge of the section, best where the section is cut; else its middle.

    From the middle the line goes to the nearest edge that it reaches without crossing a number.
    """
    ends = [(at, edge) for box in boxes for at, edge in _ends(box, section)]
    cut = [(at, edge) for at, edge in ends if any(_lies_on(at, one) for one in closed)]
    for at, edge in [*cut, *ends]:
        return _Led(index, at, edge, cut=True)
    at = middle_of(boxes[0])
    distances: dict[Edge, float] = {
        "left": at[0] - section[0], "right": section[2] - at[0], "below": at[1] - section[1], "above": section[3] - at[1],
    }  # fmt: skip
    ways = [_Led(index, at, edge, cut=False) for edge in sorted(distances, key=lambda edge: round(distances[edge], 6))]
    return next((way for way in ways if room.is_free(_corridor(way, section))), ways[0])


def _corridor(led: _Led, section: Box) -> Box:
    """The way of a straight line out of the section."""
    x, y = led.at
    left, bottom, right, top = section
    half = _CORRIDOR / 2.0
    return {
        "left": (left, y - half, x, y + half), "right": (x, y - half, right, y + half),
        "below": (x - half, bottom, x + half, y), "above": (x - half, y, x + half, top),
    }[led.edge]  # fmt: skip


def _ends(box: Box, section: Box) -> Iterator[tuple[Point, Edge]]:
    x, y = middle_of(box)
    if abs(box[3] - section[3]) < _TOUCHES:
        yield (x, box[3]), "above"
    if abs(box[1] - section[1]) < _TOUCHES:
        yield (x, box[1]), "below"
    if abs(box[0] - section[0]) < _TOUCHES:
        yield (box[0], y), "left"
    if abs(box[2] - section[2]) < _TOUCHES:
        yield (box[2], y), "right"


def _lies_on(at: Point, segment: tuple[Point, Point]) -> bool:
    (x0, y0), (x1, y1) = segment
    level = abs(y0 - y1) < _TOUCHES
    if level:
        return abs(at[1] - y0) < _TOUCHES and min(x0, x1) <= at[0] <= max(x0, x1)
    return abs(at[0] - x0) < _TOUCHES and min(y0, y1) <= at[1] <= max(y0, y1)


def _placed(led: Sequence[_Led], section: Box, room: FreeRoom) -> Iterator[tuple[_Led, Point]]:
    """Rings outside each edge, spread along it in the order of what they mean."""
    for edge in ("left", "right", "below", "above"):
        level = edge in ("below", "above")
        axis = 0 if level else 1
        mine = sorted((one for one in led if one.edge == edge), key=lambda one: (one.at[axis], one.index))
        low, high = room.within[axis] + RING / 2.0, room.within[axis + 2] - RING / 2.0
        places = spread([one.at[axis] for one in mine], _GAP, low, high) or []
        across = {
            "left": section[0] - OUT,
            "right": section[2] + OUT,
            "below": section[1] - OUT,
            "above": section[3] + OUT,
        }[edge]
        for one, place in zip(mine, places, strict=False):
            at = (place, across) if level else (across, place)
            box = box_around(at, RING, RING)
            if room.is_free(box):
                room.take(box)
                room.taken += _line_boxes(one, at)
                yield one, at


def _turn(one: _Led, at: Point) -> Point:
    """Where a leading line turns to its ring."""
    beyond = {"left": (-1, 0), "right": (1, 0), "below": (0, -1), "above": (0, 1)}[one.edge]
    if not one.cut:
        return (
            (one.at[0], at[1] - beyond[1] * (OUT - _STRAIGHT))
            if beyond[1]
            else (at[0] - beyond[0] * (OUT - _STRAIGHT), one.at[1])
        )
    return one.at[0] + beyond[0] * _STRAIGHT, one.at[1] + beyond[1] * _STRAIGHT


def _line_boxes(one: _Led, at: Point) -> Iterator[Box]:
    """What a leading line takes outside the section."""
    turn = _turn(one, at)
    for start, end in ((one.at, turn), (turn, at)) if one.cut else ((turn, at),):
        for share in (0.0, 0.25, 0.5, 0.75, 1.0):
            yield box_around((start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])), 0.6, 0.6)


def _groups(rings: Sequence[tuple[int, Point]], led: Sequence[tuple[_Led, Point]]) -> Iterator[Group]:
    lines = [line for one, at in led for turn in [_turn(one, at)] for line in (Line(one.at, turn), Line(turn, at))]
    yield Group("material-leaders", _LEADER, tuple(lines))
    yield Group("material-dots", SOLID, tuple(Marker(one.at, "ring", _DOT) for one, _ in led if not one.cut))
    yield Group("material-rings", RINGED, tuple(Marker(at, "ring", RING) for _, at in rings))
    texts = tuple(Text(at, f"{index + 1}", LETTERS_SMALL, "middle", middle=True, bold=True) for index, at in rings)
    yield Group("material-numbers", LETTERING, texts)
