"""How moisture passes from one period to the next: what the planes held, what condenses or dries, what they hold."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple, Protocol

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


class Passage:
    """Periods of a section, and what each of them makes of the moisture that planes held before it."""

    def __init__(self, section: Section, periods: Sequence[Conditions]) -> None:
        """Profiles at once; what condenses in a dry section only when asked for."""
        self.section, self.periods = section, periods
        self.profiles = [profile_of(section, period) for period in periods]
        self._condenses: dict[int, bool] = {}

    def condenses(self, at: int) -> bool:
        """Whether a period condenses in a dry section."""
        found = self._condenses.get(at)
        if found is None:
            most, ends, depths = self.profiles[at].saturations, self.periods[at].pressures, self.section.depths
            found = any(touches(part, depths, most, ends) for part in self.section.compartments)
            self._condenses[at] = found
        return found

    def through(self, order: Sequence[int], held: Mapping[int, float]) -> list[Moment]:
        """Periods one after the other, from planes that hold so much; planes always in the order of the section."""
        made: list[Moment] = []
        for at in order:
            strings, changes = self._condensed(at, list(held))
            kept: dict[int, float] = {}
            for plane, change in changes.items():
                after = held.get(plane, 0.0) + change
                if after > 0.0:
                    kept[plane] = after
            made.append(Moment(at, strings, changes, kept))
            held = kept
        return made

    def _condensed(self, at: int, wet: Sequence[int]) -> tuple[list[Strung], dict[int, float]]:
        """Strings of a period, and what condenses at each plane, or of wet ones could dry."""
        section, period, most = self.section, self.periods[at], self.profiles[at].saturations
        depths, ends, seconds = section.depths, period.pressures, period.seconds
        slack = not wet and not self.condenses(at)
        strings = [strung(part, depths, most, ends, wet, slack=slack) for part in section.compartments]
        changes: dict[int, float] = {}
        for string in strings:
            for plane, rate in rates(string, depths):
                if rate > 0.0 or plane in wet:
                    changes[plane] = rate * seconds
        return strings, changes


def profile_of(section: Section, period: Conditions) -> Profile:
    """Temperatures by the share of resistance inside each plane, and what saturates there."""
    inside, outside = period.temperatures
    fall = inside - outside
    temperatures = [inside - fall * share for share in section.shares]
    return Profile(temperatures, saturations(temperatures))
