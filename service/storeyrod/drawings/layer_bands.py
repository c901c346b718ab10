"""Layers over a chart: lines where they meet, a hatched strip above it, and their numbers over the strip."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final

from storeyrod.drawings.chart import Chart
from storeyrod.drawings.display_list import Box, Group, Item, Line, Marker, Style, Text, box_polygon
from storeyrod.drawings.led_numbers import RING
from storeyrod.drawings.line_styles import FINE, LETTERING, LETTERS_SMALL, SOLID, THIN
from storeyrod.drawings.material_hatching import Material, material_cell_in
from storeyrod.drawings.material_numbers import RINGED
from storeyrod.drawings.spreading import spread

STRIP: Final = 4.0
"""Height of the strip, mm."""

HEAD: Final = STRIP + 9.5
"""Room over a chart for strip and numbers, mm."""

_UP: Final = 6.4
"""Middle of a number over the strip, mm."""

_GAP: Final = 5.0
_BESIDE: Final = 6.0
"""Numbers may stand so far beyond the chart, mm."""

MOST_NUMBERS: Final = 20
"""More numbers than this find no room over the narrower chart."""

_MEET: Final = Style(THIN, dashes=(2.0, 1.0), grey=0.3)
_LEADER: Final = Style(FINE)
TIGHT: Final = Style(THIN, fill=0.0)
"""A layer that passes no vapour."""


@dataclass(frozen=True, slots=True)
class Bands:
    """Layers of some sizes along the level axis of a chart; ``tight`` ones pass no vapour and are black."""

    sizes: Sequence[float]
    materials: Sequence[Material]
    tight: frozenset[int] = frozenset()

    def ends(self, chart: Chart) -> Iterator[tuple[float, float]]:
        """Where each layer begins and ends on the paper."""
        yield from pairwise(map(chart.x, accumulate(self.sizes, initial=0.0)))


def band_groups(bands: Bands, chart: Chart) -> Iterator[Group]:
    """Lines in the chart and the strip over it; draw curves after them."""
    _, bottom, _, top = chart.box
    ends = list(bands.ends(chart))
    yield Group("layer-lines", _MEET, tuple(Line((end, bottom), (end, top)) for _, end in ends[:-1]))
    for index, (start, end) in enumerate(ends):
        yield from _piece((start, top, end, top + STRIP), bands.materials[index], tight=index in bands.tight)
    yield from _numbers(ends, chart)


def crowded(count: int) -> bool:
    """Whether so many numbers find no room over any chart."""
    return count > MOST_NUMBERS


def _piece(box: Box, material: Material, *, tight: bool) -> Iterator[Group]:
    if tight:
        yield Group("layer-tight", TIGHT, (box_polygon(box),))
        return
    for role, style, item in material_cell_in(box, material):
        yield Group(role.replace("material", "layer"), style, (item,))


def _numbers(ends: Sequence[tuple[float, float]], chart: Chart) -> Iterator[Group]:
    """Rings over the strip in the order of the layers; crowded ones lead down to their layer, those without room are left out."""
    left, _, right, top = chart.box
    middles = [(start + end) / 2.0 for start, end in ends]
    places = [] if crowded(len(ends)) else spread(middles, _GAP, left - _BESIDE, right + _BESIDE) or []
    y = top + STRIP + _UP
    shown = list(enumerate(zip(middles, places, strict=False), start=1))
    lines = tuple(Line((middle, top + STRIP / 2.0), (place, y)) for _, (middle, place) in shown)
    dots: tuple[Item, ...] = tuple(Marker((middle, top + STRIP / 2.0), "ring", 0.7) for _, (middle, _) in shown)
    yield Group("layer-leaders", _LEADER, lines)
    yield Group("layer-dots", SOLID, dots)
    yield Group("layer-rings", RINGED, tuple(Marker((place, y), "ring", RING) for _, (_, place) in shown))
    texts = (
        Text((place, y), f"{number}", LETTERS_SMALL, "middle", middle=True, bold=True) for number, (_, place) in shown
    )
    yield Group("layer-numbers", LETTERING, tuple(texts))
