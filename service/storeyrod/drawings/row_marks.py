"""Rows of boards numbered beside a wall: a rod with a stroke at every row's foot and head."""

from collections.abc import Iterable
from typing import Final

from storeyrod.boards.rows import Row
from storeyrod.drawings.display_list import Group, Item, Line, Text
from storeyrod.drawings.line_styles import COURSE, LETTERING, LETTERS_SMALL
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face

ROOM_FOR_ROWS: Final = 14.0
"""Room for rows right of dimensions on paper, mm."""

_AWAY: Final = 25.0
"""Distance of the rod from the wall on paper, mm: right of the dimension of the whole height."""

_STROKE: Final = 1.2
_BESIDE: Final = 2.0
_LEAST_PITCH: Final = 3.0


def row_groups(rows: Iterable[Row], face: Face, right: float, scale: float) -> tuple[Group, ...]:
    """Rows of a wall that ends at x = ``right`` in mm; a number is left out where the one below stands too near."""
    rod = right + _AWAY * scale
    lines: list[Item] = []
    texts: list[Item] = []
    free = float("-inf")
    for row in sorted({one.number: one for one in rows}.values(), key=lambda one: one.number):
        bottom, top = millimetres(max(row.bottom, face.foot)), millimetres(min(row.top, face.top))
        lines.append(Line((rod, bottom), (rod, top)))
        lines += [Line((rod, y), (rod + _STROKE * scale, y)) for y in (bottom, top)]
        middle = (bottom + top) / 2.0
        if middle >= free:
            texts.append(Text((rod + _BESIDE * scale, middle), f"row {row.number}", LETTERS_SMALL, middle=True))
            free = middle + _LEAST_PITCH * scale
    return Group("rows", COURSE, tuple(lines)), Group("row-numbers", LETTERING, tuple(texts))
