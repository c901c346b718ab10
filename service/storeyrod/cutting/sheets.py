"""Patterns with real pieces in them: each class gives its items out in the order listed, and boards alike are one sheet."""

from collections import Counter
from collections.abc import Sequence

from storeyrod.cutting.demand import Demand
from storeyrod.cutting.lie import Part
from storeyrod.cutting.pattern import Cutting, Pattern
from storeyrod.cutting.plan import Place, Sheet
from storeyrod.cutting.sawing import Sawing, sawing_of
from storeyrod.cutting.stock import Blank, Item, Saw


def sheets_of(
    cutting: Cutting, demand: Demand, items: Sequence[Item], blanks: Sequence[Blank], saw: Saw
) -> tuple[Sheet, ...]:
    """Every blank cut, those that give most pieces of a kind first."""
    left = {index: items[index].count for members in demand.members for index in members}
    queues = [list(reversed(members)) for members in demand.members]
    found: dict[tuple[int, tuple[Place, ...]], int] = {}
    sawings: dict[tuple[int, tuple[Place, ...]], Sawing] = {}
    for pattern, count in _in_order(cutting):
        sawing = _sawing(pattern, demand, blanks, saw)
        for places, times in _given_out(pattern, count, queues, left):
            key = pattern.blank, places
            found[key] = found.get(key, 0) + times
            sawings[key] = sawing
    return tuple(
        Sheet(blank, count, places, tuple(sawings[blank, places].cuts), tuple(sawings[blank, places].rests))
        for (blank, places), count in found.items()
    )


def _in_order(cutting: Cutting) -> list[tuple[Pattern, int]]:
    merged: Counter[Pattern] = Counter()
    for pattern, count in cutting.used:
        merged[pattern] += count
    return sorted(merged.items(), key=lambda use: (use[0].blank, -use[1], use[0].places))


def _sawing(pattern: Pattern, demand: Demand, blanks: Sequence[Blank], saw: Saw) -> Sawing:
    shapes = demand.shapes
    pieces = [Part(p.x, p.y, shapes[p.item].width, shapes[p.item].height) for p in pattern.places]
    return sawing_of(blanks[pattern.blank], pieces, saw.kerf)


def _given_out(
    pattern: Pattern, count: int, queues: list[list[int]], left: dict[int, int]
) -> list[tuple[tuple[Place, ...], int]]:
    """The pattern with items for classes: as many blanks at once as the items at the head of their queues last for."""
    made: list[tuple[tuple[Place, ...], int]] = []
    while count:
        times = min(count, *(left[queues[shape][-1]] // used for shape, used in pattern.uses))
        places = [_taken(place, max(1, times), queues, left) for place in pattern.places]
        made.append((tuple(places), max(1, times)))
        count -= max(1, times)
    return made


def _taken(place: Place, times: int, queues: list[list[int]], left: dict[int, int]) -> Place:
    index = queues[place.item][-1]
    left[index] -= times
    if not left[index]:
        queues[place.item].pop()
    return place._replace(item=index)
