"""What a junction adds to its flanks: psi of a line, chi of a point, each figure linked to what it came from."""

from dataclasses import dataclass
from math import pi
from typing import Literal

from storeyrod.junctions import coupling
from storeyrod.junctions.posed import Flank
from storeyrod.junctions.working import JunctionWorking
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula

Basis = Literal["internal", "external"]


@dataclass(frozen=True, slots=True)
class Transmittance:
    """Coupling in W/(m.K) or W/K, and what is left of it without the flanks; none without flanks.

    ``point`` says whether that is chi of a point; otherwise it is psi of a line, by internal and by external dimensions.
    """

    coupling: float
    point: bool
    internal: float | None
    external: float | None


@formula(symbol="A", expression="pi * r**2", unit="m2", inputs={"r": "m"}, clause=GEOMETRY)
def disc_area(*, r: float) -> float:
    """Area of the disc of wall in an axisymmetric section."""
    return pi * r**2


def transmittance_of(working: JunctionWorking, trace: Trace) -> Transmittance | None:
    """Coupling and transmittance between inside and outside; none with more environments, or where no limit exists."""
    if not working.between_two or not working.refined.bounded:
        return None
    flanks = working.posed.flanks
    if working.posed.section.geometry == "axisymmetric":
        whole = trace.call(
            coupling.coupling_of_body, Phi=_heat(working, "w", trace), dtheta=_difference(working, trace)
        )
        chi = _chi(whole, flanks[0], trace) if flanks else None
        return Transmittance(whole, point=True, internal=chi, external=chi)
    whole = trace.call(
        coupling.coupling_of_length, Phi=_heat(working, "w_per_m", trace), dtheta=_difference(working, trace)
    )
    if not flanks:
        return Transmittance(whole, point=False, internal=None, external=None)
    return Transmittance(
        whole,
        point=False,
        internal=_psi(whole, flanks, "internal", trace),
        external=_psi(whole, flanks, "external", trace),
    )


def _heat(working: JunctionWorking, unit: str, trace: Trace) -> float:
    """Heat that enters from the inside, added up over its surfaces."""
    posed = working.posed
    inside = posed.section.environments[posed.inside]
    rows = [
        (name, float(flow), edge.pointer)
        for edge, name, flow in zip(posed.section.edges, posed.surface_names, working.heat_flows, strict=True)
        if edge.environment == inside
    ]
    return trace.measure("Phi", unit, rows)


def _difference(working: JunctionWorking, trace: Trace) -> float:
    posed = working.posed
    return trace.call(
        coupling.temperature_difference,
        theta_i=posed.temperatures[posed.inside],
        theta_e=posed.temperatures[posed.outside],
    )


def _psi(whole: float, flanks: tuple[Flank, ...], basis: Basis, trace: Trace) -> float:
    taken = [coupling.Flank(one.u_value, one.internal if basis == "internal" else one.external) for one in flanks]
    return coupling.linear_transmittance_of(whole, taken, trace)


def _chi(whole: float, disc: Flank, trace: Trace) -> float:
    return trace.call(
        coupling.point_transmittance, L_3D=whole, U=disc.u_value, A=trace.call(disc_area, r=disc.internal)
    )
