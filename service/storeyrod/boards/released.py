"""Rectangles that notches, holes and rakes set free inside the box of a piece, to be used for other pieces.

They are looked for between course lines, corner levels and the ends of the box, largest first, and stand a kerf away from the
piece where they are sawn off it.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, NamedTuple

from storeyrod.boards.pieces import Piece
from storeyrod.geometry.intervals import Interval, difference, intersection

MOST_RECTANGLES: Final = 4
"""Rectangles looked for in one box: as many as there are sides to a hole, or corners to a cross."""


class Released(NamedTuple):
    """A rectangle in ticks from the lower left corner of a box, and which of its sides lie on sides of the box."""

    x: float
    y: float
    width: float
    height: float
    left: bool
    right: bool
    bottom: bool
    top: bool


@dataclass(frozen=True, slots=True)
class Worth:
    """What makes a rectangle worth keeping, and the kerf that sets it free, in ticks; ``pitch`` is a course."""

    width: float
    height: float
    kerf: float
    pitch: float


def released_by(piece: Piece, worth: Worth) -> tuple[Released, ...]:
    """Rectangles that a piece sets free, largest first; none for a rectangle."""
    if not piece.part.rings:
        return ()
    levels = _levels(piece, worth.pitch)
    free = [difference([(piece.left, piece.right)], piece.region.any_runs(low, high)) for low, high in pairwise(levels)]
    found: list[Released] = []
    while len(found) < MOST_RECTANGLES:
        options = list(_rectangles(piece, levels, free, worth))
        if not options:
            break
        best, (low, high), taken = max(options, key=lambda option: (option[0].width * option[0].height, option[0]))
        found.append(best)
        free[low:high] = [difference(runs, [taken]) for runs in free[low:high]]
    return tuple(found)


def _levels(piece: Piece, pitch: float) -> list[float]:
    """Ends of the box, course lines in it, and the heights of level edges."""
    levels = {piece.bottom, piece.top}
    line = piece.row.bottom
    while line < piece.top:
        levels.add(line)
        line += pitch
    for ring in piece.part.rings:
        levels |= {y for (_, y), (_, other) in pairwise((*ring, ring[0])) if y == other}
    return sorted(level for level in levels if piece.bottom <= level <= piece.top)


def _rectangles(
    piece: Piece, levels: Sequence[float], free: Sequence[Sequence[Interval]], worth: Worth
) -> Iterator[tuple[Released, tuple[int, int], Interval]]:
    """Every rectangle between two levels that is worth keeping, with the levels and the run that it takes."""
    for low in range(len(free)):
        clear = list(free[low])
        for high in range(low + 1, len(levels)):
            clear = intersection(clear, free[high - 1])
            for run in clear:
                made = _shrunk(piece, run, (levels[low], levels[high]), worth.kerf)
                if made.width >= worth.width and made.height >= worth.height:
                    yield made, (low, high), run


def _shrunk(piece: Piece, run: Interval, band: Interval, kerf: float) -> Released:
    """The rectangle less a kerf at every side that is not one of the box, in whole ticks: corners on rakes lie between them."""
    at = (run[0] == piece.left, run[1] == piece.right, band[0] == piece.bottom, band[1] == piece.top)
    left, right, bottom, top = (0.0 if side else kerf for side in at)
    x, y = math.ceil(run[0] - piece.left + left), math.ceil(band[0] - piece.bottom + bottom)
    width, height = math.floor(run[1] - piece.left - right) - x, math.floor(band[1] - piece.bottom - top) - y
    return Released(float(x), float(y), float(width), float(height), *at)
