"""From the basic velocity to the peak pressure at a height: formulas of EN 1991-1-4, section 4."""

import math
from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.trace import formula

HIGHEST_M: Final = 200.0
"""The profile of section 4 holds up to here (4.3.2(1))."""


def _clause(number: str, status: str = "published") -> Clause:
    return Clause("EN 1991-1-4", number, "published" if status == "published" else "memory")


@formula(
    symbol="c_prob",
    expression="((1 - K*log(-log(1 - p)))/(1 - K*log(-log(1 - p_ref))))**n",
    unit="count",
    inputs={"K": "count", "p": "fraction", "p_ref": "fraction", "n": "count"},
    clause=_clause("4.2(2) note 4, expression 4.2", "memory"),
)
def probability_factor(*, K: float, p: float, p_ref: float, n: float) -> float:  # noqa: N803  symbol of the standard
    """Factor of a velocity that is exceeded with probability p in a year instead of p_ref."""
    return float(((1 - K * math.log(-math.log(1 - p))) / (1 - K * math.log(-math.log(1 - p_ref)))) ** n)


@formula(
    symbol="c_alt",
    expression="1 + a*A*(z_10/Max(z, z_10))**m",
    unit="count",
    inputs={"a": "per_m", "A": "m", "z": "m", "z_10": "m", "m": "count"},
    clause=Clause("NA to BS EN 1991-1-4", "NA.2.5, expression NA.2a and NA.2b", "published"),
)
def altitude_factor(*, a: float, A: float, z: float, z_10: float, m: float) -> float:  # noqa: N803  symbol of the standard
    """Factor on a map velocity for a site at altitude A, at height z above ground."""
    return float(1 + a * A * (z_10 / max(z, z_10)) ** m)


@formula(
    symbol="v_b0",
    expression="v_map*c_alt",
    unit="m_per_s",
    inputs={"v_map": "m_per_s", "c_alt": "count"},
    clause=Clause("NA to BS EN 1991-1-4", "NA.2.4, expression NA.1", "memory"),
)
def velocity_at_altitude(*, v_map: float, c_alt: float) -> float:
    """Fundamental basic velocity from a map value."""
    return v_map * c_alt


@formula(
    symbol="v_b",
    expression="c_dir*c_side*c_season*c_prob*v_b0",
    unit="m_per_s",
    inputs={"c_dir": "count", "c_side": "count", "c_season": "count", "c_prob": "count", "v_b0": "m_per_s"},
    clause=_clause("4.2(2), expression 4.1"),
)
def basic_velocity(*, c_dir: float, c_side: float, c_season: float, c_prob: float, v_b0: float) -> float:
    """Basic wind velocity; c_side is a further direction factor by side, 1 where none is given."""
    return c_dir * c_side * c_season * c_prob * v_b0


@formula(
    symbol="q_b",
    expression="rho*v_b**2/2",
    unit="pa",
    inputs={"rho": "kg_per_m3", "v_b": "m_per_s"},
    clause=_clause("4.5(1), expression 4.10"),
)
def basic_pressure(*, rho: float, v_b: float) -> float:
    """Basic velocity pressure."""
    return rho * v_b**2 / 2


@formula(
    symbol="k_r",
    expression="k_0*(z_0/z_0II)**m",
    unit="count",
    inputs={"k_0": "count", "z_0": "m", "z_0II": "m", "m": "count"},
    clause=_clause("4.3.2(1), expression 4.5"),
)
def terrain_factor(*, k_0: float, z_0: float, z_0II: float, m: float) -> float:  # noqa: N803  symbol of the standard
    """Terrain factor."""
    return float(k_0 * (z_0 / z_0II) ** m)


@formula(
    symbol="z_e",
    expression="Max(z, z_min)",
    unit="m",
    inputs={"z": "m", "z_min": "m"},
    clause=_clause("4.3.2(1), expression 4.4"),
    validity={"z": (0.0, HIGHEST_M)},
)
def height_in_profile(*, z: float, z_min: float) -> float:
    """Height at which the profile is read: nothing falls further below the least height."""
    return max(z, z_min)


@formula(
    symbol="c_r",
    expression="k_r*log(z_e/z_0)",
    unit="count",
    inputs={"k_r": "count", "z_e": "m", "z_0": "m"},
    clause=_clause("4.3.2(1), expression 4.4"),
)
def roughness_factor(*, k_r: float, z_e: float, z_0: float) -> float:
    """Roughness factor."""
    return k_r * math.log(z_e / z_0)


@formula(
    symbol="v_m",
    expression="c_r*c_o*v_b",
    unit="m_per_s",
    inputs={"c_r": "count", "c_o": "count", "v_b": "m_per_s"},
    clause=_clause("4.3.1(1), expression 4.3"),
)
def mean_velocity(*, c_r: float, c_o: float, v_b: float) -> float:
    """Mean velocity at a height."""
    return c_r * c_o * v_b


@formula(
    symbol="I_v",
    expression="k_I/(c_o*log(z_e/z_0))",
    unit="count",
    inputs={"k_I": "count", "c_o": "count", "z_e": "m", "z_0": "m"},
    clause=_clause("4.4(1), expression 4.7"),
)
def turbulence_intensity(*, k_I: float, c_o: float, z_e: float, z_0: float) -> float:  # noqa: N803  symbol
    """Turbulence intensity at a height."""
    return k_I / (c_o * math.log(z_e / z_0))


@formula(
    symbol="q_p",
    expression="(1 + g*I_v)*rho*v_m**2/2",
    unit="pa",
    inputs={"g": "count", "I_v": "count", "rho": "kg_per_m3", "v_m": "m_per_s"},
    clause=_clause("4.5(1), expression 4.8"),
)
def peak_pressure(*, g: float, I_v: float, rho: float, v_m: float) -> float:  # noqa: N803  symbol of the standard
    """Peak velocity pressure at a height."""
    return (1 + g * I_v) * rho * v_m**2 / 2


@formula(
    symbol="c_e",
    expression="q_p/q_b",
    unit="count",
    inputs={"q_p": "pa", "q_b": "pa"},
    clause=_clause("4.5(1), expression 4.9"),
)
def exposure_factor(*, q_p: float, q_b: float) -> float:
    """Exposure factor at a height."""
    return q_p / q_b


@formula(
    symbol="q_p",
    expression="q_1 + (q_2 - q_1)*(z - z_1)/(z_2 - z_1)",
    unit="pa",
    inputs={"q_1": "pa", "q_2": "pa", "z": "m", "z_1": "m", "z_2": "m"},
    clause=Clause("geometry", "straight line between two rows", "independent_calculation"),
)
def pressure_between(*, q_1: float, q_2: float, z: float, z_1: float, z_2: float) -> float:
    """Peak pressure between two heights for which it is given."""
    return q_1 + (q_2 - q_1) * (z - z_1) / (z_2 - z_1)


@formula(
    symbol="q_p",
    expression="f*q_b*(z/z_10)**m",
    unit="pa",
    inputs={"f": "count", "q_b": "pa", "z": "m", "z_10": "m", "m": "count"},
    clause=Clause("DIN EN 1991-1-4/NA", "NA.B.3.3, mixed profile inland, edition 2010-12", "memory"),
)
def inland_gust_pressure(*, f: float, q_b: float, z: float, z_10: float, m: float) -> float:
    """Gust pressure of the German inland profile at a height."""
    return float(f * q_b * (z / z_10) ** m)


_ALTITUDE: Final = Clause("DIN EN 1991-1-4/NA", "Annex NA.A, places over 800 m, edition 2010-12", "memory")


@formula(
    symbol="c_A",
    expression="1 + (Max(A, A_0) - A_0)/A_1",
    unit="count",
    inputs={"A": "m", "A_0": "m", "A_1": "m"},
    clause=_ALTITUDE,
)
def altitude_supplement(*, A: float, A_0: float, A_1: float) -> float:  # noqa: N803  symbols of the formula
    """Factor on a German gust pressure for a place at altitude A: 0.2 + A/1000, which is 1 at 800 m."""
    return 1 + (max(A, A_0) - A_0) / A_1


@formula(symbol="q_A", expression="c_A*q_p", unit="pa", inputs={"c_A": "count", "q_p": "pa"}, clause=_ALTITUDE)
def pressure_at_altitude(*, c_A: float, q_p: float) -> float:  # noqa: N803  symbol of the formula
    """Gust pressure of a place above 800 m."""
    return c_A * q_p
