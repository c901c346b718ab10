"""Seal of a joint: depth of the sealant, the rod behind it, its section and what it holds."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final, Literal

from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.movement_joints.width_models import DepthByRule
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.reference.tables import rows_of
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.units import LITRES_PER_CUBIC_METRE, SQUARE_METRES_PER_SQUARE_MILLIMETRE
from storeyrod.wall.movement import Backer
from storeyrod.wall.system import System

Section = Literal["rectangle", "over_round_rod"]

_DEPTHS: Final = tuple(rows_of("sealant_depths"))
_RODS: Final[Mapping[str, dict[str, Any]]] = MappingProxyType({row["key"]: row for row in rows_of("backer_rods")})


def _clause(row: dict[str, Any]) -> Clause:
    return Clause(row["document"], row["number"], row["status"])


DEPTH_RULE: Final = _DEPTHS[0]
"""The rule that is used; the others are shown beside it."""

SEALANT_DEPTH: Final = _clause(DEPTH_RULE)


@formula(
    symbol="d",
    expression="Min(d_max, Max(d_min, k*w))",
    unit="mm",
    inputs={"w": "mm", "k": "fraction", "d_min": "mm", "d_max": "mm"},
    clause=SEALANT_DEPTH,
)
def sealant_depth(*, w: float, k: float, d_min: float, d_max: float) -> float:
    """Depth of sealant for a joint of width w: a share of it, within limits."""
    return min(d_max, max(d_min, k * w))


@formula(
    symbol="D",
    expression="ceiling(k*w/one - tolerance)*one",
    unit="mm",
    inputs={"k": "fraction", "w": "mm", "one": "mm", "tolerance": "count"},
    clause=_clause(_RODS["closed_cell"]),
)
def rod_diameter(*, k: float, w: float, one: float, tolerance: float) -> float:
    """Diameter of a rod k times as wide as its joint, up to the next millimetre."""
    return math.ceil(k * w / one - tolerance) * one


@formula(
    symbol="A_rod",
    expression="w*(c + D/2) - (D**2/4*asin(w/D) + w/4*sqrt(D**2 - w**2))",
    unit="mm2",
    inputs={"w": "mm", "c": "mm", "D": "mm"},
    clause=GEOMETRY,
)
def section_over_rod(*, w: float, c: float, D: float) -> float:  # noqa: N803  symbol of the formula
    """Section of sealant over a round rod of diameter D that is no narrower than the joint: c deep at the middle."""
    return w * (c + D / 2) - (D**2 / 4 * math.asin(w / D) + w / 4 * math.sqrt(D**2 - w**2))


@formula(symbol="A", expression="w*d", unit="mm2", inputs={"w": "mm", "d": "mm"}, clause=GEOMETRY)
def plain_section(*, w: float, d: float) -> float:
    """Section of sealant as wide as its joint and equally deep."""
    return w * d


@formula(
    symbol="V",
    expression="L*A*litres",
    unit="l",
    inputs={"L": "m", "A": "m2", "litres": "l_per_m3"},
    clause=GEOMETRY,
)
def sealant_volume(*, L: float, A: float, litres: float) -> float:  # noqa: N803  symbols of the formula
    """Sealant of a section in a joint of length L."""
    return L * A * litres


@dataclass(frozen=True, slots=True)
class Rod:
    """Rod behind sealant: foam and diameter in mm."""

    kind: Backer
    diameter: float


@dataclass(frozen=True, slots=True)
class Seal:
    """What fills a joint of a width: depth, section and rod, in mm and mm2."""

    width: float
    depth: float
    section: Section
    area: float
    rod: Rod


def seal_of(system: System, width_mm: float, trace: Trace) -> Seal:
    """Seal of a movement joint: depth and rod as given, or by their rules."""
    depth = sealant_depth_of(system, width_mm, trace)
    diameter = system.movement_joint.backer_rod.diameter_mm
    if diameter is not None:
        diameter = trace.given(diameter, "/system/movement_joint/backer_rod/diameter_mm")
    return _seal(system, width_mm, depth, diameter, trace)


def seal_by_rule(system: System, width_mm: float, trace: Trace) -> Seal:
    """Seal of a joint that is no movement joint of the system: depth and rod by their rules."""
    return _seal(system, width_mm, depth_by_rule(width_mm, trace), None, trace)


def sealed_volume(seal: Seal, length_m: float, trace: Trace) -> float:
    """Sealant in litres."""
    return trace.call(
        sealant_volume,
        L=length_m,
        A=trace.given(seal.area * SQUARE_METRES_PER_SQUARE_MILLIMETRE, origin_of(seal.area)),
        litres=trace.lookup("litres", LITRES_PER_CUBIC_METRE, "l_per_m3", GEOMETRY),
    )


def _seal(system: System, width: float, depth: float, diameter: float | None, trace: Trace) -> Seal:
    kind = system.movement_joint.backer_rod.kind
    rod = Rod(kind, _diameter_by_rule(kind, width, trace) if diameter is None else diameter)
    if system.movement_joint.sealant_section == "over_round_rod" and rod.diameter >= width:
        return Seal(width, depth, "over_round_rod", trace.call(section_over_rod, w=width, c=depth, D=rod.diameter), rod)
    return Seal(width, depth, "rectangle", trace.call(plain_section, w=width, d=depth), rod)


def rod_limits(kind: Backer, width_mm: float) -> tuple[float, float]:
    """Least and greatest diameter in mm of a rod for a joint."""
    row = _RODS[kind]
    return row["least_share"] * width_mm, row["most_share"] * width_mm


def _diameter_by_rule(kind: Backer, width: float, trace: Trace) -> float:
    row = _RODS[kind]
    return trace.call(
        rod_diameter,
        k=trace.lookup("k", row["least_share"], "fraction", _clause(row)),
        w=width,
        one=trace.lookup("one", 1.0, "mm", GEOMETRY),
        tolerance=trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY),
    )


def sealant_depth_of(system: System, width_mm: float, trace: Trace) -> float:
    """Depth of sealant in mm: as given, or half the width within its limits."""
    if system.movement_joint.sealant_depth_mm is not None:
        return trace.given(system.movement_joint.sealant_depth_mm, "/system/movement_joint/sealant_depth_mm")
    return depth_by_rule(width_mm, trace)


def depth_by_rule(width_mm: float, trace: Trace) -> float:
    """Depth of sealant in mm for a width: half of it within its limits."""
    return trace.call(
        sealant_depth,
        w=width_mm,
        k=trace.lookup("k", DEPTH_RULE["least_share"], "fraction", SEALANT_DEPTH),
        d_min=trace.lookup("d_min", DEPTH_RULE["least_mm"], "mm", SEALANT_DEPTH),
        d_max=trace.lookup("d_max", DEPTH_RULE["most_mm"], "mm", SEALANT_DEPTH),
    )


def depths_for(width_mm: float, *, by_rule: bool) -> list[DepthByRule]:
    """What every rule gives for a width; the first is the one used, where the depth goes by rule."""
    return [_depth(row, width_mm, used=by_rule and row is DEPTH_RULE) for row in _DEPTHS]


def _depth(row: dict[str, Any], width: float, *, used: bool) -> DepthByRule:
    square = width <= row.get("square_up_to_mm", 0.0)
    least, most = (1.0, 1.0) if square else (row["least_share"], row["most_share"])
    low, high = row.get("least_mm", 0.0), row.get("most_mm", math.inf)
    return {
        "rule": row["name"],
        "depth_least_mm": min(high, max(low, least * width)),
        "depth_most_mm": min(high, max(low, most * width)),
        "used": used,
        "document": row["document"],
        "number": row["number"],
        "status": row["status"],
    }
