"""Which pieces at the ends of courses belong to L-shaped slips: at external corners and at lined jambs.

An L slip shows one leg on the face, where it takes the place of the piece that ends the course. Each course is asked for the
piece next to a plumb line; a piece between two such lines is claimed twice and has to be made specially.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.slips.courses import Course, Cut, PieceKind

Towards = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Legs:
    """Legs of an L slip, and by how much a piece may be longer than a leg because the perp beside it takes that up."""

    longer: float
    shorter: float
    slack: float

    def shows_shorter(self, width: float) -> bool:
        """Whether the shorter leg can take the place of a piece."""
        return width <= self.shorter + self.slack + HAIRLINE


@dataclass(frozen=True, slots=True)
class EndPiece:
    """The piece that ends a course at a plumb line: whether it is whole, its kind, length and area."""

    course: int
    whole: bool
    kind: PieceKind
    width: float
    area: float


@dataclass(slots=True)
class CourseEnds:
    """Pieces of one course by their ends, and those already claimed."""

    course: Course
    lefts: list[tuple[float, int, int]] = field(default_factory=list)
    rights: list[tuple[float, int, int]] = field(default_factory=list)
    claimed: dict[tuple[int, int], EndPiece] = field(default_factory=dict)
    shared: int = 0

    def __post_init__(self) -> None:
        """Sort the ends of runs (0) and cuts (1) once."""
        runs, cuts = self.course.runs, self.course.cuts
        self.lefts = sorted(
            [(run.x, 0, index) for index, run in enumerate(runs)]
            + [(cut.part.left, 1, index) for index, cut in enumerate(cuts)]
        )
        self.rights = sorted(
            [(run.right, 0, index) for index, run in enumerate(runs)]
            + [(cut.part.right, 1, index) for index, cut in enumerate(cuts)]
        )

    def claim(self, x: float, towards: Towards, reach: float) -> EndPiece | None:
        """Claim the piece that ends at x, or within ``reach`` of it, on the side ``towards`` which the wall lies."""
        found = self._end(x, towards, reach)
        if found is None:
            return None
        key, piece = found
        if key in self.claimed:
            self.shared += 1
        self.claimed[key] = piece
        return piece

    def has(self, x: float, towards: Towards, reach: float) -> bool:
        """Whether there is a piece to claim."""
        return self._end(x, towards, reach) is not None

    def _end(self, x: float, towards: Towards, reach: float) -> tuple[tuple[int, int], EndPiece] | None:
        return self._at_left_end(x, reach) if towards == "right" else self._at_right_end(x, reach)

    def _at_left_end(self, x: float, reach: float) -> tuple[tuple[int, int], EndPiece] | None:
        place = bisect_left(self.lefts, (x - HAIRLINE, 0, 0))
        if place == len(self.lefts) or self.lefts[place][0] > x + reach + HAIRLINE:
            return None
        return self._piece(*self.lefts[place][1:], position=0)

    def _at_right_end(self, x: float, reach: float) -> tuple[tuple[int, int], EndPiece] | None:
        place = bisect_right(self.rights, (x + HAIRLINE, 2, 0)) - 1
        if place < 0 or self.rights[place][0] < x - reach - HAIRLINE:
            return None
        return self._piece(*self.rights[place][1:], position=-1)

    def _piece(self, source: int, index: int, position: int) -> tuple[tuple[int, int], EndPiece]:
        course = self.course
        if source == 1:
            cut = course.cuts[index]
            return (-1, index), _of_cut(course, cut)
        run = course.runs[index]
        order = position % run.count
        area = run.width * (course.top - course.bottom)
        return (index, order), EndPiece(course.number, True, run.kind, run.width, area)

    @property
    def straight_count(self) -> int:
        """Pieces that no L slip replaces."""
        return self.course.full_count + len(self.course.cuts) - len(self.claimed)

    def straight_full(self, kind: PieceKind) -> int:
        """Whole units of a kind that no L slip replaces."""
        laid = sum(run.count for run in self.course.runs if run.kind == kind)
        return laid - sum(1 for piece in self.claimed.values() if piece.whole and piece.kind == kind)

    def straight_cuts(self, kind: PieceKind) -> list[Cut]:
        """Cut units of a kind that no L slip replaces."""
        return [
            cut for index, cut in enumerate(self.course.cuts) if cut.kind == kind and (-1, index) not in self.claimed
        ]


def _of_cut(course: Course, cut: Cut) -> EndPiece:
    return EndPiece(course.number, False, cut.kind, cut.width, cut.part.area)


def ends_of(courses: Sequence[Course]) -> dict[int, CourseEnds]:
    """Ends of every course, by its number."""
    return {course.number: CourseEnds(course) for course in courses}
