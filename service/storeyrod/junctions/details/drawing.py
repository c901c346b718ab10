"""Drawing a detail: rectangles along and across a wall, and surfaces found along their outline."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Final, Literal

from storeyrod.geometry.ticks import millimetres
from storeyrod.junctions.details.wall_slices import Slice
from storeyrod.junctions.posed import INSIDE, OUTSIDE, Place
from storeyrod.junctions.section import Edge, Geometry, Patch, Section

DETAIL: Final = "/junction/detail"
PARAMETERS: Final = f"{DETAIL}/parameters"
"""Where a detail stands in the request."""

Way = Literal["plan", "upright", "hanging"]
"""How a wall is laid on the sheet. Along the wall is x in a plan, y upwards where upright, y downwards where hanging; across it,
from the finished face inwards, is y in a plan and x otherwise."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle of one material, along and across the wall in ticks."""

    along: tuple[float, float]
    across: tuple[float, float]
    conductivity: float
    name: str
    pointer: str


@dataclass(frozen=True, slots=True)
class Surface:
    """What bounds a stretch of the outline; without environment no heat passes."""

    name: str
    environment: str | None = None
    resistance: float = 0.0


CUT: Final = Surface("cut-off plane")

Surfaces = Callable[[float, float], Surface]
"""Surface at the middle of a stretch of the outline, along and across."""


def wall_boxes(slices: Iterable[Slice], start: float, end: float) -> list[Box]:
    """A stretch of wall."""
    return [Box((start, end), (one.outer, one.inner), one.conductivity, one.name, one.pointer) for one in slices]


def section_of(
    boxes: Sequence[Box], surfaces: Surfaces, way: Way, geometry: Geometry = "plane"
) -> tuple[Section, tuple[str, ...]]:
    """The section of boxes, later ones covering earlier ones, and the names of its edges."""
    found = list(_outline(boxes, surfaces, axis=geometry == "axisymmetric"))
    edges = tuple(_edge(ends, surface, way) for ends, surface in found)
    patches = tuple(_patch(box, way) for box in boxes)
    section = Section(patches, edges, (INSIDE, OUTSIDE), geometry, later_covers=True, pointer=DETAIL)
    return section, tuple(surface.name for _, surface in found)


def place(name: str, along: float, across: float, way: Way) -> Place:
    """A named point of a detail."""
    x, y = _turned(along, across, way)
    return Place(name, millimetres(x), millimetres(y), DETAIL)


_Ends = tuple[float, float, float, float]


def _outline(boxes: Sequence[Box], surfaces: Surfaces, *, axis: bool) -> Iterator[tuple[_Ends, Surface]]:
    """Stretches of the outline with one surface each, as along, across, along, across."""
    u = sorted({value for box in boxes for value in box.along})
    v = sorted({value for box in boxes for value in box.across})
    solid = {
        (column, row)
        for column, (left, right) in enumerate(pairwise(u))
        for row, (low, high) in enumerate(pairwise(v))
        if any(
            box.along[0] <= left and right <= box.along[1] and box.across[0] <= low and high <= box.across[1]
            for box in boxes
        )
    }
    for column, at in enumerate(u):
        if axis and at == 0.0:
            continue
        met = [
            surfaces(at, middle) if ((column - 1, row) in solid) != ((column, row) in solid) else None
            for row, middle in enumerate(_middles(v))
        ]
        for start, end, surface in _runs(met, v):
            yield (at, start, at, end), surface
    for row, at in enumerate(v):
        met = [
            surfaces(middle, at) if ((column, row - 1) in solid) != ((column, row) in solid) else None
            for column, middle in enumerate(_middles(u))
        ]
        for start, end, surface in _runs(met, u):
            yield (start, at, end, at), surface


def _middles(lines: Sequence[float]) -> list[float]:
    return [(start + end) / 2.0 for start, end in pairwise(lines)]


def _runs(met: Sequence[Surface | None], lines: Sequence[float]) -> Iterator[tuple[float, float, Surface]]:
    """Neighbouring steps along a line that have one surface, joined; steps off the outline have none."""
    for surface, steps in groupby(range(len(met)), key=lambda step: met[step]):
        if surface is not None:
            joined = list(steps)
            yield lines[joined[0]], lines[joined[-1] + 1], surface


def _turned(along: float, across: float, way: Way) -> tuple[float, float]:
    if way == "plan":
        return along, across
    return (across, along) if way == "upright" else (across, 0.0 - along)


def _patch(box: Box, way: Way) -> Patch:
    x_1, y_1 = _turned(box.along[0], box.across[0], way)
    x_2, y_2 = _turned(box.along[1], box.across[1], way)
    return Patch(min(x_1, x_2), min(y_1, y_2), max(x_1, x_2), max(y_1, y_2), box.conductivity, box.name, box.pointer)


def _edge(ends: _Ends, surface: Surface, way: Way) -> Edge:
    x_1, y_1 = _turned(ends[0], ends[1], way)
    x_2, y_2 = _turned(ends[2], ends[3], way)
    lower_left, upper_right = (min(x_1, x_2), min(y_1, y_2)), (max(x_1, x_2), max(y_1, y_2))
    return Edge(*lower_left, *upper_right, surface.environment, surface.resistance, DETAIL)
