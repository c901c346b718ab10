"""Polygons: validity, areas, and the cutting of a region into cells. The only room that imports shapely.

A region is a set of rings under the even-odd rule: the outline of a wall and its openings. A band between two heights is
split at every corner inside it, so that what is axis-aligned or cut by one rake is done by plain arithmetic; shapely clips
only the cells in which several edges meet.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

import shapely
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from storeyrod.geometry.intervals import Interval, difference, intersection, union
from storeyrod.geometry.parts import SMALLEST_PART, Part, plain_part
from storeyrod.geometry.rings import (
    Box,
    Ring,
    Vertex,
    area_between,
    beside_strip,
    bounds,
    box_of,
    distance_to_edge,
    from_lowest,
    holds,
    is_convex,
    overlap_of_boxes,
    rectangle,
    signed_area,
    tidy,
)
from storeyrod.geometry.slabs import (
    Edge,
    Slab,
    SlabRun,
    column_parts,
    edges_of,
    even_odd_runs,
    plain_parts,
    runs_between,
    straightened,
    whole_slab,
    x_at,
)

__all__ = [
    "SMALLEST_PART",
    "Band",
    "Box",
    "Part",
    "Region",
    "Ring",
    "Slab",
    "Vertex",
    "area_between",
    "area_outside",
    "bounds",
    "distance_to_edge",
    "is_simple",
    "overlap_area",
    "parts_of",
    "plain_part",
    "rectangle",
    "region_of",
    "signed_area",
    "tidy",
]

_LONGEST_MITRE = 10.0
"""Inward corners sharper than about 11 degrees are blunted when a region is inset."""


def is_simple(ring: Sequence[Vertex]) -> bool:
    """Whether the ring encloses one area without touching or crossing itself."""
    return len(ring) >= 3 and bool(Polygon(ring).is_valid) and Polygon(ring).area > 0


def overlap_area(first: Sequence[Vertex], second: Sequence[Vertex]) -> float:
    """Area common to two rings."""
    boxes = box_of(first), box_of(second)
    if boxes[0] is not None and boxes[1] is not None:
        return overlap_of_boxes(boxes[0], boxes[1])
    return float(shapely.intersection(Polygon(first), Polygon(second)).area)


def area_outside(ring: Sequence[Vertex], container: Sequence[Vertex]) -> float:
    """Area of a ring that lies outside a container ring."""
    box = box_of(container)
    if _is_in_box(ring, box) if box is not None else is_convex(container) and holds(container, ring):
        return 0.0
    return float(shapely.difference(Polygon(ring), Polygon(container)).area)


def _is_in_box(ring: Sequence[Vertex], box: Box) -> bool:
    left, bottom, right, top = box
    return all(left <= x <= right and bottom <= y <= top for x, y in ring)


class Band(NamedTuple):
    """A region between two heights with no corner between them: its edges, and if all of them are plumb, where the wall stands
    from foot to head, also as runs of slabs.
    """

    low: float
    high: float
    edges: tuple[Edge, ...]
    clear: tuple[Interval, ...]
    runs: tuple[SlabRun, ...] | None

    def slab(self, bottom: float, top: float) -> Slab:
        """The part of the band between two heights inside it."""
        return Slab(bottom, top, self.runs if self.runs is not None else runs_between(self.edges, bottom, top))


@dataclass(frozen=True)
class Region:
    """Area under the even-odd rule of its rings: an outline less its openings. Coordinates are ticks."""

    rings: tuple[Ring, ...]
    uncut: "tuple[Region, tuple[Box, ...]] | None" = field(default=None, compare=False, repr=False)
    """What the region was cut from, and the boxes that were taken out."""

    @cached_property
    def _turned(self) -> "Region":
        """The region with its axes changed over."""
        return Region(tuple(tuple((y, x) for x, y in ring) for ring in self.rings))

    @cached_property
    def _edges(self) -> tuple[Edge, ...]:
        return tuple(sorted([edge for ring in self.rings for edge in edges_of(ring)]))

    @cached_property
    def polygon(self) -> BaseGeometry:
        """The region as a shapely geometry: the first ring less the others."""
        if self.uncut is not None:
            whole, boxes = self.uncut
            return shapely.difference(whole.polygon, shapely.union_all([shapely.box(*box) for box in boxes]))
        return shapely.difference(Polygon(self.rings[0]), shapely.union_all([Polygon(ring) for ring in self.rings[1:]]))

    @cached_property
    def box(self) -> Box:
        """Bounding box; an empty one at the datum where nothing is left of the region."""
        return bounds(vertex for ring in self.rings for vertex in ring) if self.rings else (0.0, 0.0, 0.0, 0.0)

    @cached_property
    def area(self) -> float:
        """Area in square ticks."""
        return sum(band.slab(band.low, band.high).area for band in self._levels)

    @cached_property
    def _levels(self) -> tuple[Band, ...]:
        """The region between every two neighbouring corner heights, from the lowest."""
        heights = sorted({y for ring in self.rings for _, y in ring})
        return tuple(self._swept(heights))

    def _swept(self, heights: Sequence[float]) -> Iterator[Band]:
        coming = list(reversed(self._edges))
        active: list[Edge] = []
        for low, high in pairwise(heights):
            active = [edge for edge in active if edge[2] > low]
            while coming and coming[-1][0] <= low:
                active.append(coming.pop())
            plumb = [edge[1] for edge in active if edge[1] == edge[3]]
            if len(plumb) < len(active):
                yield Band(low, high, tuple(active), (), None)
            else:
                clear = even_odd_runs(plumb)
                yield Band(low, high, (), clear, tuple([(left, left, right, right) for left, right in clear]))

    @cached_property
    def _floors(self) -> tuple[float, ...]:
        return tuple(band.low for band in self._levels)

    def _level_at(self, height: float) -> int:
        """Index of the band that holds what lies just over a height."""
        return max(0, bisect_right(self._floors, height) - 1)

    @cached_property
    def bands(self) -> tuple[Band, ...]:
        """The region between corner heights, from the lowest; plumb bands with equal runs over one another are one."""
        joined: list[Band] = []
        for band in self._levels:
            if joined and band.runs is not None and joined[-1].runs == band.runs:
                joined[-1] = Band(joined[-1].low, band.high, (), band.clear, band.runs)
            else:
                joined.append(band)
        return tuple(joined)

    def slabs(self, bottom: float, top: float) -> list[Slab]:
        """The band between two heights, split at every corner inside it; slabs without any area are left out."""
        found = []
        for band in self._levels[self._level_at(bottom) : bisect_left(self._floors, top)]:
            if band.high > bottom:
                slab = band.slab(max(bottom, band.low), min(top, band.high))
                if slab.runs:
                    found.append(slab)
        return found

    def holds(self, box: Box) -> bool:
        """Whether a box lies in the region as a whole."""
        left, bottom, right, top = box
        reached = bottom
        for band in self._levels[self._level_at(bottom) :]:
            if band.low >= top:
                break
            runs = band.runs if band.runs is not None else band.slab(max(bottom, band.low), min(top, band.high)).runs
            if band.low > reached or not any(
                lb <= left and lt <= left and rb >= right and rt >= right for lb, lt, rb, rt in runs
            ):
                return False
            reached = band.high
        return reached >= top

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
        if whole_slab(slabs, bottom, top) and slabs[0].is_plumb:
            return slabs[0].inner, []
        clear = self.clear_runs(bottom, top)
        return clear, difference(self.any_runs(bottom, top), clear)

    def heights_at(self, x: float) -> list[Interval]:
        """Where the plumb line at x runs through the region, bottom to top."""
        return self._turned.level_runs(x)

    def level_runs(self, y: float) -> list[Interval]:
        """Where the level line at y runs through the region; on a level edge, the side above counts."""
        crossings = sorted(x_at(edge, y) for edge in self._edges if edge[0] <= y < edge[2])
        return union(zip(crossings[::2], crossings[1::2], strict=True))

    def less(self, *boxes: Box) -> "Region":
        """The region without the boxes.

        Boxes that lie in the region become rings of it, plumb strips from foot to head part its rings; where a box meets a
        rake or leaves the region otherwise, shapely clips it.
        """
        rings = self._rings_less(boxes)
        if rings is not None:
            return Region(rings, uncut=(self, boxes))
        cut = shapely.difference(self.polygon, shapely.union_all([shapely.box(*box) for box in boxes]))
        return region_of(cut)

    def _rings_less(self, boxes: Sequence[Box]) -> tuple[Ring, ...] | None:
        _, foot, _, head = self.box
        rings, reached = self.rings, -math.inf
        for left, bottom, right, top in sorted(boxes):
            if bottom <= foot and top >= head:
                split = [beside_strip(ring, left, right) for ring in rings]
                if left < reached or None in split:
                    return None
                rings = tuple(part for parts in split if parts is not None for part in parts)
            elif self.holds((left, bottom, right, top)):
                rings = (*rings, rectangle(left, bottom, right, top))
            else:
                return None
            reached = max(reached, right)
        return rings if not _overlap(boxes) else None

    def without(self, boxes: Sequence[Box]) -> "Region":
        """The region without boxes that are known to lie in it beside one another."""
        return Region((*self.rings, *(rectangle(*box) for box in boxes)), uncut=(self, tuple(boxes)))

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

        Parts are plain rectangles, cells cut by a rake, towers of these, or clipped polygons where more edges meet.
        """
        slabs = self.slabs(bottom, top)
        if whole_slab(slabs, bottom, top) and slabs[0].is_plumb:
            return list(plain_parts(slabs[0].inner, bottom, top, columns))
        return [self.column(slabs, left, right) for left, right in columns]

    def column(self, slabs: Sequence[Slab], left: float, right: float) -> list[Part]:
        """What lies between two plumb lines in slabs of the region, which follow one another from the lowest."""
        towers = column_parts(slabs, left, right)
        if towers is not None:
            return towers
        parts = [part for slab in slabs for part in slab.parts(left, right)]
        if all(part.is_rectangle for part in parts):
            return _joined([(part.left, part.bottom, part.right, part.top) for part in parts])
        return parts_of(shapely.intersection(self.polygon, shapely.box(left, slabs[0].bottom, right, slabs[-1].top)))


def _overlap(boxes: Sequence[Box]) -> bool:
    """Whether two boxes overlap, by a sweep from left to right."""
    open_now: list[Box] = []
    for box in sorted(boxes):
        open_now = [other for other in open_now if other[2] > box[0]]
        if any(other[3] > box[1] and box[3] > other[1] for other in open_now):
            return True
        open_now.append(box)
    return False


def region_of(geometry: BaseGeometry) -> Region:
    """Region of a shapely polygon or collection; points and lines in it are dropped."""
    polygons = _polygons(geometry)
    region = Region(tuple(ring for polygon in polygons for ring in _rings_of(polygon)))
    # Rings alone do not say which outer ring a hole belongs to, so the geometry stays with the region.
    region.__dict__["polygon"] = MultiPolygon(polygons)
    return region


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


def parts_of(geometry: BaseGeometry) -> list[Part]:
    """Connected parts of a shapely geometry, from left to right; specks and spikes of rounding are dropped."""
    parts = []
    for polygon in _polygons(geometry):
        without_spikes = [straightened(ring) for ring in _rings_of(polygon)]
        rings = tuple(from_lowest(ring) for ring in without_spikes if len(ring) > 2)
        if not rings:
            continue
        left, bottom, right, top = bounds(rings[0])
        is_box = len(rings) == 1 and set(rings[0]) == set(rectangle(left, bottom, right, top))
        parts.append(Part(left, bottom, right, top, float(polygon.area), () if is_box else rings))
    return parts


def _joined(boxes: Sequence[Box]) -> list[Part]:
    """Connected parts of boxes stacked in slabs: boxes of neighbouring slabs join where they share some width."""
    stacked: dict[tuple[float, float, float], Box] = {}
    for left, bottom, right, top in boxes:
        below = stacked.pop((left, right, bottom), None)
        stacked[left, right, top] = (left, below[1] if below else bottom, right, top)
    boxes = list(stacked.values())
    if len(boxes) < 2:
        return [plain_part(*box) for box in boxes]
    return parts_of(shapely.union_all([shapely.box(*box) for box in boxes]))
