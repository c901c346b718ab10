"""The legend, and the bar that shows whether a print is true to scale."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.display_list import (
    Group,
    Item,
    Line,
    Marker,
    Point,
    Polygon,
    Strokes,
    Style,
    Text,
    box_polygon,
)
from storeyrod.drawings.lettering import number, wrapped
from storeyrod.drawings.line_styles import FULL_PIECE, LETTERING, LETTERS_SMALL, SOLID
from storeyrod.drawings.paper import Paper
from storeyrod.drawings.title_block import WIDTH as TITLE_BLOCK

BAR_LENGTH: Final = 100.0
"""Length of the bar on paper, mm."""

SYMBOL: Final = 10.0
"""Room for what an entry shows, mm."""

_COLUMN: Final = 67.0
_INSET: Final = 4.0
_FIRST: Final = 5.0
"""Middle of the first row below the top of the strip."""

_BAR_HEIGHT: Final = 1.6
_BAR_PARTS: Final = 10
_LINE: Final = 3.4
"""Distance of lines of notes, mm."""

_DEPTH: Final = 28.5
"""From the middle of the first row to that of the last one above the bar, mm."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the legend: what it shows, in a box of 10 by 5 mm about its middle, and what it says."""

    drawn: tuple[tuple[str, Style, Item], ...]
    words: str


@dataclass(frozen=True, slots=True)
class _Rows:
    """Rows of entries in a column, and their distance in mm."""

    count: int
    pitch: float


_FEW, _MANY = _Rows(4, 6.6), _Rows(6, 5.4)
_ENTRIES_IN_FEW: Final = 10


@dataclass(frozen=True, slots=True)
class _Places:
    """Places of entries, and of lines of notes by column, in the strip, in paper millimetres."""

    entries: tuple[Point, ...]
    columns: tuple[tuple[Point, ...], ...]

    @property
    def lines(self) -> tuple[Point, ...]:
        """Places of lines, column after column."""
        return tuple(place for column in self.columns for place in column)

    def unbroken(self, lengths: Sequence[int]) -> tuple[Point, ...] | None:
        """Places of notes of so many lines, each within one column; none where that takes more room than there is."""
        left = [*self.columns]
        places: list[Point] = []
        for length in lengths:
            while left and len(left[0]) < length:
                left.pop(0)
            if not left:
                return None
            places += left[0][:length]
            left[0] = left[0][length:]
        return tuple(places)


def legend(
    paper: Paper,
    scale: float,
    entries: Sequence[Entry],
    notes: Sequence[str],
    of: str = "wall",
    *,
    together: bool = False,
) -> tuple[Group, ...]:
    """Legend, notes and scale bar at the left of the strip, in paper millimetres; lines that find no room are counted.

    Notes go on in the next column as a whole where there is room for that. A sheet without scale has no bar.
    """
    left, bottom, _, _ = paper.strip
    broken = [wrapped(note, LETTERS_SMALL, _COLUMN) for note in notes]
    lines, lengths = [line for note in broken for line in note], [*map(len, broken)]
    places = _places(paper, len(entries), lengths, together=together)
    if len(lines) > len(places.lines):
        room = len(places.lines) - 1
        lines = [*lines[:room], f"… {len(lines) - room} more lines: ask for a larger scale"]
    of_lines = places.unbroken(lengths) or places.lines
    groups = [
        Group(f"legend-{role}", style, (moved(item, x, y),))
        for entry, (x, y) in zip(entries, places.entries, strict=True)
        for role, style, item in entry.drawn
    ]
    texts = [
        *(
            Text((x + SYMBOL + 2.0, y), entry.words, LETTERS_SMALL, middle=True)
            for entry, (x, y) in zip(entries, places.entries, strict=True)
        ),
        *(Text(at, line, LETTERS_SMALL, middle=True) for at, line in zip(of_lines, lines, strict=False)),
    ]
    bar = _bar(left + _INSET, bottom + 5.0, scale, of) if scale else ()
    return (*groups, Group("legend-words", LETTERING, tuple(texts)), *bar)


def _places(paper: Paper, entries: int, lengths: Sequence[int], *, together: bool) -> _Places:
    """Wide rows where all notes fit unbroken, below the last entry; else narrow rows, and notes in the next column."""
    wide = _placed(paper, entries, _FEW, *divmod(entries, _FEW.count))
    if not together and entries <= _ENTRIES_IN_FEW and wide.unbroken(lengths) is not None:
        return wide
    return _placed(paper, entries, _MANY, -(-entries // _MANY.count), 0)


def _placed(paper: Paper, entries: int, rows: _Rows, column: int, row: int) -> _Places:
    """Entries column by column, and lines of notes from a row of a column on to the title block."""
    left, _, right, top = paper.strip
    x, y = left + _INSET, top - _FIRST
    ends = int((right - TITLE_BLOCK - x) / _COLUMN)
    placed = (divmod(index, rows.count) for index in range(entries))
    starts = [row * rows.pitch, *[0.0] * max(0, ends - column - 1)] if column < ends else []
    return _Places(
        tuple((x + place * _COLUMN, y - down * rows.pitch) for place, down in placed),
        tuple(
            tuple(
                (x + place * _COLUMN, y - start - index * _LINE) for index in range(int((_DEPTH - start) / _LINE) + 1)
            )
            for place, start in enumerate(starts, column)
        ),
    )


def moved(item: Item, x: float, y: float) -> Item:
    """What an entry shows, at its place."""
    match item:
        case Line():
            return Line(_by(item.start, x, y), _by(item.end, x, y))
        case Polygon():
            return Polygon(tuple(tuple(_by(point, x, y) for point in ring) for ring in item.rings))
        case Marker():
            return Marker(_by(item.at, x, y), item.symbol, item.size)
        case Text():
            return replace(item, at=_by(item.at, x, y))
        case Strokes():
            return Strokes(tuple((_by(start, x, y), _by(end, x, y)) for start, end in item.lines))
    return item


def _by(point: Point, x: float, y: float) -> Point:
    return point[0] + x, point[1] + y


def _bar(x: float, y: float, scale: float, of: str) -> Sequence[Group]:
    """A hundred millimetres of paper in tenths, every other one black."""
    part = BAR_LENGTH / _BAR_PARTS
    black = tuple(
        box_polygon((x + index * part, y, x + (index + 1) * part, y + _BAR_HEIGHT)) for index in range(0, _BAR_PARTS, 2)
    )
    frame = box_polygon((x, y, x + BAR_LENGTH, y + _BAR_HEIGHT))
    words = f"100 mm on paper = {number(BAR_LENGTH * scale)} mm of {of}"
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
