"""Which pieces at the ends of courses belong to L-shaped slips: at external corners and at lined jambs.

An L slip shows one leg on the face, where it takes the place of the piece that ends the course. Courses are asked for the
piece next to a plumb line, equal ones together; a piece between two such lines is claimed twice and has to be made specially.
"""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from storeyrod.geometry.intervals import union
from storeyrod.geometry.parts import made
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.slips.courses import Cut, EqualCourses, LaidCourse, PieceKind

Towards = Literal["left", "right"]
_Key = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Legs:
    """Legs of an L slip, and by how much a piece may be longer than a leg because the perp beside it takes that up."""

    longer: float
    shorter: float
    slack: float

    def shows_shorter(self, width: float) -> bool:
        """Whether the shorter leg can take the place of a piece."""
        return width <= self.shorter + self.slack + HAIRLINE


class EndPiece(NamedTuple):
    """The piece that ends a course at a plumb line: its kind, length, height and area, and the cut unit unless it is whole.

    ``key`` tells it from the other pieces of its course.
    """

    kind: PieceKind
    width: float
    height: float
    area: float
    key: _Key
    cut: Cut | None = None

    @property
    def whole(self) -> bool:
        """Whether the piece is a whole unit."""
        return self.cut is None


class EndPieces(NamedTuple):
    """The piece that ends courses at a plumb line, with the courses: ``place`` is that of the equal courses in the face."""

    piece: EndPiece
    place: int
    numbers: range


@dataclass(frozen=True, slots=True)
class LaidEnds:
    """Pieces of a laid course by their ends: place, whether the piece is cut, and its index among runs or cuts."""

    laid: LaidCourse
    lefts: Sequence[tuple[float, int, int]]
    rights: Sequence[tuple[float, int, int]]

    def at(self, x: float, towards: Towards, reach: float) -> EndPiece | None:
        """The piece that ends at x, or within ``reach`` of it, on the side ``towards`` which the wall lies."""
        if towards == "right":
            place = bisect_left(self.lefts, (x - HAIRLINE, 0, 0))
            if place == len(self.lefts) or self.lefts[place][0] > x + reach + HAIRLINE:
                return None
            return self._piece(*self.lefts[place][1:], position=0)
        place = bisect_right(self.rights, (x + HAIRLINE, 2, 0)) - 1
        if place < 0 or self.rights[place][0] < x - reach - HAIRLINE:
            return None
        return self._piece(*self.rights[place][1:], position=-1)

    def _piece(self, source: int, index: int, position: int) -> EndPiece:
        if source == 1:
            cut = self.laid.cuts[index]
            return EndPiece(cut.kind, cut.width, cut.height, cut.part.area, (1, index, 0), cut)
        run, height = self.laid.runs[index], self.laid.height
        return EndPiece(run.kind, run.width, height, run.width * height, (0, index, position % run.count))


def laid_ends(laid: LaidCourse) -> LaidEnds:
    """Ends of a laid course, sorted."""
    runs, cuts = laid.runs, laid.cuts
    return LaidEnds(
        laid,
        sorted(
            [(run.x, 0, index) for index, run in enumerate(runs)]
            + [(cut.part.left, 1, index) for index, cut in enumerate(cuts)]
        ),
        sorted(
            [(run.right, 0, index) for index, run in enumerate(runs)]
            + [(cut.part.right, 1, index) for index, cut in enumerate(cuts)]
        ),
    )


class Claimed(NamedTuple):
    """A piece that L slips replace in some courses: how many pieces that are, and how many of them are replaced twice."""

    piece: EndPiece
    pieces: int
    shared: int


class FaceEnds:
    """Ends of all courses of a face, and the pieces at them that are claimed for L slips."""

    def __init__(self, courses: Sequence[EqualCourses]) -> None:
        self.courses = courses
        self._ends: dict[int, LaidEnds] = {}
        self._known: dict[tuple[int, float, Towards, float], EndPiece | None] = {}
        self._met: dict[range, list[tuple[LaidCourse, int, range]]] = {}
        self._claims: dict[tuple[int, _Key], tuple[EndPiece, list[tuple[int, int]]]] = {}
        self._step = courses[0].numbers.step if courses else 1
        rows: dict[int, list[tuple[int, int]]] = defaultdict(list)
        for place, equal in enumerate(courses):
            rows[equal.numbers.start % self._step].append((equal.numbers.start, place))
        self._rows = [tuple(zip(*sorted(row), strict=True)) for _, row in sorted(rows.items())]

    def at(self, numbers: range, x: float, towards: Towards, reach: float) -> Iterator[EndPieces]:
        """Pieces that end courses of these numbers at a plumb line, equal courses together, the lowest first for each pattern."""
        for laid, place, met in self._courses_at(numbers):
            piece = self._piece_at(laid, x, towards, reach)
            if piece is not None:
                yield made(EndPieces, (piece, place, met))

    def _courses_at(self, numbers: range) -> list[tuple[LaidCourse, int, range]]:
        """Courses of these numbers; all openings of a storey ask for the same ones."""
        if numbers not in self._met:
            self._met[numbers] = [
                (self.courses[place].laid, place, met)
                for starts, places in self._rows
                for place in places[max(0, bisect_right(starts, numbers.start) - 1) : bisect_left(starts, numbers.stop)]
                if (met := _within(self.courses[place].numbers, numbers))
            ]
        return self._met[numbers]

    def _piece_at(self, laid: LaidCourse, x: float, towards: Towards, reach: float) -> EndPiece | None:
        key = id(laid), x, towards, reach
        if key not in self._known:
            if id(laid) not in self._ends:
                self._ends[id(laid)] = laid_ends(laid)
            self._known[key] = self._ends[id(laid)].at(x, towards, reach)
        return self._known[key]

    def claim(self, ends: EndPieces, numbers: range | None = None) -> None:
        """Claim pieces for L slips, in all of their courses or in some."""
        taken = ends.numbers if numbers is None else numbers
        _, spans = self._claims.setdefault((ends.place, ends.piece.key), (ends.piece, []))
        spans.append((taken.start, taken.start + len(taken) * taken.step))

    def claimed(self) -> list[Claimed]:
        """Pieces that are claimed, each once."""
        step, rows = self._step, []
        for piece, spans in self._claims.values():
            asked = held = spans[0][1] - spans[0][0]
            if len(spans) > 1:
                asked = sum(stop - start for start, stop in spans)
                held = sum(int(stop - start) for start, stop in union(spans))
            rows.append(made(Claimed, (piece, held // step, (asked - held) // step)))
        return rows


def _within(numbers: range, limits: range) -> range:
    """Numbers of a range between limits."""
    if numbers.start >= limits.start and numbers.stop <= limits.stop:
        return numbers
    step = numbers.step
    below = max(0, -((numbers.start - limits.start) // step))
    above = max(0, (limits.stop - 1 - numbers.start) // step + 1)
    return numbers[below:above]
