"""Openings on an elevation: clear outline, thin diagonals from corner to corner, name and finished size."""

import math
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Item, Line, Polygon, Text, box_polygon
from storeyrod.drawings.lettering import box_around, number, shortened, width_of
from storeyrod.drawings.line_styles import (
    BLANK,
    LETTERING,
    LETTERS,
    LETTERS_SMALL,
    LETTERS_SMALLEST,
    OPENING,
    OPENING_CROSS,
    finer,
)
from storeyrod.drawings.piece_marks import points_of
from storeyrod.drawings.wall_part import EVERYWHERE, WallPart
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Region
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face, FaceOpening

_MARGIN: Final = 0.6
_LETTERS: Final = (LETTERS, LETTERS_SMALL, LETTERS_SMALLEST)
_LEADING: Final = 1.6
NOTHING_MORE: Final[Mapping[str, str]] = MappingProxyType({})
_SHORTEST: Final = 4
"""Characters below which a shortened name says nothing."""


def opening_groups(
    face: Face, scale: float, more: Mapping[str, str] = NOTHING_MORE, part: WallPart | None = None
) -> tuple[Group, ...]:
    """Openings of a face in the finished plane; ``more`` is a line below the size, by the name of the opening. In a part of the wall
    names stand where an opening is seen.
    """
    window = part.window if part is not None else EVERYWHERE
    labels = [
        label
        for opening in face.openings
        for lines in [(opening.id, size_of(opening), *([more[opening.id]] if opening.id in more else []))]
        if (label := _label(opening, lines, scale, window))
    ]
    return (
        Group("opening", finer(OPENING, scale), tuple(_outline(face, opening) for opening in face.openings)),
        Group("opening-cross", OPENING_CROSS, tuple(line for one in face.openings for line in _diagonals(one))),
        Group("opening-blank", BLANK, tuple(blank for blank, _ in labels)),
        Group("opening-names", LETTERING, tuple(text for _, texts in labels for text in texts)),
    )


def size_of(opening: FaceOpening) -> str:
    """Clear width and height in mm."""
    width, height = millimetres(opening.right - opening.left), millimetres(opening.head - opening.sill)
    return f"{number(width)} × {number(height)}"


def _outline(face: Face, opening: FaceOpening) -> Polygon:
    return Polygon(
        (points_of(opening.ring),),
        f"{face.id}:opening:{opening.id}",
        f"{opening.id}: {opening.model.use} {size_of(opening)} mm",
    )


def _diagonals(opening: FaceOpening) -> Iterator[Line]:
    """From corner to corner below a springing, and across a circle; a polygon has none that would stay inside it."""
    square = _inner_square(opening) if opening.model.kind == "circle" else _jamb_box(opening)
    left, bottom, right, top = (millimetres(side) for side in square)
    if opening.model.kind != "polygon" and top > bottom:
        yield Line((left, bottom), (right, top))
        yield Line((left, top), (right, bottom))


def _jamb_box(opening: FaceOpening) -> Box:
    return opening.left, opening.sill, opening.right, opening.springing


def _inner_square(opening: FaceOpening) -> Box:
    """The square in a circle."""
    x, y = (opening.left + opening.right) / 2.0, (opening.sill + opening.head) / 2.0
    half = (opening.right - opening.left) / math.sqrt(8.0)
    return x - half, y - half, x + half, y + half


def _middle_box(opening: FaceOpening) -> Box:
    """The widest clear run of a polygon in the middle third of its height; none where it is bent there."""
    third = (opening.head - opening.sill) / 3.0
    low, high = opening.sill + third, opening.head - third
    runs = Region((opening.ring,)).clear_runs(low, high)
    left, right = max(runs, key=lambda run: (run[1] - run[0], -run[0]), default=(opening.left, opening.left))
    return left, low, right, high


def _room(opening: FaceOpening, window: Interval) -> Box:
    """Box inside the opening, and in the window, in which its name may stand, in mm."""
    match opening.model.kind:
        case "circle":
            box = _inner_square(opening)
        case "polygon":
            box = _middle_box(opening)
        case _:
            box = _jamb_box(opening)
    left, bottom, right, top = (millimetres(side) for side in box)
    return max(left, window[0]), bottom, min(right, window[1]), top


def _label(
    opening: FaceOpening, whole: Sequence[str], scale: float, window: Interval
) -> tuple[Item, tuple[Text, ...]] | None:
    """All lines on a blank ground in the middle, in the largest lettering that fits; else the first; else nothing.

    A third line is left out before the lettering falls below the middle height.
    """
    room = _room(opening, window)
    width, height = ((high - low) / scale - 2 * _MARGIN for low, high in zip(room[:2], room[2:], strict=True))
    for lines, letters, turned in (
        *((whole, letters, turned) for turned in (False, True) for letters in _LETTERS[:2] if len(whole) > 2),
        *((whole[:2], letters, turned) for turned in (False, True) for letters in _LETTERS[:2]),
        *((whole[:2], LETTERS_SMALLEST, turned) for turned in (False, True)),
        *(((whole[0], *_broken(whole[1])), letters, False) for letters in _LETTERS[1:]),
        *((whole[:1], LETTERS_SMALLEST, turned) for turned in (False, True)),
    ):
        long, high = (height, width) if turned else (width, height)
        shown = _shown(lines, letters, long)
        if shown and _depth(shown, letters) <= high:
            return _set(room, shown, letters, scale, turned=turned)
    return None


def _broken(size: str) -> tuple[str, str]:
    """A size on two lines, for a narrow opening."""
    width, height = size.split(" × ")
    return f"{width} ×", height


def _shown(lines: Sequence[str], letters: float, room: float) -> tuple[str, ...]:
    """The lines, when they fit; in the smallest lettering a name may be shortened, the size never."""
    name, *size = lines
    if letters == LETTERS_SMALLEST:
        name = shortened(name, letters, room)
        if len(name) < min(_SHORTEST, len(lines[0])):
            return ()
    return (name, *size) if max(width_of(line, letters) for line in (name, *size)) <= room else ()


def _depth(lines: Sequence[str], letters: float) -> float:
    return letters * (1.0 + _LEADING * (len(lines) - 1))


def _set(
    room: Box, lines: Sequence[str], letters: float, scale: float, *, turned: bool
) -> tuple[Item, tuple[Text, ...]]:
    x, y = (room[0] + room[2]) / 2.0, (room[1] + room[3]) / 2.0
    long = max(width_of(line, letters) for line in lines) * scale
    high = (_depth(lines, letters) + letters) * scale
    blank = box_polygon(box_around((x, y), *((high, long) if turned else (long, high))))
    texts = []
    for index, words in enumerate(lines):
        down = (index - (len(lines) - 1) / 2.0) * letters * _LEADING * scale
        at = (x + down, y) if turned else (x, y - down)
        texts.append(Text(at, words, letters, "middle", middle=True, turned=turned))
    return blank, tuple(texts)
