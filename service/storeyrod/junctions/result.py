"""The answer about a solved junction: transmittances, temperature factors, and how far both can be relied on."""

from collections.abc import Iterator, Sequence
from typing import Final, Literal

from storeyrod.findings import Finding, finding
from storeyrod.junctions import solved_figures
from storeyrod.junctions.models import ThermalJunctionResult, TransmittanceUse
from storeyrod.junctions.refinement import DOUBLING, GREATEST_CHANGE
from storeyrod.junctions.result_rows import (
    boundary_rows,
    case_rows,
    coldest_row,
    coupling_rows,
    flank_rows,
    mesh_row,
    point_rows,
    rectangle_rows,
)
from storeyrod.junctions.transmittance import Transmittance, coupling_between_two, transmittance_of
from storeyrod.junctions.working import JunctionWorking
from storeyrod.thermal.corrections import fasteners_by_point
from storeyrod.trace import Trace

_BALANCE_DIGITS: Final = 12
"""Decimals of the balance: beyond them it is the rounding of a sum of thousands of numbers."""

_PSI_USE = (
    "Not in a U-value. Multiply psi by the length of the junction and add it to the heat loss of the building, with areas measured by the "
    "same dimensions: psi_internal with internal ones, psi_external with external ones."
)
_CHI_USE = (
    "In a U-value, as corrections.fasteners of kind declared: chi_w_per_k and the number of fasteners per square metre. The insulation "
    "must not carry the same fasteners in another way."
)
_CHI_UNFIT = "Not in a U-value: corrections.fasteners takes 0 to 0.1 W/K. Add chi for each fastener to the heat loss of the building."
_GREATEST_CHI = 0.1
"""W/K: the upper bound of ``chi_w_per_k`` in a request for a U-value."""


def result_of(working: JunctionWorking, trace: Trace) -> ThermalJunctionResult:
    """Everything that is answered, from transmittances to the mesh."""
    flows = solved_figures.heat_flows(working, trace)
    found = couplings_of(working, flows, trace) if working.refined.bounded else []
    mould = solved_figures.mould_resistance(trace) if working.between_two else None
    result: ThermalJunctionResult = {
        "geometry": working.posed.section.geometry,
        "environments": list(working.posed.section.environments),
        "couplings": coupling_rows(working, found),
        "flanks": flank_rows(working),
        "points": point_rows(working, mould, trace),
        "boundaries": boundary_rows(working, flows),
        "balance_fraction": round(solved_figures.balance(working, flows, trace), _BALANCE_DIGITS),
        "mesh": mesh_row(working),
        "cases": case_rows(working, trace),
    }
    _check_mesh(working, trace)
    if found and working.posed.paired:
        _add_transmittance(result, transmittance_of(working, found[working.pair], trace), working, trace)
    if mould is not None:
        _add_factors(result, working, mould, trace)
    if working.posed.ready:
        result["rectangles"] = rectangle_rows(working)
    return result


def findings_of(working: JunctionWorking) -> Iterator[Finding]:
    """What the solution says of itself."""
    refined, pointer = working.refined, working.posed.section.pointer
    if not refined.bounded:
        yield finding("heat-flow-unbounded", {"pointer": pointer})
    elif not refined.converged:
        yield finding(
            "mesh-not-converged", {"pointer": pointer}, value=refined.change, limit=GREATEST_CHANGE, unit="fraction"
        )


def couplings_of(working: JunctionWorking, flows: Sequence[float], trace: Trace) -> list[float]:
    """Coupling between every two environments."""
    if working.between_two:
        return [coupling_between_two(working, flows, trace)]
    return [solved_figures.coupling(working, at, trace) for at in range(len(working.couplings))]


def _check_mesh(working: JunctionWorking, trace: Trace) -> None:
    refined = working.refined
    if refined.bounded:
        change = solved_figures.change(working, trace)
        limit = trace.lookup("change_max", GREATEST_CHANGE, "fraction", DOUBLING)
        trace.check("change", change, limit, "fraction", DOUBLING, holds=refined.converged)


def _add_transmittance(
    result: ThermalJunctionResult, found: Transmittance, working: JunctionWorking, trace: Trace
) -> None:
    member: Literal["coupling_w_per_k", "coupling_w_per_m_k"] = (
        "coupling_w_per_k" if found.point else "coupling_w_per_m_k"
    )
    result[member] = float(found.coupling)
    if found.internal is None or found.external is None:
        return
    if found.point:
        result["chi_w_per_k"] = float(found.internal)
        result["use"] = _chi_use(found.internal, working.posed.count_per_m2, trace)
        return
    result["psi_w_per_m_k"] = result["psi_internal_w_per_m_k"] = float(found.internal)
    result["psi_external_w_per_m_k"] = float(found.external)
    result["use"] = {"in_u_value": False, "how": _PSI_USE}


def _chi_use(chi: float, count_per_m2: float | None, trace: Trace) -> TransmittanceUse:
    if not 0.0 <= chi <= _GREATEST_CHI:
        return {"in_u_value": False, "how": _CHI_UNFIT}
    made: TransmittanceUse = {"in_u_value": True, "how": _CHI_USE, "chi_w_per_k": float(chi)}
    if count_per_m2 is not None:
        made["count_per_m2"] = float(count_per_m2)
        made["delta_u_w_per_m2_k"] = float(trace.call(fasteners_by_point, chi=chi, n_f=count_per_m2))
    return made


def _add_factors(result: ThermalJunctionResult, working: JunctionWorking, mould: float, trace: Trace) -> None:
    result["coldest"] = coldest_row(working, None, trace)
    result["coldest_mould"] = coldest_row(working, mould, trace)
    result["temperature_factor"] = result["coldest"]["temperature_factor"]
    result["temperature_factor_mould"] = result["coldest_mould"]["temperature_factor"]
