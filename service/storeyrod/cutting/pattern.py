"""A way of cutting one blank, and how often it is used."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from storeyrod.cutting.plan import Place


@dataclass(frozen=True)
class Pattern:
    """Pieces and where they lie in a blank; ``Place.item`` is the class of a piece. ``blank`` as with a sheet."""

    blank: int
    places: tuple[Place, ...]

    @cached_property
    def uses(self) -> tuple[tuple[int, int], ...]:
        """Classes with the pieces of each."""
        return tuple(sorted(Counter(place.item for place in self.places).items()))

    def times(self, left: Sequence[int]) -> int:
        """How often the pieces still wanted fill the pattern."""
        return min(left[shape] // count for shape, count in self.uses)


@dataclass(slots=True)
class Cutting:
    """Patterns with the number of blanks cut by each: a whole answer, before pieces have their places in the list."""

    used: list[tuple[Pattern, int]]

    @property
    def bought(self) -> int:
        """New boards."""
        return sum(count for pattern, count in self.used if pattern.blank == 0)

    @property
    def offcuts(self) -> int:
        """Offcuts taken."""
        return sum(count for pattern, count in self.used if pattern.blank)

    def rank(self) -> tuple[int, int]:
        """What makes one answer better than another: fewer boards, then fewer offcuts."""
        return self.bought, self.offcuts

    def trimmed(self, wanted: Sequence[int]) -> "Cutting":
        """The same without pieces that nobody wants: the last patterns lose them."""
        left = list(wanted)
        used: list[tuple[Pattern, int]] = []
        for pattern, count in self.used:
            times = min(count, pattern.times(left))
            used += _counted(pattern, times, left)
            for _ in range(count - times):
                used += _counted(_only(pattern, left), 1, left)
        return Cutting(used)


def _counted(pattern: Pattern, times: int, left: list[int]) -> list[tuple[Pattern, int]]:
    """A pattern, its pieces taken from what is left; nothing where it gives none."""
    if not (times and pattern.places):
        return []
    for shape, pieces in pattern.uses:
        left[shape] -= times * pieces
    return [(pattern, times)]


def _only(pattern: Pattern, left: Sequence[int]) -> Pattern:
    """A pattern with no more pieces than are wanted."""
    given: Counter[int] = Counter()
    places: list[Place] = []
    for place in pattern.places:
        if given[place.item] < left[place.item]:
            given[place.item] += 1
            places.append(place)
    return Pattern(pattern.blank, tuple(places))
