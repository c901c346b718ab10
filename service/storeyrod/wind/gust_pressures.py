"""Gust pressures of the German annex: the simplified table, and the inland profile."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, NamedTuple

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace
from storeyrod.wind.site_models import GermanAnnex
from storeyrod.wind.tabulated import DEFAULTS, GUST_PRESSURES
from storeyrod.wind.velocity import altitude_supplement, inland_gust_pressure, pressure_at_altitude

_ZONES: Final = Clause("DIN EN 1991-1-4/NA", "Annex NA.A, edition 2010-12", "memory")
_PROFILE: Final = Clause("DIN EN 1991-1-4/NA", "NA.B.3.3, mixed profile inland, edition 2010-12", "memory")

BASIC_PRESSURES_PA: Final[Mapping[int, float]] = MappingProxyType({1: 320.0, 2: 390.0, 3: 470.0, 4: 560.0})
"""Basic velocity pressure by wind zone (Annex NA.A, from memory)."""


class _Reach(NamedTuple):
    """Part of the profile up to a height in m: factor and exponent."""

    up_to: float
    factor: float
    exponent: float


_REACHES: Final = (_Reach(7.0, 1.5, 0.0), _Reach(50.0, 1.7, 0.37), _Reach(200.0, 2.1, 0.24))
"""The annex goes on to 300 m; the rest of the standard ends at 200 m."""


def simplified_pressure(wind: GermanAnnex, height: float, trace: Trace) -> float:
    """Pressure in Pa over the whole height of a building; refused above 25 m and for places that the table leaves out."""
    rows = [row for row in GUST_PRESSURES if row.zone == wind.zone and row.region == wind.region]
    if not rows:
        detail = f"The table has no row for zone {wind.zone} and region {wind.region}; choose another region, or give peak_pressures."
        raise refuse("outside-validity", "/wind/region", detail)
    row = next((row for row in rows if height <= row.up_to), None)
    if row is None:
        otherwise = (
            "take the inland profile"
            if wind.region == "inland"
            else "give peak_pressures from the annex's profile of coasts"
        )
        detail = f"The building is {float(height):g} m high, and the simplified table ends at {rows[-1].up_to:g} m for this place; {otherwise}."
        raise refuse("outside-validity", "/wind/building/height_m", detail)
    return _at_altitude(wind, row.pressure.read(trace), trace)


def inland_pressure(wind: GermanAnnex, height: float, trace: Trace) -> float:
    """Pressure in Pa at a height in m by the inland profile; refused for coasts and over 200 m."""
    if wind.region != "inland":
        detail = (
            "This profile is for inland places; take the simplified table as far as it goes, or give peak_pressures from the annex's "
            "profile of coasts."
        )
        raise refuse("outside-validity", "/wind/region", detail)
    reach = next((reach for reach in _REACHES if height <= reach.up_to), None)
    if reach is None:
        detail = f"The profile is used up to {_REACHES[-1].up_to:g} m; the height asked for is {float(height):g} m."
        raise refuse("outside-validity", "/wind/building/height_m", detail)
    pressure = trace.call(
        inland_gust_pressure,
        f=trace.lookup("f", reach.factor, "count", _PROFILE),
        q_b=trace.lookup("q_b", BASIC_PRESSURES_PA[wind.zone], "pa", _ZONES),
        z=height,
        z_10=DEFAULTS["altitude_height"].read(trace),
        m=trace.lookup("m", reach.exponent, "count", _PROFILE),
    )
    return _at_altitude(wind, pressure, trace)


def _at_altitude(wind: GermanAnnex, pressure: float, trace: Trace) -> float:
    """A pressure of the annex raised for a place above 800 m; refused above 1100 m, where the annex asks for a study of the place."""
    if wind.altitude_m <= DEFAULTS["supplement_from"].value:
        return pressure
    highest = DEFAULTS["supplement_to"].value
    if wind.altitude_m > highest:
        detail = (
            f"The place lies at {wind.altitude_m:g} m, and the annex raises its pressures up to {highest:g} m; take peak_pressures from a "
            "study of the place."
        )
        raise refuse("outside-validity", "/wind/altitude_m", detail)
    factor = trace.call(
        altitude_supplement,
        A=trace.given(wind.altitude_m, "/wind/altitude_m"),
        A_0=DEFAULTS["supplement_from"].read(trace),
        A_1=DEFAULTS["supplement_rise"].read(trace),
    )
    return trace.call(pressure_at_altitude, c_A=factor, q_p=pressure)
