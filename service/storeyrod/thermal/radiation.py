"""Radiation between surfaces near a mean temperature."""

from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.thermal.tabulated import AIR_LAYERS
from storeyrod.trace import Trace, formula

_RADIATION = Clause("ISO 6946", "Annex D", "memory")
_CELSIUS = Clause("SI brochure", "2.3.1, Celsius temperature", "memory")

SIGMA: Final = AIR_LAYERS["stefan_boltzmann"]
_ZERO: Final = AIR_LAYERS["zero_celsius"]


@formula(symbol="T", expression="theta + T_0", unit="k", inputs={"theta": "deg_c", "T_0": "k"}, clause=_CELSIUS)
def absolute(*, theta: float, T_0: float) -> float:  # noqa: N803  symbol of the standard
    """Thermodynamic temperature."""
    return theta + T_0


@formula(
    symbol="h_r0",
    expression="4 * sigma * T**3",
    unit="w_per_m2_k",
    inputs={"sigma": "w_per_m2_k4", "T": "k"},
    clause=_RADIATION,
)
def black_radiation(*, sigma: float, T: float) -> float:  # noqa: N803  symbol of the standard
    """Radiative coefficient of black surfaces at the mean temperature."""
    return 4.0 * sigma * T**3


def absolute_temperature(celsius: float, pointer: str, trace: Trace) -> float:
    """A temperature of the request, in K."""
    return trace.call(absolute, theta=trace.given(celsius, pointer), T_0=_ZERO.read(trace))
