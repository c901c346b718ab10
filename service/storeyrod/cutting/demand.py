"""What is wanted, whatever the order it was listed in: equal items made one class, classes largest first."""

from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.cutting.stock import Item


@dataclass(frozen=True, slots=True)
class Demand:
    """Classes of equal items with the pieces wanted of each, and which of the items listed make up each class."""

    shapes: tuple[Item, ...]
    members: tuple[tuple[int, ...], ...]

    @property
    def counts(self) -> list[int]:
        """Pieces wanted of each class."""
        return [shape.count for shape in self.shapes]


def demand_of(items: Sequence[Item]) -> Demand:
    """Items that are wanted at all, in classes."""
    members: dict[Item, list[int]] = {}
    for index, item in enumerate(items):
        if item.count:
            members.setdefault(Item(item.width, item.height, item.needs, item.phase, 1), []).append(index)
    order = sorted(members, key=_size)
    counts = [sum(items[index].count for index in members[shape]) for shape in order]
    shapes = (Item(s.width, s.height, s.needs, s.phase, count) for s, count in zip(order, counts, strict=True))
    return Demand(tuple(shapes), tuple(tuple(members[shape]) for shape in order))


def _size(shape: Item) -> tuple[object, ...]:
    return (-shape.width * shape.height, -shape.height, -shape.width, shape.needs, shape.phase)
