"""The clear runs of a row on one face: where they begin and end, and what their seams have to respect."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.boards.rows import Ground, Row
from storeyrod.boards.seams import Run
from storeyrod.geometry.intervals import Interval, clip, union
from storeyrod.geometry.plane import Slab
from storeyrod.wall.face import Face, Side

HAIRLINE: Final = 1.0
"""One tick: lower slices lie between two corners of an arch that should be level, and their edges look plumb."""

_NOISE: Final = 1.0e-3
"""Ticks that a place on a rake may be out by calculation."""

_STARTING_ORDER = ("external_corner", "internal_corner", "movement_joint", "abutment", "free_end")


@dataclass(frozen=True, slots=True)
class Band:
    """One row of a face: what it has to cover, split at every corner height inside it."""

    row: Row
    ground: Ground
    slabs: Sequence[Slab]

    @property
    def at_foot(self) -> list[Interval]:
        """Where there is wall just above the foot of the row."""
        return union(run for slab in self.slabs if slab.bottom == self.row.bottom for run in slab.inner)

    @property
    def at_head(self) -> list[Interval]:
        """Where there is wall just below the head of the row."""
        return union(run for slab in self.slabs if slab.top == self.row.top for run in slab.inner)


def band_of(ground: Ground, row: Row) -> Band:
    """A row of a face."""
    return Band(row, ground, ground.clad.slabs(row.bottom, row.top))


@dataclass(frozen=True, slots=True)
class BayRun:
    """A run with the number of its bay, counted from 0 at the left, and its ends.

    In ``run`` the ends are whole ticks, rounded outwards: where they lie on rakes, the last digits of a float must not tell a
    wall from its mirror image.
    """

    bay: int
    left: float
    right: float
    run: Run


def start_of(face: Face) -> Side:
    """The end at which rows start with a board: a corner before any other end; of two like ends, that of the bond."""
    left, right = (_STARTING_ORDER.index(face.edge(side).kind) for side in ("left", "right"))
    if left == right:
        return face.elevation.bond_from
    return "right" if right < left else "left"


def opening_corners(face: Face) -> list[tuple[float, float]]:
    """Corners of the openings as boards are cut for them, as (height, place), from the lowest."""
    return sorted({(y, x) for opening in face.board_openings() for x, y in opening.corners})


def runs_of(
    band: Band,
    plain_shift: float,
    start: Side,
    corners: Sequence[tuple[float, float]],
    below: Sequence[Sequence[float]],
) -> list[BayRun]:
    """Runs of a row from left to right.

    ``plain_shift`` is how far the plain seams of this row lie from the end of the bay at which it starts; ``below`` holds the
    seams of the row below, bay by bay.
    """
    plumb = [slab for slab in band.slabs if slab.top - slab.bottom > HAIRLINE]
    starts = sorted({right for slab in plumb for _, _, right, top in slab.runs if right == top})
    ends = sorted({left for slab in plumb for left, top, _, _ in slab.runs if left == top})
    lowest, highest = bisect_left(corners, (band.row.bottom,)), bisect_right(corners, (band.row.top, math.inf))
    places = sorted({x for _, x in corners[lowest:highest]})
    footing = band.at_foot
    slots, substrate, found = band.ground.slots, band.ground.substrate, []
    for left, right in union(run for slab in band.slabs for run in slab.outer):
        bay = bisect_right(slots, left, key=lambda slot: slot.right)
        low, high = float(math.floor(left + _NOISE)), float(math.ceil(right - _NOISE))
        run = Run(
            low,
            high,
            _plain(band.ground, bay, plain_shift, start),
            (max(low, substrate[0]), min(high, substrate[1])),
            _inside(starts, left, right),
            _inside(ends, left, right),
            _inside(places, left, right),
            clip(footing, left, right),
            _inside(below[bay], left, right),
        )
        found.append(BayRun(bay, left, right, run))
    return found


def _inside(places: Sequence[float], left: float, right: float) -> list[float]:
    return list(places[bisect_right(places, left) : bisect_left(places, right)])


def _plain(ground: Ground, bay: int, shift: float, start: Side) -> float:
    """A plain seam: whole boards, or a half and whole boards, from the end of the bay at which rows start."""
    left, _, right, _ = ground.gross.box
    if start == "left":
        return (ground.slots[bay - 1].right if bay else left) + shift
    return (ground.slots[bay].left if bay < len(ground.slots) else right) - shift
