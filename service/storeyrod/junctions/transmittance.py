"""What a junction adds to its flanks: psi of a line, chi of a point, each figure linked to what it came from."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi
from typing import Literal

from storeyrod.junctions import coupling
from storeyrod.junctions.posed import Flank
from storeyrod.junctions.solved_figures import heat_unit
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


def transmittance_of(working: JunctionWorking, whole: float, trace: Trace) -> Transmittance:
    """Transmittance between inside and outside, of whose coupling the flanks are taken off."""
    flanks = working.posed.flanks
    if working.turned:
        chi = _chi(whole, flanks[0], trace) if flanks else None
        return Transmittance(whole, point=True, internal=chi, external=chi)
    if not flanks:
        return Transmittance(whole, point=False, internal=None, external=None)
    return Transmittance(
        whole,
        point=False,
        internal=_psi(whole, flanks, "internal", trace),
        external=_psi(whole, flanks, "external", trace),
    )


def coupling_between_two(working: JunctionWorking, flows: Sequence[float], trace: Trace) -> float:
    """Coupling of the only two environments: heat that enters from the inside, by the difference."""
    posed = working.posed
    inside = posed.section.environments[posed.inside]
    entering = [flow for edge, flow in zip(posed.section.edges, flows, strict=True) if edge.environment == inside]
    whole = trace.sum("Phi", heat_unit(working), entering, coupling.COUPLING)
    method = coupling.coupling_of_body if working.turned else coupling.coupling_of_length
    return trace.call(method, Phi=whole, dtheta=_difference(working, trace))


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
