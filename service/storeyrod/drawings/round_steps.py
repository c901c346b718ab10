"""Round steps for isotherms and axes: one, two or five of a power of ten."""

import math
from collections.abc import Sequence
from typing import Final

_ROUND: Final = (1.0, 2.0, 5.0, 10.0)
_GUARD: Final = 1e-9
"""Share of a step by which a value may miss a multiple and still count as one."""


def round_step(span: float, at_most: int) -> float:
    """The smallest round step of which a span, over 0, holds no more than so many."""
    least = span / at_most
    power = 10.0 ** math.floor(math.log10(least))
    return next(one * power for one in _ROUND if one * power >= least * (1.0 - _GUARD))


def multiples_between(low: float, high: float, step: float) -> Sequence[float]:
    """Multiples of a step strictly between two values, upwards."""
    first, last = math.floor(low / step + _GUARD) + 1, math.ceil(high / step - _GUARD) - 1
    return [_multiple(step, index) for index in range(first, last + 1)]


def multiples_covering(low: float, high: float, step: float) -> Sequence[float]:
    """Multiples of a step from the last one at or below the lower value to the first one at or above the higher."""
    first, last = math.floor(low / step + _GUARD), math.ceil(high / step - _GUARD)
    return [_multiple(step, index) for index in range(first, last + 1)]


def _multiple(step: float, index: int) -> float:
    """A multiple without the dust of binary fractions: 0.3, not 0.30000000000000004."""
    return round(index * step, 12) + 0.0


def decimals_of(step: float) -> int:
    """Decimals with which multiples of a round step are written."""
    return max(0, -math.floor(math.log10(step) + _GUARD))
