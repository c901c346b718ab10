"""Raked closers: where a rake leaves the last unit of a course too short or too low, the perp before it moves inwards.

The last unit grows and its neighbour becomes a closer, so that both can be cut. The perp stays as far from the perps of the
courses below and above as the shortest piece is long: with 50 mm and perps of 10 mm units still overlap by 40 mm (common practice,
no source). Courses with headers, and stack bond, whose perps stand in line, keep their ends.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from storeyrod.geometry.slabs import SlabRun
from storeyrod.setting_out.bond import Kind
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, CourseGrid, Stretch
from storeyrod.setting_out.quoin_closers import neighbourhood_of

LEAST_SHIFT: Final = 1 / 8
"""House limit: perps of neighbouring courses stand at least this share of a module apart, however short pieces may be."""


@dataclass(frozen=True, slots=True)
class CutLimits:
    """Shortest and lowest piece that is no sliver, and the nominal perp. Ticks."""

    shortest: float
    lowest: float
    perp: float


Columns = tuple[tuple[float, float, Kind | None], ...]
"""Units, and the perp between them as None, from left to right."""


class ClosedEnd(NamedTuple):
    """A raked end of a course laid anew: its columns and their grid."""

    grid: CourseGrid
    columns: Columns

    @property
    def perp(self) -> float:
        """Middle of the perp that moved."""
        left, right, _ = self.columns[1]
        return (left + right) / 2.0


class _Beside(NamedTuple):
    """Perps of the courses below and above: their grids, and middles of those that moved already."""

    grids: Sequence[CourseGrid]
    moved: Sequence[float]

    def mirrored(self) -> "_Beside":
        return _Beside([grid.mirrored() for grid in self.grids], [-perp for perp in self.moved])

    def perps(self, low: float, high: float) -> Iterator[float]:
        """Middles of the perps between two places, and a module beyond."""
        yield from self.moved
        for grid in self.grids:
            for left, right, kind in grid.columns(low - grid.period, high + grid.period):
                if kind is None:
                    yield (left + right) / 2.0


class _Tip(NamedTuple):
    """A right-hand raked end: left end of the last unit and the tip, length of the unit before it, how far the rake runs in a
    course, and the perps of the courses below and above near it.
    """

    last: float
    end: float
    inner: float
    rake: float
    beside: tuple[float, ...]


def raked_ends(
    runs: Sequence[SlabRun],
    height: float,
    bays: Sequence[BayPerps],
    pattern: int,
    limits: CutLimits,
    below: Sequence[ClosedEnd] = (),
) -> list[ClosedEnd]:
    """The raked ends of a course that are laid anew; the others need no closer, or none helps.

    ``below`` are those of the course below.
    """
    made = []
    for run in runs:
        left_low, left_high, right_low, right_high = run
        if left_low == left_high and right_low == right_high:
            continue
        for stretch, grids in _stretches(bays, pattern):
            near = _Beside(grids, [end.perp for end in below])
            right = _at_right(stretch, run, near, height, limits)
            left = _at_left(stretch, run, near, height, limits)
            module = stretch.grid.period
            right = right if right and _alone(right[0][0], right[-1][1] + module, run, runs) else None
            left = left if left and _alone(left[0][0] - module, left[-1][1], run, runs) else None
            if right is None or left is None or right[0][0] - HAIRLINE >= left[-1][1]:
                made += [ClosedEnd(stretch.grid, columns) for columns in (right, left) if columns]
    return made


def _stretches(bays: Sequence[BayPerps], pattern: int) -> Iterator[tuple[Stretch, Sequence[CourseGrid]]]:
    """Stretches of a course of stretchers, with the grids of the courses below and above."""
    for bay in bays:
        if len(bay.patterns) == 1:
            continue
        for stretch in bay.patterns[pattern]:
            if not stretch.grid.has_headers:
                yield stretch, neighbourhood_of(bay, pattern).grids


def _alone(low: float, high: float, run: SlabRun, runs: Sequence[SlabRun]) -> bool:
    """Whether no other run of the course comes in: a unit that reaches over the gap is laid as one column with that run."""
    return all(other is run or min(other[:2]) >= high or max(other[2:]) <= low for other in runs)


def _at_left(stretch: Stretch, run: SlabRun, near: _Beside, height: float, limits: CutLimits) -> Columns | None:
    """Columns at a left-hand rake: those of the mirror image."""
    left_low, left_high, right_low, right_high = run
    if left_low == left_high or not stretch.left <= min(left_low, left_high) < stretch.right:
        return None
    turned = Stretch(-stretch.right, -stretch.left, stretch.grid.mirrored())
    columns = _at_right(turned, (-right_low, -right_high, -left_low, -left_high), near.mirrored(), height, limits)
    return _turned(columns) if columns else None


def _at_right(stretch: Stretch, run: SlabRun, near: _Beside, height: float, limits: CutLimits) -> Columns | None:
    """Columns of the last two units at a right-hand rake, with the perp between them moved inwards.

    None where the other edge of the wall rakes the neighbour too.
    """
    left_low, left_high, low, high = run
    start, end, rake = max(left_low, left_high), max(low, high), abs(high - low)
    if not rake or not stretch.left < end <= stretch.right:
        return None
    module = stretch.grid.period
    units = [one for one in stretch.grid.columns(end - 2.0 * module, end) if one[2] is not None]
    if len(units) < 2:
        return None
    (inner, inner_right, kind), (last, _, _) = units[-2:]
    if left_low != left_high and inner < start:
        return None
    left = max(inner, start, stretch.left)
    if _lacks(end - last, rake, height, limits) <= HAIRLINE:
        return None
    tip = _Tip(last, end, inner_right - left, rake, tuple(near.perps(left, end)))
    moved = _moved(tip, stretch.grid, height, limits)
    if moved is None:
        return None
    return ((left, inner_right - moved, kind), (inner_right - moved, last - moved, None), (last - moved, end, kind))


def _lacks(last: float, rake: float, height: float, limits: CutLimits) -> float:
    """By how much the last unit is too short, or too short to be as high as a rip must be."""
    return max(limits.shortest, limits.lowest / height * rake) - last


def _moved(tip: _Tip, grid: CourseGrid, height: float, limits: CutLimits) -> float | None:
    """How far the perp moves inwards: no farther than needed, and past a perp of the next courses where it must."""
    needed = _lacks(tip.end - tip.last, tip.rake, height, limits)
    perp = tip.last - grid.perp / 2.0
    shift = max(limits.shortest - limits.perp + grid.perp, grid.period * LEAST_SHIFT)
    past = sorted(perp - beside + shift for beside in tip.beside)
    for moved in (needed, *(one for one in past if one > needed)):
        stands = all(abs(perp - moved - beside) >= shift - HAIRLINE for beside in tip.beside)
        fits = tip.end - tip.last + moved <= grid.units[0].width + HAIRLINE
        if stands and fits and tip.inner - moved >= limits.shortest - HAIRLINE:
            return moved
    return None


def _turned(columns: Columns) -> Columns:
    return tuple((-right, -left, kind) for left, right, kind in reversed(columns))
