"""The arrow that says which way up a board stands: large once on a sheet, small on pieces."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Line, Point, Polygon, Rings, Text
from storeyrod.drawings.lettering import fits
from storeyrod.drawings.line_styles import LETTERING, LETTERS, LETTERS_SMALL, UP_ARROW
from storeyrod.drawings.paper import Paper

THIS_WAY_UP: Final = "THIS WAY UP"

SMALL: Final = 3.0
"""Height of an arrow on a piece on paper, mm."""

REACH: Final = 1.9
"""Kept clear around the middle of a small arrow on paper, mm."""

_SHARE: Final = 0.4
_HALF_SHARE: Final = 0.16
"""Length and half width of the head over the height of an arrow."""

_CORNER: Final = 2.6
"""Distance of the middle of a small arrow from the sides of its piece on paper, mm."""

_ROOM: Final = 6.5
"""Least width and height of a piece with an arrow on paper, mm."""

_BESIDE_BOARD: Final = 9.0
_WORDS_AWAY: Final = 3.0
_LARGE: Final = 8.0
_FROM_TOP: Final = 2.5
_FROM_RIGHT: Final = 6.0
_BESIDE: Final = 2.5


def arrow(middle: Point, height: float) -> tuple[Line, Polygon]:
    """An upward arrow of a height about its middle."""
    (x, y), half = middle, height / 2.0
    neck = y + half - _SHARE * height
    head = Polygon((((x - _HALF_SHARE * height, neck), (x + _HALF_SHARE * height, neck), (x, y + half)),))
    return Line((x, y - half), (x, neck)), head


def arrow_place(rings: Rings, box: Box, scale: float) -> Point | None:
    """Where a small arrow stands in a piece: near its lower left corner, or another one; none where there is no room."""
    left, bottom, right, top = box
    if min(right - left, top - bottom) < _ROOM * scale:
        return None
    half, away = REACH * scale, _CORNER * scale
    tried = ((left + away, bottom + away), (right - away, bottom + away), (left + away, top - away))
    return next((at for at in tried if _is_inside(at, half, rings)), None)


def _is_inside(at: Point, half: float, rings: Rings) -> bool:
    return fits((at[0] - half, at[1] - half, at[0] + half, at[1] + half), rings)


def arrow_groups(places: Sequence[Point], scale: float) -> tuple[Group, ...]:
    """Small arrows."""
    items = tuple(item for place in places for item in arrow(place, SMALL * scale))
    return (Group("way-up", UP_ARROW, items),) if items else ()


def sheet_arrow(paper: Paper) -> Iterator[Group]:
    """The large arrow with its words in the upper right corner of the frame, in paper millimetres."""
    _, _, right, top = paper.frame
    middle = (right - _FROM_RIGHT, top - _FROM_TOP - _LARGE / 2.0)
    yield Group("way-up", UP_ARROW, arrow(middle, _LARGE))
    words = Text((middle[0] - _BESIDE, middle[1]), THIS_WAY_UP, LETTERS, "end", middle=True, bold=True)
    yield Group("way-up-words", LETTERING, (words,))


def upright_words(middle: Point, room: float, scale: float) -> tuple[Group, ...]:
    """An arrow with its words along it, beside a board; ``room`` is the height of the board in mm."""
    x, y = middle
    height = min(room, _BESIDE_BOARD * scale)
    words = Text((x + _WORDS_AWAY * scale, y), THIS_WAY_UP, LETTERS_SMALL, "middle", middle=True, turned=True)
    return (Group("way-up", UP_ARROW, arrow((x, y), height)), Group("way-up-words", LETTERING, (words,)))
