"""Bed joints of a face, measured strip by strip between the heads of slips and the feet of those above them."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from storeyrod.geometry.intervals import total
from storeyrod.geometry.plane import Band, Region
from storeyrod.wall.gauge import Gauge


@dataclass(frozen=True, slots=True)
class Beds:
    """Area and length of bed joints. Ticks."""

    area: float
    length: float


def bed_joints(region: Region, gauge: Gauge, foot: float, top: float) -> Beds:
    """The beds of a region: over every course one, as long as the wall there, or as the strip's mean length where it is raked."""
    strips = list(_strips(region, gauge, gauge.numbers(foot, top)))
    return Beds(sum(area for area, _ in strips), sum(length for _, length in strips))


def _strips(region: Region, gauge: Gauge, numbers: range) -> Iterator[tuple[float, float]]:
    reached = numbers.start
    for band in region.bands if gauge.has_beds else ():
        inside = _inside(band, gauge, range(reached, numbers.stop))
        if inside:
            yield from _singly(region, gauge, range(reached, inside.start))
            yield from _raked(band, gauge, inside) if band.runs is None else [_together(band, gauge, inside)]
            reached = inside.stop
    yield from _singly(region, gauge, range(reached, numbers.stop))


def _inside(band: Band, gauge: Gauge, numbers: range) -> range:
    """Courses whose bed above lies in a band with all of its height."""
    first = gauge.standing_at(band.low - gauge.height)
    first += gauge.bottom(first) + gauge.height < band.low
    return range(max(first, numbers.start), min(gauge.standing_at(band.high), numbers.stop))


def _together(band: Band, gauge: Gauge, numbers: range) -> tuple[float, float]:
    """Beds of equal length over neighbouring courses: their heights are what slips leave of the whole rise."""
    rise = gauge.bottom(numbers.stop) - gauge.bottom(numbers.start) - len(numbers) * gauge.height
    width = total(band.clear)
    return width * rise, width * len(numbers)


def _raked(band: Band, gauge: Gauge, numbers: range) -> Iterator[tuple[float, float]]:
    feet = [gauge.bottom(number) for number in (*numbers, numbers.stop)]
    for foot, above in pairwise(feet):
        low = foot + gauge.height
        area = band.slab(low, above).area
        yield area, area / (above - low)


def _singly(region: Region, gauge: Gauge, numbers: range) -> Iterator[tuple[float, float]]:
    for number in numbers:
        low, high = gauge.top(number), gauge.bottom(number + 1)
        if high > low:
            area = sum(slab.area for slab in region.slabs(low, high))
            yield area, area / (high - low)
