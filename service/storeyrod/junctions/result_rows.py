"""The rows of an answer about a junction."""

from typing import Final

import numpy as np

from storeyrod.geometry.ticks import millimetres
from storeyrod.junctions.coupling import temperature_factor
from storeyrod.junctions.models import (
    BoundaryResult,
    CaseBoundary,
    CaseResult,
    Coupling,
    FlankResult,
    MeshResult,
    PointResult,
    RectangleResult,
    SurfacePlace,
)
from storeyrod.junctions.posed import Place, PosedCase
from storeyrod.junctions.working import MOULD, MOULD_RESISTANCE, JunctionWorking, Numbers
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE

_BALANCE_DIGITS: Final = 12
"""Decimals of the balance: beyond them it is the rounding of a sum of thousands of numbers."""


def coupling_rows(working: JunctionWorking) -> list[Coupling]:
    """Coupling between every two environments; none where two prescribed temperatures meet."""
    if not working.refined.bounded:
        return []
    rows: list[Coupling] = []
    for one, other, value in working.couplings:
        row: Coupling = {"environments": [one, other]}
        if working.turned:
            row["coupling_w_per_k"] = value
        else:
            row["coupling_w_per_m_k"] = value
        rows.append(row)
    return rows


def flank_rows(working: JunctionWorking) -> list[FlankResult]:
    """What is taken off."""
    return [
        {
            "name": flank.name,
            "u_value_w_per_m2_k": float(flank.u_value),
            "internal_length_mm": float(flank.internal) / METRES_PER_MILLIMETRE,
            "external_length_mm": float(flank.external) / METRES_PER_MILLIMETRE,
        }
        for flank in working.posed.flanks
    ]


def rectangle_rows(working: JunctionWorking) -> list[RectangleResult]:
    """The rectangles as they were drawn, later ones covering earlier ones."""
    return [
        {
            "name": patch.name,
            "x_mm": millimetres(patch.left),
            "y_mm": millimetres(patch.bottom),
            "width_mm": millimetres(patch.right - patch.left),
            "height_mm": millimetres(patch.top - patch.bottom),
            "conductivity_w_per_m_k": patch.conductivity,
        }
        for patch in working.posed.section.patches
    ]


def boundary_rows(working: JunctionWorking) -> list[BoundaryResult]:
    """Every boundary in order, with its heat unless it is adiabatic."""
    posed = working.posed
    rows: list[BoundaryResult] = []
    for edge, name, flow in zip(posed.section.edges, posed.surface_names, working.heat_flows, strict=True):
        row: BoundaryResult = {
            "name": name,
            "x_from_mm": millimetres(edge.x_from),
            "y_from_mm": millimetres(edge.y_from),
            "x_to_mm": millimetres(edge.x_to),
            "y_to_mm": millimetres(edge.y_to),
            "adiabatic": edge.environment is None,
        }
        if edge.environment is not None:
            row["environment"] = edge.environment
            row["temperature_deg_c"] = float(working.environments[posed.section.environments.index(edge.environment)])
            row["surface_resistance_m2_k_per_w"] = edge.resistance
            if working.refined.bounded:
                row["heat_flow_w" if working.turned else "heat_flow_w_per_m"] = float(flow)
        rows.append(row)
    return rows


def coldest_row(working: JunctionWorking, trace: Trace, *, mould: bool) -> SurfacePlace:
    """The coldest place of the inside surface with its factor."""
    posed = working.posed
    found = working.coldest(mould=mould)
    theta_i, theta_e = posed.temperatures[posed.inside], posed.temperatures[posed.outside]
    temperature = float(theta_e) + found.temperature * float(theta_i - theta_e)
    if mould:
        trace.lookup("R_si", MOULD_RESISTANCE, "m2_k_per_w", MOULD)
    theta_si = trace.measure("theta_si", "deg_c", [("coldest place inside", temperature, posed.section.pointer)])
    factor = trace.call(temperature_factor, theta_si=theta_si, theta_i=theta_i, theta_e=theta_e)
    return {
        "x_mm": found.x_mm,
        "y_mm": found.y_mm,
        "temperature_deg_c": temperature,
        "temperature_factor": float(factor),
    }


def point_rows(working: JunctionWorking) -> list[PointResult]:
    """Temperatures of all points, and their factors between two environments."""
    rows = []
    for place in working.posed.places:
        row = _point(working, place, working.temperatures)
        if working.between_two:
            row["temperature_factor"] = working.at(place, working.factors)
            row["temperature_factor_mould"] = working.at(place, working.factors_mould)
        rows.append(row)
    return rows


def _point(working: JunctionWorking, place: Place, field: Numbers) -> PointResult:
    return {"id": place.id, "x_mm": place.x_mm, "y_mm": place.y_mm, "temperature_deg_c": working.at(place, field)}


def case_rows(working: JunctionWorking) -> list[CaseResult]:
    """The junction at other temperatures, added up from the same fields."""
    return [_case(working, case) for case in working.posed.cases]


def _case(working: JunctionWorking, case: PosedCase) -> CaseResult:
    environments = np.array(case.temperatures)
    flows = working.solution.heat_flows(environments)
    rows: list[CaseBoundary] = []
    for name, temperature in zip(working.posed.section.environments, case.temperatures, strict=True):
        row: CaseBoundary = {"environment": name, "temperature_deg_c": temperature}
        if working.refined.bounded:
            edges = [edge.environment == name for edge in working.posed.section.edges]
            row["heat_flow_w" if working.turned else "heat_flow_w_per_m"] = float(flows[edges].sum())
        rows.append(row)
    field = working.solution.temperatures(environments)
    points = [_point(working, place, field) for place in working.posed.places]
    return {"id": case.id, "environments": rows, "points": points}


def balance_of(working: JunctionWorking) -> float:
    """Sum of all heat flows over half the sum of their amounts."""
    flows = working.heat_flows
    return round(abs(float(flows.sum())) / (float(np.abs(flows).sum()) / 2.0), _BALANCE_DIGITS)


def mesh_row(working: JunctionWorking) -> MeshResult:
    """The finest mesh and how it was reached."""
    refined = working.refined
    row: MeshResult = {
        "nodes_count": refined.levels[-1].nodes_count,
        "refinements_count": len(refined.levels) - 1,
        "change_fraction": refined.change,
        "criterion_met": refined.converged,
    }
    if working.between_two and refined.bounded:
        change = refined.change * abs(working.couplings[0][2])
        row["change_w_per_k" if working.turned else "change_w_per_m_k"] = change
    return row
