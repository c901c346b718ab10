"""Bars of the load path: one for each link and action, as long as its use, against a line at 1.0."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Item, Line, Point, Polygon, Strokes, Style, Text, box_polygon
from storeyrod.drawings.hatching import hatched
from storeyrod.drawings.lettering import box_around, shortened, width_of, wrapped
from storeyrod.drawings.line_styles import (
    BAY_FRAME,
    BAY_WITHIN,
    BLANK,
    BROAD,
    DIMENSION,
    KEPT,
    LETTERING,
    LETTERS_SMALL,
    MEDIUM,
    SOLID,
    THIN,
)
from storeyrod.drawings.link_rows import LinkRow, numbers_of

PITCH: Final = 11.2
"""Distance of rows, mm."""

NAMES: Final = 70.0
"""Room for the name of a link and its action, mm."""

UNIT: Final = 140.0
"""Length of a bar whose link is used in full, mm."""

AXIS_END: Final = 1.3
"""Use at which bars are broken off."""

NUMBERS: Final = 88.0
"""Room for action and resistance, mm."""

_BAR: Final = 8.6
_HATCH: Final = 1.8
_GAP: Final = 3.0
_BREAK: Final = 1.2
_BROKEN: Final = 1.1
"""Where a bar that runs on beyond the axis has its gap: past the line at 1.0, before its figure."""

_SHORT: Final = 0.15
"""The figure of a longer bar stands inside its end."""

_LINES: Final = 3
_LEADING: Final = 1.4
_WORDS: Final = UNIT - 4.0
"""Room for what is missing, mm."""

_PART_BAR: Final = 3.4
"""Height of a bar that says below it what its use leaves out."""

_PART_LINES: Final = 2

_TICKS: Final = (0.0, 0.25, 0.5, 0.75, 1.0, 1.25)
_GUARD: Final = 1e-9

LIMIT: Final = Style(BROAD)
UNKNOWN: Final = Style(THIN, dashes=(2.0, 1.2), fill=1.0)
"""Frame of a link that was not assessed."""

IN_PART: Final = Style(MEDIUM, dashes=(2.0, 1.2))
"""Frame of a link of which only a part was assessed, over its filling."""


def link_groups(rows: Sequence[LinkRow], left: float, top: float) -> Iterator[Group]:
    """Bars with names and figures, the middle of the first row at y = ``top``; lengths in mm of paper."""
    start, placed = left + NAMES, [(row, top - index * PITCH) for index, row in enumerate(rows)]
    low, high = top - (len(rows) - 0.5) * PITCH, top + 0.5 * PITCH
    yield from _axis(start, low, high)
    yield Group("link-frame", BAY_FRAME, tuple(_frames(placed, start)))
    yield Group("link-within", BAY_WITHIN, tuple(_within(placed, start)))
    yield Group("link-over", KEPT, tuple(_over(placed, start)))
    yield Group("link-in-part", IN_PART, tuple(_in_part(placed, start)))
    yield Group("link-break", BLANK, tuple(_breaks(placed, start)))
    yield Group("link-unknown", UNKNOWN, tuple(_unknown(placed, start)))
    yield Group("limit", LIMIT, (Line((start + UNIT, low), (start + UNIT, high)),))
    texts = [text for row, y in placed for text in _words(row, left, start, y)]
    yield Group("link-blank", BLANK, tuple(_blank(text) for text in texts if text.at[0] > start))
    yield Group("governs", SOLID, tuple(governing_mark((left + 1.5, y)) for row, y in placed if row.governs))
    yield Group("link-words", LETTERING, tuple(texts))


def _axis(start: float, low: float, high: float) -> Iterator[Group]:
    """Ticks of use above the bars, and fine lines down from them."""
    yield Group("axis", DIMENSION, tuple(Line((start + at * UNIT, low), (start + at * UNIT, high)) for at in _TICKS))
    figures = (Text((start + at * UNIT, high + 1.2), f"{at:.2f}", LETTERS_SMALL, "middle") for at in _TICKS)
    yield Group("axis-figures", LETTERING, tuple(figures))


def _box(row: LinkRow, start: float, y: float) -> Box:
    use = row.use if row.use is not None else 1.0
    foot, top = y - _BAR / 2.0, y + _BAR / 2.0
    return start, top - _PART_BAR if row.left_out else foot, start + UNIT * min(use, AXIS_END), top


def _within(placed: Sequence[tuple[LinkRow, float]], start: float) -> Iterator[Item]:
    for row, y in placed:
        if row.use is not None and not _is_over(row.use):
            yield box_polygon(_box(row, start, y))


def _over(placed: Sequence[tuple[LinkRow, float]], start: float) -> Iterator[Item]:
    """Hatching of bars whose action exceeds the resistance."""
    for row, y in placed:
        if row.use is not None and _is_over(row.use):
            yield Strokes(tuple(hatched(_box(row, start, y), _HATCH)))


def _is_over(use: float) -> bool:
    return use > 1.0 + _GUARD


def _frames(placed: Sequence[tuple[LinkRow, float]], start: float) -> Iterator[Item]:
    for row, y in placed:
        if row.use is not None and not row.left_out:
            said = f"{row.name}, {row.link['action']}: {row.use:.3f} of its resistance"
            yield box_polygon(_box(row, start, y), _id(row), said)


def _in_part(placed: Sequence[tuple[LinkRow, float]], start: float) -> Iterator[Item]:
    for row, y in placed:
        if row.left_out:
            said = (
                f"{row.name}, {row.link['action']}: {row.use:.3f} of its resistance or more; left out: {row.left_out}"
            )
            yield box_polygon(_box(row, start, y), _id(row), said)


def _id(row: LinkRow) -> str:
    return f"load-path:{row.link['link']}:{row.link['action']}"


def _breaks(placed: Sequence[tuple[LinkRow, float]], start: float) -> Iterator[Item]:
    """A slanting gap across bars that run on beyond the axis."""
    for row, y in placed:
        if row.use is not None and row.use > AXIS_END:
            _, foot, _, top = _box(row, start, y)
            yield break_mark(start + UNIT * _BROKEN, foot - _BREAK / 2.0, top + _BREAK / 2.0)


def break_mark(x: float, foot: float, top: float) -> Polygon:
    """The gap of a bar that is broken off."""
    return Polygon((((x - _BREAK, foot), (x, foot), (x + _BREAK, top), (x, top)),))


def _unknown(placed: Sequence[tuple[LinkRow, float]], start: float) -> Iterator[Item]:
    for row, y in placed:
        if row.use is None:
            yield box_polygon(_box(row, start, y), _id(row), f"{row.name}, {row.link['action']}: not assessed")


def governing_mark(at: Point) -> Polygon:
    """A black triangle that points at the name of the governing link."""
    x, y = at
    return Polygon((((x - 1.2, y - 1.5), (x + 1.5, y), (x - 1.2, y + 1.5)),))


def _words(row: LinkRow, left: float, start: float, y: float) -> Iterator[Text]:
    """Name and action before the bar, its use or what is missing at it, action and resistance at the right."""
    name = f"{row.name}, {row.link['action']}"
    if row.governs:
        name += ": governs"
    yield Text(
        (left + 4.5, y), shortened(name, LETTERS_SMALL, NAMES - 6.0), LETTERS_SMALL, middle=True, bold=row.governs
    )
    yield from _missing(row, start, y) if row.use is None else _used(row, row.use, start, y)
    yield from _forces(row, start + UNIT * AXIS_END + 12.0, y)


def _used(row: LinkRow, use: float, start: float, y: float) -> Iterator[Text]:
    """The use inside the end of its bar, or beside a short one; below it what it leaves out."""
    _, foot, end, top = _box(row, start, y)
    long = width_of(row.use_words, LETTERS_SMALL)
    at = end - _GAP - long if use > _SHORT and long + 2 * _GAP < end - start else end + _GAP
    yield Text((at, (foot + top) / 2.0), row.use_words, LETTERS_SMALL, middle=True, bold=row.governs)
    for index, words in enumerate(_told(row), start=1):
        down = (index - 0.4) * LETTERS_SMALL * _LEADING
        yield Text((start + 2.0, foot - down), words, LETTERS_SMALL, middle=True)


def _forces(row: LinkRow, x: float, y: float) -> Iterator[Text]:
    numbers = numbers_of(row.link)
    for line, words in enumerate(numbers):
        down = (line - (len(numbers) - 1) / 2.0) * LETTERS_SMALL * _LEADING
        yield Text((x, y - down), shortened(words, LETTERS_SMALL, NUMBERS), LETTERS_SMALL, middle=True)


def _missing(row: LinkRow, start: float, y: float) -> Iterator[Text]:
    lines = _told(row)
    for index, words in enumerate(lines):
        down = (index - (len(lines) - 1) / 2.0) * LETTERS_SMALL * _LEADING
        yield Text((start + 2.0, y - down), words, LETTERS_SMALL, middle=True)


def _told(row: LinkRow) -> list[str]:
    """What is missing on as many lines as there is room for, the last one cut short."""
    lines, most = _all_told(row), _most_lines(row)
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], shortened(" ".join(lines[most - 1 :]), LETTERS_SMALL, _WORDS)]


def _all_told(row: LinkRow) -> list[str]:
    return wrapped(row.told, LETTERS_SMALL, _WORDS) if row.told else []


def _most_lines(row: LinkRow) -> int:
    return _LINES if row.use is None else _PART_LINES


def cut_short(rows: Sequence[LinkRow]) -> int:
    """How many links say less than what is missing, for lack of room."""
    return sum(len(_all_told(row)) > _most_lines(row) for row in rows)


def _blank(text: Text) -> Item:
    long = width_of(text.words, text.height)
    x, y = text.at
    return box_polygon(box_around((x + long / 2.0, y), long + 1.0, text.height + 0.6))
