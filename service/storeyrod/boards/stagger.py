"""Stagger: how far the seams of neighbouring rows keep apart where they meet on one line."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from storeyrod.boards.rows import Row
from storeyrod.boards.runs import Band
from storeyrod.geometry.intervals import Interval

Seams = Sequence[Sequence[float]]
"""Seams bay by bay, in ticks."""


class SeamLine(NamedTuple):
    """The seams of one row of a face: those that reach its foot and those that reach its head."""

    row: Row
    at_foot: Seams
    at_head: Seams


def seam_line(band: Band, seams: Seams) -> SeamLine:
    """Which seams of a row meet the rows below and above: there is wall on both sides of them at that line."""
    if band.is_plain:
        return SeamLine(band.row, seams, seams)
    return SeamLine(band.row, _meeting(seams, band.at_foot), _meeting(seams, band.at_head))


def _meeting(seams: Seams, reached: Sequence[Interval]) -> Seams:
    found, index, last = [], 0, len(reached)
    for bay in seams:
        kept = []
        for seam in bay:
            while index < last and reached[index][1] <= seam:
                index += 1
            if index < last and reached[index][0] < seam:
                kept.append(seam)
        found.append(kept)
    return found


class SeamPair(NamedTuple):
    """A seam and its nearest one in the row below, in ticks."""

    row: int
    x: float
    level: float
    distance: float


def close_seams(below: SeamLine, above: SeamLine, limit: float) -> Iterator[SeamPair]:
    """Seams that reach the line between two rows, nearer than a limit to one of the row below in the same bay."""
    if below.row.top != above.row.bottom:
        return
    for lower, upper in zip(below.at_head, above.at_foot, strict=True):
        for seam in upper:
            index = bisect_left(lower, seam)
            gap = lower[index] - seam if index < len(lower) else limit
            if index and seam - lower[index - 1] < gap:
                gap = seam - lower[index - 1]
            if gap < limit:
                yield SeamPair(above.row.number, seam, above.row.bottom, gap)
