"""How thin a shaped piece gets: widths of its upright legs and heights of its level arms."""

import math
from collections.abc import Sequence
from itertools import pairwise

from storeyrod.geometry.rings import Ring


def least_width(rings: Sequence[Ring]) -> float:
    """Least width at any height of a shape with level and plumb edges."""
    return min(_spans([[(y, x) for x, y in ring] for ring in rings]))


def least_height(rings: Sequence[Ring]) -> float:
    """Least height over any place of a shape with level and plumb edges."""
    return min(_spans(rings))


def has_thin_arms(rings: Sequence[Ring], limit: float) -> bool:
    """Whether a leg or an arm of a shape with level and plumb edges is under a limit."""
    corners = rings[0] if len(rings) == 1 else [corner for ring in rings for corner in ring]
    for places in zip(*corners, strict=True):
        before = -math.inf
        for place in sorted(places):
            if 0.0 < place - before < limit:
                return min(least_width(rings), least_height(rings)) < limit
            before = place
    return False


def _spans(rings: Sequence[Sequence[tuple[float, float]]]) -> list[float]:
    """Lengths of a shape along its second axis, between every two neighbouring corners along the first one."""
    edges = [
        (min(a[0], b[0]), max(a[0], b[0]), a[1])
        for ring in rings
        for a, b in pairwise((*ring, ring[0]))
        if a[0] != b[0]
    ]
    found = []
    for low, high in pairwise(sorted({place for edge in edges for place in edge[:2]})):
        levels = sorted([level for start, end, level in edges if start <= low and end >= high])
        found += [after - before for before, after in zip(levels[::2], levels[1::2], strict=True)]
    return found
