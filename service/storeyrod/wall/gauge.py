"""The gauge: heights of courses above the datum, as on the storey rod."""

import math
from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import accumulate

from storeyrod.geometry.ticks import exact_ticks, ticks
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.storey_joints import StoreyJoint
from storeyrod.wall.system import System


@dataclass(frozen=True, slots=True)
class Gauge:
    """The courses of a wall: height of a slip, height of a course, and level of the foot of course 0. Ticks.

    A level joint wider than a bed moves the courses beyond it, seen from the datum. ``lifted`` are the courses that stand on such
    joints, and ``shifts`` how far courses stand off the even gauge: those below the first joint, then those from each one up.
    """

    height: float
    pitch: float
    datum: float = 0.0
    lifted: tuple[int, ...] = ()
    shifts: tuple[float, ...] = (0.0,)

    def bottom(self, number: int) -> float:
        """Foot of a course: the exact multiple of the pitch above the datum, rounded once, and the shift of its storey."""
        foot = self.datum + float(round(number * self.pitch))
        return foot + self.shift(number) if self.lifted else foot

    def shift(self, number: int) -> float:
        """How far joints wider than a bed have moved a course, upwards."""
        return self.shifts[bisect_right(self.lifted, number)]

    def top(self, number: int) -> float:
        """Head of a course's slips, where its bed joint starts; rounding never lifts it over the next course."""
        return min(self.bottom(number) + self.height, self.bottom(number + 1))

    def numbers(self, foot: float, top: float) -> range:
        """Courses whose slips or bed lie between two heights."""
        if self.lifted:
            last = self.standing_at(top)
            return range(self.standing_at(foot), last + (self.bottom(last) < top))
        return range(math.floor((foot - self.datum) / self.pitch), math.ceil((top - self.datum) / self.pitch))

    @property
    def is_even(self) -> bool:
        """Whether every course has slips of full height: rounding to ticks takes nothing off them."""
        return math.floor(self.pitch) >= self.height

    @property
    def has_beds(self) -> bool:
        """Whether there is a bed over every course."""
        return math.floor(self.pitch) > self.height

    def nearest(self, level: float) -> int:
        """Course whose foot is nearest to a level; half way between two, the lower one."""
        if self.lifted:
            number = self.standing_at(level)
            return number + (level - self.bottom(number) > self.bottom(number + 1) - level)
        return math.ceil((level - self.datum) / self.pitch - 0.5)

    def standing_at(self, level: float) -> int:
        """Highest course whose foot is at or below a level."""
        if self.lifted:
            storey = bisect_right(self.lifted, level, key=self.bottom)
            number = self.even.standing_at(level - self.shifts[storey])
            return min(number, self.lifted[storey] - 1) if storey < len(self.lifted) else number
        number = self.nearest(level)
        return number if self.bottom(number) <= level else number - 1

    def off_course(self, level: float) -> float:
        """Signed distance of a level from the nearest course line: above it is positive."""
        return level - self.bottom(self.nearest(level))

    @property
    def even(self) -> "Gauge":
        """The gauge without joints that move courses."""
        return Gauge(self.height, self.pitch, self.datum)

    def with_joints(self, joints: Iterable[StoreyJoint]) -> "Gauge":
        """The gauge with the joints, from the lowest, that are wider than a bed; the foot of course 0 stays at the datum."""
        lifts = [(joint.course, joint.lift) for joint in joints if joint.lift]
        moved = [0.0, *accumulate(lift for _, lift in lifts)]
        lifted = tuple(course for course, _ in lifts)
        at_datum = moved[bisect_right(lifted, 0)]
        return replace(self, lifted=lifted, shifts=tuple(shift - at_datum for shift in moved))


def gauge_of(system: System, joints: Iterable[StoreyJoint] = ()) -> Gauge:
    """Gauge of a system, with the level joints of the wall from the lowest."""
    even = Gauge(ticks(system.slip.height_mm), exact_ticks(course_pitch_of(system)), ticks(system.course_datum_mm))
    return even.with_joints(joints) if joints else even
