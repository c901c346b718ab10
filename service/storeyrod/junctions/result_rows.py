"""The rows of an answer about a junction."""

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.junctions import solved_figures
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
from storeyrod.junctions.working import JunctionWorking
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE


def coupling_rows(working: JunctionWorking, values: Sequence[float]) -> list[Coupling]:
    """Coupling between every two environments; none where two prescribed temperatures meet."""
    rows: list[Coupling] = []
    for (one, other), value in zip(combinations(working.posed.section.environments, 2), values, strict=False):
        row: Coupling = {"environments": [one, other]}
        row["coupling_w_per_k" if working.turned else "coupling_w_per_m_k"] = float(value)
        rows.append(row)
    return rows


def flank_rows(working: JunctionWorking) -> list[FlankResult]:
    """What is taken off."""
    return [
        {
            "name": flank.name,
            "u_value_w_per_m2_k": float(flank.u_value),
            "internal_length_mm": _whole_ticks(flank.internal),
            "external_length_mm": _whole_ticks(flank.external),
        }
        for flank in working.posed.flanks
    ]


def _whole_ticks(metres: float) -> float:
    return millimetres(ticks(float(metres) / METRES_PER_MILLIMETRE))


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


def boundary_rows(working: JunctionWorking, flows: Sequence[float]) -> list[BoundaryResult]:
    """Every boundary in order, with its heat unless it is adiabatic."""
    posed = working.posed
    rows: list[BoundaryResult] = []
    for edge, name, flow in zip(posed.section.edges, posed.surface_names, flows, strict=True):
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
            row["surface_resistance_m2_k_per_w"] = float(edge.resistance)
            if working.refined.bounded:
                row["heat_flow_w" if working.turned else "heat_flow_w_per_m"] = float(flow)
        rows.append(row)
    return rows


def coldest_row(working: JunctionWorking, mould: float | None, trace: Trace) -> SurfacePlace:
    """The coldest place of the inside surface with its factor; ``mould``: with this surface resistance inside."""
    posed = working.posed
    found = working.coldest(mould=mould is not None)
    theta_i, theta_e = posed.temperatures[posed.inside], posed.temperatures[posed.outside]
    temperature = float(theta_e) + found.temperature * float(theta_i - theta_e)
    at = f"x {found.x_mm:.10g}, y {found.y_mm:.10g} mm"
    theta_si = solved_figures.coldest_temperature(working, at, temperature, mould, trace)
    factor = trace.call(temperature_factor, theta_si=theta_si, theta_i=theta_i, theta_e=theta_e)
    return {
        "x_mm": found.x_mm,
        "y_mm": found.y_mm,
        "temperature_deg_c": temperature,
        "temperature_factor": float(factor),
    }


def point_rows(working: JunctionWorking, mould: float | None, trace: Trace) -> list[PointResult]:
    """Temperatures of all points, and between two environments their factors, for ``mould`` with this resistance inside."""
    rows = []
    for place in working.posed.places:
        row = _point(place, solved_figures.point_temperature(working, place, trace))
        if mould is not None:
            row["temperature_factor"] = float(solved_figures.point_factor(working, place, None, trace))
            row["temperature_factor_mould"] = float(solved_figures.point_factor(working, place, mould, trace))
        rows.append(row)
    return rows


def _point(place: Place, temperature: float) -> PointResult:
    # nought has no sign
    return {
        "id": place.id,
        "x_mm": place.x_mm + 0.0,
        "y_mm": place.y_mm + 0.0,
        "temperature_deg_c": float(temperature),
    }


def case_rows(working: JunctionWorking, trace: Trace) -> list[CaseResult]:
    """The junction at other temperatures, added up from the same fields."""
    return [_case(working, case, trace) for case in working.posed.cases]


def _case(working: JunctionWorking, case: PosedCase, trace: Trace) -> CaseResult:
    environments = np.array([float(one) for one in case.temperatures])
    flows = working.solution.heat_flows(environments)
    rows: list[CaseBoundary] = []
    for at, name in enumerate(working.posed.section.environments):
        row: CaseBoundary = {"environment": name, "temperature_deg_c": float(environments[at])}
        if working.refined.bounded:
            heat = solved_figures.case_heat(working, at, case, flows, trace)
            row["heat_flow_w" if working.turned else "heat_flow_w_per_m"] = float(heat)
        rows.append(row)
    field = working.solution.temperatures(environments)
    temperatures = [
        (place, solved_figures.case_temperature(working, place, case, field, trace)) for place in working.posed.places
    ]
    points = [_point(place, temperature) for place, temperature in temperatures]
    return {"id": case.id, "environments": rows, "points": points}


def mesh_row(working: JunctionWorking) -> MeshResult:
    """The finest mesh and how it was reached."""
    refined = working.refined
    row: MeshResult = {
        "nodes_count": refined.levels[-1].nodes_count,
        "refinements_count": len(refined.levels) - 1,
        "change_fraction": refined.change,
        "criterion_met": refined.converged,
    }
    if working.posed.paired and refined.bounded:
        change = refined.change * abs(working.coupling)
        row["change_w_per_k" if working.turned else "change_w_per_m_k"] = change
    return row
