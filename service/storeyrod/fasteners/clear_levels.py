"""A square-cut piece from foot to head: where it is clear between two heights, by plain arithmetic on its plumb edges.

Pieces whose corners stand at the same heights in the same order share which of their edges stand on which level: that is worked
out once for all of them.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import count, pairwise

from storeyrod.geometry.intervals import Interval, intersection
from storeyrod.geometry.slabs import even_odd_runs

Span = tuple[int, int]
"""The lowest level that a stretch of height passes, and the one over the highest."""


class CornerLevels:
    """Levels between the corners of square-cut pieces whose vertices stand at the same heights, and the plumb edges on each level."""

    __slots__ = ("_feet", "_head", "edges")

    def __init__(self, heights: Sequence[Sequence[float]]) -> None:
        """From the heights of all vertices, ring by ring."""
        plumb: list[tuple[int, float, float]] = []
        numbers = count()
        for ring in heights:
            for (y0, y), number in zip(pairwise((ring[-1], *ring)), numbers, strict=False):
                if y != y0:
                    plumb.append((number, min(y0, y), max(y0, y)))
        feet = sorted({y for ring in heights for y in ring})
        self._head = feet.pop()
        self._feet = feet
        self.edges = [[index for index, low, high in plumb if low <= foot < high] for foot in feet]
        """By level the vertices, counted through all rings, at which its plumb edges end."""

    def span(self, low: float, high: float) -> Span | None:
        """Levels that lie between two heights or round them; none past the foot or the head."""
        feet = self._feet
        if low < feet[0] or high > self._head:
            return None
        return bisect_right(feet, low) - 1, bisect_left(feet, high)


class ClearLevels:
    """Runs of board on the levels of a square-cut piece."""

    __slots__ = ("_known", "_xs", "levels")

    def __init__(self, xs: Sequence[float], levels: CornerLevels) -> None:
        """From where the vertices of a connected piece with level and plumb edges alone stand, ring after ring, and their levels."""
        self.levels = levels
        self._xs = xs
        self._known: dict[Span, Sequence[Interval]] = {}

    def between(self, low: float, high: float) -> Sequence[Interval]:
        """Where the piece is clear all the way between two heights."""
        span = self.levels.span(low, high)
        return self.over(span) if span is not None else ()

    def over(self, span: Span) -> Sequence[Interval]:
        """Where the piece is clear on all levels of a span."""
        runs = self._known.get(span)
        if runs is None:
            first, end = span
            runs = self._on(first)
            for level in range(first + 1, end):
                runs = intersection(runs, self._on(level))
            self._known[span] = runs
        return runs

    def _on(self, level: int) -> Sequence[Interval]:
        xs, edges = self._xs, self.levels.edges[level]
        if len(edges) > 2:
            return even_odd_runs([xs[vertex] for vertex in edges])
        one, other = edges
        return ((xs[one], xs[other]),) if xs[one] < xs[other] else ((xs[other], xs[one]),)
