"""What an isotherm sheet draws of a junction: the fields of its solution, at its own temperatures or at those of a case."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.drawings.contours import Field
from storeyrod.drawings.display_list import Point
from storeyrod.drawings.section_subject import Environment, MarkedPoint, SectionSubject, Stretch, filled
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from storeyrod.junctions.models import PointResult, ThermalJunctionResult
from storeyrod.junctions.posed import FRAME_INSIDE
from storeyrod.junctions.readings import coldest

if TYPE_CHECKING:
    from storeyrod.junctions.working import JunctionWorking

NO_NAME: Final = "no name"

_EVEN: Final = 0.0005
"""Temperature factors that differ by less are one: they are printed to the thousandth."""


@dataclass(frozen=True)
class _At:
    """A solved junction at temperatures of its environments in °C."""

    working: "JunctionWorking"
    result: ThermalJunctionResult
    environments: NDArray[np.float64]
    points: Sequence[MarkedPoint]

    @property
    def per(self) -> str:
        """Unit of heat flows."""
        return "W" if self.working.turned else "W/m"


def junction_subject(
    working: "JunctionWorking", result: ThermalJunctionResult, case: str | None = None
) -> SectionSubject:
    """The subject; ``case`` is the id of one of the cases of the junction."""
    at = _at(working, result, case)
    cells, named = _materials(working)
    environments, stretches = _surroundings(at)
    temperatures = working.solution.temperatures(at.environments)
    even = _is_even(working)
    return SectionSubject(
        Field(_in_ticks(working.x_mm), _in_ticks(working.y_mm), temperatures, filled(cells)),
        cells,
        named,
        environments,
        stretches,
        at.points,
        _coldest(at, stretches if even else []),
        list(_results(result)),
        _summary(at),
        working.turned,
        even,
    )


def _at(working: "JunctionWorking", result: ThermalJunctionResult, case: str | None) -> _At:
    if case is None:
        return _At(working, result, working.environments, _marked(result["points"]))
    posed = next(one for one in working.posed.cases if one.id == case)
    row = next(one for one in result["cases"] if one["id"] == case)
    return _At(working, result, np.array(posed.temperatures), _marked(row["points"]))


def _marked(rows: Sequence[PointResult]) -> list[MarkedPoint]:
    return [MarkedPoint(row["id"], (row["x_mm"], row["y_mm"]), row["temperature_deg_c"]) for row in rows]


def _in_ticks(lines: NDArray[np.float64]) -> NDArray[np.float64]:
    """Lines in mm without the dust of metres."""
    return np.round(lines * TICKS_PER_MM) / TICKS_PER_MM


def _materials(working: "JunctionWorking") -> tuple[NDArray[np.int32], list[tuple[str, float]]]:
    """Cells by material, of those that some cell is made of: rectangles of one name and conductivity are one material."""
    patches = [(name or NO_NAME, conductivity) for name, conductivity in working.materials]
    shown = np.unique(working.cells[filled(working.cells)]).tolist()
    named = list(dict.fromkeys(patches[patch] for patch in shown))
    numbers = np.array([*(named.index(one) if one in named else -1 for one in patches), -1], dtype=np.int32)
    return numbers[working.cells], named


def _surroundings(at: _At) -> tuple[list[Environment], list[Stretch]]:
    """Environments, one for each name of surface and resistance, and the outline that meets them."""
    section = at.working.posed.section
    flows = at.working.solution.heat_flows(at.environments) if at.working.refined.bounded else None
    keys: dict[tuple[str, str, float], float | None] = {}
    stretches = []
    for index, (edge, name) in enumerate(zip(section.edges, at.working.posed.surface_names, strict=True)):
        ends = [(millimetres(x), millimetres(y)) for x, y in ((edge.x_from, edge.y_from), (edge.x_to, edge.y_to))]
        if edge.environment is None:
            stretches.append(Stretch(ends[0], ends[1], None))
            continue
        key = (name, edge.environment, float(edge.resistance))
        before = keys.get(key, 0.0)
        keys[key] = None if flows is None or before is None else before + float(flows[index])
        stretches.append(Stretch(ends[0], ends[1], list(keys).index(key)))
    temperatures = dict(zip(section.environments, at.environments.tolist(), strict=True))
    made = [
        Environment(_surface_name(name, environment), temperatures[environment], resistance, flow)
        for (name, environment, resistance), flow in keys.items()
    ]
    return made, stretches


def _surface_name(name: str, environment: str) -> str:
    return name if environment in name else f"{name}, {environment}"


def _coldest(at: _At, even: Sequence[Stretch]) -> MarkedPoint | None:
    """The coldest point of the inside surface, in the middle of its longest stretch of ``even`` ones; with more than two
    environments none is singled out.
    """
    if "coldest" not in at.result:
        return None
    place, posed = at.result["coldest"], at.working.posed
    inside, outside = (float(at.environments[index]) for index in (posed.inside, posed.outside))
    factor = place["temperature_factor"]
    where = _middle(even, _inside_edges(at.working)) if even else (place["x_mm"], place["y_mm"])
    return MarkedPoint("coldest", where, outside + factor * (inside - outside), factor)


def _inside_edges(working: "JunctionWorking") -> list[bool]:
    """Which edges of the section the coldest point is looked for on: of the inside, without frames of ready details."""
    posed = working.posed
    inside = posed.section.environments[posed.inside]
    named = zip(posed.section.edges, posed.surface_names, strict=True)
    return [edge.environment == inside and not (posed.ready and name == FRAME_INSIDE) for edge, name in named]


def _is_even(working: "JunctionWorking") -> bool:
    """Whether the inside surface has one temperature as far as its factor is printed."""
    edges = _inside_edges(working)
    low, high = (sign * coldest(working.solution, sign * working.factors, edges).temperature for sign in (1.0, -1.0))
    return high - low < _EVEN


def _middle(stretches: Sequence[Stretch], marked: Sequence[bool]) -> Point:
    """Middle of the longest of the stretches that are marked."""
    kept = [one for one, is_marked in zip(stretches, marked, strict=True) if is_marked]
    longest = max(kept, key=lambda one: math.dist(one.start, one.end))
    return (longest.start[0] + longest.end[0]) / 2.0, (longest.start[1] + longest.end[1]) / 2.0


def _results(result: ThermalJunctionResult) -> Iterator[tuple[str, str]]:
    for row in result["couplings"]:
        one, other = row["environments"]
        value = (
            f"{row['coupling_w_per_k']:.4f} W/K" if "coupling_w_per_k" in row else _per_metre(row["coupling_w_per_m_k"])
        )
        yield f"coupling {one} - {other}", value
    if "psi_internal_w_per_m_k" in result and "psi_external_w_per_m_k" in result:
        yield "psi, internal dimensions", _per_metre(result["psi_internal_w_per_m_k"])
        yield "psi, external dimensions", _per_metre(result["psi_external_w_per_m_k"])
    if "chi_w_per_k" in result:
        yield "chi", f"{result['chi_w_per_k']:.5f} W/K"
    if "temperature_factor" in result and "temperature_factor_mould" in result:
        yield "fRsi, coldest inside", f"{result['temperature_factor']:.3f}"
        yield "fRsi at 0.25 m²·K/W inside", f"{result['temperature_factor_mould']:.3f}"
    yield "nodes of the mesh", f"{result['mesh']['nodes_count']}"
    yield "change when last doubled", f"{100.0 * result['mesh']['change_fraction']:.3f} %"


def _per_metre(value: float) -> str:
    return f"{value:.4f} W/(m·K)"


def _summary(at: _At) -> str:
    """Heat from the inside, and what of it is due to the junction."""
    inside = at.working.posed.section.environments[at.working.posed.inside]
    given = at.working.posed.section.edges
    result = at.result
    if not at.working.refined.bounded:
        return "Heat flow without bound: two temperatures meet at a point"
    flows = at.working.solution.heat_flows(at.environments)
    heat = sum(float(flow) for edge, flow in zip(given, flows, strict=True) if edge.environment == inside)
    words = f"Heat from {inside} {heat:.3f} {at.per}"
    if "psi_internal_w_per_m_k" in result and "psi_external_w_per_m_k" in result:
        internal, external = result["psi_internal_w_per_m_k"], result["psi_external_w_per_m_k"]
        return f"{words}; psi {internal:.3f} internal, {external:.3f} external, W/(m·K)"
    if "chi_w_per_k" in result:
        return f"{words}; chi {result['chi_w_per_k']:.5f} W/K"
    return words
