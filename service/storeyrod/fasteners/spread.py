"""Spreading fasteners along a stretch of a course."""

from collections.abc import Sequence

from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.room import Stretch


def spread(stretch: Stretch, pattern: Pattern, wanted: int, before: Sequence[float]) -> list[float]:
    """Places by equal shares of the stretch, moved into its room; fewer where the spacing leaves no room for all."""
    low, high = stretch.room
    if before:
        low = max(low, before[-1] + pattern.spacing)
    if low > high:
        return []
    spacing = pattern.spacing
    number = min(wanted, pattern.most_in((low, high)))
    left, right = stretch.wall
    share = (right - left) / number
    if share < spacing and number > 1:
        step = (high - low) / (number - 1)
        return [low + index * step for index in range(number)]
    first, last = left + 0.5 * share, left + (number - 0.5) * share
    if low <= first and last <= high:
        return [left + (index + 0.5) * share for index in range(number)]
    return [
        min(max(left + (index + 0.5) * share, low + index * spacing), high - (number - 1 - index) * spacing)
        for index in range(number)
    ]
