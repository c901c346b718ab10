"""Corner slips: one L-shaped slip in each course of an external corner, its longer leg on either face in turn."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import millimetres
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.slips.ends import CourseEnds, EndPiece, Legs, Towards
from storeyrod.wall.corners import Corner, CornerEnd
from storeyrod.wall.gauge import Gauge

Hand = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class CornerCourse:
    """One corner slip: its course, the face (0 or 1) that shows the longer leg, its hand, and the pieces it replaces."""

    course: int
    longer_on: int
    hand: Hand
    pieces: tuple[EndPiece, ...]


@dataclass(frozen=True, slots=True)
class CornerSlips:
    """All slips of one external corner, from the bottom."""

    corner: Corner
    courses: tuple[CornerCourse, ...]
    legs: Legs
    even_longer_on: int

    @property
    def count(self) -> int:
        """Slips: one for each course."""
        return len(self.courses)

    def handed(self, hand: Hand) -> int:
        """Slips of one hand."""
        return sum(1 for course in self.courses if course.hand == hand)

    @property
    def longer_leg_even(self) -> str:
        """Edge that shows the longer leg in even courses, named also where the corner's other face is not known."""
        ends = self.corner.ends
        if self.even_longer_on < len(ends):
            return ends[self.even_longer_on].name
        return ends[0].face.edge(ends[0].side).to or "the other face"

    @property
    def replaced_count(self) -> int:
        """Face pieces that the slips replace."""
        return sum(len(course.pieces) for course in self.courses)

    @property
    def clashes(self) -> list[CornerCourse]:
        """Courses in which both faces end in a piece longer than the shorter leg, which no L slip can show."""
        return [
            course
            for course in self.courses
            if len(course.pieces) == 2 and not any(self.legs.shows_shorter(piece.width) for piece in course.pieces)
        ]


def corner_slips(
    corner: Corner, ends: Mapping[str, Mapping[int, CourseEnds]], gauge: Gauge, reach: float, legs: Legs
) -> CornerSlips:
    """Slips of one corner over the courses that every known face of it has."""
    courses = []
    for number in _numbers(corner, gauge):
        places = [(course, *_place(end)) for end in corner.ends if (course := ends[end.face.id].get(number))]
        if len(places) == len(corner.ends) and all(course.has(x, side, reach) for course, x, side in places):
            pieces = [course.claim(x, side, reach) for course, x, side in places]
            courses.append((number, tuple(piece for piece in pieces if piece is not None)))
    longer = _longer_on(courses, legs)
    made = tuple(
        CornerCourse(number, side, _hand(corner, side), taken)
        for number, taken in courses
        for side in [(longer + number) % 2]
    )
    return CornerSlips(corner, made, legs, longer)


def _numbers(corner: Corner, gauge: Gauge) -> list[int]:
    """Courses whose slips stand, at least in part, where both edges stand."""
    numbers = {
        number
        for low, high in corner.heights
        for number in gauge.numbers(low, high)
        if min(high, gauge.top(number)) - max(low, gauge.bottom(number)) > HAIRLINE
    }
    return sorted(numbers)


def _place(end: CornerEnd) -> tuple[float, Towards]:
    """Arris of a face, and the side on which its wall lies."""
    return (end.face.left, "right") if end.side == "left" else (end.face.right, "left")


def _longer_on(courses: list[tuple[int, tuple[EndPiece, ...]]], legs: Legs) -> int:
    """Face that shows the longer leg in even courses: the one whose bond asks for it most often."""
    votes = 0
    for number, pieces in courses:
        for side, piece in enumerate(pieces):
            is_long = piece.width > (legs.longer + legs.shorter) / 2.0
            votes += 1 if is_long == ((number + side) % 2 == 0) else -1
    return 0 if votes >= 0 else 1


def _hand(corner: Corner, longer_on: int) -> Hand:
    """A slip is left-handed when its longer leg lies to the left of the arris, seen from outside."""
    first_runs_left = corner.first.side == "right"
    return "left" if first_runs_left == (longer_on == 0) else "right"


def corner_findings(slips: CornerSlips, gauge: Gauge) -> list[Finding]:
    """A bond that does not turn the corner: both faces show a long end in the same course."""
    clashes = slips.clashes
    if not clashes:
        return []
    first = slips.corner.first
    where: Where = {"pointer": first.face.edge_pointer(first.side), "elevation": first.face.id}
    where |= {"x_mm": millimetres(_place(first)[0]), "y_mm": millimetres(gauge.bottom(clashes[0].course))}
    return [finding("corner-bond-broken", where, value=float(len(clashes)), limit=0.0, unit="count")]
