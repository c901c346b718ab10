"""Corner slips: one L-shaped slip in each course of an external corner, its longer leg on either face in turn."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import millimetres
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.slips.ends import EndPiece, EndPieces, FaceEnds, Legs, Towards
from storeyrod.wall.corners import Corner, CornerEnd
from storeyrod.wall.gauge import Gauge

Hand = Literal["left", "right"]


class CornerCourses(NamedTuple):
    """Courses of a corner that end in the same pieces: one slip in each replaces a piece on every known face."""

    numbers: range
    pieces: tuple[EndPiece, ...]

    @property
    def even_count(self) -> int:
        """Courses with an even number."""
        starts_even = self.numbers.start % 2 == 0
        if self.numbers.step % 2 == 0:
            return len(self.numbers) if starts_even else 0
        return (len(self.numbers) + starts_even) // 2


@dataclass(frozen=True, slots=True)
class CornerCourse:
    """One corner slip: its course and its hand."""

    course: int
    hand: Hand


@dataclass(frozen=True, slots=True)
class CornerSlips:
    """All slips of one external corner. In even courses the face ``even_longer_on`` (0 or 1) shows the longer leg.

    A corner that is not square has none: both faces are cut or mitred in ``mitred_count`` courses.
    """

    corner: Corner
    equal_courses: tuple[CornerCourses, ...]
    legs: Legs
    even_longer_on: int
    mitred_count: int = 0

    @property
    def count(self) -> int:
        """Slips: one for each course."""
        return sum(len(courses.numbers) for courses in self.equal_courses)

    def handed(self, hand: Hand) -> int:
        """Slips of one hand: left-handed when the longer leg lies to the left of the arris, seen from outside."""
        even = sum(courses.even_count for courses in self.equal_courses)
        return even if hand == self.hand_of(0) else self.count - even

    def hand_of(self, course: int) -> Hand:
        """Hand of the slip in a course."""
        first_runs_left = self.corner.first.side == "right"
        longer_on_first = (self.even_longer_on + course) % 2 == 0
        return "left" if first_runs_left == longer_on_first else "right"

    @property
    def courses(self) -> list[CornerCourse]:
        """Every slip on its own, from the bottom."""
        numbers = sorted(number for courses in self.equal_courses for number in courses.numbers)
        return [CornerCourse(number, self.hand_of(number)) for number in numbers]

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
        return sum(len(courses.pieces) * len(courses.numbers) for courses in self.equal_courses)

    @property
    def clashes(self) -> list[CornerCourses]:
        """Courses in which both faces end in a piece longer than the shorter leg, which no L slip can show."""
        return [
            courses
            for courses in self.equal_courses
            if len(courses.pieces) == 2 and not any(self.legs.shows_shorter(piece.width) for piece in courses.pieces)
        ]


def corner_slips(corner: Corner, ends: Mapping[str, FaceEnds], gauge: Gauge, reach: float, legs: Legs) -> CornerSlips:
    """Slips of one corner over the courses that every known face of it has slips in."""
    standing = _numbers(corner.slip_heights, gauge)
    if not corner.is_square:
        return CornerSlips(corner, (), legs, 0, mitred_count=sum(len(numbers) for numbers in standing))
    made = []
    for numbers in standing:
        found = [(ends[end.face.id], list(_pieces(end, ends, numbers, reach))) for end in corner.ends]
        for shared, pieces in _met([pieces for _, pieces in found]):
            for (face, _), piece in zip(found, pieces, strict=True):
                face.claim(piece, shared)
            made.append(CornerCourses(shared, tuple(one.piece for one in pieces)))
    return CornerSlips(corner, tuple(made), legs, _longer_on(made, legs))


def _pieces(end: CornerEnd, ends: Mapping[str, FaceEnds], numbers: range, reach: float) -> Iterator[EndPieces]:
    x, towards = _place(end)
    return ends[end.face.id].at(numbers, x, towards, reach)


def _met(faces: Sequence[Sequence[EndPieces]]) -> Iterator[tuple[range, tuple[EndPieces, ...]]]:
    """Courses that all faces have, split where the pieces of either change; a face that is alone keeps its own."""
    if len(faces) == 1:
        yield from ((one.numbers, (one,)) for one in faces[0])
        return
    ones, others = list(faces[0]), list(faces[1])
    i = j = 0
    while i < len(ones) and j < len(others):
        one, other = ones[i].numbers, others[j].numbers
        low, high = max(one.start, other.start), min(one[-1], other[-1])
        if _row(one) == _row(other) and low <= high:
            yield range(low, high + 1, one.step), (ones[i], others[j])
        if (_row(one), one[-1]) < (_row(other), other[-1]):
            i += 1
        else:
            j += 1


def _row(numbers: range) -> int:
    """Course of the bond's repeat to which equal courses belong; end pieces come in this order."""
    return numbers.start % numbers.step


def _numbers(heights: Sequence[Interval], gauge: Gauge) -> list[range]:
    """Courses whose slips stand, at least in part, where both edges stand; each once."""
    made: list[range] = []
    for low, high in heights:
        if high - low <= HAIRLINE:
            continue
        first, stop = gauge.standing_at(low), gauge.standing_at(high) + 1
        first += gauge.top(first) - low <= HAIRLINE
        stop -= high - gauge.bottom(stop - 1) <= HAIRLINE
        first = max(first, made[-1].stop) if made else first
        if first < stop:
            made.append(range(first, stop))
    return made


def _place(end: CornerEnd) -> tuple[float, Towards]:
    """Arris of a face, and the side on which its wall lies."""
    return (end.face.left, "right") if end.side == "left" else (end.face.right, "left")


def _longer_on(courses: Sequence[CornerCourses], legs: Legs) -> int:
    """Face that shows the longer leg in even courses: the one whose bond asks for it most often."""
    votes = 0
    for equal in courses:
        even = equal.even_count
        surplus = even - (len(equal.numbers) - even)
        for side, piece in enumerate(equal.pieces):
            is_long = piece.width > (legs.longer + legs.shorter) / 2.0
            votes += surplus if is_long == (side == 0) else -surplus
    return 0 if votes >= 0 else 1


def corner_findings(slips: CornerSlips, gauge: Gauge) -> list[Finding]:
    """A bond that does not turn the corner: both faces show a long end in the same course."""
    clashes = slips.clashes
    if not clashes:
        return []
    first, lowest = slips.corner.first, min(courses.numbers.start for courses in clashes)
    where: Where = {"pointer": first.face.edge_pointer(first.side), "elevation": first.face.id}
    where |= {"x_mm": millimetres(_place(first)[0]), "y_mm": millimetres(gauge.bottom(lowest))}
    count = sum(len(courses.numbers) for courses in clashes)
    return [finding("corner-bond-broken", where, value=float(count), limit=0.0, unit="count")]
