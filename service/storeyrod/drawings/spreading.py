"""Places of labels along a line: as near as they can be to what they name, without touching."""

from collections.abc import Sequence


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
