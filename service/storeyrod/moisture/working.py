"""Everything that a moisture check worked out: what its answer is written from, and what a picture of it draws."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final, Literal

from storeyrod.moisture.climate import Period
from storeyrod.moisture.course import Course
from storeyrod.moisture.derivation import Working
from storeyrod.moisture.passage import Moment
from storeyrod.moisture.section import Section
from storeyrod.moisture.surface import Surface
from storeyrod.moisture.vapour_string import pressures_between

_TOUCH: Final = 1e-9
"""Relative: air that meets a surface at its own temperature and is saturated does not condense there."""


@dataclass(frozen=True)
class MoistureWorking:
    """A section, the periods in the order of the request, the course of moisture in it, and the internal surface.

    ``course.profiles`` and ``pressures`` hold a list for each period with a value for each of ``section.planes``; a pressure
    is absent between two vapour-tight layers.
    """

    section: Section
    periods: tuple[Period, ...]
    course: Course
    surface: Surface
    dries: bool
    steps: Working = field(default_factory=Working)

    @property
    def moments(self) -> Sequence[Moment]:
        """The periods as they went."""
        return self.course.moments

    @cached_property
    def pressures(self) -> list[list[float | None]]:
        """Vapour pressure in Pa at every plane, by period."""
        return [self._pressures(self.moments[at]) for at in range(len(self.periods))]

    @cached_property
    def greatest(self) -> Mapping[int, float]:
        """Greatest moisture in kg/m2 of every plane that ever holds some."""
        wet = sorted({plane for moment in self.moments for plane in moment.held})
        return {plane: self.course.greatest_at(plane) for plane in wet}

    @cached_property
    def over_saturation(self) -> tuple[float | None, float | None]:
        """Greatest humidity over 1 that the airs would have at the internal and the external surface of the section.

        Absent where they stay below saturation, or where a film holds vapour back: then the surface is a plane like others.
        """
        return self._over_saturation(0), self._over_saturation(-1)

    @property
    def surface_condenses(self) -> bool:
        """Whether the internal surface ever has more than saturated air on it, at its own resistance or at that for mould."""
        own_film = self.section.planes[0].film and 1 in self.greatest
        return self.surface.humidity > 1.0 or self.over_saturation[0] is not None or own_film

    @property
    def surface_verdict(self) -> Literal["none", "mould_risk", "condenses"]:
        """What is to be feared at the internal surface."""
        if self.surface_condenses:
            return "condenses"
        required = self.surface.required
        return "none" if required is None or self.surface.factor >= required else "mould_risk"

    @property
    def monthly(self) -> bool:
        """Whether the periods are the months of a year."""
        return isinstance(self.periods[0].label, int)

    def _over_saturation(self, end: int) -> float | None:
        if self.section.planes[end].film:
            return None
        rows = zip(self.periods, self.course.profiles, strict=True)
        greatest = max(period.pressures[end] / profile.saturations[end] for period, profile in rows)
        return greatest if greatest > 1.0 + _TOUCH else None

    def _pressures(self, moment: Moment) -> list[float | None]:
        made: list[float | None] = [None] * len(self.section.planes)
        for string in moment.strings:
            if string.knots:
                first = string.compartment.first
                values = pressures_between(string, self.section.depths)
                made[first : first + len(values)] = values
        return made
