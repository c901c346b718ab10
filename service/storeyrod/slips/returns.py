"""Return slips: L-shaped slips that turn from the face into a lined reveal, one in each course of a jamb.

Where the course ends in a piece no longer than the shorter leg, that leg shows on the face and the longer one turns into the
reveal, and the other way about. A leg longer than the reveal is deep is cut; a reveal deeper than the leg is filled with
straight slips.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final, Literal, NamedTuple

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval, difference, total, union
from storeyrod.geometry.parts import made
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.setting_out.course_grid import HAIRLINE, Module
from storeyrod.slips.ends import EndPiece, FaceEnds, Legs, Towards
from storeyrod.wall.face import Face, FaceOpening
from storeyrod.wall.gauge import Gauge

_AWAY: Final[tuple[tuple[Literal["left", "right"], Towards], ...]] = (("right", "left"), ("left", "right"))
"""A side of what is no wall for slips, and the side of its plumb line on which they lack."""


class ReturnCourses(NamedTuple):
    """Equal return slips, one in each of some courses: the piece that one replaces on the face, its leg in the reveal and the
    straight slips behind that. Ticks.
    """

    numbers: range
    piece: EndPiece
    height: float
    face_leg: float
    reveal_leg: float
    straight_full: int
    straight_cut: float


class JambSums(NamedTuple):
    """What the return slips of a jamb come to: slips, those of them cut in the reveal and on the face, whole and cut straight
    slips behind the legs, face area in the reveal, and length of the upright joints there. Ticks.
    """

    returns: int
    cut_in_reveal: int
    cut_on_face: int
    straight_full: int
    straight_cut: int
    slip_area: float
    perp_length: float


@dataclass(frozen=True, slots=True)
class JambReturns:
    """The lining of one jamb with slips. Ticks."""

    face: Face
    opening: FaceOpening
    side: Literal["left", "right"]
    depth: float
    jamb_height: float
    courses: tuple[ReturnCourses, ...]
    sums: JambSums

    @property
    def count(self) -> int:
        """Return slips: one for each course that meets the jamb."""
        return self.sums.returns

    @property
    def slip_area(self) -> float:
        """Face area of legs and straight slips in the reveal."""
        return self.sums.slip_area

    @property
    def perp_length(self) -> float:
        """Length of the upright joints between leg and straight slips."""
        return self.sums.perp_length

    @property
    def numbers(self) -> list[int]:
        """Courses with a return slip, from the bottom."""
        return sorted(number for course in self.courses for number in course.numbers)

    @property
    def area(self) -> float:
        """Area of the reveal: lined depth by height of the jamb, as far as wall stands at it."""
        return self.depth * self.jamb_height


@dataclass(frozen=True, slots=True)
class Lining:
    """What lining a face's jambs takes: its course ends, the gauge, unit lengths, how far a piece may end from a jamb, legs."""

    ends: FaceEnds
    gauge: Gauge
    module: Module
    reach: float
    legs: Legs
    heights: dict[tuple[Interval, ...], list[tuple[range, float]]] = field(default_factory=dict)
    fillings: dict[tuple[bool, float], tuple[float, float, int, float]] = field(default_factory=dict)

    def courses_at(self, clad: tuple[Interval, ...]) -> list[tuple[range, float]]:
        """Courses beside a jamb with the height of their slips that is lined, alike for all openings of a storey."""
        if clad not in self.heights:
            self.heights[clad] = list(_lined_courses(clad, self.gauge))
        return self.heights[clad]


def jamb_returns(face: Face, lining: Lining, level: Sequence[Interval] = ()) -> list[JambReturns]:
    """Return slips of every lined jamb of a face that a course meets; at the end of a wall there is no jamb.

    ``level`` are the heights of level joints, which go on into the reveals.
    """
    jambs = [(opening, side, depth) for opening in face.openings for side, depth in _lined_sides(opening)]
    bare = _bare_heights(face) if jambs else {}
    return [
        JambReturns(face, opening, side, depth, total(clad), courses, _sums(courses, depth, lining.module.stretcher))
        for opening, side, depth in jambs
        for clad in [difference(_clad_heights(opening, side, bare), level)]
        if (courses := tuple(_courses(opening, side, clad, depth, lining)))
    ]


def _sums(courses: Iterable[ReturnCourses], depth: float, stretcher: float) -> JambSums:
    """Sums of return slips.

    A slip is cut in the reveal when its leg is longer than that is deep, and on the face when its leg there is longer than the
    piece that it replaces.
    """
    count = in_reveal = on_face = straight_full = straight_cut = 0
    area = perps = 0.0
    for numbers, piece, rise, face_leg, reveal_leg, full, cut in courses:
        slips = len(numbers)
        count += slips
        in_reveal += slips * (reveal_leg > depth + HAIRLINE)
        on_face += slips * (face_leg > piece.width + HAIRLINE)
        straight_full += slips * full
        straight_cut += slips * (cut > 0)
        area += (min(reveal_leg, depth) + full * stretcher + cut) * rise * slips
        perps += (full + (cut > 0)) * rise * slips
    return made(JambSums, (count, in_reveal, on_face, straight_full, straight_cut, area, perps))


def _bare_heights(face: Face) -> Mapping[tuple[float, Towards], list[Interval]]:
    """Plumb lines with no slips beside them, by place and the side on which they lack: openings, features, ends of the wall."""
    bare: dict[tuple[float, Towards], list[Interval]] = {}
    for opening in face.openings:
        if opening.is_box:
            bare.setdefault((opening.right, "left"), []).append((opening.sill, opening.head))
            bare.setdefault((opening.left, "right"), []).append((opening.sill, opening.head))
    for side, towards in _AWAY:
        edges = [edge for opening in face.openings if not opening.is_box for edge in opening.jambs(side)]
        for edge in [*edges, *(edge for feature in face.features for edge in feature.sides(side))]:
            bare.setdefault((edge.x, towards), []).append(edge.heights)
    for a, b in pairwise((*face.outline, face.outline[0])):
        if a[0] == b[0]:
            bare.setdefault((a[0], "left" if a[1] > b[1] else "right"), []).append((min(a[1], b[1]), max(a[1], b[1])))
    return bare


def _clad_heights(
    opening: FaceOpening,
    side: Literal["left", "right"],
    bare: Mapping[tuple[float, Towards], list[Interval]],
) -> list[Interval]:
    """Heights of a jamb at which slips stand beside it."""
    lacking = bare.get(_jamb(opening, side))
    jamb = [(opening.sill, opening.springing)]
    return difference(jamb, union(lacking)) if lacking else jamb


def _lined_sides(opening: FaceOpening) -> Iterator[tuple[Literal["left", "right"], float]]:
    reveal = opening.model.reveal
    if reveal.left.depth_mm > 0:
        yield "left", ticks(reveal.left.depth_mm)
    if reveal.right.depth_mm > 0:
        yield "right", ticks(reveal.right.depth_mm)


def _courses(
    opening: FaceOpening, side: Literal["left", "right"], clad: Sequence[Interval], depth: float, lining: Lining
) -> Iterator[ReturnCourses]:
    x, towards = _jamb(opening, side)
    for numbers, height in lining.courses_at(tuple(clad)):
        for ends in lining.ends.at(numbers, x, towards, lining.reach):
            lining.ends.claim(ends)
            yield _return_courses(ends.numbers, ends.piece, height, depth, lining)


def _lined_courses(clad: Sequence[Interval], gauge: Gauge) -> Iterator[tuple[range, float]]:
    """Courses beside a jamb with the height of their slips that is lined: those lined in full together, then the others."""
    partly: dict[int, float] = {}
    for low, high in clad:
        first, stop = gauge.standing_at(low), gauge.standing_at(high) + 1
        inner = range(first + (gauge.bottom(first) < low), stop - (gauge.top(stop - 1) > high))
        inner = inner if gauge.is_even else range(first, first)
        if inner:
            yield inner, gauge.height
        for number in (*range(first, inner.start), *range(max(inner.start, inner.stop), stop)):
            share = min(high, gauge.top(number)) - max(low, gauge.bottom(number))
            partly[number] = partly.get(number, 0.0) + max(0.0, share)
    for number, height in partly.items():
        if height > HAIRLINE:
            yield range(number, number + 1), height


def _jamb(opening: FaceOpening, side: Literal["left", "right"]) -> tuple[float, Towards]:
    """Line of a jamb, and the side on which the wall lies: left of the left jamb."""
    return (opening.left, "left") if side == "left" else (opening.right, "right")


def _return_courses(numbers: range, piece: EndPiece, height: float, depth: float, lining: Lining) -> ReturnCourses:
    shorter_on_face = lining.legs.shows_shorter(piece.width)
    key = shorter_on_face, depth
    if key not in lining.fillings:
        lining.fillings[key] = _filling(shorter_on_face, depth, lining)
    return made(ReturnCourses, (numbers, piece, height, *lining.fillings[key]))


def _filling(shorter_on_face: bool, depth: float, lining: Lining) -> tuple[float, float, int, float]:
    """Legs on the face and in the reveal, and the whole straight slips and the cut one behind that."""
    legs, module = lining.legs, lining.module
    face_leg, reveal_leg = (legs.shorter, legs.longer) if shorter_on_face else (legs.longer, legs.shorter)
    rest = depth - reveal_leg
    full = max(0, int((rest + HAIRLINE) // module.length))
    cut = rest - full * module.length - module.perp
    return face_leg, reveal_leg, full, cut if cut > HAIRLINE else 0.0


def overhead_findings(face: Face) -> list[Finding]:
    """Soffits of heads that are to be faced: they are left out."""
    return [_overhead(face, opening) for opening in face.openings if opening.model.reveal.head.depth_mm > 0]


def _overhead(face: Face, opening: FaceOpening) -> Finding:
    where: Where = {
        "pointer": f"{opening.pointer}/reveal/head/depth_mm",
        "elevation": face.id,
        "opening": opening.id,
        "x_mm": millimetres(opening.left),
        "y_mm": millimetres(opening.springing),
    }
    return finding("overhead-slips", where, value=opening.model.reveal.head.depth_mm, limit=0.0, unit="mm")
