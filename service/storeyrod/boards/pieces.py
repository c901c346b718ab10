"""One piece of board on the wall: what it is called, its place, its shape, and which of its ends meet a neighbour."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from storeyrod.boards.arms import least_height, least_width
from storeyrod.boards.meeting import meets
from storeyrod.boards.rows import Row
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Part, Region, Ring

Kind = Literal["full", "cut", "shaped", "raked"]


class Piece(NamedTuple):
    """A connected part of a board on the wall, in ticks.

    ``id`` is elevation, row and position: rows count from 0 at the lowest of the building, positions from 1 at the left.
    ``meets_left`` and ``meets_right`` say whether that end stands at a seam, where a profiled side needs its factory edge;
    ``beneath`` and ``over`` where there is wall on the other side of its row's lower and upper line.
    """

    elevation: str
    row: Row
    position: int
    bay: int
    part: Part
    kind: Kind
    meets_left: bool
    meets_right: bool
    beneath: Sequence[Interval] = ()
    over: Sequence[Interval] = ()

    @property
    def meets_below(self) -> bool:
        """Whether its foot stands on a board of the row below."""
        return self.part.bottom == self.row.bottom and meets(self.part, self.row.bottom, self.beneath)

    @property
    def meets_above(self) -> bool:
        """Whether its head carries a board of the row above."""
        return self.part.top == self.row.top and meets(self.part, self.row.top, self.over)

    @property
    def id(self) -> str:
        """Elevation, row and position; the last two are digits, so ids with dashes in them stay apart."""
        return f"{self.elevation}-{self.row.number:02d}-{self.position:02d}"

    @property
    def left(self) -> float:
        """Left end."""
        return self.part.left

    @property
    def right(self) -> float:
        """Right end."""
        return self.part.right

    @property
    def bottom(self) -> float:
        """Foot."""
        return self.part.bottom

    @property
    def top(self) -> float:
        """Head."""
        return self.part.top

    @property
    def width(self) -> float:
        """Width of the bounding box."""
        return self.part.right - self.part.left

    @property
    def height(self) -> float:
        """Height of the bounding box."""
        return self.part.top - self.part.bottom

    @property
    def lift(self) -> float:
        """Height of its foot over the foot of the board it is cut from: its place in the row, so that ribs stay in line."""
        return self.part.bottom - self.row.bottom

    @property
    def shape(self) -> tuple[Ring, ...]:
        """Rings counted from the lower left corner of the bounding box; none for a rectangle."""
        left, bottom = self.part.left, self.part.bottom
        return tuple([tuple([(x - left, y - bottom) for x, y in ring]) for ring in self.part.rings])

    @property
    def region(self) -> Region:
        """Its area."""
        return Region(self.part.outline)

    @property
    def narrowest(self) -> float:
        """Least width at any height; of a raked piece, whose tip has none, the width of the bounding box."""
        return least_width(self.part.rings) if self.kind == "shaped" else self.width

    @property
    def thinnest(self) -> float:
        """Least width of a leg or height of an arm of a shaped piece; of other pieces their least side."""
        if self.kind != "shaped":
            return min(self.width, self.height)
        return min(self.narrowest, least_height(self.part.rings))


def kind_of(part: Part, length: float, height: float) -> Kind:
    """full: a whole board; cut: a smaller rectangle; shaped: with square-cut notches or holes; raked: with a sloping or curved cut."""
    if part.is_rectangle:
        return "full" if part.right - part.left == length and part.top - part.bottom == height else "cut"
    return "shaped" if part.is_axis_aligned else "raked"
