"""Courses that meet a rake, an arch, or the foot or head of an opening: units there are clipped one by one."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from storeyrod.geometry.intervals import Interval, clip, difference, intersection, union
from storeyrod.geometry.parts import Part
from storeyrod.geometry.slabs import Slab
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, CourseGrid, Stretch
from storeyrod.slips.clear_course import clear_units, stretches_of
from storeyrod.slips.courses import Cut, LaidCourse, Run

Clipper = Callable[[float, float], list[Part]]
"""What the wall has in a column of the course, heights measured from the course's foot."""


@dataclass(slots=True)
class _Clipped:
    """Pieces and joints of clipped columns. Ticks."""

    runs: list[Run] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    perp_area: float = 0.0
    perp_length: float = 0.0
    overrun_area: float = 0.0


def ragged_course(
    slabs: Sequence[Slab], height: float, bays: Sequence[BayPerps], pattern: int, clipped: Clipper
) -> LaidCourse:
    """One course of a wall that lies in it with all of its height in some runs, with some of it in others."""
    clear, ragged = _clear_and_ragged(slabs, height)
    made, columns = _Clipped(), []
    for stretch in stretches_of(bays, pattern):
        for low, high, kind in _columns(stretch, clip(ragged, stretch.left, stretch.right)):
            columns.append((low, high))
            _lay(made, stretch.grid, height, kind, clipped(low, high))
    rest = clear_units(difference(clear, union(columns)), bays, pattern).course(height)
    return LaidCourse(
        height,
        tuple(sorted((*made.runs, *rest.runs), key=lambda run: run.x)),
        tuple(sorted((*made.cuts, *rest.cuts), key=lambda cut: (cut.part.left, cut.part.bottom))),
        rest.perp_area + made.perp_area,
        rest.perp_length + made.perp_length,
        rest.overrun_area + made.overrun_area,
    )


def _clear_and_ragged(slabs: Sequence[Slab], height: float) -> tuple[list[Interval], list[Interval]]:
    """Where the whole height of the course lies in the wall, and where only some of it does."""
    if len(slabs) == 1 and slabs[0].top - slabs[0].bottom == height:
        clear, reached = slabs[0].inner, slabs[0].outer
        return clear, difference(reached, clear)
    clear, level = (slabs[0].inner if slabs else []), 0.0
    for slab in slabs:
        clear = intersection(clear, slab.inner) if slab.bottom == level else []
        level = slab.top
    clear = clear if level == height else []
    return clear, difference(union(run for slab in slabs for run in slab.outer), clear)


def _columns(stretch: Stretch, ragged: Sequence[Interval]) -> Iterator[tuple[float, float, Kind | None]]:
    """Columns of units and perps that meet a ragged run, clipped to the stretch, each once."""
    reached = -math.inf
    for low, high in ragged:
        for left, right, kind in stretch.grid.columns(low, high):
            inside = max(left, stretch.left), min(right, stretch.right)
            if inside[0] >= reached - HAIRLINE and inside[1] > inside[0]:
                reached = inside[1]
                yield *inside, kind


def _lay(made: _Clipped, grid: CourseGrid, height: float, kind: Kind | None, parts: Sequence[Part]) -> None:
    for part in parts:
        width, rise = part.right - part.left, part.top - part.bottom
        if kind is None or width <= HAIRLINE or rise <= HAIRLINE:
            made.perp_area += part.area
            made.perp_length += part.area / grid.perp if grid.perp else 0.0
        elif part.is_rectangle and width >= grid.width_of(kind) - HAIRLINE and rise >= height - HAIRLINE:
            made.runs.append(Run(part.left, 1, grid.period, width, kind))
            made.overrun_area += width * height - part.area
        else:
            made.cuts.append(Cut(part, kind))
