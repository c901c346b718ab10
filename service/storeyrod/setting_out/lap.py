"""How far units of neighbouring courses overlap, beside the rule for masonry that is laid in mortar."""

import math
from fractions import Fraction
from typing import Final

from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.setting_out.bond import BONDS, CoursePattern
from storeyrod.setting_out.models import BondLap
from storeyrod.trace import Trace, formula
from storeyrod.wall.grid import module_of
from storeyrod.wall.system import System

_OVERLAP: Final = Clause("EN 1996-1-1", "8.1.4.1, overlap of units up to 250 mm high", "memory")
_SHARE: Final = 0.4
_LEAST_MM: Final = 40.0


@formula(symbol="o", expression="f*m - j", unit="mm", inputs={"f": "fraction", "m": "mm", "j": "mm"}, clause=GEOMETRY)
def overlap(*, f: float, m: float, j: float) -> float:
    """Overlap of two units whose courses are shifted by a fraction of the module: a perp of either course is taken off."""
    return f * m - j


@formula(
    symbol="o_rule",
    expression="Max(k*h, o_least)",
    unit="mm",
    inputs={"k": "fraction", "h": "mm", "o_least": "mm"},
    clause=_OVERLAP,
)
def overlap_rule(*, k: float, h: float, o_least: float) -> float:
    """Least overlap of masonry units h high."""
    return max(k * h, o_least)


def bond_lap(system: System, trace: Trace) -> BondLap:
    """Overlap in the field of the bond, and the rule for units laid in mortar, which bonded slips need not keep."""
    share = least_shift(system)
    rule = least_overlap_of(system, trace)
    if share == 0:
        return {"overlap_mm": 0.0, "masonry_rule_mm": rule, "keeps_masonry_rule": False}
    made = trace.call(
        overlap,
        f=trace.lookup("f", float(share), "fraction", GEOMETRY),
        m=module_of(system, trace),
        j=trace.given(system.joint.perp_mm, "/system/joint/perp_mm"),
    )
    return {"overlap_mm": made, "masonry_rule_mm": rule, "keeps_masonry_rule": made >= rule}


def least_overlap_of(system: System, trace: Trace) -> float:
    """Least overlap of masonry units as high as the slips of a system, in mm."""
    return trace.call(
        overlap_rule,
        k=trace.lookup("k", _SHARE, "fraction", _OVERLAP),
        h=trace.given(system.slip.height_mm, "/system/slip/height_mm"),
        o_least=trace.lookup("o_least", _LEAST_MM, "mm", _OVERLAP),
    )


def least_shift(system: System) -> Fraction:
    """Least distance of a perp from one of the next course, in modules."""
    courses = BONDS[system.bond].courses
    pairs = zip(courses, (*courses[1:], courses[0]), strict=True)
    return min(_shift(lower, upper) for lower, upper in pairs)


def _shift(lower: CoursePattern, upper: CoursePattern) -> Fraction:
    """Least distance of the unit ends of two courses: both repeat, so a common repeat holds every distance."""
    first, second = lower.modules, upper.modules
    common = Fraction(math.lcm(first.numerator, second.numerator), math.gcd(first.denominator, second.denominator))
    return min(min((a - b) % common, (b - a) % common) for a in _ends(lower, common) for b in _ends(upper, common))


def _ends(pattern: CoursePattern, length: Fraction) -> list[Fraction]:
    ends, place = [], -pattern.shift
    while place < length - pattern.shift:
        for kind in pattern.units:
            ends.append(place)
            place += Fraction(1) if kind == "stretcher" else Fraction(1, 2)
    return ends
