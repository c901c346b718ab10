"""Filling a blank piece by piece: the next piece in some order goes where it fits best, and what is left beside it splits in two."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from storeyrod.cutting.lie import Part, lie, whole
from storeyrod.cutting.pattern import Pattern
from storeyrod.cutting.plan import Place
from storeyrod.cutting.stock import Blank, Item, Saw

Numbers = NDArray[np.intp]

Split = Literal["level", "upright", "larger"]
"""Which cut beside a piece runs through: shelves, columns, or whichever leaves the larger rectangle."""


class Filler:
    """What is needed to fill blanks with pieces of given shapes."""

    def __init__(self, shapes: Sequence[Item], saw: Saw, split: Split) -> None:
        self.shapes, self.saw, self.split = shapes, saw, split
        self._widths = np.array([shape.width for shape in shapes])
        self._heights = np.array([shape.height for shape in shapes])

    def filled(self, index: int, blank: Blank, order: Numbers, left: Sequence[int]) -> Pattern | None:
        """A blank filled with pieces still wanted, none where nothing fits."""
        filling = _Filling(self, blank, [whole(blank)], [])
        waiting = order
        while len(waiting) and filling.free:
            waiting = self._that_fit(waiting, filling.free)
            for number, shape in enumerate(waiting.tolist()):
                if filling.takes(shape):
                    wanted = left[shape] - 1
                    while wanted and filling.takes(shape):
                        wanted -= 1
                    waiting = waiting[number + 1 :]
                    break
            else:
                break
        return Pattern(index, tuple(filling.places)) if filling.places else None

    def _that_fit(self, shapes: Numbers, free: Sequence[Part]) -> Numbers:
        """Shapes that are neither wider nor higher than every free part."""
        widths, heights = self._widths[shapes], self._heights[shapes]
        widest, highest = max(part.width for part in free), max(part.height for part in free)
        return shapes[(widths <= widest) & (heights <= highest)]


@dataclass(slots=True)
class _Filling:
    """A blank that is being filled: parts still free, and pieces in place."""

    filler: Filler
    blank: Blank
    free: list[Part]
    places: list[Place]

    def takes(self, shape: int) -> bool:
        """Whether a piece went into the free part whose shorter remainder is least."""
        item, saw = self.filler.shapes[shape], self.filler.saw
        width, height = item.width, item.height
        best: tuple[float, int, tuple[float, float]] | None = None
        for number, part in enumerate(self.free):
            if width <= part.width and height <= part.height:
                slack = min(part.width - width, part.height - height)
                if (best is None or slack < best[0]) and (spot := lie(item, part, self.blank, saw)) is not None:
                    best = slack, number, spot
        if best is None:
            return False
        _, number, (x, y) = best
        part = self.free.pop(number)
        self.places.append(Place(shape, x, y))
        self.free += beside(part, Part(x, y, width, height), saw.kerf, self.filler.split)
        return True


def beside(part: Part, piece: Part, kerf: float, split: Split) -> list[Part]:
    """What is left of a part round a piece that is cut out of it."""
    left, right = _sides(part.x, part.width, piece.x, piece.width, kerf)
    below, above = _sides(part.y, part.height, piece.y, piece.height, kerf)
    if split == "larger":
        largest_shelf = max(below[1], above[1]) * part.width
        largest_column = max(left[1], right[1]) * part.height
        split = "level" if largest_shelf >= largest_column else "upright"
    if split == "level":
        parts = [Part(part.x, y, part.width, height) for y, height in (below, above)]
        parts += [Part(x, piece.y, width, piece.height) for x, width in (left, right)]
    else:
        parts = [Part(x, part.y, width, part.height) for x, width in (left, right)]
        parts += [Part(piece.x, y, piece.width, height) for y, height in (below, above)]
    return [rest for rest in parts if rest.width > 0.0 and rest.height > 0.0]


def _sides(
    start: float, length: float, at: float, taken: float, kerf: float
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Start and length of what is left before and behind a piece; a kerf is lost at each cut."""
    behind = at + taken + kerf
    return (start, at - kerf - start), (behind, start + length - behind)
