"""Pieces of board on an elevation: outlines, cut marks, and ids where there is room for them."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from storeyrod.boards.pieces import Piece
from storeyrod.drawings.display_list import (
    Box,
    Group,
    Item,
    Line,
    Point,
    Polygon,
    Rings,
    Text,
    box_polygon,
    upright_box,
)
from storeyrod.drawings.fastener_marks import marker_size
from storeyrod.drawings.lettering import box_around, fits, is_clear, number, width_of
from storeyrod.drawings.line_styles import (
    CUT_MARK,
    CUT_PIECE,
    FULL_PIECE,
    LETTERING,
    LETTERS,
    LETTERS_SMALL,
    LETTERS_SMALLEST,
    finer,
)
from storeyrod.fasteners.schedule import PieceFasteners
from storeyrod.geometry.ticks import millimetres

_WAYS: Final = (
    (LETTERS, False),
    (LETTERS_SMALL, False),
    (LETTERS, True),
    (LETTERS_SMALL, True),
    (LETTERS_SMALLEST, False),
    (LETTERS_SMALLEST, True),
)
"""Heights of lettering, level or turned, in the order in which they are tried."""

_FINE_SCALE: Final = 20.0
"""Beyond this scale ids start at the middle height, so that neighbours look alike."""

_LEADING: Final = 1.6
"""Distance of two lines over their height."""

_MARK: Final = 4.0
"""Leg of a cut mark on paper, mm; at most a third of the edges that it stands on."""

_LEAST_EDGE: Final = 3.0
"""Edges that a cut mark would like to stand on, on paper, mm."""

_MARGIN: Final = 0.22
"""Clear space around lettering over its height."""

_WORDS: Final = {"full": "full board", "cut": "cut board", "shaped": "shaped board", "raked": "raked board"}


@dataclass(frozen=True, slots=True)
class _Label:
    """Lines of lettering about a point, from the middle of the piece."""

    lines: tuple[str, ...]
    height: float
    turned: bool
    offset: Point


@dataclass(slots=True)
class _Labels:
    """Places labels in pieces; equal rectangles with equal fasteners share one search."""

    scale: float
    reach: float
    found: dict[tuple[object, ...], _Label | None] = field(default_factory=dict)

    @property
    def largest(self) -> float:
        """Largest lettering to be tried."""
        return LETTERS if self.scale <= _FINE_SCALE else LETTERS_SMALL

    def of(self, polygon: Polygon, lines: tuple[str, ...], fasteners: Sequence[Point]) -> Iterator[Text]:
        """Lettering of one piece, clear of its fasteners, which are in ticks; none where no size fits."""
        left, bottom, right, top = polygon.box
        if min(right - left, top - bottom) < LETTERS_SMALLEST * (1.0 + 2 * _MARGIN) * self.scale:
            return
        centre = ((left + right) / 2.0, (bottom + top) / 2.0)
        rings = tuple(tuple((x - centre[0], y - centre[1]) for x, y in ring) for ring in polygon.rings)
        marks = [(round(millimetres(x) - centre[0], 3), round(millimetres(y) - centre[1], 3)) for x, y in fasteners]
        key = (right - left, top - bottom, tuple(map(len, lines)), tuple(marks)) if upright_box(polygon.rings) else None
        if key is None:
            label = self._search(rings, lines, marks)
        elif key in self.found:
            label = self.found[key]
        else:
            label = self.found[key] = self._search(rings, lines, marks)
        if label is not None:
            yield from self._texts(label, lines[: len(label.lines)], centre)

    def _search(self, rings: Rings, lines: tuple[str, ...], marks: Sequence[Point]) -> _Label | None:
        """The label that stands clear of fasteners: with its size before without, upright before turned, large before small."""
        for shown in (lines, lines[:1]) if len(lines) > 1 else (lines,):
            for height, turned in _WAYS:
                if height > self.largest:
                    continue
                for offset, box in self._places(rings, shown, height, turned=turned):
                    if is_clear(box, marks, self.reach):
                        return _Label(shown, height, turned, offset)
        return None

    def _places(
        self, rings: Rings, lines: tuple[str, ...], height: float, *, turned: bool
    ) -> Iterator[tuple[Point, Box]]:
        """Places inside the rings where lines of a height fit, from the middle outwards."""
        long = (max(width_of(line, height) for line in lines) + 2 * _MARGIN * height) * self.scale
        high = (height * (1.0 + _LEADING * (len(lines) - 1) + 2 * _MARGIN)) * self.scale
        width, depth = (high, long) if turned else (long, high)
        half_width, half_height = max(x for x, _ in rings[0]), max(y for _, y in rings[0])
        if width > 2 * half_width or depth > 2 * half_height:
            return
        plain = upright_box(rings) is not None
        for across, up in _OFFSETS if sum(map(len, rings)) <= _FEW_CORNERS else _COARSE_OFFSETS:
            offset = (across * (half_width - width / 2.0), up * (half_height - depth / 2.0))
            box = box_around(offset, width, depth)
            if plain or fits(box, rings):
                yield offset, box

    def _texts(self, label: _Label, lines: Sequence[str], centre: Point) -> Iterator[Text]:
        pitch = label.height * _LEADING * self.scale
        for index, words in enumerate(lines):
            down = (index - (len(lines) - 1) / 2.0) * pitch
            x, y = centre[0] + label.offset[0], centre[1] + label.offset[1]
            at = (x + down, y) if label.turned else (x, y - down)
            yield Text(at, words, label.height, "middle", middle=True, turned=label.turned)


_STEPS: Final = (-1.0, -0.75, -0.5, -0.25, 0.0, 0.25, 0.5, 0.75, 1.0)
_OFFSETS: Final = tuple(
    sorted(((x, y) for x in _STEPS for y in _STEPS), key=lambda at: (math.hypot(*at), abs(at[0]), -at[1], at[0]))
)
"""Shares of the free room, from the middle outwards."""

_COARSE_OFFSETS: Final = tuple((x, y) for x, y in _OFFSETS if x in _STEPS[::2] and y in _STEPS[::2])
"""For shapes with more than a few corners, since every place is held against every corner."""

_FEW_CORNERS: Final = 12


@dataclass(frozen=True, slots=True)
class PieceMarks:
    """Groups that show pieces, and how many ids found no room."""

    groups: tuple[Group, ...]
    unnamed: int


def piece_marks(fastened: Sequence[PieceFasteners], scale: float) -> PieceMarks:
    """Outlines and cut marks of pieces, and their ids clear of fasteners."""
    labels = _Labels(scale, marker_size(scale) * scale / 2.0)
    full: list[Item] = []
    cut: list[Item] = []
    marks: list[Item] = []
    texts: list[Item] = []
    unnamed = 0
    for one in fastened:
        polygon = polygon_of(one.piece)
        label = list(labels.of(polygon, _lines(one.piece), one.places))
        texts += label
        unnamed += not label
        if one.piece.kind == "full":
            full.append(polygon)
        else:
            cut.append(polygon)
            marks.append(cut_mark(polygon, scale))
    groups = (
        Group("board-full", finer(FULL_PIECE, scale), tuple(full)),
        Group("board-cut", finer(CUT_PIECE, scale), tuple(cut)),
        Group("cut-mark", finer(CUT_MARK, scale), tuple(marks)),
        Group("piece-ids", LETTERING, tuple(texts)),
    )
    return PieceMarks(groups, unnamed)


def _lines(piece: Piece) -> tuple[str, ...]:
    """Row and position, as the id without its elevation; a cut piece adds its size."""
    short = piece.id.removeprefix(f"{piece.elevation}-")
    return (short,) if piece.kind == "full" else (short, _size(piece))


def _size(piece: Piece) -> str:
    return f"{number(millimetres(piece.width))} × {number(millimetres(piece.height))}"


def polygon_of(piece: Piece) -> Polygon:
    """The piece as a polygon in mm, with its id."""
    part = piece.part
    if part.is_rectangle:
        box = (millimetres(part.left), millimetres(part.bottom), millimetres(part.right), millimetres(part.top))
        return box_polygon(box, piece.id, _title(piece))
    rings = tuple(_distinct(points_of(ring)) for ring in part.rings)
    return Polygon(rings, piece.id, _title(piece))


def _title(piece: Piece) -> str:
    return f"{piece.id}: {_WORDS[piece.kind]} {_size(piece)} mm"


def points_of(ring: Sequence[Point]) -> tuple[Point, ...]:
    """Points of ticks in mm; what clipping leaves between ticks is rounded to the millionth."""
    return tuple((round(millimetres(x), 6) + 0.0, round(millimetres(y), 6) + 0.0) for x, y in ring)


def _distinct(ring: tuple[Point, ...]) -> tuple[Point, ...]:
    """The ring without the points that rounding put on the one before."""
    return tuple(here for before, here in zip((ring[-1], *ring[:-1]), ring, strict=True) if here != before)


def cut_mark(polygon: Polygon, scale: float) -> Item:
    """A stroke across the upper right corner of a piece, or across the corner next to it whose edges are long enough."""
    ring = polygon.rings[0]
    _, _, right, top = polygon.box
    corners = list(zip(ring, (ring[-1], *ring[:-1]), (*ring[1:], ring[0]), strict=True))
    long = [corner for corner in corners if _shorter(*corner) >= _LEAST_EDGE * scale] or [max(corners, key=_leg)]
    corner, before, after = min(long, key=lambda at: (round(math.dist(at[0], (right, top)), 6), -at[0][1]))
    leg = min(_MARK * scale, _shorter(corner, before, after) / 3.0)
    return Line(_towards(corner, before, leg), _towards(corner, after, leg))


def _shorter(corner: Point, before: Point, after: Point) -> float:
    return min(math.dist(corner, before), math.dist(corner, after))


def _leg(corner: tuple[Point, Point, Point]) -> float:
    return _shorter(*corner)


def _towards(start: Point, end: Point, distance: float) -> Point:
    share = distance / math.dist(start, end)
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
