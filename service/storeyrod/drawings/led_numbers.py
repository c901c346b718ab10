"""Numbers of thin materials outside a section: a line leads out of the material to a ring beside an edge of the section."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from storeyrod.drawings.display_list import Box, Point
from storeyrod.drawings.free_room import FreeRoom, boxes_along, middle_of
from storeyrod.drawings.lettering import box_around
from storeyrod.drawings.spreading import spread_between

RING: Final = 4.6
"""Width of the ring round a number, mm of paper."""

OUT: Final = 9.0
"""From the section to the middle of a ring outside it, mm of paper."""

_GAP: Final = 5.2
_STRAIGHT: Final = 2.5
"""A leading line runs straight out so far before it turns to its ring, mm of paper."""

_FARTHEST: Final = 60.0
"""A ring that found no place beside others goes no farther along an edge, mm of paper."""

_CORRIDOR: Final = 0.4
_TOUCHES: Final = 1e-6

Edge = Literal["left", "right", "below", "above"]

_BEYOND: Final[dict[Edge, tuple[int, int]]] = {"left": (-1, 0), "right": (1, 0), "below": (0, -1), "above": (0, 1)}


@dataclass(frozen=True, slots=True)
class Led:
    """A material whose number stands outside: the point that is meant, the side that the line leads to, and its ring, on paper."""

    index: int
    at: Point
    edge: Edge
    at_end: bool
    """Whether the material ends at the point, so that no dot is needed."""
    ring: Point = (0.0, 0.0)

    @property
    def axis(self) -> int:
        """Axis along the edge: 0 level, 1 upright."""
        return 0 if self.edge in ("below", "above") else 1

    @property
    def turn(self) -> Point:
        """Where the line turns to the ring."""
        x, y = _BEYOND[self.edge]
        if self.at_end:
            return self.at[0] + x * _STRAIGHT, self.at[1] + y * _STRAIGHT
        back = OUT - _STRAIGHT
        return (self.at[0], self.ring[1] - y * back) if self.axis == 0 else (self.ring[0] - x * back, self.at[1])

    def boxes(self) -> Iterator[Box]:
        """What the line takes outside the section."""
        ways = [(self.turn, self.ring), *([(self.at, self.turn)] if self.at_end else [])]
        for start, end in ways:
            yield from boxes_along(start, end)


def led_out(
    materials: Sequence[tuple[int, Sequence[Box]]],
    section: Box,
    closed: Sequence[tuple[Point, Point]],
    room: FreeRoom,
) -> list[Led]:
    """Materials by number, given with their boxes on paper, that find room for a ring; the room is taken.

    A line leaves where the section is cut, along ``closed``, if the material ends there; else where it ends; else by the nearest edge.
    Where more numbers leave by an edge than stand beside it they leave by several edges in turn.
    """
    ways = {index: _ways(index, boxes, section, closed, room) for index, boxes in materials}
    chosen = _chosen([best for best, _ in ways.values()], section)
    found: dict[int, Led] = {}
    for edge in _BEYOND:
        placed = _beside([one for one in chosen if one.edge == edge], section, room)
        found |= {one.index: _taken(one, room) for one in placed}
    free = _free_by_edge(section, room)
    for index, (best, others) in ways.items():
        again = None if index in found else _anywhere([*best, *others], section, room, free)
        if again is not None:
            found[index] = _taken(again, room)
            free = _free_by_edge(section, room)
    return list(found.values())


def _ways(
    index: int, boxes: Sequence[Box], section: Box, closed: Sequence[tuple[Point, Point]], room: FreeRoom
) -> tuple[list[Led], list[Led]]:
    """Ways out, the best ones apart: ends of boxes where the section is cut, else all ends, else from the middle of the first box."""
    ends = [Led(index, at, edge, at_end=True) for box in boxes for at, edge in _ends(box, section)]
    cut = [one for one in ends if any(_lies_on(one.at, segment) for segment in closed)]
    if ends:
        return cut or ends, ends
    at = middle_of(boxes[0])
    distances: dict[Edge, float] = {
        "left": at[0] - section[0], "right": section[2] - at[0], "below": at[1] - section[1], "above": section[3] - at[1],
    }  # fmt: skip
    across = [
        Led(index, at, edge, at_end=False) for edge in sorted(distances, key=lambda edge: round(distances[edge], 6))
    ]
    free = [one for one in across if room.is_free(_corridor(one, section))]
    return (free or across)[:1], across


def _chosen(best: Sequence[Sequence[Led]], section: Box) -> list[Led]:
    """A way out for each; by the first edge, unless more leave by it than stand beside it."""
    firsts = [ways[0] for ways in best]
    beside = {edge: (section[3] - section[1]) if x else (section[2] - section[0]) for edge, (x, _) in _BEYOND.items()}
    crowded = {edge for edge in _BEYOND if _GAP * sum(one.edge == edge for one in firsts) > beside[edge] + 2.0 * OUT}
    counts: dict[Edge, int] = dict.fromkeys(_BEYOND, 0)
    chosen = []
    for ways in best:
        one = min(ways, key=lambda way: counts[way.edge]) if ways[0].edge in crowded else ways[0]
        counts[one.edge] += 1
        chosen.append(one)
    return chosen


def _beside(wanted: Sequence[Led], section: Box, room: FreeRoom) -> list[Led]:
    """Those that leave by one edge with their rings spread along it, where ring and line find room."""
    if not wanted:
        return []
    axis = wanted[0].axis
    ranked = sorted(wanted, key=lambda one: (one.at[axis], one.index))
    free = _free_along(axis, _across(ranked[0].edge, section), room)
    places = spread_between([one.at[axis] for one in ranked], _GAP, free)
    placed = (_ringed(one, place, section) for one, place in zip(ranked, places, strict=True) if place is not None)
    return [one for one in placed if _has_room(one, room)]


def _free_along(axis: int, across: float, room: FreeRoom) -> list[tuple[float, float]]:
    """Stretches along an edge in which middles of rings may lie."""
    half = RING / 2.0
    start, end = room.within[axis], room.within[axis + 2]
    strip = (start, across - half, end, across + half) if axis == 0 else (across - half, start, across + half, end)
    taken = set(room.taken_in(strip))
    low, high = start + half, end - half
    free = []
    for start, end in sorted((box[axis] - half, box[axis + 2] + half) for box in taken):
        if start > low:
            free.append((low, min(start, high)))
        low = max(low, end)
    return [*free, (low, high)] if low < high else free


def _free_by_edge(section: Box, room: FreeRoom) -> dict[Edge, list[tuple[float, float]]]:
    return {edge: _free_along(1 if x else 0, _across(edge, section), room) for edge, (x, _) in _BEYOND.items()}


def _anywhere(
    ways: Sequence[Led], section: Box, room: FreeRoom, free: Mapping[Edge, Sequence[tuple[float, float]]]
) -> Led | None:
    """The nearest place of a ring by the first of the ways that has one."""
    for one in ways:
        wanted = one.at[one.axis]
        places = (min(max(wanted, low), high) for low, high in free[one.edge])
        nearest = sorted((abs(place - wanted), place) for place in places)
        tried = (_ringed(one, place, section) for far, place in nearest if far < _FARTHEST)
        found = next((led for led in tried if _has_room(led, room)), None)
        if found is not None:
            return found
    return None


def _has_room(one: Led, room: FreeRoom) -> bool:
    return room.is_free(_ring_box(one)) and all(map(room.is_free, one.boxes()))


def _taken(one: Led, room: FreeRoom) -> Led:
    room.take(_ring_box(one), *one.boxes())
    return one


def _ring_box(one: Led) -> Box:
    return box_around(one.ring, RING, RING)


def _ringed(one: Led, place: float, section: Box) -> Led:
    across = _across(one.edge, section)
    return replace(one, ring=(place, across) if one.axis == 0 else (across, place))


def _across(edge: Edge, section: Box) -> float:
    """How far out rings beside an edge stand."""
    left, bottom, right, top = section
    return {"left": left - OUT, "right": right + OUT, "below": bottom - OUT, "above": top + OUT}[edge]


def _corridor(led: Led, section: Box) -> Box:
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
