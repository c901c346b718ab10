"""Edges of pieces that are sawn: strokes inside the piece along each, and the sizes that its box does not give."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, NamedTuple

from storeyrod.cutting.stock import Edges
from storeyrod.drawings.display_list import Box, Point, Polygon, Text, ring_area
from storeyrod.drawings.lettering import fits, number, width_of
from storeyrod.drawings.line_styles import LETTERS_SMALL, LETTERS_SMALLEST

Segment = tuple[Point, Point]

INSET: Final = 0.45
"""Distance of the stroke from its edge on paper, mm."""

MOST_CORNERS: Final = 12
"""Pieces with more corners, as under an arch, are cut by a template: of their edges only longer ones have figures."""

_LONG: Final = 30.0
"""Shortest edge of such a piece that has a figure, mm."""

_NEAR: Final = 1e-3
_LETTERS: Final = (LETTERS_SMALL, LETTERS_SMALLEST)
_STEPS: Final = (1, 2, 3, 4, 6)
_CLEAR: Final = 0.5
"""Clear space between an edge and its figure on paper, mm."""


def sawn_edges(polygon: Polygon, factory: Edges) -> list[Segment]:
    """Edges of a piece that no side of the board is, with the piece at their left."""
    box = polygon.box
    return [
        edge
        for index, ring in enumerate(polygon.rings)
        for edge in _edges(ring, hole=index > 0)
        if not _is_factory(edge, box, factory)
    ]


def _edges(ring: Sequence[Point], *, hole: bool) -> Iterator[Segment]:
    """Edges with the piece at their left: anticlockwise round the piece, clockwise round a hole."""
    forward = (ring_area(tuple(ring)) > 0.0) != hole
    points = ring if forward else ring[::-1]
    yield from pairwise((*points, points[0]))


def _is_factory(edge: Segment, box: Box, factory: Edges) -> bool:
    """Whether an edge lies along a side of the box that is a side of the board."""
    (x, y), (end_x, end_y) = edge
    left, bottom, right, top = box
    sides = ((x, end_x, left), (x, end_x, right), (y, end_y, bottom), (y, end_y, top))
    return any(
        kept and abs(start - side) < _NEAR and abs(end - side) < _NEAR
        for kept, (start, end, side) in zip(factory, sides, strict=True)
    )


def stroke(edge: Segment, scale: float) -> Segment:
    """The stroke along an edge, inside the piece and short of its corners."""
    (x, y), (end_x, end_y) = edge
    long = math.dist(*edge)
    inset = min(INSET * scale, long / 3.0)
    along_x, along_y = (end_x - x) / long * inset, (end_y - y) / long * inset
    return (x + along_x - along_y, y + along_y + along_x), (end_x - along_x - along_y, end_y - along_y + along_x)


@dataclass(frozen=True, slots=True)
class SawFigures:
    """Sizes beside edges of a piece, and how many found no room."""

    texts: tuple[Text, ...]
    left_out: int


class _Size(NamedTuple):
    """A size to be given: the texts that are tried for it, and the sizes of which it is the rest, if there are such."""

    tried: list[Text]
    among: Point | None


def saw_figures(polygon: Polygon, scale: float, taken: Sequence[Box] = ()) -> SawFigures:
    """Lengths of level and plumb edges shorter than the box, and places of corners between two slopes and of holes.

    Places are counted from the lower left corner of the box; figures stand clear of the boxes that are ``taken``. Of lengths that
    add up to the box one may be missing.
    """
    texts: list[Text] = []
    boxes = list(taken)
    missing: list[Point | None] = []
    for size in _sizes(polygon, scale):
        found = next((one for one in size.tried if _is_free(_box(one, scale), polygon, boxes)), None)
        if found is None:
            missing.append(size.among)
        else:
            texts.append(found)
            boxes.append(_box(found, scale))
    return SawFigures(tuple(texts), len(missing) - len({among for among in missing if among is not None}))


def _sizes(polygon: Polygon, scale: float) -> Iterator[_Size]:
    curved = sum(map(len, polygon.rings)) > MOST_CORNERS
    for index, ring in enumerate(polygon.rings):
        edges = list(_edges(ring, hole=index > 0))
        yield from _lengths(_distinct(edges) if index else edges, polygon.box, _LONG if curved else 0.0, scale)
        if index > 0:
            yield _place_of_hole(ring, polygon.box, scale)
        elif not curved:
            yield from (_place_of_peak(at, polygon.box, scale) for at in _peaks(edges, polygon.box))


def _lengths(edges: Sequence[Segment], box: Box, least: float, scale: float) -> Iterator[_Size]:
    """Level and plumb edges that are shorter than the box, and than ``least`` no shorter."""
    sums: dict[Point, float] = {}
    for edge in edges:
        way = _way(edge)
        sums[way] = sums.get(way, 0.0) + math.dist(*edge)
    for edge in edges:
        way = _way(edge)
        whole = box[3] - box[1] if way[0] == 0.0 else box[2] - box[0]
        if 0.0 in way and least <= math.dist(*edge) < whole - _NEAR:
            words = number(math.dist(*edge))
            tried = [_beside(edge, words, letters, scale) for letters in _LETTERS]
            yield _Size(tried, way if abs(sums[way] - whole) < _NEAR else None)


def _way(edge: Segment) -> Point:
    """Where an edge runs to: 1, 0 or -1 along each axis."""
    (x, y), (end_x, end_y) = edge
    return float(end_x > x) - float(end_x < x), float(end_y > y) - float(end_y < y)


def _peaks(edges: Sequence[Segment], box: Box) -> Iterator[Point]:
    """Corners between two slopes, away from the sides and the foot of the box, which place the others."""
    left, bottom, right, _ = box
    for (before, here), (_, after) in zip(edges, (*edges[1:], edges[0]), strict=True):
        if _slopes(before, here, after) and left < here[0] < right and bottom < here[1]:
            yield here


def _distinct(edges: Sequence[Segment]) -> list[Segment]:
    """Edges of a hole, of two alike only one."""
    lengths = {(edge[0][0] == edge[1][0], round(math.dist(*edge), 3)): edge for edge in reversed(edges)}
    return list(lengths.values())


def _place_of_peak(at: Point, box: Box, scale: float) -> _Size:
    words = f"x {number(at[0] - box[0])}, y {number(at[1] - box[1])}"
    below = [
        Text(point, words, letters, "middle", middle=True)
        for letters in _LETTERS
        for point in _steps(at, letters, -scale)
    ]
    return _Size(below, None)


def _place_of_hole(ring: Sequence[Point], box: Box, scale: float) -> _Size:
    """Its lower left corner, or its middle and size where it has many corners; below it or above it."""
    left, bottom, right, top = Polygon((tuple(ring),)).box
    middle = (left + right) / 2.0
    if len(ring) <= MOST_CORNERS:
        words = f"corner x {number(left - box[0])}, y {number(bottom - box[1])}"
    else:
        at = f"x {number(middle - box[0])}, y {number((bottom + top) / 2.0 - box[1])}"
        words = f"centre {at}, {number(right - left)} wide"
    tried = [
        Text(at, words, letters, "middle", middle=True)
        for letters in _LETTERS
        for foot, scaled in ((bottom, -scale), (top, scale))
        for at in _steps((middle, foot), letters, scaled)
    ]
    return _Size(tried, None)


def _steps(at: Point, letters: float, scale: float) -> list[Point]:
    """Places of a figure above a point, or below it where the scale is negative."""
    high = (letters / 2.0 + _CLEAR) * scale
    return [(at[0], at[1] + high * step) for step in _STEPS]


def _slopes(before: Point, here: Point, after: Point) -> bool:
    """Whether neither edge of a corner is level or plumb."""
    return all(a[0] != b[0] and a[1] != b[1] for a, b in ((before, here), (here, after)))


def _beside(edge: Segment, words: str, letters: float, scale: float) -> Text:
    """A figure inside the piece along its edge."""
    (x, y), (end_x, end_y) = edge
    middle_x, middle_y, away = (x + end_x) / 2.0, (y + end_y) / 2.0, (_CLEAR + letters / 2.0 + INSET) * scale
    if x == end_x:
        inside = -away if end_y > y else away
        return Text((middle_x + inside, middle_y), words, letters, "middle", middle=True, turned=True)
    inside = away if end_x > x else -away
    return Text((middle_x, middle_y + inside), words, letters, "middle", middle=True)


def _box(text: Text, scale: float) -> Box:
    long, high = (width_of(text.words, text.height) + _CLEAR) * scale, (text.height + _CLEAR) * scale
    before = {"start": 0.0, "middle": long / 2.0, "end": long}[text.anchor]
    x, y = text.at
    if text.turned:
        return x - high / 2.0, y - before, x + high / 2.0, y - before + long
    return x - before, y - high / 2.0, x - before + long, y + high / 2.0


def _is_free(box: Box, polygon: Polygon, taken: Sequence[Box]) -> bool:
    left, bottom, right, top = box
    apart = all(right <= other[0] or other[2] <= left or top <= other[1] or other[3] <= bottom for other in taken)
    return apart and fits(box, polygon.rings)
