"""Everything that a moisture check worked out: what its answer is written from, and what a picture of it draws."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from storeyrod.moisture.climate import Period
from storeyrod.moisture.course import Course, Moment
from storeyrod.moisture.derivation import Working
from storeyrod.moisture.section import Section
from storeyrod.moisture.surface import Surface
from storeyrod.moisture.vapour_string import pressures_between


@dataclass(frozen=True)
class MoistureWorking:
    """A section, the periods in the order of the request, the course of moisture in it, and the internal surface.

    ``course.profiles`` and ``pressures`` hold a list for each period with a value for each of ``section.planes``; a pressure
    is absent between two vapour-tight layers. ``moments`` holds the periods of the course by their place in the request.
    """

    section: Section
    periods: tuple[Period, ...]
    course: Course
    surface: Surface
    dries: bool
    steps: Working = field(default_factory=Working)

    @cached_property
    def moments(self) -> Mapping[int, Moment]:
        """The course by period."""
        return {moment.at: moment for moment in self.course.moments}

    @cached_property
    def pressures(self) -> list[list[float | None]]:
        """Vapour pressure in Pa at every plane, by period."""
        return [self._pressures(self.moments[at]) for at in range(len(self.periods))]

    @cached_property
    def greatest(self) -> Mapping[int, float]:
        """Greatest moisture in kg/m2 of every plane that ever holds some."""
        made: dict[int, float] = {}
        for moment in self.course.moments:
            for plane, amount in moment.held.items():
                made[plane] = max(made.get(plane, 0.0), amount)
        return dict(sorted(made.items()))

    @property
    def monthly(self) -> bool:
        """Whether the periods are the months of a year."""
        return isinstance(self.periods[0].label, int)

    def _pressures(self, moment: Moment) -> list[float | None]:
        made: list[float | None] = [None] * len(self.section.planes)
        for string in moment.strings:
            if string.knots:
                first = string.compartment.first
                values = pressures_between(string, self.section.depths)
                made[first : first + len(values)] = values
        return made
