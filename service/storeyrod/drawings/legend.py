"""The legend, and the bar that shows whether a print is true to scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import (
    Box,
    Group,
    Item,
    Line,
    Marker,
    Point,
    Polygon,
    Polyline,
    Style,
    Symbol,
    Text,
    box_polygon,
)
from storeyrod.drawings.fastener_marks import SYMBOLS
from storeyrod.drawings.lettering import number, wrapped
from storeyrod.drawings.line_styles import (
    COURSE,
    CUT_MARK,
    CUT_PIECE,
    FACE_OUTLINE,
    FASTENER,
    FULL_PIECE,
    GROUND,
    JOINT,
    LETTERING,
    LETTERS_SMALL,
    OPENING,
    OPENING_CROSS,
    SOLID,
)
from storeyrod.drawings.paper import Paper

BAR_LENGTH: Final = 100.0
"""Length of the bar on paper, mm."""

_COLUMN: Final = 67.0
_ROW: Final = 6.6
_ROWS: Final = 4
_INSET: Final = 4.0
_SYMBOL: Final = 10.0
_BAR_HEIGHT: Final = 1.6
_BAR_PARTS: Final = 10
_LINE: Final = 3.4
"""Distance of lines of notes, mm."""


@dataclass(frozen=True, slots=True)
class _Entry:
    """One line of the legend: what it shows, in a box of 10 by 5 mm about its middle, and what it says."""

    drawn: tuple[tuple[str, Style, Item], ...]
    words: str


def legend(paper: Paper, scale: int, pitch: float, notes: Sequence[str], *, ground: bool) -> tuple[Group, ...]:
    """Legend, notes and scale bar at the left of the strip, in paper millimetres; ``pitch`` is the height of a course in mm."""
    left, bottom, _, top = paper.strip
    groups: list[Group] = []
    texts: list[Text] = []
    entries = list(_entries(pitch, ground=ground))
    for index, entry in enumerate(entries):
        column, row = divmod(index, _ROWS)
        x, y = left + _INSET + column * _COLUMN, top - 5.0 - row * _ROW
        groups += [Group(f"legend-{role}", style, (_moved(item, x, y),)) for role, style, item in entry.drawn]
        texts.append(Text((x + _SYMBOL + 2.0, y), entry.words, LETTERS_SMALL, middle=True))
    column, row = divmod(len(entries), _ROWS)
    texts += _notes(notes, left + _INSET + column * _COLUMN, top - 5.0 - row * _ROW)
    return (*groups, Group("legend-words", LETTERING, tuple(texts)), *_bar(left + _INSET, bottom + 5.0, scale))


def _entries(pitch: float, *, ground: bool) -> Iterator[_Entry]:
    box: Box = (0.0, -2.2, _SYMBOL, 2.2)
    yield _Entry((("board-full", FULL_PIECE, box_polygon(box)),), "full board: row-position")
    mark = Line((_SYMBOL - 2.0, 2.2), (_SYMBOL, 0.2))
    cut: tuple[tuple[str, Style, Item], ...] = (
        ("board-cut", CUT_PIECE, box_polygon(box)),
        ("cut-mark", CUT_MARK, mark),
    )
    yield _Entry(cut, "cut board: id, size of cut")
    crosses = (Line((0.0, -2.2), (_SYMBOL, 2.2)), Line((0.0, 2.2), (_SYMBOL, -2.2)))
    opening = ("opening", OPENING, box_polygon(box))
    yield _Entry((opening, *(("opening-cross", OPENING_CROSS, line) for line in crosses)), "opening: clear size")
    yield _Entry((("face", FACE_OUTLINE, Line((0.0, 0.0), (_SYMBOL, 0.0))),), "outline of finished face")
    for symbol, words in SYMBOLS.values():
        yield _fastener(symbol, words)
    yield _Entry((("movement-joint", JOINT, Line((0.0, 0.0), (_SYMBOL, 0.0))),), "MJ movement joint")
    rod = (Line((3.0, -2.0), (3.0, 2.0)), Line((3.0, -1.0), (4.2, -1.0)), Line((3.0, 1.0), (5.4, 1.0)))
    yield _Entry(tuple(("courses", COURSE, line) for line in rod), f"courses of {number(pitch)} mm from datum")
    if ground:
        yield _Entry((("ground", GROUND, Line((0.0, 0.0), (_SYMBOL, 0.0))),), "ground")


def _notes(notes: Sequence[str], x: float, y: float) -> Iterator[Text]:
    lines = [line for note in notes for line in wrapped(note, LETTERS_SMALL, _COLUMN)]
    for index, line in enumerate(lines):
        yield Text((x, y - index * _LINE), line, LETTERS_SMALL, middle=True)


def _fastener(symbol: Symbol, words: str) -> _Entry:
    return _Entry((("fastener", FASTENER, Marker((_SYMBOL / 2.0, 0.0), symbol, 2.0)),), words)


def _moved(item: Item, x: float, y: float) -> Item:
    match item:
        case Line():
            return Line(_by(item.start, x, y), _by(item.end, x, y))
        case Polygon():
            return Polygon(tuple(tuple(_by(point, x, y) for point in ring) for ring in item.rings))
        case Marker():
            return Marker(_by(item.at, x, y), item.symbol, item.size)
        case Polyline():
            return Polyline(tuple(_by(point, x, y) for point in item.points))
        case Text():
            return item


def _by(point: Point, x: float, y: float) -> Point:
    return point[0] + x, point[1] + y


def _bar(x: float, y: float, scale: int) -> Sequence[Group]:
    """A hundred millimetres of paper in tenths, every other one black."""
    part = BAR_LENGTH / _BAR_PARTS
    black = tuple(
        box_polygon((x + index * part, y, x + (index + 1) * part, y + _BAR_HEIGHT)) for index in range(0, _BAR_PARTS, 2)
    )
    frame = box_polygon((x, y, x + BAR_LENGTH, y + _BAR_HEIGHT))
    words = f"100 mm on paper = {number(BAR_LENGTH * scale)} mm of wall"
    figures = (
        Text((x, y + _BAR_HEIGHT + 1.0), "0", LETTERS_SMALL),
        Text((x + BAR_LENGTH / 2.0, y + _BAR_HEIGHT + 1.0), "50", LETTERS_SMALL, "middle"),
        Text((x + BAR_LENGTH, y + _BAR_HEIGHT + 1.0), "100", LETTERS_SMALL, "end"),
        Text((x + BAR_LENGTH + 4.0, y + _BAR_HEIGHT / 2.0), words, LETTERS_SMALL, middle=True),
    )
    return (
        Group("scale-bar", FULL_PIECE, (frame,)),
        Group("scale-bar-black", SOLID, black),
        Group("scale-bar-figures", LETTERING, figures),
    )
