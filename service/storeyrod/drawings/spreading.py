"""Places of labels along a line: as near as they can be to what they name, without touching."""

from collections.abc import Sequence
from itertools import pairwise


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float] | None:
    """Places at least a gap apart between two limits with the least squares from those wanted, which run upwards.

    None when there is no room. Labels that would touch move as one block about the mean of what they want.
    """
    if not wanted or gap * (len(wanted) - 1) > high - low:
        return [] if not wanted else None
    blocks: list[tuple[float, int]] = []
    for index, place in enumerate(wanted):
        start, count = place - gap * index, 1
        while blocks and blocks[-1][0] >= start:
            before, more = blocks.pop()
            start, count = (before * more + start * count) / (more + count), more + count
        blocks.append((start, count))
    last = high - gap * (len(wanted) - 1)
    starts = [min(max(start, low), last) for start, count in blocks for _ in range(count)]
    return [start + gap * index for index, start in enumerate(starts)]


def spread_between(wanted: Sequence[float], gap: float, stretches: Sequence[tuple[float, float]]) -> list[float | None]:
    """The same in several stretches, which run upwards and do not touch; none for those that find no room in any.

    Each goes to the nearest stretch; from one that is full those at its ends go on to its neighbours.
    """
    holds = [int((high - low) / gap + 1e-9) + 1 for low, high in stretches]
    counts = [0] * len(stretches)
    for place in wanted:
        if stretches:
            counts[min(range(len(stretches)), key=lambda index: _distance(place, stretches[index]))] += 1
    for order in (range(len(stretches)), range(len(stretches) - 1, -1, -1)):
        for index, following in pairwise(order):
            more = max(0, counts[index] - holds[index])
            counts[index], counts[following] = counts[index] - more, counts[following] + more
    found: list[float | None] = []
    for (low, high), count, most in zip(stretches, counts, holds, strict=True):
        mine, kept = wanted[len(found) : len(found) + count], min(count, most)
        found += [*(spread(mine[:kept], gap, low, high) or []), *[None] * (count - kept)]
    return [*found, *[None] * (len(wanted) - len(found))]


def _distance(place: float, stretch: tuple[float, float]) -> float:
    return max(stretch[0] - place, place - stretch[1], 0.0)
