"""Figures that the solver gives, each with a step that says how it was got and from what."""

from collections.abc import Iterator, Sequence
from typing import Final, Literal

import numpy as np

from storeyrod.junctions.posed import Place, PosedCase
from storeyrod.junctions.refinement import DOUBLING, Compared
from storeyrod.junctions.working import MOULD, MOULD_RESISTANCE, JunctionWorking, Numbers
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula

_NUMERICAL: Final = Clause("ISO 10211", "numerical calculation", "memory")
_BALANCE: Final = Clause("ISO 10211", "sum of all heat flows", "memory")

_Input = tuple[str, float, str]


@formula(
    symbol="balance",
    expression="Abs(Phi_in + Phi_out) / ((Phi_in - Phi_out) / 2)",
    unit="fraction",
    inputs={"Phi_in": "w_per_m", "Phi_out": "w_per_m"},
    clause=_BALANCE,
)
def balance_of_length(*, Phi_in: float, Phi_out: float) -> float:  # noqa: N803  symbols of the standard
    """Sum of all heat flows of a plane section over half the sum of their amounts; what leaves is negative."""
    return abs(Phi_in + Phi_out) / ((Phi_in - Phi_out) / 2.0)


@formula(
    symbol="balance",
    expression="Abs(Phi_in + Phi_out) / ((Phi_in - Phi_out) / 2)",
    unit="fraction",
    inputs={"Phi_in": "w", "Phi_out": "w"},
    clause=_BALANCE,
)
def balance_of_body(*, Phi_in: float, Phi_out: float) -> float:  # noqa: N803  symbols of the standard
    """The same of a body."""
    return abs(Phi_in + Phi_out) / ((Phi_in - Phi_out) / 2.0)


def heat_unit(working: JunctionWorking) -> Literal["w", "w_per_m"]:
    """Unit of heat flows: of a whole body, or of a metre of a plane section."""
    return "w" if working.turned else "w_per_m"


def coupling_unit(working: JunctionWorking) -> Literal["w_per_k", "w_per_m_k"]:
    """Unit of couplings."""
    return "w_per_k" if working.turned else "w_per_m_k"


def heat_flows(working: JunctionWorking, trace: Trace) -> list[float]:
    """Heat that enters through each edge, in order; nought through adiabatic ones."""
    return [_heat(working, at, trace) for at in range(len(working.posed.section.edges))]


def _heat(working: JunctionWorking, at: int, trace: Trace) -> float:
    posed = working.posed
    edge, flow = posed.section.edges[at], float(working.heat_flows[at])
    if edge.environment is None:
        return flow
    theta = posed.temperatures[posed.section.environments.index(edge.environment)]
    inputs = [("theta", theta, "deg_c"), ("R_s", edge.resistance, "m2_k_per_w")]
    how = f"heat into the section through {posed.surface_names[at]}{_on(working)}"
    return trace.solved("Phi", flow, heat_unit(working), how, inputs, _NUMERICAL)


def balance(working: JunctionWorking, flows: Sequence[float], trace: Trace) -> float:
    """Sum of all heat flows over half the sum of their amounts."""
    unit = heat_unit(working)
    entering = trace.sum("Phi_in", unit, [flow for flow in flows if flow > 0.0], _BALANCE)
    leaving = trace.sum("Phi_out", unit, [flow for flow in flows if flow < 0.0], _BALANCE)
    share = balance_of_body if working.turned else balance_of_length
    return trace.call(share, Phi_in=entering, Phi_out=leaving)


def change(working: JunctionWorking, trace: Trace) -> float:
    """Change of what changed most when the subdivisions were last doubled."""
    found = working.refined.compared
    before, after = (
        _on_level(working, found, value, level.nodes_count, trace)
        for value, level in zip((found.before, found.after), working.refined.levels[-2:], strict=True)
    )
    unit = heat_unit(working) if found.coupling is None else coupling_unit(working)
    inputs = [("before", before, unit), ("after", after, unit)]
    how = (
        "Abs(after - before) / after"
        if found.whole == found.after
        else "Abs(after - before) / (greatest coupling / 1000)"
    )
    return trace.solved("change", working.refined.change, "fraction", how, inputs, DOUBLING)


def _on_level(working: JunctionWorking, found: Compared, value: float, nodes: int, trace: Trace) -> float:
    if found.coupling is None:
        how = f"heat that enters the section, on {nodes} nodes"
        return trace.solved("Phi_in", value, heat_unit(working), how, _sides(working), DOUBLING)
    one, other, _ = working.couplings[found.coupling]
    how = f"coupling of {one} and {other}, on {nodes} nodes"
    return trace.solved("L", value, coupling_unit(working), how, _resistances(working, one, other), DOUBLING)


def coupling(working: JunctionWorking, at: int, trace: Trace) -> float:
    """The coupling at a position, from the heat that flows between its two environments alone."""
    one, other, value = working.couplings[at]
    how = f"heat into {other} with {one} 1 K above all others{_on(working)}"
    symbol = "L_3D" if working.turned else "L_2D"
    return trace.solved(symbol, value, coupling_unit(working), how, _resistances(working, one, other), _NUMERICAL)


def mould_resistance(trace: Trace) -> float:
    """Internal surface resistance with which the risk of mould is judged."""
    return trace.lookup("R_si", MOULD_RESISTANCE, "m2_k_per_w", MOULD)


def coldest_temperature(working: JunctionWorking, at: str, value: float, mould: float | None, trace: Trace) -> float:
    """The lowest temperature of the inside surface; ``mould`` is the resistance that replaced that of the inside."""
    how = f"lowest of the inside surface, at {at}{_on(working)}"
    return trace.solved("theta_si", value, "deg_c", how, [*_sides(working), *_replaced(mould)], _NUMERICAL)


def point_temperature(working: JunctionWorking, place: Place, trace: Trace) -> float:
    """Temperature at a point."""
    inputs = [*_at(place, trace), *_sides(working)]
    return trace.solved(
        "theta", working.at(place, working.temperatures), "deg_c", _where(working, place), inputs, _NUMERICAL
    )


def point_factor(working: JunctionWorking, place: Place, mould: float | None, trace: Trace) -> float:
    """Temperature factor at a point, which is its temperature with the inside at 1 and the outside at 0."""
    field = working.factors if mould is None else working.factors_mould
    inputs = [*_at(place, trace), *_replaced(mould)]
    how = f"inside at 1, outside at 0, {_where(working, place)}"
    return trace.solved("f_Rsi", working.at(place, field), "fraction", how, inputs, _NUMERICAL)


def case_temperature(working: JunctionWorking, place: Place, case: PosedCase, field: Numbers, trace: Trace) -> float:
    """Temperature at a point in a case."""
    inputs = [*_at(place, trace), *_sides(working, case.temperatures)]
    how = f"case {case.id}, {_where(working, place)}"
    return trace.solved("theta", working.at(place, field), "deg_c", how, inputs, _NUMERICAL)


def case_heat(working: JunctionWorking, environment: int, case: PosedCase, flows: Numbers, trace: Trace) -> float:
    """Heat that enters from an environment in a case."""
    name = working.posed.section.environments[environment]
    total = float(np.sum(flows[[edge.environment == name for edge in working.posed.section.edges]]))
    how = f"case {case.id}, heat into the section from {name}{_on(working)}"
    return trace.solved(
        "Phi", total, heat_unit(working), how, [("theta", case.temperatures[environment], "deg_c")], _NUMERICAL
    )


def _on(working: JunctionWorking) -> str:
    return f", on {working.mesh.nodes_count} nodes"


def _where(working: JunctionWorking, place: Place) -> str:
    return f"at x {place.x_mm:.10g}, y {place.y_mm:.10g} mm{_on(working)}"


def _at(place: Place, trace: Trace) -> Iterator[_Input]:
    """Both coordinates of a point that the request named; of one that a detail named, nothing."""
    if place.asked:
        yield "x", trace.given(place.x_mm, f"{place.pointer}/x_mm"), "mm"
        yield "y", trace.given(place.y_mm, f"{place.pointer}/y_mm"), "mm"


def _sides(working: JunctionWorking, temperatures: Sequence[float] | None = None) -> Iterator[_Input]:
    found = working.posed.temperatures if temperatures is None else temperatures
    yield "theta_i", found[working.posed.inside], "deg_c"
    yield "theta_e", found[working.posed.outside], "deg_c"


def _replaced(mould: float | None) -> Iterator[_Input]:
    if mould is not None:
        yield "R_si", mould, "m2_k_per_w"


def _resistances(working: JunctionWorking, *environments: str) -> Iterator[_Input]:
    """Of each environment the first of its surface resistances: it leads to the boundary."""
    for name in environments:
        found = next(edge.resistance for edge in working.posed.section.edges if edge.environment == name)
        yield "R_s", found, "m2_k_per_w"
