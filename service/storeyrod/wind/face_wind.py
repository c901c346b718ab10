"""What wind does to a face: rectangles with the greatest suction and pressure of all directions, in ticks."""

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from functools import cached_property

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


@dataclass(frozen=True)
class FaceWind:
    """Wind on one face: disjoint patches in rows that cover the box round its outline up to ``assessed_to``, where a parapet starts."""

    face: Face
    patches: tuple[WindPatch, ...]
    assessed_to: float | None = None

    def governing(self, left: float, right: float, bottom: float, top: float) -> WindPatch | None:
        """The patch of greatest suction of those that a rectangle touches, or that lie nearest; none where wind was not assessed."""
        if not self.patches or (self.assessed_to is not None and top > self.assessed_to):
            return None
        feet = self._feet
        first = max(0, bisect_right(feet, bottom) - 1)
        best: WindPatch | None = None
        for starts, row in self._rows[first : max(first + 1, bisect_left(feet, top))]:
            start = max(0, bisect_right(starts, left) - 1)
            for patch in row[start : max(start + 1, bisect_left(starts, right))]:
                if best is None or patch.suction > best.suction:
                    best = patch
        return best

    @cached_property
    def _rows(self) -> list[tuple[list[float], list[WindPatch]]]:
        """Rows of patches from the lowest, each with where its patches start."""
        rows: dict[float, list[WindPatch]] = {}
        for patch in self.patches:
            rows.setdefault(patch.bottom, []).append(patch)
        return [([patch.left for patch in row], row) for _, row in sorted(rows.items())]

    @cached_property
    def _feet(self) -> list[float]:
        """Where rows start."""
        return sorted({patch.bottom for patch in self.patches})


@dataclass(frozen=True, slots=True)
class WindPlan:
    """Wind on all faces in request order, and what was found."""

    faces: tuple[FaceWind, ...]
    findings: tuple[Finding, ...] = ()
