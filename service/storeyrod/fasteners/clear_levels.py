"""A square-cut piece from foot to head: where it is clear between two heights, by plain arithmetic on its plumb edges."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

from storeyrod.geometry.intervals import Interval, intersection
from storeyrod.geometry.rings import Ring
from storeyrod.geometry.slabs import even_odd_runs


class ClearLevels:
    """Feet of the levels between the corners of a square-cut piece, its head, and the runs of board on each level."""

    __slots__ = ("_feet", "_head", "_known", "_runs")

    def __init__(self, rings: Sequence[Ring]) -> None:
        """From the rings of a connected piece with level and plumb edges alone."""
        plumb: list[tuple[float, float, float]] = []
        levels: set[float] = set()
        for ring in rings:
            _, y0 = ring[-1]
            for x, y in ring:
                if y != y0:
                    plumb.append((x, y0, y) if y0 < y else (x, y, y0))
                    levels.add(y)
                y0 = y
        feet = sorted(levels)
        self._head = feet.pop()
        self._feet = feet
        self._runs = [even_odd_runs([x for x, low, high in plumb if low <= foot < high]) for foot in feet]
        self._known: dict[tuple[int, int], Sequence[Interval]] = {}

    def between(self, low: float, high: float) -> Sequence[Interval]:
        """Where the piece is clear all the way between two heights; heights beside the same edges share their runs."""
        feet = self._feet
        if low < feet[0] or high > self._head:
            return ()
        levels = bisect_right(feet, low) - 1, bisect_left(feet, high)
        runs = self._known.get(levels)
        if runs is None:
            first, last = levels
            runs = self._runs[first]
            for index in range(first + 1, last):
                runs = intersection(runs, self._runs[index])
            self._known[levels] = runs
        return runs
