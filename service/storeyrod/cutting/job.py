"""What a search works on: classes of pieces, and blanks of which the first is the new board."""

from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.cutting.stock import Blank, Item, Saw


@dataclass(frozen=True, slots=True)
class Job:
    """Shapes with the pieces wanted of each, the board and behind it the offcuts at hand, and the saw."""

    shapes: tuple[Item, ...]
    blanks: tuple[Blank, ...]
    saw: Saw

    @property
    def all_wanted(self) -> "Wanted":
        """Everything, from all blanks."""
        return Wanted([shape.count for shape in self.shapes], [blank.count for blank in self.blanks])


@dataclass(slots=True)
class Wanted:
    """Pieces still wanted of each shape, and blanks still at hand of each kind (None: no end of them)."""

    pieces: list[int]
    blanks: list[int | None]

    def less(self, uses: Sequence[tuple[int, int]], blank: int, times: int) -> int:
        """Take blanks of one pattern, as many of those asked for as are at hand; pieces beyond the need are nobody's. How many it were."""
        at_hand = self.blanks[blank]
        if at_hand is not None:
            times = min(times, at_hand)
            self.blanks[blank] = at_hand - times
        for shape, count in uses:
            self.pieces[shape] = max(0, self.pieces[shape] - times * count)
        return times

    def copy(self) -> "Wanted":
        """The same, to be worked on."""
        return Wanted(list(self.pieces), list(self.blanks))
