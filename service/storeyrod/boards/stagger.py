"""Stagger: how far the seams of neighbouring rows keep apart where they meet on one line."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from storeyrod.boards.rows import Row
from storeyrod.boards.runs import Band
from storeyrod.geometry.intervals import Interval, clip


@dataclass(frozen=True, slots=True)
class SeamLine:
    """The seams of one row of a face, bay by bay: those that reach its foot and those that reach its head, in ticks."""

    row: Row
    at_foot: tuple[tuple[float, ...], ...]
    at_head: tuple[tuple[float, ...], ...]


def seam_line(band: Band, seams: Sequence[Sequence[float]]) -> SeamLine:
    """Which seams of a row meet the rows below and above: there is wall on both sides of them at that line."""
    foot, head = band.at_foot, band.at_head
    return SeamLine(band.row, tuple(_meeting(bay, foot) for bay in seams), tuple(_meeting(bay, head) for bay in seams))


def _meeting(seams: Sequence[float], reached: Sequence[Interval]) -> tuple[float, ...]:
    return tuple(
        seam for seam in seams if any(low < seam < high for low, high in clip(reached, seam - 1.0, seam + 1.0))
    )


@dataclass(frozen=True, slots=True)
class SeamPair:
    """A seam and its nearest one in the row below, in ticks."""

    row: int
    x: float
    level: float
    distance: float


def closest_seams(below: SeamLine, above: SeamLine) -> Iterator[SeamPair]:
    """Every seam that reaches the line between two rows, with the nearest one of the other row in the same bay."""
    for lower, upper in zip(below.at_head, above.at_foot, strict=True):
        for seam in upper:
            index = bisect_left(lower, seam)
            gaps = [abs(seam - other) for other in lower[max(0, index - 1) : index + 1]]
            if gaps:
                yield SeamPair(above.row.number, seam, above.row.bottom, min(gaps))
