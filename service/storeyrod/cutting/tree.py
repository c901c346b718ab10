"""A pattern as a tree of cuts, and how it is drawn into a real blank: exactly, whatever was rounded when it was found."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple, TypeAlias

from storeyrod.cutting.lie import Part, lie, whole
from storeyrod.cutting.pattern import Pattern
from storeyrod.cutting.plan import Place
from storeyrod.cutting.stock import Blank, Item, Saw

Tree: TypeAlias = "int | Join | None"
"""A class of pieces, two trees parted by a cut, or nothing."""


class Join(NamedTuple):
    """Two trees beside each other (an upright cut between them), or one above the other."""

    upright: bool
    first: Tree
    second: Tree


def drawn(tree: Tree, index: int, blank: Blank, shapes: Sequence[Item], saw: Saw) -> Pattern | None:
    """The pattern of a tree, without pieces that find no room; none where none does."""
    drawing = _Drawing(blank, shapes, saw)
    drawing.draw(tree, whole(blank))
    return Pattern(index, tuple(sorted(drawing.places))) if drawing.places else None


class _Reach(NamedTuple):
    right: float
    top: float


@dataclass(slots=True)
class _Drawing:
    blank: Blank
    shapes: Sequence[Item]
    saw: Saw
    places: list[Place] = field(default_factory=list)

    def draw(self, tree: Tree, part: Part) -> _Reach | None:
        """Lay a tree into a part as far left and as low as it goes, and return how far it reaches."""
        if tree is None or part.width <= 0.0 or part.height <= 0.0:
            return None
        if isinstance(tree, int):
            return self._piece(tree, part)
        first = self.draw(tree.first, part)
        second = self.draw(tree.second, self._beyond(part, first, upright=tree.upright))
        if first is None or second is None:
            return first or second
        return _Reach(max(first.right, second.right), max(first.top, second.top))

    def _piece(self, shape: int, part: Part) -> _Reach | None:
        item = self.shapes[shape]
        spot = lie(item, part, self.blank, self.saw)
        if spot is None:
            return None
        self.places.append(Place(shape, *spot))
        return _Reach(spot[0] + item.width, spot[1] + item.height)

    def _beyond(self, part: Part, reach: _Reach | None, *, upright: bool) -> Part:
        if reach is None:
            return part
        if upright:
            x = reach.right + self.saw.kerf
            return Part(x, part.y, part.x + part.width - x, part.height)
        y = reach.top + self.saw.kerf
        return Part(part.x, y, part.width, part.y + part.height - y)
