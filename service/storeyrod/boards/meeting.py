"""Whether a part meets wall beyond its foot or its head."""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise

from storeyrod.boards.runs import HAIRLINE
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Part


def meets(part: Part, level: float, reached: Sequence[Interval]) -> bool:
    """Whether edges of a part on a level meet wall beyond it, more than a hairline wide."""
    if not reached:
        return False
    if not part.shape:
        return _shares(part.left, part.right, reached)
    return any(
        _shares(min(a[0], b[0]), max(a[0], b[0]), reached)
        for ring in part.rings
        for a, b in pairwise((*ring, ring[0]))
        if a[1] == level and b[1] == level
    )


def _shares(left: float, right: float, others: Sequence[Interval]) -> bool:
    index = max(0, bisect_right(others, (left,)) - 1)
    while index < len(others) and others[index][0] < right - HAIRLINE:
        if min(right, others[index][1]) - max(left, others[index][0]) > HAIRLINE:
            return True
        index += 1
    return False
