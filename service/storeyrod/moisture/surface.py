"""The internal surface: the temperature factor that keeps mould off, month by month, and that of the plane element."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.moisture.climate import Period
from storeyrod.moisture.humid_air import SaturationConstants, dew_point, relative_humidity, saturation
from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.moisture.section import Section
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula

_FACTOR = Clause("ISO 13788", "3.1, temperature factor at the internal surface", "memory")
_MOULD = Clause("ISO 13788", "5.3, avoiding mould growth", "memory")
_PLANE = Clause("ISO 13788", "5.3, effective thermal resistance of the element", "memory")

_MOULD_HUMIDITY: Final = MOISTURE_RULES["mould_humidity"]


@dataclass(frozen=True, slots=True)
class SurfaceState:
    """The surface in a period: what it needs against mould (nothing where it is not warmer inside), and what it has."""

    required: float | None
    required_temperature: float | None
    temperature: float
    humidity: float


@dataclass(frozen=True, slots=True)
class Surface:
    """Temperature factor of the plane element, and the surface in every period."""

    factor: float
    states: tuple[SurfaceState, ...]

    @property
    def critical(self) -> int | None:
        """Index of the period that asks for the greatest factor."""
        asked = [(state.required, -at) for at, state in enumerate(self.states) if state.required is not None]
        return -max(asked)[1] if asked else None

    @property
    def humidity(self) -> float:
        """The greatest humidity at the surface; over 1 where water condenses on it."""
        return max(state.humidity for state in self.states)

    @property
    def required(self) -> float | None:
        """The greatest factor that a period asks for."""
        return None if self.critical is None else self.states[self.critical].required


@formula(
    symbol="p_sat_min",
    expression="p_i / phi_cr",
    unit="pa",
    inputs={"p_i": "pa", "phi_cr": "fraction"},
    clause=_MOULD,
)
def required_saturation(*, p_i: float, phi_cr: float) -> float:
    """Least saturation pressure of a surface that keeps its humidity at the critical one."""
    return p_i / phi_cr


@formula(
    symbol="f_Rsi_min",
    expression="(theta_si_min - theta_e) / (theta_i - theta_e)",
    unit="fraction",
    inputs={"theta_si_min": "deg_c", "theta_e": "deg_c", "theta_i": "deg_c"},
    clause=_MOULD,
)
def required_factor(*, theta_si_min: float, theta_e: float, theta_i: float) -> float:
    """Temperature factor at which the surface has its least temperature."""
    return (theta_si_min - theta_e) / (theta_i - theta_e)


@formula(
    symbol="f_Rsi",
    expression="(R_T - R_si) / R_T",
    unit="fraction",
    inputs={"R_T": "m2_k_per_w", "R_si": "m2_k_per_w"},
    clause=_PLANE,
)
def plane_factor(*, R_T: float, R_si: float) -> float:  # noqa: N803  symbols of the standard
    """Temperature factor of a plane element."""
    return (R_T - R_si) / R_T


@formula(
    symbol="theta_si",
    expression="theta_e + f_Rsi * (theta_i - theta_e)",
    unit="deg_c",
    inputs={"theta_e": "deg_c", "f_Rsi": "fraction", "theta_i": "deg_c"},
    clause=_FACTOR,
)
def surface_temperature(*, theta_e: float, f_Rsi: float, theta_i: float) -> float:  # noqa: N803  symbol of the standard
    """Temperature of a surface by its temperature factor."""
    return theta_e + f_Rsi * (theta_i - theta_e)


def surface_of(
    section: Section, periods: Sequence[Period], resistance: float, known: SaturationConstants, trace: Trace
) -> Surface:
    """The surface of a section at a surface resistance in m2.K/W, in every period."""
    resistances = [resistance, *(layer.resistance for layer in section.layers), section.external]
    total = trace.sum("R_T", "m2_k_per_w", resistances, _PLANE)
    factor = trace.call(plane_factor, R_T=total, R_si=resistance)
    critical = _MOULD_HUMIDITY.read(trace)
    return Surface(factor, tuple(_state(period, factor, critical, known, trace) for period in periods))


def _state(period: Period, factor: float, critical: float, known: SaturationConstants, trace: Trace) -> SurfaceState:
    indoor, outdoor = period.indoor, period.outdoor
    temperature = trace.call(surface_temperature, theta_e=outdoor.temperature, f_Rsi=factor, theta_i=indoor.temperature)
    at_surface = saturation(temperature, known, trace)
    humidity = trace.call(relative_humidity, p_v=indoor.pressure, p_sat=at_surface)
    if not period.warmer_inside or indoor.pressure <= 0.0:
        return SurfaceState(None, None, temperature, humidity)
    least = trace.call(required_saturation, p_i=indoor.pressure, phi_cr=critical)
    theta_min = dew_point(least, known, trace)
    required = trace.call(
        required_factor, theta_si_min=theta_min, theta_e=outdoor.temperature, theta_i=indoor.temperature
    )
    return SurfaceState(required, theta_min, temperature, humidity)
