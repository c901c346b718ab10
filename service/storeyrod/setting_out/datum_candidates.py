"""Candidates for the foot of course 0, weighed by how the levels of a wall fall on the courses.

A pitch is a circle, on which every level has a place. A candidate is another place, and what it does to all levels is read from
sorted places, so that many openings stay cheap. The least worst candidate lies opposite the middle of the widest gap between
levels: there its farthest level is half of the rest of the circle away, and nowhere else is it nearer.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final, Literal

from storeyrod.geometry.ticks import ticks
from storeyrod.setting_out.wall_levels import ON_COURSE, WallLevel
from storeyrod.wall.gauge import Gauge

Why = Literal["as_given", "fixed", "match_bed", "head", "sill", "top", "base", "least_worst"]

_BY_LEVEL: Final[tuple[Why, ...]] = ("head", "sill", "top", "base")


@dataclass(frozen=True, slots=True)
class Candidate:
    """A level for the foot of course 0 in ticks, where it comes from, and its merit: less is better."""

    level: float
    why: Why
    merit: tuple[float, ...]


class Circle:
    """Places of levels on a pitch, counted from a datum. Ticks."""

    def __init__(self, places: Sequence[float], pitch: float) -> None:
        """Places may lie anywhere; they are taken modulo the pitch."""
        once = sorted(place % pitch for place in places)
        self.pitch = pitch
        self.size = len(once)
        self._twice = [*once, *(place + pitch for place in once)]
        self._sums = [0.0, *accumulate(self._twice)]

    def between(self, start: float, end: float) -> int:
        """Levels inside an open interval that is no longer than the pitch."""
        if end <= start:
            return 0
        low = start % self.pitch
        return max(0, bisect_left(self._twice, low + (end - start)) - bisect_right(self._twice, low))

    def farthest(self, place: float) -> float:
        """Greatest distance of a level from a place, either way round."""
        if not self.size:
            return 0.0
        opposite = (place + self.pitch / 2.0) % self.pitch
        index = bisect_left(self._twice, opposite)
        # Twice round, so that there is a level on either side.
        above = self._twice[index] - opposite
        below = opposite - (self._twice[index - 1] if index else self._twice[-1] - 2.0 * self.pitch)
        return self.pitch / 2.0 - min(above, below)

    def mean(self, place: float) -> float:
        """Mean distance of all levels from a place."""
        if not self.size:
            return 0.0
        start = place % self.pitch
        low, half = bisect_left(self._twice, start), bisect_right(self._twice, start + self.pitch / 2.0)
        end = low + self.size
        above = self._sums[half] - self._sums[low] - (half - low) * start
        below = (end - half) * (start + self.pitch) - (self._sums[end] - self._sums[half])
        return (above + below) / self.size

    def least_worst(self) -> Iterator[float]:
        """Middles of what the widest gaps leave, as shifts between minus and plus half a pitch; none without levels."""
        gaps = [(high - low, low, high) for low, high in pairwise(self._twice[: self.size + 1])]
        widest = max((gap for gap, _, _ in gaps), default=0.0)
        for gap, low, high in gaps:
            if gap == widest:
                yield _nearest((low + high + self.pitch) / 2.0, self.pitch)


def _nearest(shift: float, pitch: float) -> float:
    """A shift modulo the pitch, between minus and plus half of it, in whole ticks."""
    turned = shift % pitch
    return float(round(turned if turned <= pitch / 2.0 else turned - pitch))


def candidates_of(
    levels: Sequence[WallLevel], gauge: Gauge, asked: tuple[float, Why] | None, minimum_rip_mm: float
) -> list[Candidate]:
    """Candidates best first, each at the level nearest to the gauge's own datum; one a pitch from another counts once.

    ``asked`` is the shift of a datum that was asked for, with its reason: it keeps its level. Merit: whether slips are ripped
    too low, levels with ripped slips, levels off course, greatest and mean offset, distance from the datum.
    """
    scale = _Scale(levels, gauge, ticks(minimum_rip_mm))
    made = [
        Candidate(gauge.datum + shift, why, scale.merit(shift))
        for shift, why in _shifts(levels, gauge, asked, scale.places)
    ]
    return sorted(made, key=lambda one: (one.merit, one.level))


def _shifts(
    levels: Sequence[WallLevel], gauge: Gauge, asked: tuple[float, Why] | None, places: Circle
) -> Iterator[tuple[float, Why]]:
    """Shifts of the datum, each once modulo the pitch; what was asked for comes first, then what needs no calculation."""
    by_level: dict[str, set[float]] = {}
    for level in levels:
        by_level.setdefault(level.what, set()).add(gauge.off_course(level.y))
    named: list[tuple[float, Why]] = [*([] if asked is None else [asked]), (0.0, "as_given")]
    named += [(shift, why) for why in _BY_LEVEL for shift in sorted(by_level.get(why, ()))]
    named += [(shift, "least_worst") for shift in sorted(places.least_worst(), key=lambda one: (abs(one), one))[:1]]
    seen: set[float] = set()
    for shift, why in named:
        place = _nearest(shift, gauge.pitch)
        if seen.isdisjoint((place - 1.0, place, place + 1.0)):
            seen.add(place)
            yield shift, why


def _place(level: WallLevel, gauge: Gauge) -> float:
    """Height of a level over the datum on the even gauge: without what joints wider than a bed have moved its courses."""
    return level.y - gauge.datum - gauge.shift(gauge.nearest(level.y))


class _Scale:
    """Weighs shifts of the datum."""

    def __init__(self, levels: Sequence[WallLevel], gauge: Gauge, least_rip: float) -> None:
        self.places = Circle([_place(level, gauge) for level in levels], gauge.pitch)
        self._starting = Circle([_place(one, gauge) for one in levels if one.wall_above], gauge.pitch)
        self._ending = Circle([_place(one, gauge) for one in levels if not one.wall_above], gauge.pitch)
        self._slip, self._pitch = gauge.height, gauge.pitch
        self._least_rip = least_rip

    def merit(self, shift: float) -> tuple[float, ...]:
        ripped_to = shift + self._slip - ON_COURSE
        ripped = self.places.between(shift + ON_COURSE, ripped_to)
        low_rips = self._starting.between(shift + max(ON_COURSE, self._slip - self._least_rip), ripped_to)
        low_rips += self._ending.between(shift + ON_COURSE, min(shift + self._least_rip, ripped_to))
        off_course = self.places.between(shift + ON_COURSE, shift + self._pitch - ON_COURSE)
        worst, mean = self.places.farthest(shift), self.places.mean(shift)
        # The thousandth of a tick keeps the last digits of a sum from deciding between levels that are alike.
        merit = float(low_rips > 0), float(ripped), float(off_course), round(worst, 3), round(mean, 3)
        return *merit, abs(_nearest(shift, self._pitch))
