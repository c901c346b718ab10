"""Levels of a wall that want a course line: heads, sills, level tops and level feet.

An arch has no level head, and nothing is ripped at its springing, since courses pass beside it and are cut to the curve: only
its sill counts, and of a round opening nothing. A threshold on the foot of the wall is counted with that foot.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from storeyrod.geometry.ticks import ticks
from storeyrod.wall.checks import OFF_COURSE_MM
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge

What = Literal["head", "sill", "top", "base"]

ON_COURSE = ticks(OFF_COURSE_MM)
"""Ticks: a level so far from a course line is on it, and so little of a slip is neither cut off nor laid."""


@dataclass(frozen=True, slots=True)
class WallLevel:
    """A level of one elevation: what stands at it, its height in ticks, and its member of the request."""

    y: float
    elevation: str
    what: What
    opening: str | None
    pointer: str

    @property
    def wall_above(self) -> bool:
        """Whether slips start at the level; below sills and tops they end at it."""
        return self.what in ("head", "base")

    @property
    def name(self) -> str:
        """What stands at the level, in words."""
        what = "foot" if self.what == "base" else self.what
        return f"{self.elevation}: {what}" if self.opening is None else f"{self.elevation}: {what} of {self.opening}"

    def ripped(self, gauge: Gauge) -> float | None:
        """Height of the slip that is ripped to meet the level; none where it is on course or in a bed joint."""
        if abs(gauge.off_course(self.y)) <= ON_COURSE:
            return None
        into = self.y - gauge.bottom(gauge.standing_at(self.y))
        left = gauge.height - into if self.wall_above else into
        return left if ON_COURSE < left < gauge.height - ON_COURSE else None


def levels_of(faces: Sequence[Face]) -> tuple[WallLevel, ...]:
    """Levels of all faces, from the lowest; those alike by the name of their elevation, so that its place counts nothing."""
    found = {level for face in faces for level in _levels(face)}
    return tuple(sorted(found, key=lambda one: (one.y, one.elevation, one.what, one.opening or "")))


def _levels(face: Face) -> Iterator[WallLevel]:
    edges = [(a, b) for a, b in pairwise((*face.outline, face.outline[0])) if a[1] == b[1]]
    feet = [(a[0], b[0], a[1]) for a, b in edges if a[0] < b[0]]
    for opening in face.openings:
        for head in opening.heads:
            yield WallLevel(head.height, face.id, "head", opening.id, opening.pointer)
        for sill in opening.sills:
            left, right = sill.span
            if not any(y == sill.height and start < right and left < end for start, end, y in feet):
                yield WallLevel(sill.height, face.id, "sill", opening.id, opening.pointer)
    for a, b in edges:
        if b[0] < a[0]:
            yield WallLevel(a[1], face.id, "top", None, face.pointer)
    for _, _, height in face.base_runs():
        yield WallLevel(height, face.id, "base", None, face.pointer)
