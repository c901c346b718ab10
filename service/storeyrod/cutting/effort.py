"""How far a search goes: fixed limits of work for each effort, never of time, so that equal requests get equal answers."""

import math
from dataclasses import dataclass
from typing import Final

from storeyrod.cutting.stock import Effort


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits of one search.

    ``pricings`` and ``columns`` end column generation, ``columns_each`` is what one pricing adds at most; ``cells``
    (rows by columns, over all linear programmes) and ``weight`` (rectangles by ways to part them, over all pricings) end it and the rounding too. ``splits`` bounds the work of one
    pricing: ways to part a rectangle that are compared. ``greedy_ways`` cut what rounding leaves. ``dives`` and ``dive_pricings`` bound the rounding,
    ``fillings`` the blanks filled in stirred orders (more patterns for short lists), ``nodes`` the integer search,
    which is left out where columns times rows are more than ``integer_cells``.
    From a bound of ``large`` boards on, the last board is not worth the search.
    """

    pricings: int
    columns: int
    columns_each: int
    cells: float
    weight: float
    splits: float
    greedy_ways: int
    dives: int
    dive_pricings: int
    fillings: int
    nodes: int
    integer_cells: int
    large: float

    def dives_for(self, bound: int) -> int:
        """One dive alone for a large number of boards: what rounding loses is then a small share."""
        return 1 if bound >= self.large else self.dives

    def spared(self, bound: int) -> int:
        """Boards between answer and bound that end the search: none, but one of a large number."""
        return 1 if bound >= self.large else 0


LIMITS: Final[dict[Effort, Limits]] = {
    "standard": Limits(60, 3_000, 12, 3.0e7, 1.0e9, 2.4e7, 2, 2, 1, 600, 50, 20_000, 500.0),
    "thorough": Limits(400, 20_000, 40, 5.0e8, 2.0e10, 1.0e8, 6, 4, 3, 10_000, 2_000, 200_000, math.inf),
}
"""Found by trial on random lists of 600 pieces (tests/load/bench_cutting.py). ``quick`` has no search to limit."""
