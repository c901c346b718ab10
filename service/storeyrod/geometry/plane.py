"""Polygons: validity, areas, and the cutting of a region into cells. The only room that imports shapely.

A region is a set of rings under the even-odd rule: the outline of a wall and its openings. A band between two heights is
split at every corner inside it, so that what is axis-aligned is done by interval arithmetic, exactly; shapely clips only the
cells that touch a raked or curved edge.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import shapely
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from storeyrod.geometry.intervals import Interval, clip, difference, intersection, union

Vertex = tuple[float, float]
Ring = tuple[Vertex, ...]
Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""

SMALLEST_PART = 1.0e4
"""Square ticks (0.01 mm by 0.01 mm): what clipping leaves below this is rounding, not a piece."""

_LONGEST_MITRE = 10.0
"""Inward corners sharper than about 11 degrees are blunted when a region is inset."""


def signed_area(ring: Sequence[Vertex]) -> float:
    """Area of a ring, positive when it runs anticlockwise."""
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise((*ring, ring[0]))) / 2.0


def bounds(ring: Iterable[Vertex]) -> Box:
    """Smallest axis-aligned box around a ring."""
    xs, ys = zip(*ring, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def tidy(ring: Sequence[Vertex]) -> Ring:
    """The ring anticlockwise from its lowest, then leftmost vertex, without repeated or collinear vertices."""
    corners = _corners(list(ring))
    if len(corners) < 3:
        return ()
    if signed_area(corners) < 0:
        corners.reverse()
    start = min(range(len(corners)), key=lambda index: (corners[index][1], corners[index][0]))
    return tuple(corners[start:] + corners[:start])


def _corners(ring: list[Vertex]) -> list[Vertex]:
    """The vertices at which the ring turns; dropping one may make its neighbours equal or collinear, so repeat."""
    kept, before = ring, len(ring) + 1
    while 0 < len(kept) < before:
        before = len(kept)
        kept = _turning(_distinct(kept))
    return kept


def _distinct(ring: list[Vertex]) -> list[Vertex]:
    return [here for here, after in pairwise((*ring, ring[0])) if here != after]


def _turning(ring: list[Vertex]) -> list[Vertex]:
    return [
        here
        for before, here, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True)
        if (here[0] - before[0]) * (after[1] - here[1]) != (here[1] - before[1]) * (after[0] - here[0])
    ]


def rectangle(left: float, bottom: float, right: float, top: float) -> Ring:
    """Ring of an axis-aligned rectangle."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def distance_to_edge(point: Vertex, start: Vertex, end: Vertex) -> float:
    """Shortest distance of a point from a straight edge."""
    (x, y), (x0, y0), (x1, y1) = point, start, end
    run, rise = x1 - x0, y1 - y0
    along = ((x - x0) * run + (y - y0) * rise) / (run * run + rise * rise)
    share = min(1.0, max(0.0, along))
    return math.hypot(x - x0 - share * run, y - y0 - share * rise)


def is_simple(ring: Sequence[Vertex]) -> bool:
    """Whether the ring encloses one area without touching or crossing itself."""
    return len(ring) >= 3 and bool(Polygon(ring).is_valid) and Polygon(ring).area > 0


def overlap_area(first: Sequence[Vertex], second: Sequence[Vertex]) -> float:
    """Area common to two rings."""
    return float(shapely.intersection(Polygon(first), Polygon(second)).area)


def area_outside(ring: Sequence[Vertex], container: Sequence[Vertex]) -> float:
    """Area of a ring that lies outside a container ring."""
    return float(shapely.difference(Polygon(ring), Polygon(container)).area)


@dataclass(frozen=True, slots=True)
class Part:
    """One connected part of a cell: bounding box, area and, unless it is a plain rectangle, its rings (outer ring first)."""

    left: float
    bottom: float
    right: float
    top: float
    area: float
    rings: tuple[Ring, ...] = ()

    @property
    def is_rectangle(self) -> bool:
        """Whether the part fills its bounding box."""
        return not self.rings

    @property
    def outline(self) -> tuple[Ring, ...]:
        """Rings of the part, outer ring first, also for a plain rectangle."""
        return self.rings or (rectangle(self.left, self.bottom, self.right, self.top),)

    @property
    def is_axis_aligned(self) -> bool:
        """Whether every edge is level or plumb."""
        return all(a[0] == b[0] or a[1] == b[1] for ring in self.rings for a, b in pairwise((*ring, ring[0])))


@dataclass(frozen=True, slots=True)
class _Edge:
    """An edge that is not level, from its lower to its upper end."""

    x_low: float
    y_low: float
    x_high: float
    y_high: float

    def x_at(self, y: float) -> float:
        if y == self.y_low or self.x_low == self.x_high:
            return self.x_low
        if y == self.y_high:
            return self.x_high
        return self.x_low + (self.x_high - self.x_low) * (y - self.y_low) / (self.y_high - self.y_low)


@dataclass(frozen=True, slots=True)
class Slab:
    """A slice of a region between two neighbouring corner heights: per run, left and right x at the foot and at the head."""

    bottom: float
    top: float
    runs: tuple[tuple[float, float, float, float], ...]

    @property
    def inner(self) -> list[Interval]:
        """Where the full height of the slab lies in the region."""
        return union((max(lb, lt), min(rb, rt)) for lb, lt, rb, rt in self.runs)

    @property
    def outer(self) -> list[Interval]:
        """Where any height of the slab lies in the region."""
        return union((min(lb, lt), max(rb, rt)) for lb, lt, rb, rt in self.runs)

    @property
    def area(self) -> float:
        """Area of the region in the slab."""
        return sum((rb - lb + rt - lt) / 2.0 for lb, lt, rb, rt in self.runs) * (self.top - self.bottom)


@dataclass(frozen=True)
class Region:
    """Area under the even-odd rule of its rings: an outline less its openings. Coordinates are ticks."""

    rings: tuple[Ring, ...]

    @cached_property
    def _edges(self) -> tuple[_Edge, ...]:
        edges = (
            _Edge(*a, *b) if a[1] < b[1] else _Edge(*b, *a)
            for ring in self.rings
            for a, b in pairwise((*ring, ring[0]))
            if a[1] != b[1]
        )
        return tuple(sorted(edges, key=lambda edge: edge.y_low))

    @cached_property
    def _heights(self) -> tuple[float, ...]:
        return tuple(sorted({y for ring in self.rings for _, y in ring}))

    @cached_property
    def polygon(self) -> BaseGeometry:
        """The region as a shapely geometry: the first ring less the others."""
        return shapely.difference(Polygon(self.rings[0]), shapely.union_all([Polygon(ring) for ring in self.rings[1:]]))

    @cached_property
    def box(self) -> Box:
        """Bounding box; an empty one at the datum where nothing is left of the region."""
        return bounds(vertex for ring in self.rings for vertex in ring) if self.rings else (0.0, 0.0, 0.0, 0.0)

    @cached_property
    def area(self) -> float:
        """Area in square ticks."""
        _, bottom, _, top = self.box
        return sum(slab.area for slab in self.slabs(bottom, top))

    def slabs(self, bottom: float, top: float) -> list[Slab]:
        """The band between two heights, split at every corner inside it; slabs without any area are left out."""
        level = bisect_right(self._heights, bottom)
        if level == bisect_left(self._heights, top) and (plumb := self._plumb_runs(level)) is not None:
            return [Slab(bottom, top, plumb)] if plumb else []
        levels = [bottom, *(y for y in self._heights if bottom < y < top), top]
        active = [edge for edge in self._edges if edge.y_low < top and edge.y_high > bottom]
        slabs = (self._slab(active, low, high) for low, high in pairwise(levels))
        return [slab for slab in slabs if slab.runs]

    @cached_property
    def _known_levels(self) -> dict[int, tuple[tuple[float, float, float, float], ...] | None]:
        return {}

    def _plumb_runs(self, level: int) -> tuple[tuple[float, float, float, float], ...] | None:
        """Runs between two neighbouring corner heights if all edges there are plumb: the same for every band between them."""
        if level not in self._known_levels:
            low, high = ([-math.inf, *self._heights, math.inf][level + step] for step in (0, 1))
            active = [edge for edge in self._edges if edge.y_low < high and edge.y_high > low]
            plumb = all(edge.x_low == edge.x_high for edge in active)
            self._known_levels[level] = self._slab(active, low, high).runs if plumb else None
        return self._known_levels[level]

    @staticmethod
    def _slab(active: Sequence[_Edge], low: float, high: float) -> Slab:
        crossings = sorted(
            ((edge.x_at(low), edge.x_at(high)) for edge in active if edge.y_low <= low and edge.y_high >= high),
            key=lambda crossing: (crossing[0] + crossing[1], crossing),
        )
        runs = (
            (left_low, left_high, right_low, right_high)
            for (left_low, left_high), (right_low, right_high) in zip(crossings[::2], crossings[1::2], strict=True)
            if right_low > left_low or right_high > left_high
        )
        return Slab(low, high, tuple(runs))

    def clear_runs(self, bottom: float, top: float) -> list[Interval]:
        """Where the whole height of the band lies in the region."""
        clear: list[Interval] | None = None
        reached = bottom
        for slab in self.slabs(bottom, top):
            if slab.bottom != reached:
                return []
            clear = slab.inner if clear is None else intersection(clear, slab.inner)
            reached = slab.top
        return clear if clear is not None and reached == top else []

    def any_runs(self, bottom: float, top: float) -> list[Interval]:
        """Where any height of the band lies in the region."""
        return union(run for slab in self.slabs(bottom, top) for run in slab.outer)

    def clear_and_ragged_runs(self, bottom: float, top: float) -> tuple[list[Interval], list[Interval]]:
        """Where the whole height of the band lies in the region, and where only some of it does."""
        slabs = self.slabs(bottom, top)
        if len(slabs) == 1 and slabs[0].bottom == bottom and slabs[0].top == top and slabs[0].inner == slabs[0].outer:
            return slabs[0].inner, []
        clear = self.clear_runs(bottom, top)
        return clear, difference(self.any_runs(bottom, top), clear)

    def heights_at(self, x: float) -> list[Interval]:
        """Where the plumb line at x runs through the region, bottom to top."""
        turned = Region(tuple(tuple((y, x_) for x_, y in ring) for ring in self.rings))
        return turned.level_runs(x)

    def level_runs(self, y: float) -> list[Interval]:
        """Where the level line at y runs through the region; on a level edge, the side above counts."""
        crossings = sorted(edge.x_at(y) for edge in self._edges if edge.y_low <= y < edge.y_high)
        return union(zip(crossings[::2], crossings[1::2], strict=True))

    def less(self, *boxes: Box) -> "Region":
        """The region without the boxes; where a box meets a rake or leaves the region, shapely clips it."""
        cut = shapely.difference(self.polygon, shapely.union_all([shapely.box(*box) for box in boxes]))
        return region_of(cut)

    def less_rings(self, rings: Sequence[Ring]) -> "Region":
        """The region without the areas of rings, which may overlap one another and leave the region."""
        return region_of(shapely.difference(self.polygon, shapely.union_all([Polygon(ring) for ring in rings])))

    def within(self, box: Box) -> "Region":
        """The part of the region inside a box."""
        return region_of(shapely.intersection(self.polygon, shapely.box(*box)))

    def inset(self, distance: float) -> "Region":
        """Where every edge is at least a distance away, measured square to it."""
        return region_of(shapely.buffer(self.polygon, -distance, join_style="mitre", mitre_limit=_LONGEST_MITRE))

    def cells(self, bottom: float, top: float, columns: Sequence[Interval]) -> list[list[Part]]:
        """The band cut by columns: per column (left, right) the connected parts, left to right and bottom to top.

        Parts are plain rectangles, unions of rectangles with rings, or clipped polygons at rakes and arcs.
        """
        slabs = self.slabs(bottom, top)
        if len(slabs) == 1 and slabs[0].bottom == bottom and slabs[0].top == top and slabs[0].inner == slabs[0].outer:
            runs = slabs[0].inner
            return [[_plain(a, bottom, b, top) for a, b in clip(runs, *column)] for column in columns]
        raked = union(_raked_spans(slabs))
        inner = [(slab.bottom, slab.top, slab.inner) for slab in slabs]
        return [self._cell(inner, raked, column, bottom, top) for column in columns]

    def _cell(
        self,
        inner: Sequence[tuple[float, float, Sequence[Interval]]],
        raked: Sequence[Interval],
        column: Interval,
        bottom: float,
        top: float,
    ) -> list[Part]:
        left, right = column
        if clip(raked, left, right):
            return _parts_of(shapely.intersection(self.polygon, shapely.box(left, bottom, right, top)))
        boxes = [(a, low, b, high) for low, high, runs in inner for a, b in clip(runs, left, right)]
        return _joined(boxes)


def _raked_spans(slabs: Iterable[Slab]) -> Iterable[Interval]:
    for slab in slabs:
        for left_low, left_high, right_low, right_high in slab.runs:
            if left_low != left_high:
                yield min(left_low, left_high), max(left_low, left_high)
            if right_low != right_high:
                yield min(right_low, right_high), max(right_low, right_high)


def region_of(geometry: BaseGeometry) -> Region:
    """Region of a shapely polygon or collection; points and lines in it are dropped."""
    polygons = _polygons(geometry)
    region = Region(tuple(ring for polygon in polygons for ring in _rings_of(polygon)))
    # Rings alone do not say which outer ring a hole belongs to, so the geometry stays with the region.
    region.__dict__["polygon"] = MultiPolygon(polygons)
    return region


def _plain(left: float, bottom: float, right: float, top: float) -> Part:
    return Part(left, bottom, right, top, (right - left) * (top - bottom))


def _polygons(geometry: BaseGeometry) -> list[Polygon]:
    """Polygons of a geometry in our own order; GEOS does not promise one."""
    parts = geometry.geoms if hasattr(geometry, "geoms") else [geometry]
    found = [part for part in parts if isinstance(part, Polygon) and part.area >= SMALLEST_PART]
    found += [
        inner for part in parts if isinstance(part, MultiPolygon) for inner in part.geoms if inner.area >= SMALLEST_PART
    ]
    return sorted(found, key=lambda polygon: polygon.bounds)


def _rings_of(polygon: Polygon) -> tuple[Ring, ...]:
    outer = tidy([(x, y) for x, y in polygon.exterior.coords])
    holes = sorted(tidy([(x, y) for x, y in hole.coords]) for hole in polygon.interiors)
    return tuple(ring for ring in (outer, *holes) if ring)


def _parts_of(geometry: BaseGeometry) -> list[Part]:
    parts = []
    for polygon in _polygons(geometry):
        rings = _rings_of(polygon)
        if not rings:
            continue
        left, bottom, right, top = bounds(rings[0])
        is_box = len(rings) == 1 and set(rings[0]) == set(rectangle(left, bottom, right, top))
        parts.append(Part(left, bottom, right, top, float(polygon.area), () if is_box else rings))
    return parts


def _joined(boxes: Sequence[Box]) -> list[Part]:
    """Connected parts of boxes stacked in slabs: boxes of neighbouring slabs join where they share some width."""
    if not boxes:
        return []
    left, _, right, _ = boxes[0]
    if all(box[0] == left and box[2] == right for box in boxes) and all(a[3] == b[1] for a, b in pairwise(boxes)):
        return [_plain(left, boxes[0][1], right, boxes[-1][3])]
    return _parts_of(shapely.union_all([shapely.box(*box) for box in boxes]))
