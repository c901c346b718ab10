"""The gauge: heights of courses above the datum, as on the storey rod."""

import math
from dataclasses import dataclass

from storeyrod.geometry.ticks import exact_ticks, ticks
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.system import System


@dataclass(frozen=True, slots=True)
class Gauge:
    """The courses of a wall: height of a slip, height of a course, and level of the foot of course 0. Ticks."""

    height: float
    pitch: float
    datum: float = 0.0

    def bottom(self, number: int) -> float:
        """Foot of a course: the exact multiple of the pitch above the datum, rounded once."""
        return self.datum + float(round(number * self.pitch))

    def top(self, number: int) -> float:
        """Head of a course's slips, where its bed joint starts; rounding never lifts it over the next course."""
        return min(self.bottom(number) + self.height, self.bottom(number + 1))

    def numbers(self, foot: float, top: float) -> range:
        """Courses whose slips or bed lie between two heights."""
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
        return math.ceil((level - self.datum) / self.pitch - 0.5)

    def standing_at(self, level: float) -> int:
        """Highest course whose foot is at or below a level."""
        number = self.nearest(level)
        return number if self.bottom(number) <= level else number - 1

    def off_course(self, level: float) -> float:
        """Signed distance of a level from the nearest course line: above it is positive."""
        return level - self.bottom(self.nearest(level))


def gauge_of(system: System) -> Gauge:
    """Gauge of a system."""
    return Gauge(ticks(system.slip.height_mm), exact_ticks(course_pitch_of(system)), ticks(system.course_datum_mm))
