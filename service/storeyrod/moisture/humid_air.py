"""Moist air: saturation pressure over water and ice, and the dew point that undoes it."""

from math import exp, log
from typing import Final, NamedTuple

from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula

_SATURATION = Clause("ISO 13788", "Annex E, saturation pressure", "memory")
_DEW_POINT = Clause("ISO 13788", "Annex E, temperature of a saturation pressure", "memory")
_HUMIDITY = Clause("ISO 13788", "3.1, relative humidity", "memory")

_FREEZING: Final = MOISTURE_RULES["saturation_at_freezing"]
_WATER: Final = (MOISTURE_RULES["water_factor"], MOISTURE_RULES["water_temperature"])
_ICE: Final = (MOISTURE_RULES["ice_factor"], MOISTURE_RULES["ice_temperature"])

_FACTORS: Final = (17.0, 22.0)
_BASES: Final = (237.0, 266.0)
_TEMPERATURES: Final = (-80.0, 80.0)
_P0, _AW, _BW, _AI, _BI = (one.value for one in (_FREEZING, *_WATER, *_ICE))


@formula(
    symbol="p_sat",
    expression="p_0 * exp(a * theta / (theta_b + theta))",
    unit="pa",
    inputs={"p_0": "pa", "a": "count", "theta": "deg_c", "theta_b": "deg_c"},
    clause=_SATURATION,
    validity={"theta": _TEMPERATURES, "a": _FACTORS, "theta_b": _BASES},
)
def saturation_pressure(*, p_0: float, a: float, theta: float, theta_b: float) -> float:
    """Saturation pressure of water vapour, over water or ice by the two constants."""
    return p_0 * exp(a * theta / (theta_b + theta))


@formula(
    symbol="theta_dew",
    expression="theta_b * log(p / p_0) / (a - log(p / p_0))",
    unit="deg_c",
    inputs={"p": "pa", "p_0": "pa", "a": "count", "theta_b": "deg_c"},
    clause=_DEW_POINT,
    validity={"a": _FACTORS, "theta_b": _BASES},
)
def saturation_temperature(*, p: float, p_0: float, a: float, theta_b: float) -> float:
    """Temperature at which a vapour pressure saturates: the dew point."""
    return theta_b * log(p / p_0) / (a - log(p / p_0))


@formula(
    symbol="p_v",
    expression="phi * p_sat",
    unit="pa",
    inputs={"phi": "fraction", "p_sat": "pa"},
    clause=_HUMIDITY,
)
def vapour_pressure(*, phi: float, p_sat: float) -> float:
    """Vapour pressure of air by its relative humidity."""
    return phi * p_sat


@formula(
    symbol="phi",
    expression="p_v / p_sat",
    unit="fraction",
    inputs={"p_v": "pa", "p_sat": "pa"},
    clause=_HUMIDITY,
)
def relative_humidity(*, p_v: float, p_sat: float) -> float:
    """Relative humidity of air, or at a surface, by its vapour pressure."""
    return p_v / p_sat


class SaturationConstants(NamedTuple):
    """Pressure at freezing, and factor and temperature over water and over ice: read once for a calculation."""

    freezing: float
    water: tuple[float, float]
    ice: tuple[float, float]


def saturation_constants(trace: Trace) -> SaturationConstants:
    """The constants, linked to their source."""
    water, ice = ((factor.read(trace), base.read(trace)) for factor, base in (_WATER, _ICE))
    return SaturationConstants(_FREEZING.read(trace), water, ice)


def saturation(theta: float, constants: SaturationConstants, trace: Trace) -> float:
    """Saturation pressure in Pa at a temperature in degrees Celsius: over water from 0, over ice below."""
    a, theta_b = constants.water if theta >= 0.0 else constants.ice
    return trace.call(saturation_pressure, p_0=constants.freezing, a=a, theta=theta, theta_b=theta_b)


def dew_point(pressure: float, constants: SaturationConstants, trace: Trace) -> float:
    """Dew point in degrees Celsius of a vapour pressure in Pa over zero; below 0 that over ice."""
    a, theta_b = constants.water if pressure >= constants.freezing else constants.ice
    return trace.call(saturation_temperature, p=pressure, p_0=constants.freezing, a=a, theta_b=theta_b)


def saturations(temperatures: list[float]) -> list[float]:
    """Saturation pressures in Pa: the formula above written out, since every plane of every month passes here.

    Temperatures rise or fall from one end of a section to the other.
    """
    if temperatures[0] >= 0.0 and temperatures[-1] >= 0.0:
        return [_P0 * exp(_AW * theta / (_BW + theta)) for theta in temperatures]
    return [
        _P0 * exp(_AW * theta / (_BW + theta)) if theta >= 0.0 else _P0 * exp(_AI * theta / (_BI + theta))
        for theta in temperatures
    ]
