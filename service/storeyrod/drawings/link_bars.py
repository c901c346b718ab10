"""Bars of the load path: one for each link and action, as long as its use, against a line at 1.0."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
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
    SOLID,
    THIN,
)
from storeyrod.weights.load_path_models import Link, LinkName, LoadPath

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
_GAP: Final = 2.0
_BREAK: Final = 1.2
_BROKEN: Final = 1.05
"""Where a bar that runs on beyond the axis has its gap."""

_SHORT: Final = 0.15
"""The figure of a longer bar stands inside its end."""

_LINES: Final = 3
_LEADING: Final = 1.4
_WORDS: Final = UNIT - 4.0
"""Room for what is missing, mm."""

_TICKS: Final = (0.0, 0.25, 0.5, 0.75, 1.0, 1.25)
_GUARD: Final = 1e-9

LIMIT: Final = Style(BROAD)
UNKNOWN: Final = Style(THIN, dashes=(2.0, 1.2), fill=1.0)
"""Frame of a link that was not assessed."""


_NAMES: Final[Mapping[LinkName, str]] = {
    "slip_bond": "bond of slips",
    "adhesive": "adhesive",
    "board_face": "face of boards",
    "board_core": "core of boards",
    "board_bond": "bond of boards",
    "head_pull_through": "pull-through of heads",
    "fastener_shank": "shanks of fasteners",
    "pull_out": "pull-out of fasteners",
    "substrate": "substrate",
    "structure": "structure",
}


@dataclass(frozen=True, slots=True)
class LinkRow:
    """A link under one action, and whether it governs."""

    link: Link
    governs: bool

    @property
    def use(self) -> float | None:
        """Action over resistance; none where it was not assessed."""
        return self.link.get("utilisation_fraction") if self.link["status"] == "assessed" else None

    @property
    def name(self) -> str:
        """The link in words."""
        return _NAMES[self.link["link"]]


def link_rows(path: LoadPath) -> list[LinkRow]:
    """Rows from outside to inside; the first of equal ones governs."""
    governing = path.get("governing_link"), path.get("governing_action")
    return [LinkRow(link, (link["link"], link["action"]) == governing) for link in path["links"]]


def link_groups(rows: Sequence[LinkRow], left: float, top: float) -> Iterator[Group]:
    """Bars with names and figures, the middle of the first row at y = ``top``; lengths in mm of paper."""
    start, placed = left + NAMES, [(row, top - index * PITCH) for index, row in enumerate(rows)]
    low, high = top - (len(rows) - 0.5) * PITCH, top + 0.5 * PITCH
    yield from _axis(start, low, high)
    yield Group("link-frame", BAY_FRAME, tuple(_frames(placed, start)))
    yield Group("link-within", BAY_WITHIN, tuple(_within(placed, start)))
    yield Group("link-over", KEPT, tuple(_over(placed, start)))
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
    return start, y - _BAR / 2.0, start + UNIT * min(use, AXIS_END), y + _BAR / 2.0


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
        if row.use is not None:
            (ring,) = box_polygon(_box(row, start, y)).rings
            yield Polygon((ring,), _id(row), f"{row.name}, {row.link['action']}: {row.use:.3f} of its resistance")


def _id(row: LinkRow) -> str:
    return f"load-path:{row.link['link']}:{row.link['action']}"


def _breaks(placed: Sequence[tuple[LinkRow, float]], start: float) -> Iterator[Item]:
    """A slanting gap across bars that run on beyond the axis."""
    for row, y in placed:
        if row.use is not None and row.use > AXIS_END:
            x, half = start + UNIT * _BROKEN, _BAR / 2.0 + _BREAK / 2.0
            ring = ((x - _BREAK, y - half), (x, y - half), (x + _BREAK, y + half), (x, y + half))
            yield Polygon((ring,))


def _unknown(placed: Sequence[tuple[LinkRow, float]], start: float) -> Iterator[Item]:
    for row, y in placed:
        if row.use is None:
            (ring,) = box_polygon(_box(row, start, y)).rings
            yield Polygon((ring,), _id(row), f"{row.name}, {row.link['action']}: not assessed")


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
    if row.use is None:
        yield from _missing(row, start, y)
    else:
        end = start + UNIT * min(row.use, AXIS_END)
        at = end - _GAP - width_of(f"{row.use:.2f}", LETTERS_SMALL) if row.use > _SHORT else end + _GAP
        yield Text((at, y), f"{row.use:.2f}", LETTERS_SMALL, middle=True, bold=row.governs)
    numbers = numbers_of(row.link)
    for line, words in enumerate(numbers):
        down = (line - (len(numbers) - 1) / 2.0) * LETTERS_SMALL * _LEADING
        yield Text(
            (start + UNIT * AXIS_END + 12.0, y - down),
            shortened(words, LETTERS_SMALL, NUMBERS),
            LETTERS_SMALL,
            middle=True,
        )


def _missing(row: LinkRow, start: float, y: float) -> Iterator[Text]:
    lines = _missing_lines(row)
    if len(lines) > _LINES:
        lines = [*lines[: _LINES - 1], shortened(" ".join(lines[_LINES - 1 :]), LETTERS_SMALL, _WORDS)]
    for index, words in enumerate(lines):
        down = (index - (len(lines) - 1) / 2.0) * LETTERS_SMALL * _LEADING
        yield Text((start + 2.0, y - down), words, LETTERS_SMALL, middle=True)


def _missing_lines(row: LinkRow) -> list[str]:
    return wrapped(f"not assessed, missing: {row.link.get('missing', 'data')}", LETTERS_SMALL, _WORDS)


def cut_short(rows: Sequence[LinkRow]) -> int:
    """How many links say less than what is missing, for lack of room."""
    return sum(row.use is None and len(_missing_lines(row)) > _LINES for row in rows)


def numbers_of(link: Link) -> tuple[str, ...]:
    """Action and resistance as far as they are known, on a piece or on a square metre."""
    if "piece" in link:
        resistance = f" of {link['resistance_kn']:.3f} kN" if "resistance_kn" in link else " kN"
        return f"{link.get('action_kn', 0.0):.3f}{resistance}", f"piece {link['piece']}"
    if "action_kn_per_m2" not in link:
        return ()
    if "resistance_kn_per_m2" not in link:
        return (f"action {link['action_kn_per_m2']:.3f} kN/m²",)
    return (f"{link['action_kn_per_m2']:.3f} of {link['resistance_kn_per_m2']:.3f} kN/m²",)


def _blank(text: Text) -> Item:
    long = width_of(text.words, text.height)
    x, y = text.at
    return box_polygon(box_around((x + long / 2.0, y), long + 1.0, text.height + 0.6))
