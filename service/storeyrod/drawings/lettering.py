"""Lettering: how much room a line of text takes, and where it finds room."""

from collections.abc import Iterable, Sequence
from typing import Final

from storeyrod.drawings.display_list import Box, Point

EM_PER_CAPITAL: Final = 1.0 / 0.72
"""Font size over the height of its capitals, for common sans-serif faces."""

WIDTH_PER_CAPITAL: Final = 0.88
"""Advance of a digit over the height of capitals in a wide sans-serif face; most letters of running text take less."""

_NARROW: Final = " -.,:;'|"
_NARROW_PER_CAPITAL: Final = 0.52

_WIDE_FROM: Final = 0x1100
"""Scripts from here on are set on full squares."""


def width_of(words: str, height: float) -> float:
    """Room that a line of text takes, by its characters; common faces stay below it."""
    narrow = sum(map(words.count, _NARROW))
    wide = sum(1 for character in words if ord(character) >= _WIDE_FROM)
    plain = len(words) - narrow - wide
    return height * (WIDTH_PER_CAPITAL * plain + _NARROW_PER_CAPITAL * narrow + EM_PER_CAPITAL * wide)


def shortened(words: str, height: float, room: float) -> str:
    """The text, or as much of it as fits with an ellipsis."""
    if width_of(words, height) <= room:
        return words
    kept = words
    while kept and width_of(kept + "…", height) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def both_ends(words: str, height: float, room: float) -> str:
    """The text, or as much of its beginning and end as fits with an ellipsis between: like names differ at either."""
    if width_of(words, height) <= room:
        return words
    kept = len(words) - 1
    while kept > 1 and width_of(_without_middle(words, kept), height) > room:
        kept -= 1
    return _without_middle(words, kept)


def _without_middle(words: str, kept: int) -> str:
    """So many characters of a text, the greater half from its beginning."""
    return f"{words[: (kept + 1) // 2].rstrip()}…{words[len(words) - kept // 2 :].lstrip()}"


def wrapped(words: str, height: float, room: float) -> list[str]:
    """The text on as many lines as it needs, broken at spaces."""
    lines = [""]
    for word in words.split(" "):
        longer = f"{lines[-1]} {word}".lstrip()
        if lines[-1] and width_of(longer, height) > room:
            lines.append(shortened(word, height, room))
        else:
            lines[-1] = shortened(longer, height, room)
    return lines


def number(length_mm: float) -> str:
    """A length as it is written on a drawing: millimetres, to the tenth, without trailing zeros."""
    rounded = round(length_mm, 1) + 0.0
    return f"{rounded:.0f}" if rounded == int(rounded) else f"{rounded:.1f}"


def is_inside(point: Point, rings: Sequence[Sequence[Point]]) -> bool:
    """Whether a point lies inside the rings under the even-odd rule."""
    x, y = point
    inside = False
    for ring in rings:
        before = ring[-1]
        for here in ring:
            if (before[1] > y) != (here[1] > y):
                crossing = before[0] + (here[0] - before[0]) * (y - before[1]) / (here[1] - before[1])
                inside ^= x < crossing
            before = here
    return inside


def box_around(centre: Point, width: float, height: float) -> Box:
    """Box of a width and height about its centre."""
    x, y = centre
    return x - width / 2.0, y - height / 2.0, x + width / 2.0, y + height / 2.0


def is_clear(box: Box, points: Iterable[Point], margin: float) -> bool:
    """Whether no point lies in the box or closer than the margin."""
    left, bottom, right, top = box
    return not any(left - margin < x < right + margin and bottom - margin < y < top + margin for x, y in points)


def fits(box: Box, rings: Sequence[Sequence[Point]]) -> bool:
    """Whether a box lies inside the rings: its corners and middles inside, and no edge of the rings through it."""
    left, bottom, right, top = box
    xs, ys = (left, (left + right) / 2.0, right), (bottom, (bottom + top) / 2.0, top)
    if any(_runs_through(box, a, b) for ring in rings for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)):
        return False
    return all(is_inside((x, y), rings) for x in xs for y in ys)


def _runs_through(box: Box, start: Point, end: Point) -> bool:
    """Whether an edge passes through the inside of a box: the shares of it between each pair of sides overlap."""
    first, last = 0.0, 1.0
    for a, b, low, high in ((start[0], end[0], box[0], box[2]), (start[1], end[1], box[1], box[3])):
        if max(a, b) <= low or min(a, b) >= high:
            return False
        if a != b:
            enters, leaves = sorted(((low - a) / (b - a), (high - a) / (b - a)))
            first, last = max(first, enters), min(last, leaves)
    return first < last
