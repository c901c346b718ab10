"""Where a table stands beside a wall: at its right or below it, whichever leaves the wall the better sheet."""

from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Point
from storeyrod.drawings.paper import PAPERS, Paper, Room, paper_and_scale

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


def arranged(
    size: tuple[float, float],
    around: Room,
    table: tuple[float, float],
    scale: int | None,
    pointer: str,
    readable: float,
) -> Arranged:
    """The smallest sheet on which a wall of a size in mm is readable with its table, then the largest scale on it.

    The table, sized in mm of paper, must stand on the smallest paper by itself.
    Raises ``sheet-too-small`` where neither place leaves the wall room at the scale asked for.
    """
    beside = _beside(around, table)
    if scale is not None:
        least = min(beside, key=lambda one: PAPERS[-1].least_scale(*size, one))
        beside = [one for one in beside if PAPERS[-1].takes(*size, one, scale)] or [least]
    found = [(*paper_and_scale(*size, one, scale, pointer, readable), one, index) for index, one in enumerate(beside)]
    paper, chosen, room, _ = min(found, key=lambda one: (one[1] > readable, one[0].width, one[1], one[3]))
    below = room[1] != around[1]
    return Arranged(paper, chosen, room, _corner(paper, table, below=below))


def _beside(around: Room, table: tuple[float, float]) -> list[Room]:
    """Room with the table at the right, and with it below."""
    left, bottom, right, top = around
    return [
        (left, bottom, right + table[0] + _GAP + _INSET, top),
        (left, bottom + table[1] + _GAP + _INSET, right, top),
    ]


def _corner(paper: Paper, table: tuple[float, float], *, below: bool) -> Point:
    left, bottom, right, top = paper.field
    if below:
        return left + _INSET, bottom + _INSET + table[1]
    return right - _INSET - table[0], top - _HEADING
