"""Dimensions: chains of lengths between extension lines, in the view's own millimetres, with oblique ticks."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, repeat
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Item, Line, Point, Text
from storeyrod.drawings.lettering import number, width_of
from storeyrod.drawings.line_styles import DIMENSION, DIMENSION_TICK, LETTERING, LETTERS_SMALL
from storeyrod.geometry.intervals import Interval, difference, union

ROW_PITCH: Final = 8.5
"""Distance of neighbouring dimension lines on paper, room for a staggered figure included, mm."""

_TICK: Final = 1.8
_OVERSHOOT: Final = 1.2
_LIFT: Final = 0.9
"""Figure above its line."""

_CLEAR: Final = 0.5
"""Between a figure and the ends of a line that is broken for it, mm."""

_BESIDE: Final = 0.2
"""A line that passes a figure closer than this is broken too, mm."""

_LEVELS: Final = 2
"""Figures too long for their place are set one above another, at most so many."""


@dataclass(frozen=True, slots=True)
class Chain:
    """Lengths between stops along one line: level at height ``line``, or upright at x ``line``.

    ``foot`` is where extension lines start, beside the subject; the dimension line lies at ``line``.
    """

    stops: tuple[float, ...]
    line: float
    foot: float
    upright: bool = False
    words: tuple[tuple[str, ...] | None, ...] = ()
    """For each length, words to be tried instead of its figure alone; None leaves out the figure too."""


def stops_of(values: Sequence[float]) -> tuple[float, ...]:
    """Distinct stops in order."""
    return tuple(sorted(set(values)))


def dimensions(chains: Sequence[Chain], scale: float) -> tuple[Group, ...]:
    """Lines, ticks and figures of chains in a view at one to ``scale``."""
    chains = [chain for chain in chains if len(chain.stops) > 1]
    ticks = tuple(item for chain in chains for item in _ticks(chain, scale))
    figures = tuple(item for chain in chains for item in _figures(chain, scale))
    boxes = [_box(figure, scale) for figure in figures]
    lines = tuple(item for chain in chains for item in _lines(chain, boxes, scale))
    return (
        Group("dimensions", DIMENSION, lines),
        Group("dimension-ticks", DIMENSION_TICK, ticks),
        Group("dimension-figures", LETTERING, figures),
    )


def _placed(chain: Chain, along: float, across: float) -> Point:
    return (across, along) if chain.upright else (along, across)


def _lines(chain: Chain, figures: Sequence[Box], scale: float) -> Iterator[Item]:
    """The dimension line, and extension lines, broken where they would run through a figure."""
    yield Line(_placed(chain, chain.stops[0], chain.line), _placed(chain, chain.stops[-1], chain.line))
    beyond = chain.line + (_OVERSHOOT * scale if chain.line > chain.foot else -_OVERSHOOT * scale)
    low, high = sorted((chain.foot, beyond))
    for stop in chain.stops:
        struck = [box for box in figures if _passes(chain, stop, box, _BESIDE * scale)]
        broken = union(_over(box, upright=chain.upright, margin=_CLEAR * scale) for box in struck)
        for start, end in difference([(low, high)], broken):
            yield Line(_placed(chain, stop, start), _placed(chain, stop, end))


def _passes(chain: Chain, stop: float, figure: Box, margin: float) -> bool:
    """Whether the extension line at a stop would run through a figure or touch it."""
    low, high = (figure[1], figure[3]) if chain.upright else (figure[0], figure[2])
    return low - margin < stop < high + margin


def _over(figure: Box, *, upright: bool, margin: float) -> Interval:
    """From where to where an extension line is broken."""
    low, high = (figure[0], figure[2]) if upright else (figure[1], figure[3])
    return low - margin, high + margin


def _box(figure: Text, scale: float) -> Box:
    """Where a figure stands: over its point, or at the left of it."""
    (x, y), long, high = figure.at, width_of(figure.words, figure.height) * scale, figure.height * scale
    if figure.turned:
        return x - high, y - long / 2.0, x, y + long / 2.0
    return x - long / 2.0, y, x + long / 2.0, y + high


def _ticks(chain: Chain, scale: float) -> Iterator[Item]:
    half = _TICK * scale / 2.0
    for stop in chain.stops:
        x, y = _placed(chain, stop, chain.line)
        yield Line((x - half, y - half), (x + half, y + half))


def _longest(tried: Sequence[str], room: float) -> str:
    """The first that fits, or the last."""
    return next((words for words in tried if width_of(words, LETTERS_SMALL) <= room), tried[-1])


def _figures(chain: Chain, scale: float) -> Iterator[Text]:
    """Figures above their line, and to the left of an upright one; a short length is set higher, or left out if crowded."""
    taken = [float("-inf")] * _LEVELS
    for (low, high), longer in zip(pairwise(chain.stops), chain.words or repeat(()), strict=False):
        if longer is None:
            continue
        words = _longest((*longer, number(high - low)), (high - low) / scale)
        middle = (low + high) / 2.0
        half = width_of(words, LETTERS_SMALL) * scale / 2.0
        fits = high - low >= 2.0 * half
        level = next((level for level in range(0 if fits else 1, _LEVELS) if taken[level] <= middle - half), None)
        if level is None:
            continue
        taken[level] = middle + half
        across = (_LIFT + level * (LETTERS_SMALL + _LIFT)) * scale
        at = _placed(chain, middle, chain.line - across if chain.upright else chain.line + across)
        yield Text(at, words, LETTERS_SMALL, "middle", turned=chain.upright)
