"""The limits of a total resistance on plain numbers: what every U-value passes through.

The recorded working in ``combined`` takes the same steps in the same order, so both give equal bits; a test holds them
together. Kept free of objects and calls because searches, bands and layouts ask for it many times.
"""

from collections.abc import Sequence
from math import fsum

Sections = Sequence[tuple[float, float]]
"""Sections side by side: share of the area and resistance in m2.K/W of each."""


def lower_limit(resistances: Sequence[float]) -> float:
    """Planes between layers have one temperature: resistances of layers and surfaces in m2.K/W add up."""
    return fsum(resistances)


def parallel(sections: Sections) -> float:
    """Resistance in m2.K/W of sections side by side."""
    return 1.0 / fsum([fraction / resistance for fraction, resistance in sections])


def upper_limit(common: float, bridged: Sequence[Sections]) -> float:
    """Heat flows straight through: paths through every combination of sections, beside a resistance that all share."""
    paths: list[tuple[float, float]] = [(fraction, common + resistance) for fraction, resistance in bridged[0]]
    for sections in bridged[1:]:
        paths = [(a * b, inner + outer) for a, inner in paths for b, outer in sections]
    return parallel(paths)
