"""What was laid on one face: pieces, joints and areas, each area of joints measured in two independent ways."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Box, Region, area_between
from storeyrod.setting_out.course_grid import BayPerps
from storeyrod.slips.arch_rings import VoussoirRing
from storeyrod.slips.beds import Beds
from storeyrod.slips.courses import Course, EqualCourses
from storeyrod.slips.returns import JambReturns
from storeyrod.slips.soldiers import SoldierCourse
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge


def strip_area(face: Face, strips: Sequence[Interval]) -> float:
    """Area of plumb strips of a face, openings and features left out."""
    holes = [opening.ring for opening in face.openings] + [feature.ring for feature in face.features]
    return math.fsum(
        area_between(face.outline, left, right) - math.fsum(area_between(hole, left, right) for hole in holes)
        for left, right in strips
        if right > left
    )


def plumb_boxes(face: Face, strips: Sequence[Interval]) -> list[Box]:
    """Plumb strips of a face from its foot to its top."""
    return [(left, face.foot, right, face.top) for left, right in strips]


def free_region(face: Face, boxes: Sequence[Box]) -> Region:
    """Where slips are laid: the net wall without features and the strips of joints."""
    return face.slip_region.less(*boxes) if boxes else face.slip_region


def level_area(face: Face, boxes: Sequence[Box]) -> float:
    """Area of level strips of a face, features left out."""
    return math.fsum(
        part.area
        for left, bottom, right, top in boxes
        for parts in face.slip_region.cells(bottom, top, [(left, right)])
        for part in parts
    )


class CourseSums(NamedTuple):
    """What the courses of a face come to: courses, whole and cut units, their area, and area and length of the perps. Ticks."""

    courses: int
    full: int
    cuts: int
    area: float
    perp_area: float
    perp_length: float


@dataclass(frozen=True)
class FaceSlips:
    """One face, laid. Areas in square ticks, lengths in ticks."""

    face: Face
    bays: tuple[BayPerps, ...]
    gauge: Gauge
    equal_courses: tuple[EqualCourses, ...]
    soldiers: tuple[SoldierCourse, ...]
    voussoirs: tuple[VoussoirRing, ...]
    beds: Beds
    slot_area: float
    end_joint_area: float
    storey_area: float = 0.0
    returns: tuple[JambReturns, ...] = ()

    def with_returns(self, returns: Sequence[JambReturns]) -> "FaceSlips":
        """The face with its lined jambs."""
        return replace(self, returns=tuple(returns))

    @cached_property
    def courses(self) -> tuple[Course, ...]:
        """Every course on its own, from the bottom."""
        single = (course for equal in self.equal_courses for course in equal.written_out(self.gauge))
        return tuple(sorted(single, key=lambda course: course.number))

    @cached_property
    def sums(self) -> CourseSums:
        """What the courses come to."""
        count = full = cuts = 0
        area, perp_area, perp_length = [], [], 0.0
        for equal in self.equal_courses:
            laid, times = equal.laid, len(equal.numbers)
            count += times if laid.has_pieces else 0
            full += laid.full_count * times
            cuts += len(laid.cuts) * times
            area.append(laid.face_area * times)
            perp_area.append(laid.perp_area * times)
            perp_length += laid.perp_length * times
        return CourseSums(count, full, cuts, math.fsum(area), math.fsum(perp_area), perp_length)

    @property
    def courses_count(self) -> int:
        """Courses with at least one piece."""
        return self.sums.courses

    @property
    def full_count(self) -> int:
        """Whole units in courses."""
        return self.sums.full

    @property
    def cut_count(self) -> int:
        """Cut units in courses."""
        return self.sums.cuts

    @property
    def soldiers_count(self) -> int:
        """Soldiers, whole and cut."""
        return sum(course.count for course in self.soldiers)

    @property
    def course_area(self) -> float:
        """Face area of the pieces in courses."""
        return self.sums.area

    @cached_property
    def soldier_area(self) -> float:
        """Face area of soldiers."""
        return math.fsum(course.face_area for course in self.soldiers)

    @property
    def voussoirs_count(self) -> int:
        """Voussoirs, whole and clipped."""
        return sum(ring.count for ring in self.voussoirs)

    @cached_property
    def voussoir_area(self) -> float:
        """Face area of voussoirs."""
        return math.fsum(ring.face_area for ring in self.voussoirs)

    @property
    def _over_heads(self) -> tuple[SoldierCourse | VoussoirRing, ...]:
        return *self.soldiers, *self.voussoirs

    @property
    def slip_area(self) -> float:
        """Face area of all pieces."""
        return self.course_area + self.soldier_area + self.voussoir_area

    @property
    def joint_area(self) -> float:
        """Mortar joints: the net wall less features, pieces, movement joints and end joints."""
        movement = self.slot_area + self.storey_area + self.end_joint_area
        return self.face.net_area - self.face.feature_area - self.slip_area - movement

    @property
    def joint_area_by_strips(self) -> float:
        """Mortar joints measured strip by strip: beds, perps, and the joints of soldier courses and round arches."""
        return self.beds.area + self.sums.perp_area + math.fsum(one.joint_area for one in self._over_heads)

    @property
    def bed_length(self) -> float:
        """Length of bed joints, those over soldiers and voussoirs included."""
        return self.beds.length + sum(one.bed_length for one in self._over_heads)

    @property
    def perp_length(self) -> float:
        """Length of upright joints, those between soldiers and between voussoirs included."""
        return self.sums.perp_length + sum(one.perp_length for one in self._over_heads)
