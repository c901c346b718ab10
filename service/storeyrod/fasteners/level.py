"""What pieces between the same two heights share, whatever stands beside them: courses for fasteners, and how many of them carry rows."""

from collections.abc import Mapping, Sequence

from storeyrod.fasteners.clear_levels import ClearLevels, CornerLevels, Span
from storeyrod.fasteners.pattern import Pattern, rows_over
from storeyrod.fasteners.rows import RowRule
from storeyrod.geometry.rings import Ring
from storeyrod.geometry.ticks import ROUNDING_GUARD

Spans = Mapping[Span, Sequence[int]]
"""Courses by the levels between corners that they pass."""


class Level:
    """Courses between the foot and the head of pieces under a pattern."""

    __slots__ = ("_corners", "bottom", "courses", "heights", "pattern", "rows_wanted", "rule", "top")

    def __init__(self, pattern: Pattern, bottom: float, top: float) -> None:
        """Between two heights in ticks."""
        self.pattern = pattern
        self.bottom = bottom
        self.top = top
        self.rule = RowRule(pattern.every, pattern.pitch, pattern.spacing)
        self.heights = pattern.heights_between(bottom, top)
        """Courses that keep the edge distance from foot and head, from the lowest, and the middles of their slips."""
        self.courses = tuple(self.heights)
        courses = len(pattern.courses_between(bottom, top))
        self.rows_wanted = max(1, int(rows_over.function(k=courses, n=pattern.every, tolerance=ROUNDING_GUARD)))
        """Rows that a piece of this height should have, at least one."""
        self._corners: dict[tuple[tuple[float, ...], ...], tuple[CornerLevels, Spans]] = {}
        """By the heights of all vertices, ring by ring."""

    def clear_levels(self, rings: Sequence[Ring]) -> tuple[ClearLevels, Spans]:
        """Runs of a square-cut piece, and the courses by the levels that they pass with the edge distance below and above."""
        xs: tuple[float, ...] = ()
        heights: tuple[tuple[float, ...], ...] = ()
        for ring in rings:
            ring_xs, ring_ys = zip(*ring, strict=True)
            xs += ring_xs
            heights += (ring_ys,)
        known = self._corners.get(heights)
        if known is None:
            levels = CornerLevels(heights)
            known = self._corners[heights] = levels, self._spans(levels)
        levels, spans = known
        return ClearLevels(xs, levels), spans

    def _spans(self, levels: CornerLevels) -> Spans:
        reach, spans = max(self.pattern.edge, 1.0), dict[Span, list[int]]()
        for course, height in self.heights.items():
            span = levels.span(height - reach, height + reach)
            if span is not None:
                spans.setdefault(span, []).append(course)
        return spans
