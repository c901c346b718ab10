"""Pieces of a slip layout as they are drawn: each once, by what it is, with L slips named at the ends of courses."""

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Literal

from storeyrod.drawings.display_list import Box, Rings
from storeyrod.drawings.piece_marks import points_of
from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.setting_out.course_grid import HAIRLINE, widest_perp
from storeyrod.slips.arch_rings import VoussoirRing
from storeyrod.slips.courses import Course, Cut
from storeyrod.slips.face_slips import FaceSlips
from storeyrod.slips.layout import SlipLayout
from storeyrod.slips.returns import JambReturns
from storeyrod.slips.soldiers import SoldierCourse
from storeyrod.wall.face import Face, Side

Mark = Literal["whole", "header", "soldier", "voussoir", "cut", "corner_left", "corner_right", "return"]

MARKS: Final[tuple[Mark, ...]] = (
    "whole", "header", "soldier", "voussoir", "cut", "corner_left", "corner_right", "return",
)  # fmt: skip

_PLAIN: Final[tuple[Mark, ...]] = ("whole", "header")
_JOINT_MM: Final = 60.0
"""No perp is wider than this."""

Towards = Literal["left", "right"]
"""The side of a plumb line on which its wall lies."""


@dataclass(frozen=True, slots=True)
class LSlip:
    """An L slip at the end of a course: its plumb line in ticks, the side on which its wall lies, and what it is."""

    x: float
    towards: Towards
    mark: Mark


@dataclass(frozen=True, slots=True)
class LEnd:
    """An L slip as it is drawn: its box in mm, the side on which its wall lies, and what it is."""

    box: Box
    towards: Towards
    mark: Mark


@dataclass(slots=True)
class DrawnCourse:
    """The pieces of one course, or of what stands over one opening, in mm: boxes and other shapes by their mark."""

    name: str
    boxes: dict[Mark, list[Box]] = field(default_factory=dict)
    others: dict[Mark, list[Rings]] = field(default_factory=dict)
    ends: list[LEnd] = field(default_factory=list)
    narrow: list[Box] = field(default_factory=list)

    def count(self, mark: Mark) -> int:
        """Pieces with a mark."""
        return len(self.boxes.get(mark, ())) + len(self.others.get(mark, ()))


def drawn_courses(face: FaceSlips, layout: SlipLayout) -> list[DrawnCourse]:
    """Every piece of a face, course by course from the bottom, then what stands over openings."""
    reach = widest_perp(face.bays)
    l_slips = _l_slips(face, layout)
    limits = ticks(layout.wall.system.minimum_cut_mm), ticks(layout.wall.system.minimum_rip_mm)
    return [
        *(_course(course, l_slips.get(course.number, ()), reach, limits) for course in face.courses),
        *(_soldiers(course, limits) for course in face.soldiers),
        *(_voussoirs(ring) for ring in face.voussoirs),
    ]


def _l_slips(face: FaceSlips, layout: SlipLayout) -> Mapping[int, Sequence[LSlip]]:
    """L slips of a face by course: corners, then jambs."""
    found: dict[int, list[LSlip]] = {}
    for corner in layout.corners:
        for end in corner.corner.ends:
            if end.face.id == face.face.id:
                for course in corner.courses:
                    mark: Mark = "corner_left" if course.hand == "left" else "corner_right"
                    found.setdefault(course.course, []).append(_at_corner(face.face, end.side, mark))
    for jamb in face.returns:
        for number in jamb.numbers:
            found.setdefault(number, []).append(_at_jamb(jamb))
    return found


def _at_corner(face: Face, side: Side, mark: Mark) -> LSlip:
    return LSlip(face.left, "right", mark) if side == "left" else LSlip(face.right, "left", mark)


def _at_jamb(jamb: JambReturns) -> LSlip:
    """The wall lies left of a left jamb."""
    x = jamb.opening.left if jamb.side == "left" else jamb.opening.right
    return LSlip(x, jamb.side, "return")


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece of a course in ticks: its ends, its mark, and its part when it is cut."""

    left: float
    right: float
    mark: Mark
    cut: Cut | None = None


def _pieces(course: Course) -> list[_Piece]:
    pieces = [_Piece(cut.part.left, cut.part.right, "cut", cut) for cut in course.cuts]
    for run in course.runs:
        mark: Mark = "whole" if run.kind == "stretcher" else "header"
        for index in range(run.count):
            left = run.x + index * run.pitch
            pieces.append(_Piece(left, left + run.width, mark))
    return sorted(pieces, key=lambda piece: piece.left)


def _course(course: Course, l_slips: Sequence[LSlip], reach: float, limits: tuple[float, float]) -> DrawnCourse:
    drawn = DrawnCourse(str(course.number))
    pieces = _pieces(course)
    claimed = _claimed(pieces, l_slips, reach)
    low, high = course.bottom / TICKS_PER_MM, course.top / TICKS_PER_MM
    for index, piece in enumerate(pieces):
        slip = claimed.get(index)
        mark = piece.mark if slip is None else slip.mark
        box = _add(drawn, piece, mark, low, high)
        if slip is not None:
            drawn.ends.append(LEnd(box, slip.towards, slip.mark))
        if piece.cut is not None and _is_narrow(piece.cut, limits):
            drawn.narrow.append(box)
    return drawn


def _claimed(pieces: Sequence[_Piece], l_slips: Sequence[LSlip], reach: float) -> dict[int, LSlip]:
    """The L slip that takes the place of a piece, by the place of that; a piece between two of them is the first's."""
    if not l_slips:
        return {}
    lefts = [piece.left for piece in pieces]
    rights = sorted((piece.right, index) for index, piece in enumerate(pieces))
    claimed: dict[int, LSlip] = {}
    for slip in l_slips:
        if slip.towards == "right":
            place = bisect_left(lefts, slip.x - HAIRLINE)
            if place < len(lefts) and lefts[place] <= slip.x + reach + HAIRLINE:
                claimed.setdefault(place, slip)
        else:
            place = bisect_right(rights, (slip.x + HAIRLINE, len(pieces))) - 1
            if place >= 0 and rights[place][0] >= slip.x - reach - HAIRLINE:
                claimed.setdefault(rights[place][1], slip)
    return claimed


def _add(drawn: DrawnCourse, piece: _Piece, mark: Mark, low: float, high: float) -> Box:
    """Add a piece to its mark, and return its box."""
    cut = piece.cut
    box = _box(cut) if cut is not None else (piece.left / TICKS_PER_MM, low, piece.right / TICKS_PER_MM, high)
    if cut is not None and cut.part.rings:
        drawn.others.setdefault(mark, []).append(tuple(points_of(ring) for ring in cut.part.rings))
    else:
        drawn.boxes.setdefault(mark, []).append(box)
    return box


def _box(cut: Cut) -> Box:
    part = cut.part
    return part.left / TICKS_PER_MM, part.bottom / TICKS_PER_MM, part.right / TICKS_PER_MM, part.top / TICKS_PER_MM


def _is_narrow(cut: Cut, limits: tuple[float, float]) -> bool:
    return cut.width < limits[0] - HAIRLINE or cut.height < limits[1] - HAIRLINE


def _soldiers(course: SoldierCourse, limits: tuple[float, float]) -> DrawnCourse:
    """The soldiers over an opening; they stand upright, so that their limits change places."""
    drawn = DrawnCourse(f"over {course.opening.id}")
    low, high = course.zone[1] / TICKS_PER_MM, (course.zone[1] + course.height) / TICKS_PER_MM
    for left in course.lefts:
        _add(drawn, _Piece(left, left + course.width, "soldier"), "soldier", low, high)
    for cut in course.cuts:
        box = _add(drawn, _Piece(cut.part.left, cut.part.right, "cut", cut), "cut", low, high)
        if _is_narrow(cut, (limits[1], limits[0])):
            drawn.narrow.append(box)
    return drawn


def _voussoirs(ring: VoussoirRing) -> DrawnCourse:
    """The voussoirs of one ring over an arch, those that the wall clips among the cut ones."""
    drawn = DrawnCourse(f"ring {ring.setting.number} over {ring.opening.id}")
    outlines = [tuple(points_of(corners) for corners in outline) for outline in ring.outlines]
    whole = len(ring.whole)
    drawn.others |= {"voussoir": outlines[:whole], "cut": outlines[whole:]}
    return drawn


def without_plain(course: DrawnCourse) -> DrawnCourse:
    """A course with its whole slips drawn as one from end to end of each run of neighbours; ends and cuts stay as they are."""
    boxes = dict(course.boxes)
    for mark in _PLAIN:
        if mark in boxes:
            boxes[mark] = _joined(boxes[mark])
    return DrawnCourse(course.name, boxes, course.others, course.ends, course.narrow)


def _joined(boxes: Sequence[Box]) -> list[Box]:
    """Boxes that follow one another with no more than a joint between them, as one."""
    joined: list[Box] = []
    for left, bottom, right, top in boxes:
        if joined and left - joined[-1][2] <= _JOINT_MM:
            joined[-1] = joined[-1][0], bottom, right, top
        else:
            joined.append((left, bottom, right, top))
    return joined
