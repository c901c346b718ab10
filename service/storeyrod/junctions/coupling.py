"""What a solved section says: coupling between environments, linear and point transmittances, temperature factor."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from storeyrod.junctions.conduction import Solution
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula

COUPLING: Final = Clause("ISO 10211", "thermal coupling coefficient", "memory")
_LINEAR = Clause("ISO 10211", "linear thermal transmittance", "memory")
_POINT = Clause("ISO 10211", "point thermal transmittance", "memory")
_FACTOR = Clause("ISO 10211", "temperature factor at the internal surface", "memory")


@dataclass(frozen=True, slots=True)
class Flank:
    """What a junction joins: U-value in W/(m2.K) and length in m, each already linked to its origin."""

    u_value: float
    length: float


@formula(
    symbol="dtheta",
    expression="theta_i - theta_e",
    unit="k",
    inputs={"theta_i": "deg_c", "theta_e": "deg_c"},
    clause=COUPLING,
)
def temperature_difference(*, theta_i: float, theta_e: float) -> float:
    """Difference between two environments."""
    return theta_i - theta_e


@formula(
    symbol="L_2D",
    expression="Phi / dtheta",
    unit="w_per_m_k",
    inputs={"Phi": "w_per_m", "dtheta": "k"},
    clause=COUPLING,
)
def coupling_of_length(*, Phi: float, dtheta: float) -> float:  # noqa: N803  symbol of the standard
    """Heat through a metre of junction for each kelvin between two environments."""
    return Phi / dtheta


@formula(symbol="L_3D", expression="Phi / dtheta", unit="w_per_k", inputs={"Phi": "w", "dtheta": "k"}, clause=COUPLING)
def coupling_of_body(*, Phi: float, dtheta: float) -> float:  # noqa: N803  symbol of the standard
    """Heat through a body for each kelvin between two environments."""
    return Phi / dtheta


@formula(
    symbol="L_0",
    expression="U * l",
    unit="w_per_m_k",
    inputs={"U": "w_per_m2_k", "l": "m"},
    clause=_LINEAR,
)
def flank_coupling(*, U: float, l: float) -> float:  # noqa: N803, E741  symbols of the standard
    """Heat through a flank as if the junction were not there, for each metre and kelvin."""
    return U * l


@formula(
    symbol="psi",
    expression="L_2D - L_0",
    unit="w_per_m_k",
    inputs={"L_2D": "w_per_m_k", "L_0": "w_per_m_k"},
    clause=_LINEAR,
)
def linear_transmittance(*, L_2D: float, L_0: float) -> float:  # noqa: N803  symbols of the standard
    """What the junction adds to its flanks, for each metre and kelvin."""
    return L_2D - L_0


@formula(
    symbol="chi",
    expression="L_3D - U * A",
    unit="w_per_k",
    inputs={"L_3D": "w_per_k", "U": "w_per_m2_k", "A": "m2"},
    clause=_POINT,
)
def point_transmittance(*, L_3D: float, U: float, A: float) -> float:  # noqa: N803  symbols of the standard
    """What a fastener adds to the area round it, for each kelvin."""
    return L_3D - U * A


@formula(
    symbol="f_Rsi",
    expression="(theta_si - theta_e) / (theta_i - theta_e)",
    unit="fraction",
    inputs={"theta_si": "deg_c", "theta_i": "deg_c", "theta_e": "deg_c"},
    clause=_FACTOR,
)
def temperature_factor(*, theta_si: float, theta_i: float, theta_e: float) -> float:
    """How far an internal surface keeps to the inside: 1 at its temperature, 0 at that outside."""
    return (theta_si - theta_e) / (theta_i - theta_e)


def linear_transmittance_of(coupling: float, flanks: Sequence[Flank], trace: Trace) -> float:
    """Psi in W/(m.K): the coupling less that of the flanks."""
    parts = [trace.call(flank_coupling, U=flank.u_value, l=flank.length) for flank in flanks]
    flat = trace.sum("L_0", "w_per_m_k", parts, _LINEAR)
    return trace.call(linear_transmittance, L_2D=coupling, L_0=flat)


def couplings(solution: Solution) -> list[tuple[str, str, float]]:
    """Coupling between every two environments, which heat flows add up from: (one, other, W/(m.K) or W/K)."""
    names = solution.section.environments
    open_edges = [at for at, edge in enumerate(solution.section.edges) if edge.environment is not None]
    belongs = [names.index(solution.section.edges[at].environment or "") for at in open_edges]
    found = []
    for at, one in enumerate(names):
        # with one environment at 1 K above all others, what enters each other one's edges flowed from it
        entering = np.bincount(belongs, solution.unit_heat_flows(at)[open_edges], len(names))
        found += [(one, names[other], -float(entering[other])) for other in range(at + 1, len(names))]
    return found
