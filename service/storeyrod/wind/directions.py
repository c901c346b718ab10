"""One direction of the wind on the whole building: zones of its four sides, their heights and pressures."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Trace, formula
from storeyrod.wind.coefficients import Coefficients, coefficients_of
from storeyrod.wind.internal import SIDES, internal_coefficients
from storeyrod.wind.pressure_profile import HeightRow, PressureProfile, profile_of
from storeyrod.wind.site_models import AnyWind, SideName
from storeyrod.wind.zones import SideZones, side_zones, windward_parts

_EXTERNAL: Final = Clause("EN 1991-1-4", "5.2(1), expression 5.1", "published")
_INTERNAL: Final = Clause("EN 1991-1-4", "5.2(2), expression 5.2", "published")
NET: Final = Clause("EN 1991-1-4", "5.2(3), figure 5.1", "published")


@formula(symbol="w_e", expression="q_p*c_pe", unit="pa", inputs={"q_p": "pa", "c_pe": "count"}, clause=_EXTERNAL)
def external_pressure(*, q_p: float, c_pe: float) -> float:
    """Pressure on the outside of a wall; suction is negative."""
    return q_p * c_pe


@formula(symbol="w_i", expression="q_p*c_pi", unit="pa", inputs={"q_p": "pa", "c_pi": "count"}, clause=_INTERNAL)
def internal_pressure(*, q_p: float, c_pi: float) -> float:
    """Pressure on the inside of a wall."""
    return q_p * c_pi


@formula(
    symbol="w_net",
    expression="c_scd*w_e - w_i",
    unit="pa",
    inputs={"c_scd": "count", "w_e": "pa", "w_i": "pa"},
    clause=NET,
)
def net_pressure(*, c_scd: float, w_e: float, w_i: float) -> float:
    """Net pressure onto a wall from both sides; negative away from the building."""
    return c_scd * w_e - w_i


@formula(symbol="w_s", expression="Max(zero, -w_net)", unit="pa", inputs={"zero": "pa", "w_net": "pa"}, clause=NET)
def suction_of(*, zero: float, w_net: float) -> float:
    """Net suction as a positive number; nothing where the wind presses."""
    return max(zero, -w_net)


@dataclass(frozen=True, slots=True)
class SideZone:
    """A zone of one side for one direction, in m along that side from its left end and in height, with its pressures in Pa.

    ``outward`` is the net pressure with the highest internal pressure behind it, ``inward`` that with the lowest.
    """

    side: SideName
    direction: SideName
    zone: str
    start: float
    end: float
    bottom: float
    top: float
    reference: HeightRow
    coefficient: float
    external: float
    outward: float
    inward: float
    suction: float


@dataclass(frozen=True, slots=True)
class Direction:
    """Wind on one side: building sizes across and along it, zones, coefficients, internal ones, and zones of all four sides."""

    side: SideName
    profile: PressureProfile
    breadth: float
    depth: float
    height: float
    lengths: SideZones
    coefficients: Coefficients
    internal: tuple[float, float]
    zones: tuple[SideZone, ...]


def directions_of(wind: AnyWind, trace: Trace) -> list[Direction]:
    """Every direction that is asked for, in the order of the sides; raises ``outside-validity``."""
    return [_direction(wind, side, trace) for side in SIDES if side in wind.directions]


def _direction(wind: AnyWind, side: SideName, trace: Trace) -> Direction:
    breadth, depth = (trace.given(getattr(wind.building, name), f"/wind/building/{name}") for name in _SIZES[side])
    height = trace.given(wind.building.height_m, "/wind/building/height_m")
    profile = profile_of(wind, side, trace)
    lengths = side_zones(breadth, depth, height, trace)
    outside = coefficients_of(wind, height, depth, trace)
    along = tuple(zone for zone, _, _ in lengths.strips())
    inside = internal_coefficients(wind, side, along, outside, trace)
    made = Direction(side, profile, breadth, depth, height, lengths, outside, inside, ())
    given = trace.given(wind.strip_height_m, "/wind/strip_height_m")
    zones = tuple(_pressures(made, wind, strip, trace) for strip in _strips(made, given, trace))
    return Direction(side, profile, breadth, depth, height, lengths, outside, inside, zones)


_SIZES: Final = {
    "front": ("breadth_m", "depth_m"),
    "rear": ("breadth_m", "depth_m"),
    "right": ("depth_m", "breadth_m"),
    "left": ("depth_m", "breadth_m"),
}
"""Across and along the wind."""


@dataclass(frozen=True, slots=True)
class _Strip:
    """A zone of a side without its pressures; ``reference`` is the height in m at which they are read."""

    side: SideName
    zone: str
    start: float
    end: float
    bottom: float
    top: float
    reference: float


def _strips(wind: Direction, strip_height: float, trace: Trace) -> Iterator[_Strip]:
    """The windward wall by height; the walls along the wind from their upwind end; the leeward wall."""
    at = SIDES.index(wind.side)
    right, rear, left = (SIDES[(at + turn) % len(SIDES)] for turn in (1, 2, 3))
    everywhere = float("-inf"), float("inf")
    parts = windward_parts(wind.breadth, wind.height, strip_height, trace)
    for index, (low, high, reference) in enumerate(parts):
        bottom = low if index else everywhere[0]
        top = high if index < len(parts) - 1 else everywhere[1]
        yield _Strip(wind.side, "D", *everywhere, bottom, top, reference)
    for zone, start, end in wind.lengths.strips():
        first = everywhere[0] if start == 0.0 else start
        yield _Strip(right, zone, first, end, *everywhere, wind.height)
        yield _Strip(left, zone, wind.depth - end, wind.depth - first, *everywhere, wind.height)
    yield _Strip(rear, "E", *everywhere, *everywhere, wind.height)


def _pressures(made: Direction, wind: AnyWind, strip: _Strip, trace: Trace) -> SideZone:
    """Internal pressure is read at the top of the building: never too low for suction (7.2.9(7))."""
    row = made.profile.at(made.height if strip.reference == made.height else strip.reference)
    coefficient = made.coefficients.used[strip.zone]
    external = trace.call(external_pressure, q_p=row.pressure, c_pe=coefficient)
    factor = trace.given(wind.structural_factor, "/wind/structural_factor")
    top = made.profile.at(made.height).pressure
    outward, inward = (
        trace.call(net_pressure, c_scd=factor, w_e=external, w_i=trace.call(internal_pressure, q_p=top, c_pi=inside))
        for inside in made.internal
    )
    return SideZone(
        strip.side,
        made.side,
        strip.zone,
        strip.start,
        strip.end,
        strip.bottom,
        strip.top,
        row,
        coefficient,
        external,
        outward,
        inward,
        trace.call(suction_of, zero=trace.lookup("zero", 0.0, "pa", GEOMETRY), w_net=outward),
    )
