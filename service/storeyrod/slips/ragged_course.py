"""Courses that meet a rake, an arch, or the foot or head of an opening: units there are clipped one by one."""

import math
from collections.abc import Callable, Iterator, Sequence

from storeyrod.geometry.intervals import Interval, difference, intersection, union
from storeyrod.geometry.parts import Part
from storeyrod.geometry.slabs import Slab
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, Stretch
from storeyrod.slips.course_units import CourseUnits, lay_clear, stretches_of
from storeyrod.slips.courses import LaidCourse
from storeyrod.slips.raked_closers import ClosedEnd

Clipper = Callable[[float, float], list[Part]]
"""What the wall has in a column of the course, heights measured from the course's foot."""


def ragged_course(
    slabs: Sequence[Slab],
    height: float,
    bays: Sequence[BayPerps],
    pattern: int,
    clipped: Clipper,
    closed: Sequence[ClosedEnd] = (),
) -> LaidCourse:
    """One course of a wall that lies in it with all of its height in some runs, with some of it in others.

    Raked ends that are closed by themselves are laid as they say, and taken out of the rest.
    """
    clear, ragged = _clear_and_ragged(slabs, height)
    units, columns = CourseUnits(height), []
    for end in closed:
        for left, right, kind in end.columns:
            columns.append((left, right))
            units.lay_parts(end.grid, kind, clipped(left, right))
    ragged = difference(ragged, sorted(columns)) if columns else ragged
    for stretch in stretches_of(bays, pattern) if ragged else ():
        for left, right, kind in _columns(stretch, ragged):
            columns.append((left, right))
            units.lay_parts(stretch.grid, kind, clipped(left, right))
    lay_clear(units, difference(clear, sorted(columns)), bays, pattern)
    return units.laid()


def _clear_and_ragged(slabs: Sequence[Slab], height: float) -> tuple[list[Interval], list[Interval]]:
    """Where the whole height of the course lies in the wall, and where only some of it does."""
    if len(slabs) == 1 and slabs[0].top - slabs[0].bottom == height:
        return slabs[0].clear_and_ragged
    clear, level = (slabs[0].inner if slabs else []), 0.0
    for slab in slabs:
        clear = intersection(clear, slab.inner) if slab.bottom == level else []
        level = slab.top
    clear = clear if level == height else []
    return clear, difference(union(run for slab in slabs for run in slab.outer), clear)


def _columns(stretch: Stretch, ragged: Sequence[Interval]) -> Iterator[tuple[float, float, Kind | None]]:
    """Columns of units and perps that meet a ragged run, clipped to the stretch, each once."""
    start, end = stretch.left, stretch.right
    reached = -math.inf
    for low, high in ragged:
        if low >= end or high <= start:
            continue
        for left, right, kind in stretch.grid.columns(max(low, start), min(high, end)):
            inside_left, inside_right = max(left, start), min(right, end)
            if inside_left >= reached - HAIRLINE and inside_right > inside_left:
                reached = inside_right
                yield inside_left, inside_right, kind
