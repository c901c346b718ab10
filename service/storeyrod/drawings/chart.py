"""A chart on the paper: a box between two axes with round figures, into which curves are drawn in their own units."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Line, Point, Text, box_polygon
from storeyrod.drawings.line_styles import DIMENSION, FULL_PIECE, LETTERING, LETTERS_SMALL
from storeyrod.drawings.round_steps import decimals_of, multiples_between, multiples_covering, round_step

LEFT: Final = 15.0
"""Room for figures and caption at the left of a chart, mm."""

FOOT: Final = 9.0
"""Room for figures and caption below a chart, mm."""

_MOST: Final = 7
_OFF: Final = 1.2
_CAPTION: Final = 12.0


@dataclass(frozen=True, slots=True)
class Axis:
    """What an axis measures, from ``low`` to ``high``, with figures at multiples of ``step``."""

    caption: str
    low: float
    high: float
    step: float

    @property
    def stops(self) -> Sequence[float]:
        """Values with figures, ends counted."""
        inside = multiples_between(self.low, self.high, self.step)
        return [value for value in multiples_covering(self.low, self.high, self.step) if self._ends(value)] or inside

    def _ends(self, value: float) -> bool:
        guard = 1e-9 * (self.high - self.low)
        return self.low - guard <= value <= self.high + guard


def whole_axis(caption: str, low: float, high: float) -> Axis:
    """An axis that begins and ends at round figures round two values, which may be the same."""
    span = high - low or max(abs(high), 1.0)
    step = round_step(span, _MOST)
    stops = multiples_covering(low, high, step)
    return Axis(caption, stops[0], stops[-1] if len(stops) > 1 else stops[0] + step, step)


def measured_axis(caption: str, long: float) -> Axis:
    """An axis from nought to a length over 0 that need not be round."""
    return Axis(caption, 0.0, long, round_step(long, _MOST))


@dataclass(frozen=True, slots=True)
class Chart:
    """A box of the paper between a level and an upright axis."""

    box: Box
    level: Axis
    upright: Axis

    def at(self, value: Point) -> Point:
        """Where a value lies on the paper."""
        return self.x(value[0]), self.y(value[1])

    def x(self, value: float) -> float:
        """Where a value of the level axis lies on the paper."""
        left, _, right, _ = self.box
        return left + (value - self.level.low) / (self.level.high - self.level.low) * (right - left)

    def y(self, value: float) -> float:
        """Where a value of the upright axis lies on the paper."""
        _, bottom, _, top = self.box
        return bottom + (value - self.upright.low) / (self.upright.high - self.upright.low) * (top - bottom)


def chart_groups(chart: Chart) -> Iterator[Group]:
    """Frame, fine lines at the figures of the upright axis, ticks below, figures and captions."""
    left, bottom, right, _ = chart.box
    yield Group("chart-frame", FULL_PIECE, (box_polygon(chart.box),))
    across = (Line((left, chart.y(value)), (right, chart.y(value))) for value in chart.upright.stops)
    ticks = (Line((chart.x(value), bottom), (chart.x(value), bottom - _OFF)) for value in chart.level.stops)
    yield Group("chart-lines", DIMENSION, (*across, *ticks))
    yield Group("chart-figures", LETTERING, tuple(_figures(chart)))


def _figures(chart: Chart) -> Iterator[Text]:
    left, bottom, right, top = chart.box
    for value in chart.upright.stops:
        words = f"{value:.{decimals_of(chart.upright.step)}f}"
        yield Text((left - _OFF, chart.y(value)), words, LETTERS_SMALL, "end", middle=True)
    for value in chart.level.stops:
        words = f"{value:.{decimals_of(chart.level.step)}f}"
        yield Text((chart.x(value), bottom - _OFF - LETTERS_SMALL - 0.6), words, LETTERS_SMALL, "middle")
    yield Text((left - _CAPTION, (bottom + top) / 2.0), chart.upright.caption, LETTERS_SMALL, "middle", turned=True)
    yield Text(((left + right) / 2.0, bottom - FOOT + 1.0), chart.level.caption, LETTERS_SMALL, "middle")
