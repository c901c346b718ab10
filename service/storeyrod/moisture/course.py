"""Moisture through a year, or through blocks: condensing, drying, and from which month it is summed up."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
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
    """Moisture through a year that repeats itself, from a month that condenses after one that does not; else from the first.

    A year that starts so and ends dry is the year as it comes round. Where it ends wet though the section was dry in between,
    the sum may as well start with the month that made it wet again: the course that leaves least counts.
    """
    count = len(months)
    profiles = [profile_of(section, month) for month in months]
    condenses = _condensing(section, profiles, months)

    def course(start: int) -> Course:
        order = [*range(start, count), *range(start)]
        return Course(profiles, _run(section, profiles, months, order, condenses))

    begins = (at for at in reversed(range(count)) if condenses(at) and not condenses((at or count) - 1))
    first = course(next(begins, 0))
    if not first.moments[-1].held:
        return first
    again = [month.at for before, month in pairwise(first.moments) if month.held and not before.held]
    return min([first, *map(course, again)], key=lambda one: (one.remaining, -one.greatest))


def blocks_of(section: Section, blocks: Sequence[Conditions]) -> Course:
    """Moisture through blocks, one after the other, from a dry section."""
    profiles = [profile_of(section, block) for block in blocks]
    condenses = _condensing(section, profiles, blocks)
    return Course(profiles, _run(section, profiles, blocks, range(len(blocks)), condenses))


def profile_of(section: Section, period: Conditions) -> Profile:
    """Temperatures by the share of resistance inside each plane, and what saturates there."""
    inside, outside = period.temperatures
    fall = inside - outside
    temperatures = [inside - fall * share for share in section.shares]
    return Profile(temperatures, saturations(temperatures))


def _condensing(section: Section, profiles: Sequence[Profile], periods: Sequence[Conditions]) -> Callable[[int], bool]:
    """Whether a period condenses in a dry section; each is looked at once, and only if asked for."""

    def condenses(at: int) -> bool:
        most, ends = profiles[at].saturations, periods[at].pressures
        return any(touches(part, section.depths, most, ends) for part in section.compartments)

    return cache(condenses)


def _run(
    section: Section,
    profiles: Sequence[Profile],
    periods: Sequence[Conditions],
    order: Sequence[int],
    condenses: Callable[[int], bool],
) -> list[Moment]:
    made: list[Moment] = []
    held: dict[int, float] = {}
    for at in order:
        wet, most, ends = sorted(held), profiles[at].saturations, periods[at].pressures
        slack = not wet and not condenses(at)
        strings = [strung(part, section.depths, most, ends, wet, slack=slack) for part in section.compartments]
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
