"""Courses as they are laid: whole units in runs and cut units, equal courses described once with their numbers.

Heights inside a course are measured from its foot, so that courses with the same pieces are the same whatever their number.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

from storeyrod.geometry.parts import Part
from storeyrod.wall.gauge import Gauge

PieceKind = Literal["stretcher", "header", "soldier", "voussoir"]


@dataclass(frozen=True, slots=True)
class Run:
    """Whole units of one kind at equal pitch: left end of the first, how many, pitch and length. Ticks."""

    x: float
    count: int
    pitch: float
    width: float
    kind: PieceKind

    @property
    def right(self) -> float:
        """Right end of the last unit."""
        return self.x + (self.count - 1) * self.pitch + self.width


class Cut(NamedTuple):
    """A cut unit: what is left of it in the wall. In a laid course its heights are measured from the foot of the course."""

    part: Part
    kind: PieceKind

    @property
    def width(self) -> float:
        """Length of the cut piece, over its bounding box."""
        return self.part.right - self.part.left

    @property
    def height(self) -> float:
        """Height of the cut piece, over its bounding box."""
        return self.part.top - self.part.bottom


class LaidCourse(NamedTuple):
    """What lies in a course: whole units in runs and cut units from left to right, how many are whole, the area of all, and the
    upright joints. Ticks.
    """

    height: float
    runs: tuple[Run, ...]
    cuts: tuple[Cut, ...]
    full_count: int
    face_area: float
    perp_area: float
    perp_length: float

    @property
    def has_pieces(self) -> bool:
        """Whether any unit, whole or cut, lies in it."""
        return bool(self.runs or self.cuts)


@dataclass(frozen=True, slots=True)
class EqualCourses:
    """Courses of a face in which the same pieces lie, and their numbers: equally far apart, from the lowest."""

    laid: LaidCourse
    numbers: range

    @property
    def count(self) -> int:
        """Courses."""
        return len(self.numbers)

    def written_out(self, gauge: Gauge) -> Iterator["Course"]:
        """Each of them on its own."""
        for number in self.numbers:
            foot = gauge.bottom(number)
            cuts = tuple(Cut(cut.part.lowered(-foot), cut.kind) for cut in self.laid.cuts)
            yield Course(number, foot, foot + self.laid.height, self.laid.runs, cuts)


@dataclass(frozen=True, slots=True)
class Course:
    """One course where it lies in the wall: number, foot and head of its slips, whole units in runs and cut units. Ticks."""

    number: int
    bottom: float
    top: float
    runs: tuple[Run, ...]
    cuts: tuple[Cut, ...]
