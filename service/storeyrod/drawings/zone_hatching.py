"""Hatching of wind zones: strokes inside any shape, each zone with its own direction and pitch, for prints without colour."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from storeyrod.drawings.cut_edges import Segment
from storeyrod.drawings.display_list import Group, Point, Strokes, Style, box_polygon
from storeyrod.drawings.legend import Entry
from storeyrod.drawings.legend_entries import PIECE
from storeyrod.drawings.line_styles import FINE, FULL_PIECE

_GREY: Final = 0.45
_DIAGONAL: Final = math.sqrt(0.5)

RISING, FALLING, LEVEL, PLUMB = (_DIAGONAL, -_DIAGONAL), (_DIAGONAL, _DIAGONAL), (0.0, 1.0), (1.0, 0.0)
"""Directions square to the strokes."""


@dataclass(frozen=True, slots=True)
class Hatch:
    """Strokes ``pitch`` mm of paper apart, counted along ``across`` from the origin, so that neighbouring shapes share them."""

    across: Point
    pitch: float
    dashes: tuple[float, ...] = ()

    @property
    def style(self) -> Style:
        """Line of the strokes."""
        return Style(FINE, dashes=self.dashes, grey=_GREY)


HATCHES: Final[Mapping[str, Hatch]] = {
    "A": Hatch(RISING, 1.8),
    "B": Hatch(FALLING, 3.6),
    "C": Hatch(LEVEL, 3.6),
    "D": Hatch(PLUMB, 3.6),
    "E": Hatch(PLUMB, 3.6, (2.0, 1.5)),
}
"""By zone: the denser, the stronger the suction."""

_ROUNDED: Final = 2
"""Digits that strokes keep, in mm of the subject."""


def zone_hatching(zone: str, shapes: Sequence[Sequence[Sequence[Point]]], scale: float) -> Iterator[Group]:
    """Strokes of one zone in all its shapes, each with its rings, in a view at one to ``scale``."""
    hatch = HATCHES[zone]
    lines = tuple(line for rings in shapes for line in strokes_in(rings, hatch, scale))
    if lines:
        yield Group(f"zone-{zone.lower()}", hatch.style, (Strokes(lines),))


def strokes_in(rings: Sequence[Sequence[Point]], hatch: Hatch, scale: float) -> Iterator[Segment]:
    """Strokes inside rings under the even-odd rule, in the order of their numbers."""
    edges = (edge for ring in rings for edge in pairwise((*ring, ring[0])))
    yield from strokes_between(edges, hatch, scale)


def strokes_between(edges: Iterable[Segment], hatch: Hatch, scale: float) -> Iterator[Segment]:
    """Strokes inside edges, in any order, that close round one or more shapes."""
    (x, y), pitch = hatch.across, hatch.pitch * scale
    crossings: dict[int, list[float]] = {}
    for start, end in edges:
        for number, along in _crossed(start, end, hatch.across, pitch):
            crossings.setdefault(number, []).append(along)
    for number in sorted(crossings):
        at, places = number * pitch, sorted(crossings[number])
        for low, high in zip(places[::2], places[1::2], strict=True):
            yield (
                (round(at * x - low * y, _ROUNDED), round(at * y + low * x, _ROUNDED)),
                (round(at * x - high * y, _ROUNDED), round(at * y + high * x, _ROUNDED)),
            )


def _crossed(start: Point, end: Point, across: Point, pitch: float) -> Iterator[tuple[int, float]]:
    """Numbers of the strokes that an edge crosses, its lower end counted, and where along them."""
    x, y = across
    first, last = ((px * x + py * y) / pitch for px, py in (start, end))
    begin, finish = (py * x - px * y for px, py in (start, end))
    for number in range(math.ceil(min(first, last)), math.ceil(max(first, last))):
        yield number, begin + (finish - begin) * (number - first) / (last - first)


def zone_entry(zone: str, words: str) -> Entry:
    """A piece of a zone, as a legend or a table shows it."""
    frame = box_polygon(PIECE)
    hatch = HATCHES[zone]
    strokes = Strokes(tuple(strokes_in(frame.rings, hatch, 1.0)))
    return Entry((("zone-frame", FULL_PIECE, frame), (f"zone-{zone.lower()}", hatch.style, strokes)), words)
