"""Edges of pieces that are sawn: strokes inside the piece along each, and the sizes that its box does not give."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from storeyrod.cutting.stock import Edges
from storeyrod.drawings.display_list import Anchor, Box, Point, Polygon, Text, ring_area
from storeyrod.drawings.lettering import fits, number, width_of
from storeyrod.drawings.line_styles import LETTERS_SMALL, LETTERS_SMALLEST

Segment = tuple[Point, Point]

INSET: Final = 0.45
"""Distance of the stroke from its edge on paper, mm."""

MOST_CORNERS: Final = 12
"""Pieces with more corners, as under an arch, are cut by a template: the sizes of their boxes alone are given."""

_NEAR: Final = 1e-3
_LETTERS: Final = (LETTERS_SMALL, LETTERS_SMALLEST)
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


def saw_figures(polygon: Polygon, scale: float, taken: Sequence[Box] = ()) -> SawFigures:
    """Lengths of level and plumb edges shorter than the box, and places of corners between two slopes and of holes.

    Places are counted from the lower left corner of the box; figures stand clear of the boxes that are ``taken``.
    """
    if sum(map(len, polygon.rings)) > MOST_CORNERS:
        return SawFigures((), 0)
    texts: list[Text] = []
    boxes = list(taken)
    left_out = 0
    for words, tried in _wanted(polygon, scale):
        found = next((one for one in tried if _is_free(_box(one, scale), polygon, boxes)), None)
        left_out += found is None
        if found is not None and words:
            texts.append(found)
            boxes.append(_box(found, scale))
    return SawFigures(tuple(texts), left_out)


def _wanted(polygon: Polygon, scale: float) -> Iterator[tuple[str, list[Text]]]:
    """What has to be said, each with the texts that are tried for it."""
    left, bottom, right, top = polygon.box
    for index, ring in enumerate(polygon.rings):
        edges = list(_edges(ring, hole=index > 0))
        for edge in edges:
            (x, y), (end_x, end_y) = edge
            whole = right - left if y == end_y else top - bottom
            if (x == end_x or y == end_y) and math.dist(*edge) < whole - _NEAR:
                words = number(math.dist(*edge))
                yield words, [_beside(edge, words, letters, scale) for letters in _LETTERS]
        loose = [b for (a, b), (_, c) in zip(edges, (*edges[1:], edges[0]), strict=True) if _slopes(a, b, c)]
        for x, y in [min(ring)] if index else [at for at in loose if left < at[0] < right and bottom < at[1]]:
            words = f"x {number(x - left)}, y {number(y - bottom)}"
            yield words, list(_around((x, y), words, scale, hole=index > 0))


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


def _around(at: Point, words: str, scale: float, *, hole: bool) -> Iterator[Text]:
    """A place below a peak, or left of and below the corner of a hole."""
    for letters in _LETTERS:
        high = (letters / 2.0 + _CLEAR) * scale
        anchors: tuple[Anchor, ...] = ("end", "start", "middle") if hole else ("middle", "start", "end")
        for step in (1, 2, 4, 6):
            for anchor in anchors:
                yield Text((at[0], at[1] - high * step), words, letters, anchor, middle=True)


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
