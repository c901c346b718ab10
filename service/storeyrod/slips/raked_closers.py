"""Raked closers: where a rake leaves the last unit of a course too short or too low, the perp before it moves inwards.

The last unit grows and its neighbour becomes a closer, so that both can be cut. The perp stays as far from the perps of the next
courses, which stand half a module away in half-lap bond, as the shortest piece is long: with 50 mm and perps of 10 mm units
still overlap by 40 mm (common practice, no source; for bonds of stretchers alone).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from storeyrod.geometry.slabs import SlabRun
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, CourseGrid, Stretch
from storeyrod.slips.course_units import stretches_of

LEAST_SHIFT: Final = 1 / 8
"""House limit: perps of neighbouring courses stand at least this share of a module apart, however short pieces may be."""


@dataclass(frozen=True, slots=True)
class CutLimits:
    """Shortest and lowest piece that is no sliver, and the nominal perp. Ticks."""

    shortest: float
    lowest: float
    perp: float


class ClosedEnd(NamedTuple):
    """A raked end of a course laid anew: its columns of units and perps (None), from left to right, and their grid."""

    grid: CourseGrid
    columns: tuple[tuple[float, float, Kind | None], ...]


class _Tip(NamedTuple):
    """Last unit and its neighbour at a raked end, in distances from the tip inwards, and how far the rake runs in a course."""

    perp: float
    last: float
    inner: float
    rake: float


def raked_ends(
    runs: Sequence[SlabRun], height: float, bays: Sequence[BayPerps], pattern: int, limits: CutLimits
) -> list[ClosedEnd]:
    """The raked ends of a course that are laid anew; the others need no closer, or none helps."""
    made = []
    for run in runs:
        left_low, left_high, right_low, right_high = run
        if left_low == left_high and right_low == right_high:
            continue
        for stretch in stretches_of(bays, pattern):
            right = _at_right(stretch, run, height, limits)
            left = _at_left(stretch, run, height, limits)
            module = stretch.grid.period
            right = right if right and _alone(right[0][0], right[-1][1] + module, run, runs) else None
            left = left if left and _alone(left[0][0] - module, left[-1][1], run, runs) else None
            if right is None or left is None or right[0][0] - HAIRLINE >= left[-1][1]:
                made += [ClosedEnd(stretch.grid, columns) for columns in (right, left) if columns]
    return made


def _alone(low: float, high: float, run: SlabRun, runs: Sequence[SlabRun]) -> bool:
    """Whether no other run of the course comes in: a unit that reaches over the gap is laid as one column with that run."""
    return all(other is run or min(other[:2]) >= high or max(other[2:]) <= low for other in runs)


def _at_left(
    stretch: Stretch, run: SlabRun, height: float, limits: CutLimits
) -> tuple[tuple[float, float, Kind | None], ...] | None:
    """Columns at a left-hand rake: those of the mirror image."""
    left_low, left_high, right_low, right_high = run
    if left_low == left_high or not stretch.left <= min(left_low, left_high) < stretch.right:
        return None
    turned = Stretch(-stretch.right, -stretch.left, stretch.grid.mirrored())
    columns = _at_right(turned, (-right_low, -right_high, -left_low, -left_high), height, limits)
    return _turned(columns) if columns else None


def _at_right(
    stretch: Stretch, run: SlabRun, height: float, limits: CutLimits
) -> tuple[tuple[float, float, Kind | None], ...] | None:
    """Columns of the last two units at a right-hand rake, with the perp between them moved inwards.

    None where the other edge of the wall rakes the neighbour too.
    """
    left_low, left_high, low, high = run
    start, end, rake = max(left_low, left_high), max(low, high), abs(high - low)
    if not rake or not stretch.left < end <= stretch.right:
        return None
    if any(unit.kind != "stretcher" for unit in stretch.grid.units):
        return None
    module = stretch.grid.period
    units = [one for one in stretch.grid.columns(end - 2.0 * module, end) if one[2] is not None]
    if len(units) < 2:
        return None
    (inner, inner_right, kind), (last, _, _) = units[-2:]
    if left_low != left_high and inner < start:
        return None
    tip = _Tip(last - inner_right, end - last, inner_right - max(inner, start, stretch.left), rake)
    moved = _moved(tip, stretch.grid, height, limits)
    if moved is None:
        return None
    left = inner_right - tip.inner
    return ((left, inner_right - moved, kind), (inner_right - moved, last - moved, None), (last - moved, end, kind))


def _moved(tip: _Tip, grid: CourseGrid, height: float, limits: CutLimits) -> float | None:
    """How far the perp moves: no farther than needed, and not where the next course has a perp."""
    needed = max(limits.shortest, limits.lowest / height * tip.rake) - tip.last
    if needed <= HAIRLINE:
        return None
    half = grid.period / 2.0
    # Half bats keep their length when perps are equalised, so the next course's perp may be this far from the middle.
    off = grid.perp - limits.perp + abs(grid.perp - limits.perp) / 2.0
    shift = max(limits.shortest, grid.period * LEAST_SHIFT) + off
    for moved in (needed, max(needed, half + shift)):
        overlaps = abs(half - moved) >= shift - HAIRLINE
        fits = tip.last + moved <= grid.units[0].width + HAIRLINE and tip.inner - moved >= limits.shortest - HAIRLINE
        if overlaps and fits:
            return moved
    return None


def _turned(
    columns: tuple[tuple[float, float, Kind | None], ...],
) -> tuple[tuple[float, float, Kind | None], ...]:
    return tuple((-right, -left, kind) for left, right, kind in reversed(columns))
