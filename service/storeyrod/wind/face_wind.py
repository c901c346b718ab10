"""What wind does to a face: rectangles with the greatest suction and pressure of all directions, in ticks."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from storeyrod.findings import Finding
from storeyrod.wall.face import Face
from storeyrod.wind.site_models import SideName


@dataclass(frozen=True, slots=True)
class WindPatch:
    """A rectangle of a face with one governing suction and one governing pressure, both net, positive and characteristic, in Pa.

    ``zone`` and ``direction`` are those of the suction, which may carry the step of the trace that gave it.
    """

    left: float
    right: float
    bottom: float
    top: float
    zone: str
    direction: SideName
    suction: float
    pressure: float


class WindBand(NamedTuple):
    """Wind between two levels of a face: where the strongest patch changes, from the left, and which it is."""

    starts: tuple[float, ...]
    strongest: tuple[WindPatch, ...]

    def governing(self, left: float, right: float) -> WindPatch:
        """The patch of greatest suction between two plumb lines, or the nearest one beside them."""
        first, end = bisect_right(self.starts, left) - 1, bisect_left(self.starts, right)
        if end <= first + 1:
            return self.strongest[max(0, first)]
        return max(self.strongest[max(0, first) : end], key=_suction)


@dataclass(frozen=True)
class FaceWind:
    """Wind on one face: disjoint patches in rows that cover the box round its outline up to ``assessed_to``, where a parapet starts."""

    face: Face
    patches: tuple[WindPatch, ...]
    assessed_to: float | None = None

    def governing(self, left: float, right: float, bottom: float, top: float) -> WindPatch | None:
        """The patch of greatest suction of those that a rectangle touches, or that lie nearest; none where wind was not assessed."""
        band = self.band(bottom, top)
        return band.governing(left, right) if band is not None else None

    def band(self, bottom: float, top: float) -> WindBand | None:
        """Wind between two levels, for the many pieces of a row; none where it was not assessed."""
        if not self.patches or (self.assessed_to is not None and top > self.assessed_to):
            return None
        first = max(0, bisect_right(self._feet, bottom) - 1)
        end = max(first + 1, bisect_left(self._feet, top))
        if (first, end) not in self._bands:
            self._bands[first, end] = self._band(self._feet[first:end])
        return self._bands[first, end]

    @cached_property
    def _feet(self) -> list[float]:
        """Where rows of patches start."""
        return sorted({patch.bottom for patch in self.patches})

    @cached_property
    def _bands(self) -> dict[tuple[int, int], WindBand]:
        """Bands asked for so far, by the first of their rows and the one after the last."""
        return {}

    def _band(self, feet: Sequence[float]) -> WindBand:
        rows = [[patch for patch in self.patches if patch.bottom == foot] for foot in feet]
        starts = sorted({patch.left for row in rows for patch in row})
        strongest = [max((_at(row, start) for row in rows), key=_suction) for start in starts]
        return WindBand(tuple(starts), tuple(strongest))


def _suction(patch: WindPatch) -> float:
    return patch.suction


def _at(row: Sequence[WindPatch], x: float) -> WindPatch:
    """The patch of a row that starts at x or last before it, or the first."""
    started = [patch for patch in row if patch.left <= x]
    return started[-1] if started else row[0]


@dataclass(frozen=True, slots=True)
class WindPlan:
    """Wind on all faces in request order, and what was found."""

    faces: tuple[FaceWind, ...]
    findings: tuple[Finding, ...] = ()
