"""Where a table stands beside a wall: at its right or below it, whichever leaves the wall the better sheet."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Point
from storeyrod.drawings.paper import PAPERS, SCALES, Paper, Room, paper_and_scale

_GAP: Final = 2.0
_INSET: Final = 5.0
_HEADING: Final = 15.0
"""Room for the heading above, mm."""


@dataclass(frozen=True, slots=True)
class Arranged:
    """A sheet, its scale, the room around the wall, and the upper left corner of the table."""

    paper: Paper
    scale: int
    around: Room
    table: Point
    below: bool
    """Whether the table stands below."""


def arranged(
    size: tuple[float, float],
    around: Room,
    table: tuple[float, float],
    scale: int | None,
    pointer: str,
    readable: float,
    flat: tuple[float, float] | None = None,
    scales: Sequence[int] = SCALES,
    of: str = "wall",
) -> Arranged:
    """The smallest sheet on which a wall of a size in mm is readable with its table, then the largest scale on it.

    The table, sized in mm of paper, must stand on the smallest paper by itself; ``flat`` is its size where it stands below.
    Raises ``sheet-too-small`` where neither place leaves the wall room at the scale asked for.
    """
    flat = flat or table
    beside = _beside(around, table, flat)
    if scale is not None:
        beside = [one for one in beside if PAPERS[-1].takes(*size, one, scale)] or beside[:1]
    found = [
        (*paper_and_scale(*size, one, scale, pointer, readable, scales, of), one, index)
        for index, one in enumerate(beside)
    ]
    paper, chosen, room, _ = min(found, key=lambda one: (one[1] > readable, one[0].width, one[1], one[3]))
    below = room[1] != around[1]
    return Arranged(paper, chosen, room, _corner(paper, flat if below else table, below=below), below)


def _beside(around: Room, table: tuple[float, float], flat: tuple[float, float]) -> list[Room]:
    """Room with the table at the right, and with it below."""
    left, bottom, right, top = around
    return [
        (left, bottom, right + table[0] + _GAP + _INSET, top),
        (left, bottom + flat[1] + _GAP + _INSET, right, top),
    ]


def _corner(paper: Paper, table: tuple[float, float], *, below: bool) -> Point:
    left, bottom, right, top = paper.field
    if below:
        return left + _INSET, bottom + _INSET + table[1]
    return right - _INSET - table[0], top - _HEADING
