"""Bars that hold each bay against the limit that governs it: full at the limit, hatched beyond it."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Item, Strokes, Text, box_polygon
from storeyrod.drawings.hatching import hatched
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.lettering import box_around, number, width_of
from storeyrod.drawings.line_styles import BAY_FRAME, BAY_WITHIN, BLANK, KEPT, LETTERING, LETTERS_SMALL
from storeyrod.movement_joints.bay_models import Bay

BAR: Final = 3.6
"""Height of a bar on paper, mm."""

_HATCH: Final = 1.8
_GUARD: Final = 1e-6
"""Rounding of bays to the grid, as a share of their limit."""


def bar_groups(bays: Sequence[Bay], top: float, scale: float) -> tuple[Group, ...]:
    """Bars of all bays, their upper edges at y = ``top``; mm of the wall."""
    boxes = [(bay["x_from_mm"], top - BAR * scale, bay["x_to_mm"], top) for bay in bays]
    over = [box for bay, box in zip(bays, boxes, strict=True) if _is_over(bay)]
    strokes = tuple(line for box in over for line in hatched(box, _HATCH * scale))
    texts = [text for bay, box in zip(bays, boxes, strict=True) for text in _words(bay, box, scale)]
    blanks = tuple(_blank(text, scale) for text in texts)
    return (
        Group("bay-frame", BAY_FRAME, tuple(box_polygon(box) for box in boxes)),
        Group("bay-share", BAY_WITHIN, tuple(_shares(bays, boxes))),
        Group("bay-over", KEPT, (Strokes(strokes),) if strokes else ()),
        Group("bay-blank", BLANK, blanks if over else ()),
        Group("bay-words", LETTERING, tuple(texts)),
    )


def _is_over(bay: Bay) -> bool:
    return bay["limit_fraction"] > 1.0 + _GUARD


def _shares(bays: Sequence[Bay], boxes: Sequence[Box]) -> Iterator[Item]:
    for bay, (left, bottom, right, top) in zip(bays, boxes, strict=True):
        if not _is_over(bay):
            yield box_polygon((left, bottom, left + (right - left) * min(1.0, bay["limit_fraction"]), top))


def _words(bay: Bay, box: Box, scale: float) -> Iterator[Text]:
    """The share of the limit, with the name of the limit where there is room."""
    left, bottom, right, top = box
    share = f"{number(100.0 * bay['limit_fraction'])} %"
    for words in (f"{share} of the limit of {bay['governs'].replace('_', ' ')}", f"{share} of {bay['governs']}", share):
        if width_of(words, LETTERS_SMALL) * scale <= right - left:
            yield Text(((left + right) / 2.0, (bottom + top) / 2.0), words, LETTERS_SMALL, "middle", middle=True)
            return


def _blank(text: Text, scale: float) -> Item:
    long, high = width_of(text.words, text.height) * scale, (text.height + 0.6) * scale
    return box_polygon(box_around(text.at, long, high))


def bar_entry() -> Entry:
    """A bar."""
    frame, share = box_polygon((0.0, -1.6, SYMBOL, 1.6)), box_polygon((0.0, -1.6, 0.7 * SYMBOL, 1.6))
    return Entry((("bay-frame", BAY_FRAME, frame), ("bay-share", BAY_WITHIN, share)), "bay: share of its limit")


def over_entry() -> Entry:
    """A bar beyond its limit."""
    box = (0.0, -1.6, SYMBOL, 1.6)
    frame, strokes = box_polygon(box), Strokes(tuple(hatched(box, _HATCH)))
    return Entry((("bay-frame", BAY_FRAME, frame), ("bay-over", KEPT, strokes)), "bay over its limit")


def any_over(bays: Sequence[Bay]) -> bool:
    """Whether a bay exceeds its limit."""
    return any(map(_is_over, bays))
