"""The wall between two fixed joints, with the positions in it and the sizes of the bays that they may make."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from storeyrod.movement_joints.panels import Storey
from storeyrod.movement_joints.positions import RANKS, Place, Positions
from storeyrod.movement_joints.spacing import BayLimits


def area_kept(storeys: Sequence[Storey], limits: BayLimits) -> tuple[Storey, ...]:
    """The storeys whose area vertical joints can keep within its limit.

    One that is so high that a bay of the limit's area would be too slender needs level joints instead.
    """
    if math.isinf(limits.area):
        return ()
    return tuple(storey for storey in storeys if storey.whole_height**2 <= limits.area * limits.ratio)


@dataclass(frozen=True)
class FreeStretch:
    """Positions between two fixed joints, as ``positions`` counts them; ticks.

    ``at_ends`` are the limits of the bays at its two ends. Sizes are lengths; where area or ratio ask for less, a bay counts as
    longer by their share of the limit. Those sizes take joints as narrow as they may become, so that they are never exceeded.
    """

    positions: Positions
    low: float
    high: float
    limits: BayLimits
    at_ends: tuple[float, float]
    storeys: Sequence[Storey]
    kept: tuple[Storey, ...]
    narrowest: float

    @property
    def limit(self) -> float:
        """Longest bay."""
        return self.limits.length

    @property
    def is_bay(self) -> bool:
        """Whether the stretch needs no joint, by its length alone."""
        return (
            not self.kept
            and math.isinf(self.limits.ratio)
            and self.high - self.low - self.positions.width + max(self._nearer) <= self.limit + 1.0
        )

    @cached_property
    def _inner(self) -> list[tuple[float, Place]]:
        return self.positions.between(self.low, self.high)

    @cached_property
    def places(self) -> list[Place]:
        """Places by the index of the stop; those of the two ends are not used."""
        ends = Place(0.0, "existing")
        return [ends, *(place for _, place in self._inner), ends]

    @cached_property
    def stops(self) -> list[float]:
        """Centres of joints, the fixed ones at both ends included."""
        return [self.low, *(x for x, _ in self._inner), self.high]

    @cached_property
    def ranks(self) -> list[int]:
        """How places are liked."""
        return [0, *(RANKS[place.reason] for _, place in self._inner), 0]

    @cached_property
    def _nearer(self) -> tuple[float, float]:
        """By how much the bays at the two ends must be shorter than the limit."""
        spare = self.positions.width - self.narrowest
        first, second = (self.limit - end + spare if end < self.limit else 0.0 for end in self.at_ends)
        return first, second

    def _short_by(self, before: int, after: int) -> tuple[float, float]:
        first, second = self._nearer
        return first if before == 0 else 0.0, second if after == len(self.stops) - 1 else 0.0

    def spacing(self, before: int, after: int) -> float:
        """Distance of two positions as it is balanced: bays at corners are to be shorter."""
        return self.stops[after] - self.stops[before] + sum(self._short_by(before, after))

    def length(self, before: int, after: int) -> float:
        """Size of a bay by its length alone: as much more as it must be shorter at a corner."""
        return self.stops[after] - self.stops[before] - self.positions.width + max(self._short_by(before, after))

    def size(self, before: int, after: int) -> float:
        """Size of a bay, as length."""
        size = self.length(before, after)
        if self._longest_by_ratio < self.limit:
            clear = self.stops[after] - self.stops[before] - self.positions.width
            size = max(size, clear * self.limit / self._longest_by_ratio)
        return max(size, self._area(before, after) / self.limits.area * self.limit) if self.kept else size

    @cached_property
    def _longest_by_ratio(self) -> float:
        """Longest bay that the lowest storey of the stretch permits by the ratio of its sides."""
        if math.isinf(self.limits.ratio):
            return math.inf
        left, right = sorted([self.positions.there(self.low), self.positions.there(self.high)])
        heights = [storey.height(left, right) for storey in self.storeys]
        return min((height for height in heights if height > 0), default=math.inf) * self.limits.ratio

    def _area(self, before: int, after: int) -> float:
        half = self.narrowest / 2.0
        edges = sorted(self.positions.there(x) for x in (self.stops[before] + half, self.stops[after] - half))
        return max(storey.area_until(edges[1]) - storey.area_until(edges[0]) for storey in self.kept)
