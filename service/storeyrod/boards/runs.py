"""The clear runs of a row on one face: where they begin and end, and what their seams have to respect."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from typing import Final, NamedTuple

from storeyrod.boards.first_widths import Run
from storeyrod.boards.rows import Ground, Row
from storeyrod.geometry.intervals import Interval, clip, intersection, union
from storeyrod.geometry.plane import Part, Slab
from storeyrod.geometry.stacked import Level, stacked_parts
from storeyrod.wall.face import Face, Side

HAIRLINE: Final = 1.0
"""One tick: lower slices lie between two corners of an arch that should be level, and their edges look plumb."""

_NOISE: Final = 1.0e-3
"""Ticks that a place on a rake may be out by calculation."""

_STARTING_ORDER = ("external_corner", "internal_corner", "movement_joint", "abutment", "free_end")


class Band(NamedTuple):
    """One row of a face: what it has to cover, split at every corner height inside it.

    ``outer`` is where there is wall at any height of the row, ``clear`` where there is at every height, ``at_foot`` and
    ``at_head`` where there is just inside its lower and upper line. ``starts`` and ``ends`` are where wall begins or stops
    sideways at some height. ``levels`` are slices with plumb edges; None where an edge is raked.
    """

    row: Row
    ground: Ground
    slabs: Sequence[Slab]
    outer: Sequence[Interval]
    clear: Sequence[Interval]
    at_foot: Sequence[Interval]
    at_head: Sequence[Interval]
    starts: Sequence[float]
    ends: Sequence[float]
    levels: Sequence[Level] | None

    @property
    def is_plain(self) -> bool:
        """Whether the wall is the same at every height of the row."""
        return self.clear is self.outer

    def parts(self, left: float, right: float) -> list[Part]:
        """Connected parts of a column of the row, from left to right."""
        stacked = stacked_parts(self.levels, left, right) if self.levels is not None else None
        return stacked if stacked is not None else self.ground.clad.column(self.slabs, left, right)


def band_of(ground: Ground, row: Row) -> Band:
    """A row of a face."""
    slabs = ground.clad.slabs(row.bottom, row.top)
    outers = [_outer(slab) for slab in slabs]
    if len(slabs) == 1 and slabs[0].bottom == row.bottom and slabs[0].top == row.top and outers[0][1]:
        runs = outers[0][0]
        return Band(row, ground, slabs, runs, runs, runs, runs, (), (), None)
    inners = [runs if plumb else slab.inner for slab, (runs, plumb) in zip(slabs, outers, strict=True)]
    at_foot = inners[0] if slabs and slabs[0].bottom == row.bottom else []
    at_head = inners[-1] if slabs and slabs[-1].top == row.top else []
    plumb = [slab for slab in slabs if slab.top - slab.bottom > HAIRLINE]
    return Band(
        row,
        ground,
        slabs,
        union(run for runs, _ in outers for run in runs),
        _clear(row, slabs, inners),
        at_foot,
        at_head,
        sorted({right for slab in plumb for _, _, right, top in slab.runs if right == top}),
        sorted({left for slab in plumb for left, top, _, _ in slab.runs if left == top}),
        [(slab.bottom, slab.top, runs) for slab, runs in zip(slabs, inners, strict=True)]
        if all(is_plumb for _, is_plumb in outers)
        else None,
    )


def _outer(slab: Slab) -> tuple[list[Interval], bool]:
    """Where any height of a slab lies in the wall, and whether all its edges are plumb."""
    if slab.is_plumb:
        return [(left, right) for left, _, right, _ in slab.runs], True
    return slab.outer, False


def _clear(row: Row, slabs: Sequence[Slab], inners: Iterable[Sequence[Interval]]) -> Sequence[Interval]:
    reached, common = row.bottom, None
    for slab, inner in zip(slabs, inners, strict=True):
        if slab.bottom != reached:
            return ()
        common = inner if common is None else intersection(common, inner)
        reached = slab.top
    return common if common is not None and reached == row.top else ()


class BayRun(NamedTuple):
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
    plain: Sequence[float],
    corners: Sequence[tuple[float, float]],
    below: Sequence[Sequence[float]],
) -> list[BayRun]:
    """Runs of a row from left to right.

    ``plain`` is a plain seam of every bay in this row; ``below`` holds the seams of the row below, bay by bay.
    """
    row, substrate, slots = band.row, band.ground.substrate, band.ground.slots
    lowest, highest = bisect_left(corners, (row.bottom,)), bisect_right(corners, (row.top, math.inf))
    places = sorted({x for _, x in corners[lowest:highest]})
    found, bay = [], 0
    for left, right in band.outer:
        while bay < len(slots) and slots[bay].right <= left:
            bay += 1
        low, high = float(math.floor(left + _NOISE)), float(math.ceil(right - _NOISE))
        run = Run(
            low,
            high,
            plain[bay],
            (max(low, substrate[0]), min(high, substrate[1])),
            _inside(band.starts, left, right),
            _inside(band.ends, left, right),
            _inside(places, left, right),
            clip(band.at_foot, left, right),
            _inside(below[bay], left, right),
            row.top - row.bottom,
        )
        found.append(BayRun(bay, left, right, run))
    return found


def _inside(places: Sequence[float], left: float, right: float) -> Sequence[float]:
    return places[bisect_right(places, left) : bisect_left(places, right)] if places else ()


def plain_seams(ground: Ground, board: float, start: Side, *, half: bool) -> list[float]:
    """A plain seam of every bay: whole boards, or a half and whole boards, from the end of the bay at which rows start."""
    left, _, right, _ = ground.gross.box
    shift = float(round(board / 2.0)) if half else 0.0
    if start == "left":
        return [place + shift for place in (left, *(slot.right for slot in ground.slots))]
    return [place - shift for place in (*(slot.left for slot in ground.slots), right)]
