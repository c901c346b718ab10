"""Factors by which a fractile lies under the mean of a sample of unknown scatter.

All of them come from Student's t distribution, central or not: T = (Z + delta)/U, where U**2 is chi-square over its degrees of
freedom. Its distribution function is the mean of the normal one over U, here by Gauss-Legendre quadrature.
"""

import math
from functools import lru_cache
from itertools import pairwise
from statistics import NormalDist
from typing import Final

import numpy as np

_NORMAL: Final = NormalDist()
_PANELS: Final = 20
_POINTS: Final = 20
"""Points of the quadrature in each panel."""

_REACH: Final = 12.0
"""Standard deviations of U about its middle that are integrated over: beyond them nothing is left in double precision."""


def t_distribution(value: float, freedom: int, shift: float = 0.0) -> float:
    """Distribution function of t with degrees of freedom and noncentrality ``shift``."""
    points, weights = _chi_weights(freedom)
    return math.fsum(w * _NORMAL.cdf(value * u - shift) for u, w in zip(points, weights, strict=True))


@lru_cache(maxsize=64)
def _chi_weights(freedom: int) -> tuple[list[float], list[float]]:
    """Points of U and the weight of its density at each."""
    spread = _REACH / math.sqrt(2.0 * freedom)
    low, high = max(0.0, 1.0 - spread), 1.0 + spread
    places, weights = _quadrature()
    points = [low + (high - low) * place for place in places]
    log_scale = math.log(2.0) + freedom / 2.0 * math.log(freedom / 2.0) - math.lgamma(freedom / 2.0)
    density = [math.exp(log_scale + (freedom - 1.0) * math.log(u) - freedom * u * u / 2.0) for u in points]
    return points, [w * (high - low) * d for w, d in zip(weights, density, strict=True)]


@lru_cache(maxsize=1)
def _quadrature() -> tuple[list[float], list[float]]:
    """Points and weights on 0 to 1, panel by panel: one rule of so many points would cost an eigenvalue problem of that size.

    Panels grow as squares: near 0, where few tests leave a steep integrand, they are narrow.
    """
    nodes, weights = np.polynomial.legendre.leggauss(_POINTS)
    edges = [(edge / _PANELS) ** 2 for edge in range(_PANELS + 1)]
    panels = list(pairwise(edges))
    points = [low + (high - low) * (float(node) + 1.0) / 2.0 for low, high in panels for node in nodes]
    return points, [float(weight) / 2.0 * (high - low) for low, high in panels for weight in weights]


def t_quantile(probability: float, freedom: int, shift: float = 0.0) -> float:
    """Value that t stays under with a probability."""
    low, high = shift - 1.0, shift + 1.0
    while t_distribution(low, freedom, shift) > probability:
        low -= 2.0 * (high - low)
    while t_distribution(high, freedom, shift) < probability:
        high += 2.0 * (high - low)
    while high - low > _PRECISION * max(1.0, abs(high)):
        middle = (low + high) / 2.0
        if t_distribution(middle, freedom, shift) < probability:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


_PRECISION: Final = 1e-11


def prediction_factor(number: int, fractile: float) -> float:
    """k_n of EN 1990 Annex D, scatter unknown: t(1 - fractile, n - 1)*sqrt(1 + 1/n)."""
    return t_quantile(1.0 - fractile, number - 1) * math.sqrt(1.0 + 1.0 / number)


def tolerance_factor(number: int, fractile: float, confidence: float) -> float:
    """One-sided tolerance factor: t(confidence, n - 1; z*sqrt(n))/sqrt(n), z the normal quantile of 1 - fractile."""
    shift = _NORMAL.inv_cdf(1.0 - fractile) * math.sqrt(number)
    return t_quantile(confidence, number - 1, shift) / math.sqrt(number)
