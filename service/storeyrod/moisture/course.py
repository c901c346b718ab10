"""Moisture through a year that repeats itself, or through blocks: condensing, drying, and what stays."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import fsum
from typing import Final, Literal, NamedTuple

from storeyrod.moisture.passage import Conditions, Moment, Passage, Profile
from storeyrod.moisture.section import Place, Section

MOST_YEARS: Final = 60
"""House limit: the wet planes of a year only become more from one year to the next, and are the same from the second or third on."""


@dataclass(frozen=True, slots=True)
class Course:
    """Profile and moment of every period of a section, in the order of the request.

    ``counted_from`` holds, for planes that dry in no month, the index of the month from which they are counted; after blocks the
    first for all planes.
    """

    section: Section
    profiles: list[Profile]
    moments: list[Moment]
    counted_from: Mapping[int, int]

    @property
    def condenses(self) -> bool:
        """Whether a plane ever holds moisture."""
        return any(moment.held for moment in self.moments)

    @property
    def greatest(self) -> float:
        """The most that all planes hold together at the end of a period, in kg/m2."""
        return max(fsum(moment.held.values()) for moment in self.moments)

    @property
    def remaining(self) -> float:
        """Moisture that does not leave, in kg/m2: what planes gain from year to year, what places hold in their driest month."""
        return fsum(self.moments[at].held[plane] for at, plane in self.lasting())

    @property
    def verdict(self) -> Literal["none", "dries_out", "remains"]:
        """Whether moisture condenses, and whether some stays."""
        if not self.condenses:
            return "none"
        return "remains" if self.remaining > 0.0 else "dries_out"

    def lasting(self) -> list[tuple[int, int]]:
        """Periods and planes whose moisture at the end adds up to what remains.

        Of a plane that dries in no month the last of the twelve that are counted; of the other planes of a place, all in the month
        in which they hold least together. A place that is dry in a month has none.
        """
        count = len(self.moments)
        made = [((start - 1) % count, plane) for plane, start in self.counted_from.items()]
        places: dict[Place, list[int]] = {}
        for plane in sorted({plane for moment in self.moments for plane in moment.held} - self.counted_from.keys()):
            places.setdefault(self.section.planes[plane].place, []).append(plane)
        for planes in places.values():
            amounts = self.held_by(planes)
            made += [(amounts.index(min(amounts)), plane) for plane in planes]
        return [(at, plane) for at, plane in made if plane in self.moments[at].held]

    def held_by(self, planes: Sequence[int]) -> list[float]:
        """What planes hold together at the end of every period, in kg/m2."""
        return [fsum(moment.held.get(plane, 0.0) for plane in planes) for moment in self.moments]

    def greatest_at(self, plane: int) -> float:
        """The most that a plane holds at the end of a period, in kg/m2."""
        return max(moment.held.get(plane, 0.0) for moment in self.moments)

    def start_of(self, plane: int) -> int:
        """Index of the period from which a plane is summed up, dry before: where it dries, the first of its wettest spell."""
        if plane in self.counted_from:
            return self.counted_from[plane]
        held = [moment.held.get(plane, 0.0) for moment in self.moments]
        start = held.index(max(held))
        while held[start - 1] > 0.0:
            start -= 1
        return start % len(held)


class _Counted(NamedTuple):
    """A plane that dries in no month: its first month, and what it holds at the end of each month from that one on."""

    start: int
    amounts: list[float]


def year_of(section: Section, months: Sequence[Conditions]) -> Course:
    """Moisture through a year that repeats itself, whichever month it is counted from.

    ISO 13788 starts with a dry section in the first month that condenses after one that does not. Here the years are carried on
    from there until they repeat. A year that ends as dry as it began repeats at once; else planes that have moisture from the
    year before may wet others, until the same planes are wet in the same months again. From then on each plane is dry in some
    month, or gains as much every year.
    """
    passage = Passage(section, months)
    count = len(months)
    begins = (at for at in reversed(range(count)) if passage.condenses(at) and not passage.condenses((at or count) - 1))
    start = next(begins, 0)
    order = [*range(start, count), *range(start)]
    year = passage.through(order, {})
    if year[-1].held:
        year = _repeating(passage, order, year)
    return _settled(section, passage.profiles, [*year[count - start :], *year[: count - start]])


def blocks_of(section: Section, blocks: Sequence[Conditions]) -> Course:
    """Moisture through blocks, one after the other, from a dry section."""
    passage = Passage(section, blocks)
    moments = passage.through(range(len(blocks)), {})
    from_first = dict.fromkeys(sorted({plane for moment in moments for plane in moment.held}), 0)
    return Course(section, passage.profiles, moments, from_first)


def _repeating(passage: Passage, order: Sequence[int], year: list[Moment]) -> list[Moment]:
    """The year in which the same planes are wet in the same months as in the one before, from a first year that began dry."""
    wet = [tuple(moment.held) for moment in year]
    for _ in range(MOST_YEARS):
        before, left = wet, year[-1].held
        # Planes that are wet all the year leave only the month that began dry to be done again.
        again = order[:1] if wet.count(wet[-1]) == len(wet) else order
        year = [*passage.through(again, left), *year[len(again) :]]
        wet = [tuple(moment.held) for moment in year]
        if wet == before:
            break
    return year


def _settled(section: Section, profiles: list[Profile], moments: list[Moment]) -> Course:
    """A year that repeats itself, January first, in which planes that dry in no month are counted from a month of their own."""
    counted: dict[int, int] = {}
    for plane in moments[-1].held:
        if all(plane in moment.held for moment in moments):
            counted[plane], amounts = _counted([moment.changes[plane] for moment in moments])
            for later, amount in enumerate(amounts, counted[plane] - len(moments)):
                moments[later].held[plane] = amount
    return Course(section, profiles, moments, counted)


def _counted(changes: Sequence[float]) -> _Counted:
    """What a plane that never dries holds over twelve months, from the month from which it comes to hold most.

    That month gains after one that dries, so the plane holds more than nothing all the year; where no month dries, it is the one
    after the month that gains least.
    """
    begins = [at for at in range(len(changes)) if changes[at - 1] <= 0.0 < changes[at]]
    ways = [
        _Counted(at, list(accumulate([*changes[at:], *changes[:at]])))
        for at in begins or [(changes.index(min(changes)) + 1) % len(changes)]
    ]
    return max(ways, key=lambda way: max(way.amounts))
