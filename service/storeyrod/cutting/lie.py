"""Where a piece may lie in a part of a blank: at the edges that it needs, its foot at its own height over a rib line."""

from typing import Final, NamedTuple

from storeyrod.cutting.stock import Blank, Item, Saw

_HALF_A_TICK: Final = 0.5


class Part(NamedTuple):
    """A rectangle of a blank, from its lower left corner."""

    x: float
    y: float
    width: float
    height: float


def whole(blank: Blank) -> Part:
    """All of a blank."""
    return Part(0.0, 0.0, blank.width, blank.height)


def lie(item: Item, part: Part, blank: Blank, saw: Saw) -> tuple[float, float] | None:
    """Lower left corner of a piece as low and as far left as it may lie in a part, or at the right where it needs that edge."""
    if item.width > part.width or item.height > part.height:
        return None
    x = _across(item, part, blank)
    y = _up(item, part, blank, saw)
    return None if x is None or y is None else (x, y)


def _across(item: Item, part: Part, blank: Blank) -> float | None:
    needs, edges = item.needs, blank.edges
    if needs.left and not (edges.left and part.x == 0.0):
        return None
    if not needs.right:
        return part.x
    x = part.x + part.width - item.width
    at_right = edges.right and x + item.width == blank.width and not (needs.left and x != part.x)
    return x if at_right else None


def _up(item: Item, part: Part, blank: Blank, saw: Saw) -> float | None:
    needs, edges = item.needs, blank.edges
    if needs.bottom and not (edges.bottom and part.y == 0.0):
        return None
    if needs.top and not (edges.top and part.y + part.height == blank.height):
        return None
    low = part.y + part.height - item.height if needs.top else part.y
    y = foot(low, item.phase, blank, saw)
    fixed = needs.top or needs.bottom
    if (fixed and y != low) or (needs.top and needs.bottom and low != part.y):
        return None
    return y if y + item.height <= part.y + part.height else None


def foot(low: float, phase: float, blank: Blank, saw: Saw) -> float:
    """Lowest height from ``low`` on at which a piece of that phase may stand."""
    if saw.rib_pitch is None:
        return low
    over = (phase - blank.phase - low) % saw.rib_pitch
    return low if min(over, saw.rib_pitch - over) <= _HALF_A_TICK else low + over
