"""How much delivered slips may differ in size, and whether perps can take that up."""

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.setting_out.models import SizeTolerance
from storeyrod.trace import Trace, formula
from storeyrod.wall.system import System

_SIZES: Final = Clause("EN 771-1", "5.3.1.2, dimensional tolerances", "memory")

MEAN: Final[Mapping[str, tuple[float, float]]] = MappingProxyType({"T1": (0.40, 3.0), "T2": (0.25, 2.0)})
"""Category of the mean value: factor of the root of the size in mm, and least tolerance in mm."""

RANGE: Final[Mapping[str, float]] = MappingProxyType({"T1": 0.6, "T2": 0.3})
"""Factor of the range of sizes in one delivery, R1 beside T1 and R2 beside T2."""


@formula(
    symbol="T",
    expression="Max(c*sqrt(s*u), T_least)",
    unit="mm",
    inputs={"c": "fraction", "s": "mm", "u": "mm", "T_least": "mm"},
    clause=_SIZES,
)
def mean_tolerance(*, c: float, s: float, u: float, T_least: float) -> float:  # noqa: N803  symbol of the formula
    """Tolerance of the mean of a size s; u is one millimetre, for the formula holds for sizes in millimetres."""
    return max(c * math.sqrt(s * u), T_least)


@formula(symbol="R", expression="c*sqrt(s*u)", unit="mm", inputs={"c": "fraction", "s": "mm", "u": "mm"}, clause=_SIZES)
def size_range(*, c: float, s: float, u: float) -> float:
    """Range between the largest and the smallest unit of a delivery."""
    return c * math.sqrt(s * u)


@formula(symbol="j_left", expression="j - T", unit="mm", inputs={"j": "mm", "T": "mm"}, clause=GEOMETRY)
def perp_left(*, j: float, T: float) -> float:  # noqa: N803  symbol of the formula
    """Perp that is left of the module when every slip is longer by the tolerance of the mean."""
    return j - T


def size_tolerances(system: System, trace: Trace) -> list[SizeTolerance]:
    """Both categories of mean size for the slips of a system, and the perps they leave on the module."""
    return [_category(category, system, trace) for category in MEAN]


def _category(category: str, system: System, trace: Trace) -> SizeTolerance:
    length = _mean(category, trace.given(system.slip.length_mm, "/system/slip/length_mm"), trace)
    height = _mean(category, trace.given(system.slip.height_mm, "/system/slip/height_mm"), trace)
    perp = trace.given(system.joint.perp_mm, "/system/joint/perp_mm")
    least = trace.call(perp_left, j=perp, T=length)
    most = perp + float(length)
    return {
        "category": "T1" if category == "T1" else "T2",
        "length_mm": length,
        "length_mm_declared": math.floor(length + 0.5),
        "height_mm": height,
        "height_mm_declared": math.floor(height + 0.5),
        "length_range_mm": _range(category, system.slip.length_mm, "/system/slip/length_mm", trace),
        "height_range_mm": _range(category, system.slip.height_mm, "/system/slip/height_mm", trace),
        "perp_least_mm": least,
        "perp_most_mm": most,
        "perps_within": system.joint.perp_min_mm <= least and most <= system.joint.perp_max_mm,
    }


def _mean(category: str, size: float, trace: Trace) -> float:
    factor, least = MEAN[category]
    return trace.call(
        mean_tolerance,
        c=trace.lookup("c", factor, "fraction", _SIZES),
        s=size,
        u=trace.lookup("u", 1.0, "mm", _SIZES),
        T_least=trace.lookup("T_least", least, "mm", _SIZES),
    )


def _range(category: str, size_mm: float, pointer: str, trace: Trace) -> float:
    return trace.call(
        size_range,
        c=trace.lookup("c", RANGE[category], "fraction", _SIZES),
        s=trace.given(size_mm, pointer),
        u=trace.lookup("u", 1.0, "mm", _SIZES),
    )
