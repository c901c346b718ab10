"""Moisture through a year, or through blocks: condensing, drying, and from which month it is summed up."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import fsum
from typing import Literal, NamedTuple, Protocol

from storeyrod.moisture.humid_air import saturations
from storeyrod.moisture.section import Section
from storeyrod.moisture.vapour_string import Strung, rates, strung, touches


class Conditions(Protocol):
    """What of a period the course needs: degrees Celsius, Pa and seconds."""

    @property
    def temperatures(self) -> tuple[float, float]:
        """Indoors and outdoors."""

    @property
    def pressures(self) -> tuple[float, float]:
        """Vapour pressure indoors and outdoors."""

    @property
    def seconds(self) -> float:
        """Length."""


class Profile(NamedTuple):
    """Temperature in degrees Celsius and saturation pressure in Pa at every plane in a period."""

    temperatures: list[float]
    saturations: list[float]


class Moment(NamedTuple):
    """A period as it went: strings by compartment, kg/m2 that condensed or could dry, and what is held at its end."""

    at: int
    strings: list[Strung]
    changes: dict[int, float]
    held: dict[int, float]


@dataclass(frozen=True, slots=True)
class Course:
    """All periods in the order in which moisture was summed up, and the profile of each in the order of the request."""

    profiles: list[Profile]
    moments: list[Moment]

    @property
    def condenses(self) -> bool:
        """Whether a plane ever holds moisture."""
        return any(moment.held for moment in self.moments)

    @property
    def remaining(self) -> float:
        """What is left at the end, in kg/m2."""
        return fsum(self.moments[-1].held.values())

    @property
    def greatest(self) -> float:
        """The most that all planes hold together at the end of a period, in kg/m2."""
        return max(fsum(moment.held.values()) for moment in self.moments)

    @property
    def verdict(self) -> Literal["none", "dries_out", "remains"]:
        """Whether moisture condenses, and whether some is left at the end."""
        if not self.condenses:
            return "none"
        return "remains" if self.moments[-1].held else "dries_out"


def year_of(section: Section, months: Sequence[Conditions]) -> Course:
    """Moisture through a year that repeats itself, from the first month that condenses after one that does not.

    A year that starts with such a month and ends dry is the year as it comes round. Where none does, of several starts the
    one counts that leaves least, then the one from which most accumulates; if every month condenses, the first one.
    """
    profiles = [profile_of(section, month) for month in months]
    condenses = cache(lambda at: _condenses(section, profiles[at], months[at]))
    left_wet: list[Course] = []
    for start in reversed(range(len(months))):
        if condenses(start) and not condenses((start or len(months)) - 1):
            order = [*range(start, len(months)), *range(start)]
            course = Course(profiles, _run(section, profiles, months, order))
            if not course.moments[-1].held:
                return course
            left_wet.append(course)
    if not left_wet:
        return Course(profiles, _run(section, profiles, months, range(len(months))))
    return min(left_wet, key=lambda course: (course.remaining, -course.greatest))


def blocks_of(section: Section, blocks: Sequence[Conditions]) -> Course:
    """Moisture through blocks, one after the other, from a dry section."""
    profiles = [profile_of(section, block) for block in blocks]
    return Course(profiles, _run(section, profiles, blocks, range(len(blocks))))


def profile_of(section: Section, period: Conditions) -> Profile:
    """Temperatures by the share of resistance inside each plane, and what saturates there."""
    inside, outside = period.temperatures
    fall = inside - outside
    temperatures = [inside - fall * share for share in section.shares]
    return Profile(temperatures, saturations(temperatures))


def _condenses(section: Section, profile: Profile, period: Conditions) -> bool:
    saturations, ends = profile.saturations, period.pressures
    return any(touches(part, section.depths, saturations, ends) for part in section.compartments)


def _run(
    section: Section,
    profiles: Sequence[Profile],
    periods: Sequence[Conditions],
    order: Sequence[int],
) -> list[Moment]:
    made: list[Moment] = []
    held: dict[int, float] = {}
    for at in order:
        wet, most, ends = sorted(held), profiles[at].saturations, periods[at].pressures
        strings = [strung(part, section.depths, most, ends, wet) for part in section.compartments]
        changes: dict[int, float] = {}
        kept: dict[int, float] = {}
        for string in strings:
            for plane, rate in rates(string, section.depths):
                change = rate * periods[at].seconds
                if rate > 0.0 or plane in held:
                    changes[plane] = change
                    after = held.get(plane, 0.0) + change
                    if after > 0.0:
                        kept[plane] = after
        made.append(Moment(at, strings, changes, kept))
        held = kept
    return made
