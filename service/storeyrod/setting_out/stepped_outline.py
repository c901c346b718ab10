"""The wall over a stepped base: its net area, and the outline to be drawn with that base.

An opening that the base runs into keeps its place: the outline goes down to its sill and round it, so that no wall stands below
the base there.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from storeyrod.geometry.plane import Region, Ring, bounds, signed_area
from storeyrod.geometry.ticks import TICKS_PER_MM
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.setting_out.stepped_base import LevelRun
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge

_SMALL: Final = 1.0 * TICKS_PER_MM**2
"""A square millimetre in square ticks: less than that is rounding."""

_BEYOND: Final = 1000.0 * TICKS_PER_MM

Step = tuple[float, float, float]
"""Left, right and height of a level length, in ticks."""


@dataclass(frozen=True, slots=True)
class SteppedWall:
    """Net area over a base in square ticks, and the outline with that base; none where no outline can hold it."""

    net_area: float
    outline: Ring | None


def stepped_wall(face: Face, runs: Sequence[LevelRun], gauge: Gauge) -> SteppedWall | None:
    """The wall over a stepped base; none where the base cuts nothing off the wall as it is drawn."""
    base = [(run.left, run.right, gauge.bottom(run.course)) for run in runs]
    over = face.region.less_rings([_below(base, face.foot)])
    if face.net_area - over.area < _SMALL:
        return None
    on_grid = _on_grid(base)
    round_openings = _round_openings(face, on_grid)
    left = Region((face.outline,)).less_rings([_below(round_openings, face.foot)])
    fits = len(left.rings) == 1 and _keeps_all(face, left.rings[0], on_grid, over.area)
    return SteppedWall(over.area, left.rings[0] if fits else None)


def _on_grid(base: Sequence[Step]) -> list[Step]:
    """The base with its steps on whole ticks, each on its lower side: the outline keeps the clearance when it is given back."""
    meets = [
        math.floor(before[1]) if before[2] < after[2] else math.ceil(before[1]) for before, after in pairwise(base)
    ]
    ends = [base[0][0], *map(float, meets), base[-1][1]]
    return [(left, right, height) for (left, right), (_, _, height) in zip(pairwise(ends), base, strict=True)]


def _below(steps: Sequence[Step], foot: float) -> Ring:
    """What lies below steps, drawn well past the ends and the foot of the wall."""
    low = min(foot, *(height for _, _, height in steps)) - _BEYOND
    line = [point for left, right, height in reversed(steps) for point in ((right, height), (left, height))]
    (right, last), (left, first) = line[0], line[-1]
    ends = (left - _BEYOND, low), (right + _BEYOND, low), (right + _BEYOND, last)
    return (*ends, *line, (left - _BEYOND, first))


def _round_openings(face: Face, base: Sequence[Step]) -> list[Step]:
    """The base, lowered to the sills of the openings that it runs into."""
    highest = max(height for _, _, height in base)
    low = [opening for opening in face.openings if opening.sill < highest]
    jambs = sorted({x for opening in low for x in (opening.left, opening.right)})
    steps = []
    for left, right, height in base:
        places = [left, *jambs[bisect_right(jambs, left) : bisect_left(jambs, right)], right]
        for start, end in pairwise(places):
            sills = [one.sill for one in low if one.left < end and one.right > start and one.sill < height]
            steps.append((start, end, min([height, *sills])))
    return steps


def _keeps_all(face: Face, outline: Ring, base: Sequence[Step], net_area: float) -> bool:
    """Whether an outline reaches from end to end, has every opening over its base, and leaves the net area with them."""
    left, _, right, _ = bounds(outline)
    reaches = abs(left - face.left) < HAIRLINE and abs(right - face.right) < HAIRLINE
    highest = max(height for _, _, height in base)
    buried = any(
        opening.head <= height
        for opening in face.openings
        if opening.head <= highest
        for start, end, height in base
        if opening.left < end and opening.right > start
    )
    openings = sum(opening.area for opening in face.openings)
    # A step on its tick takes less than a tick of the wall over its height.
    rises = sum(abs(after[2] - before[2]) for before, after in pairwise(base))
    return reaches and not buried and abs(signed_area(outline) - openings - net_area) < _SMALL + rises
