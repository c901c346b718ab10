"""What cutting starts from: pieces wanted, blanks to cut them from, and the rules of the saw. Lengths are ticks."""

from dataclasses import dataclass
from typing import Final, Literal, NamedTuple

Effort = Literal["quick", "standard", "thorough"]


class Edges(NamedTuple):
    """Which of the four edges are factory edges (of a blank), or have to be (of a piece)."""

    left: bool
    right: bool
    bottom: bool
    top: bool


FACTORY: Final = Edges(True, True, True, True)
NO_EDGE: Final = Edges(False, False, False, False)


@dataclass(frozen=True, slots=True)
class Item:
    """Rectangles that are cut alike: pieces, or the boxes around shaped ones.

    ``phase`` is the height of the foot over the rib line at or below it; 0 where the foot lies on one.
    """

    width: float
    height: float
    needs: Edges
    phase: float
    count: int


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle to cut from: a new board, of which there is no end (``count`` None), or an offcut at hand.

    ``phase`` is the height of its foot over the rib line at or below it, as with an item.
    """

    width: float
    height: float
    edges: Edges
    phase: float
    count: int | None


@dataclass(frozen=True, slots=True)
class Saw:
    """What a cut costs, and the distance of rib lines: a piece lies at its own phase over one, or anywhere when that is None."""

    kerf: float
    rib_pitch: float | None
