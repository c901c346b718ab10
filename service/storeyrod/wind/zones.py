"""Zones of the walls for one direction of the wind, in metres: figures 7.4 and 7.5 of EN 1991-1-4."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula
from storeyrod.wind.tabulated import DEFAULTS

_EDGE: Final = Clause("EN 1991-1-4", "7.2.2(2), figure 7.5", "published")
_ZONES: Final = Clause("EN 1991-1-4", "7.2.2(2), figure 7.5", "memory")


@formula(symbol="e", expression="Min(b, 2*h)", unit="m", inputs={"b": "m", "h": "m"}, clause=_EDGE)
def edge_length(*, b: float, h: float) -> float:
    """Length by which zones are laid out, from crosswind breadth and height."""
    return min(b, 2 * h)


@formula(
    symbol="l_A", expression="Min(d, e/five)", unit="m", inputs={"d": "m", "e": "m", "five": "count"}, clause=_ZONES
)
def zone_a(*, d: float, e: float, five: float) -> float:
    """Zone A from the upwind edge; the whole wall where e is five depths or more."""
    return min(d, e / five)


@formula(symbol="l_B", expression="Min(d, e) - l_A", unit="m", inputs={"d": "m", "e": "m", "l_A": "m"}, clause=_ZONES)
def zone_b(*, d: float, e: float, l_A: float) -> float:  # noqa: N803  symbol of the formula
    """Zone B beyond zone A, up to e from the upwind edge."""
    return min(d, e) - l_A


@formula(symbol="l_C", expression="d - l_A - l_B", unit="m", inputs={"d": "m", "l_A": "m", "l_B": "m"}, clause=_ZONES)
def zone_c(*, d: float, l_A: float, l_B: float) -> float:  # noqa: N803  symbols of the formula
    """Zone C, what is left of the wall."""
    return d - l_A - l_B


@formula(
    symbol="z_strip",
    expression="Min(z + dz, h - b)",
    unit="m",
    inputs={"z": "m", "dz": "m", "h": "m", "b": "m"},
    clause=Clause("EN 1991-1-4", "7.2.2(1), figure 7.4", "memory"),
)
def top_of_strip(*, z: float, dz: float, h: float, b: float) -> float:
    """Top of a strip over z between the lower and the upper part of a tall windward wall: its reference height."""
    return min(z + dz, h - b)


@dataclass(frozen=True, slots=True)
class SideZones:
    """Zones of a wall along the wind: e, and lengths of A, B and C from the upwind edge, in m."""

    edge: float
    a: float
    b: float
    c: float

    def strips(self) -> Iterator[tuple[str, float, float]]:
        """Zone, start and end from the upwind edge; the last one has no end, so that a wall's thickness more changes nothing."""
        ends = [("A", 0.0, self.a), ("B", self.a, self.a + self.b), ("C", self.a + self.b, self.a + self.b + self.c)]
        kept = [strip for strip in ends if strip[2] > strip[1] + _NOTHING_M]
        yield from kept[:-1]
        zone, start, _ = kept[-1]
        yield zone, start, float("inf")


_NOTHING_M: Final = 1e-9
"""Shorter zones come from rounding."""


def side_zones(b: float, d: float, h: float, trace: Trace) -> SideZones:
    """Zones of the two walls along the wind."""
    e = trace.call(edge_length, b=b, h=h)
    a = trace.call(zone_a, d=d, e=e, five=DEFAULTS["edge_share"].read(trace))
    beyond = trace.call(zone_b, d=d, e=e, l_A=a)
    return SideZones(e, a, beyond, trace.call(zone_c, d=d, l_A=a, l_B=beyond))


def windward_parts(b: float, h: float, strip: float, trace: Trace) -> list[tuple[float, float, float]]:
    """Parts of the windward wall by height in m: from, to and reference height (figure 7.4).

    One part up to h = b; two up to h = 2 b; above that a lower and an upper part, each b high, with strips between them.
    """
    if h <= b:
        return [(0.0, h, h)]
    if h <= 2 * b:
        return [(0.0, b, b), (b, h, h)]
    parts, low = [(0.0, b, b)], b
    while h - b - low > _NOTHING_M:
        high = trace.call(top_of_strip, z=low, dz=strip, h=h, b=b)
        parts.append((low, high, high))
        low = high
    return [*parts, (h - b, h, h)]
