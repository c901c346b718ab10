"""A way of cutting one blank, and how often it is used."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from storeyrod.cutting.plan import Place


@dataclass(frozen=True)
class Pattern:
    """Pieces and where they lie in a blank; ``Place.item`` is the class of a piece. ``blank`` as with a sheet."""

    blank: int
    places: tuple[Place, ...]

    @cached_property
    def uses(self) -> Mapping[int, int]:
        """Pieces of each class."""
        return Counter(place.item for place in self.places)

    def times(self, left: list[int]) -> int:
        """How often the pieces still wanted fill the pattern."""
        return min(left[shape] // count for shape, count in self.uses.items())


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
