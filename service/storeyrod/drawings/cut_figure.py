"""One cutting pattern to scale: the board with its ribs, cuts in the order of sawing, pieces, rests and edges."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.boards.board_cutting import BoardCutting, Pattern
from storeyrod.cutting.stock import FACTORY
from storeyrod.drawings.cut_list_words import ids_at, kept_rests, letter_of, size_words
from storeyrod.drawings.cut_numbers import cut_groups, cut_line, disc_places
from storeyrod.drawings.display_list import Box, Group, Item, Line, Point, Polygon, Strokes, Text, box_polygon
from storeyrod.drawings.hatching import hatched
from storeyrod.drawings.line_styles import (
    BLANK,
    BOARD_EDGE,
    CUT_PIECE,
    FULL_PIECE,
    KEPT,
    LETTERING,
    LETTERS_SMALLEST,
    RIB,
    SAWN_EDGE,
    WASTE,
)
from storeyrod.drawings.marked_piece import MarkedPiece, Ways, marked_piece
from storeyrod.drawings.piece_labels import Lettered, PieceLabels
from storeyrod.drawings.piece_marks import points_of
from storeyrod.drawings.sawn_pieces import mark_groups
from storeyrod.drawings.up_arrow import REACH, upright_words
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.system import Board

LEFT: Final = 5.0
RIGHT: Final = 11.0
"""Room beside a board on paper, for numbers of ribs, and for cuts and the arrow, mm."""

_ARROW_AWAY: Final = 5.6
_RIB_NUMBER: Final = 1.0
_LEAST_RIB_PITCH: Final = 2.2
_RIB_STEPS: Final = (1, 2, 4, 8, 16, 32)
_HATCH: Final = 2.5
"""Distance of strokes on paper, mm."""


@dataclass(frozen=True, slots=True)
class CutFigure:
    """A pattern of a job, drawn at one to ``scale``."""

    cutting: BoardCutting
    pattern: Pattern
    board: Board
    scale: float

    @property
    def width(self) -> float:
        """Width of what is cut, mm."""
        return millimetres(self.pattern.width)

    @property
    def height(self) -> float:
        """Height of what is cut, mm."""
        return millimetres(self.pattern.height)


def figure_groups(figure: CutFigure) -> tuple[Group, ...]:
    """The figure, in mm from the lower left corner of its board."""
    pattern, scale = figure.pattern, figure.scale
    lines = [cut_line(cut, figure.width, figure.height, figure.board.kerf_mm) for cut in pattern.cuts]
    rests = [_box(*rest[:4]) for rest in pattern.rests]
    discs = disc_places(lines, rests, figure.width, figure.height, scale)
    labels = PieceLabels(scale, REACH * scale)
    pieces = [_piece(figure, index, labels, discs) for index in range(len(pattern.places))]
    whole = not pattern.cuts and not any(pattern.shapes)
    role, style = ("board-full", FULL_PIECE) if whole else ("board-cut", CUT_PIECE)
    middle = (figure.width + _ARROW_AWAY * scale, figure.height / 2.0)
    return (
        *_rests(figure, labels, discs),
        Group(role, style, tuple(piece.polygon for piece in pieces)),
        *_ribs(figure),
        *_edges(figure),
        *mark_groups(pieces, scale),
        *cut_groups(lines, discs),
        *upright_words(middle, figure.height, scale),
    )


def _piece(figure: CutFigure, index: int, labels: PieceLabels, discs: Sequence[Point]) -> MarkedPiece:
    """A piece; its sides are the board's or cuts, so that strokes along sawn edges are left to notches and rakes."""
    place, shape = figure.pattern.places[index], figure.pattern.shapes[index]
    ids = ids_at(figure.cutting, figure.pattern, index)
    size = size_words(place.width, place.height)
    title = f"{', '.join(ids)}: {size} mm"
    box = _box(place.x, place.y, place.width, place.height)
    polygon = box_polygon(box, ids[0], title)
    if shape:
        rings = tuple(points_of([(x + place.x, y + place.y) for x, y in ring]) for ring in shape)
        polygon = Polygon(rings, ids[0], title)
    return marked_piece(polygon, FACTORY, _ways(letter_of(index), ids, size), labels, discs)


def _ways(letter: str, ids: Sequence[str], size: str) -> Ways:
    """Letter, id and size; less where there is no room, since all of it stands in the list below the board."""
    named = f"{letter}  {ids[0]}" if len(ids) == 1 else f"{letter}  {len(ids)} pieces"
    return Ways(((named, size), (f"{named}  {size}",)), ((letter, size), (f"{letter}  {size}",), (letter,)))


def _box(x: float, y: float, width: float, height: float) -> Box:
    left, bottom = millimetres(x), millimetres(y)
    return left, bottom, left + millimetres(width), bottom + millimetres(height)


def _rests(figure: CutFigure, labels: PieceLabels, discs: Sequence[Point]) -> Iterator[Group]:
    """Rests that are kept, hatched with their sizes; waste is named where there is room."""
    kept: list[Box] = []
    waste: list[Box] = []
    texts: list[Text] = []
    blanks: list[Item] = []
    for rest, ids in zip(figure.pattern.rests, kept_rests(figure.cutting, figure.pattern), strict=True):
        box = _box(*rest[:4])
        words = ("to stock", size_words(rest.width, rest.height)) if ids else ("waste",)
        (kept if ids else waste).append(box)
        label = labels.of(box_polygon(box), (words, words[1:] or words), discs)
        if label is not None:
            texts += label.texts
            blanks += _blank(label) if ids else ()
    strokes = tuple(line for box in kept for line in hatched(box, _HATCH * figure.scale))
    yield Group("waste", WASTE, tuple(box_polygon(box) for box in waste))
    yield Group("kept", KEPT, (*(box_polygon(box) for box in kept), *([Strokes(strokes)] if strokes else [])))
    yield Group("kept-blank", BLANK, tuple(blanks))
    yield Group("rest-words", LETTERING, tuple(texts))


def _blank(label: Lettered) -> tuple[Item, ...]:
    return (box_polygon(label.box),)


def _ribs(figure: CutFigure) -> Iterator[Group]:
    """Rib lines across the board, counted from its foot."""
    pitch, scale = figure.board.rib_pitch_mm, figure.scale
    if pitch is None:
        return
    count = int(figure.height / pitch + 1e-6)
    every = next((step for step in _RIB_STEPS if step * pitch / scale >= _LEAST_RIB_PITCH), _RIB_STEPS[-1])
    lines = [((0.0, index * pitch), (figure.width, index * pitch)) for index in range(1, count + 1)]
    inner = tuple(line for line in lines if line[0][1] < figure.height)
    x = -_RIB_NUMBER * scale
    numbers = (
        Text((x, index * pitch), str(index), LETTERS_SMALLEST, "end", middle=True)
        for index in range(0, count + 1, every)
    )
    if inner:
        yield Group("ribs", RIB, (Strokes(inner),))
    yield Group("rib-numbers", LETTERING, tuple(numbers))


def _edges(figure: CutFigure) -> Iterator[Group]:
    """Edges of the board as it left the factory, thick; edges of a stock offcut that were sawn before, dashed."""
    right, top = figure.width, figure.height
    corners = (
        ((0.0, 0.0), (0.0, top)),
        ((right, 0.0), (right, top)),
        ((0.0, 0.0), (right, 0.0)),
        ((0.0, top), (right, top)),
    )
    sides = list(zip(figure.pattern.edges, corners, strict=True))
    yield Group("board-edge", BOARD_EDGE, tuple(Line(*line) for kept, line in sides if kept))
    sawn = tuple(Line(*line) for kept, line in sides if not kept)
    if sawn:
        yield Group("sawn-edge", SAWN_EDGE, sawn)
