"""Cutting plans checked from outside: cuts are sawn again, one after the other, and nothing is taken from the plan on trust."""

from collections import Counter
from typing import NamedTuple

from storeyrod.cutting.stock import Edges


class Sawn(NamedTuple):
    x: float
    y: float
    width: float
    height: float


def saw_again(blank, sheet, kerf):
    """Parts left when all cuts are done, and the area that went into kerfs. Every cut has to run through a part from edge to edge."""
    parts, lost = [Sawn(0.0, 0.0, blank.width, blank.height)], 0.0
    for cut in sheet.cuts:
        owners = [part for part in parts if _runs_through(cut, part, kerf)]
        assert len(owners) == 1, (cut, parts)
        parts.remove(owners[0])
        sides = _sides(owners[0], cut, kerf)
        parts += sides
        lost += owners[0].width * owners[0].height - sum(side.width * side.height for side in sides)
    return parts, lost


def _runs_through(cut, part, kerf):
    if cut.upright:
        across, start, end = (part.y, part.y + part.height), part.x, part.x + part.width
    else:
        across, start, end = (part.x, part.x + part.width), part.y, part.y + part.height
    return (cut.start, cut.end) == across and start - kerf < cut.at < end


def _sides(part, cut, kerf):
    far = cut.at + kerf
    if cut.upright:
        sides = [
            Sawn(part.x, part.y, cut.at - part.x, part.height),
            Sawn(far, part.y, part.x + part.width - far, part.height),
        ]
    else:
        sides = [
            Sawn(part.x, part.y, part.width, cut.at - part.y),
            Sawn(part.x, far, part.width, part.y + part.height - far),
        ]
    return [side for side in sides if side.width > 0.0 and side.height > 0.0]


def kept(edges, part, blank):
    """Factory edges that a part of a blank still has."""
    return Edges(
        edges.left and part.x == 0.0,
        edges.right and part.x + part.width == blank.width,
        edges.bottom and part.y == 0.0,
        edges.top and part.y + part.height == blank.height,
    )


def check(plan, items, board, stock, saw):
    """Assert that a plan gives every piece once, as it is needed, from blanks that are sawn as it says."""
    blanks = [board, *stock]
    given, taken = Counter(), Counter()
    for sheet in plan.sheets:
        blank = blanks[sheet.blank]
        taken[sheet.blank] += sheet.count
        parts, lost = saw_again(blank, sheet, saw.kerf)
        pieces = [Sawn(place.x, place.y, items[place.item].width, items[place.item].height) for place in sheet.places]
        rests = [Sawn(rest.x, rest.y, rest.width, rest.height) for rest in sheet.rests]
        assert Counter(parts) == Counter(pieces + rests)
        assert sum(p.width * p.height for p in pieces + rests) + lost == blank.width * blank.height
        for place, piece in zip(sheet.places, pieces, strict=True):
            given[place.item] += sheet.count
            item = items[place.item]
            assert all(has or not need for need, has in zip(item.needs, kept(blank.edges, piece, blank), strict=True))
            if saw.rib_pitch is not None:
                over = (blank.phase + place.y - item.phase) % saw.rib_pitch
                assert min(over, saw.rib_pitch - over) <= 0.5
        assert all(rest.edges == kept(blank.edges, rest, blank) for rest in sheet.rests)
    assert given == Counter({index: item.count for index, item in enumerate(items) if item.count})
    assert all(taken[index + 1] <= blank.count for index, blank in enumerate(stock))
    assert taken[0] == plan.bought >= plan.lower_bound
    assert (plan.status == "proved") == (plan.bought == plan.lower_bound)
