"""What was laid on one face: pieces, joints and areas, each area of joints measured in two independent ways."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Region
from storeyrod.setting_out.course_grid import BayPerps
from storeyrod.slips.courses import Course, Cut
from storeyrod.slips.returns import JambReturns
from storeyrod.slips.soldiers import SoldierCourse
from storeyrod.wall.face import Face


def strip_area(face: Face, strips: Sequence[Interval]) -> float:
    """Area of plumb strips of a face, openings left out."""
    columns = [strip for strip in strips if strip[1] > strip[0]]
    if not columns:
        return 0.0
    return math.fsum(part.area for parts in face.region.cells(face.foot, face.top, columns) for part in parts)


def free_region(face: Face, strips: Sequence[Interval]) -> Region:
    """The net wall without plumb strips."""
    boxes = [(left, face.foot, right, face.top) for left, right in strips if right > left]
    return face.region.less(*boxes) if boxes else face.region


@dataclass(frozen=True, slots=True)
class FaceSlips:
    """One face, laid. Areas in square ticks, lengths in ticks."""

    face: Face
    bays: tuple[BayPerps, ...]
    courses: tuple[Course, ...]
    soldiers: tuple[SoldierCourse, ...]
    slot_area: float
    end_joint_area: float
    returns: tuple[JambReturns, ...] = ()

    def with_returns(self, returns: Sequence[JambReturns]) -> "FaceSlips":
        """The face with its lined jambs."""
        return replace(self, returns=tuple(returns))

    @property
    def full_count(self) -> int:
        """Whole units in courses."""
        return sum(course.full_count for course in self.courses)

    @property
    def cuts(self) -> list[Cut]:
        """Cut units in courses, from the bottom."""
        return [cut for course in self.courses for cut in course.cuts]

    @property
    def cut_count(self) -> int:
        """Cut units in courses."""
        return sum(len(course.cuts) for course in self.courses)

    @property
    def soldiers_count(self) -> int:
        """Soldiers, whole and cut."""
        return sum(course.count for course in self.soldiers)

    @property
    def course_area(self) -> float:
        """Face area of the pieces in courses."""
        return math.fsum(course.face_area for course in self.courses)

    @property
    def soldier_area(self) -> float:
        """Face area of soldiers."""
        return math.fsum(course.face_area for course in self.soldiers)

    @property
    def slip_area(self) -> float:
        """Face area of all pieces."""
        return self.course_area + self.soldier_area

    @property
    def joint_area(self) -> float:
        """Mortar joints: the net wall less pieces, movement joints and end joints."""
        return self.face.net_area - self.slip_area - self.slot_area - self.end_joint_area

    @property
    def joint_area_by_strips(self) -> float:
        """Mortar joints measured strip by strip: beds, perps, and the joints of soldier courses."""
        courses = math.fsum(course.bed_area + course.perp_area for course in self.courses)
        return courses + math.fsum(course.joint_area for course in self.soldiers)

    @property
    def bed_length(self) -> float:
        """Length of bed joints, soldier courses included."""
        return sum(course.bed_length for course in self.courses) + sum(one.bed_length for one in self.soldiers)

    @property
    def perp_length(self) -> float:
        """Length of upright joints, soldier courses included."""
        return sum(course.perp_length for course in self.courses) + sum(one.perp_length for one in self.soldiers)
