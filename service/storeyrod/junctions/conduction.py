"""Steady conduction on a network: one field for each environment at one kelvin, from which every case is added up."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.junctions.mesh import Mesh
from storeyrod.junctions.network import Contacts, Indices, Network, Values, network_of
from storeyrod.junctions.section import Section

Fields = NDArray[np.float64]

_MOST_BANDED: Final = 12_000_000
"""Numbers in a banded factor (96 MB): beyond, the sparse factor takes less memory and not much longer."""


@dataclass(frozen=True)
class Solution:
    """Fields of a section: a column for each environment, by node of the mesh; nodes in a void hold no number."""

    section: Section
    mesh: Mesh
    network: Network
    unit: Fields

    def temperatures(self, environments: Values) -> NDArray[np.float64]:
        """Temperature in °C at every node, as rows from below, for temperatures of the environments in °C."""
        # measured from the first environment, so that equal temperatures give exactly that one
        field: Values = self.unit @ (environments - environments[0]) + environments[0]
        return field.reshape(len(self.mesh.y), len(self.mesh.x))

    def heat_flows(self, environments: Values) -> Values:
        """Heat that enters the section through each edge: W/m in a plane section, W in one that turns."""
        return self._flows(self.temperatures(environments).ravel(), environments[_environment_of(self.section)])

    def unit_heat_flows(self, environment: int) -> Values:
        """The same with one environment, by its position, 1 K above all others."""
        above = (_environment_of(self.section) == environment).astype(np.float64)
        return self._flows(self.unit[:, environment], above)

    def _flows(self, field: Values, outside: Values) -> Values:
        """Heat through each edge of a field, with the temperature outside each edge."""
        flows = np.zeros(len(self.section.edges))
        surfaces, prescribed = self.network.surfaces, self.network.prescribed
        entering = surfaces.amount * (outside[surfaces.edge] - field[surfaces.node])
        np.add.at(flows, surfaces.edge, entering)
        if len(prescribed.node):
            np.add.at(flows, prescribed.edge, self._drawn(field, entering))
        return flows

    def _drawn(self, field: Values, entering: Values) -> Values:
        """Heat that nodes of prescribed temperature draw in, shared among the edges that meet there by area."""
        links, surfaces, prescribed = self.network.links, self.network.surfaces, self.network.prescribed
        leaving = np.zeros(len(field))
        through = links.conductance * (field[links.one] - field[links.other])
        np.add.at(leaving, links.one, through)
        np.add.at(leaving, links.other, -through)
        np.add.at(leaving, surfaces.node, -entering)
        area = np.zeros(len(field))
        np.add.at(area, prescribed.node, prescribed.amount)
        share: Values = leaving[prescribed.node] * prescribed.amount / area[prescribed.node]
        return share


def solution_of(section: Section, mesh: Mesh) -> Solution:
    """The fields of a section on a mesh."""
    network = network_of(section, mesh)
    return Solution(section, mesh, network, _unit_fields(section, mesh, network))


def held_twice(solution: Solution) -> bool:
    """Whether two environments prescribe the temperature of one node."""
    prescribed = solution.network.prescribed
    pairs = np.column_stack([prescribed.node, _environment_of(solution.section)[prescribed.edge]])
    return len(np.unique(pairs, axis=0)) > len(np.unique(pairs[:, 0]))


def _environment_of(section: Section) -> Indices:
    """Position of each edge's environment; an adiabatic edge takes the first and never uses it."""
    places = {name: place for place, name in enumerate(section.environments)}
    return np.array([places.get(edge.environment or "", 0) for edge in section.edges], dtype=np.intp)


def _unit_fields(section: Section, mesh: Mesh, network: Network) -> Fields:
    """Temperature of every node with one environment at 1 and the others at 0; they add up to 1."""
    every = len(mesh.x) * len(mesh.y)
    count = len(section.environments)
    fields = np.full((every, count), np.nan)
    fields[network.used] = 0.0
    belongs = _environment_of(section)
    held = _prescribed_shares(network.prescribed, belongs, every, count)
    fixed = held.sum(axis=1) > 0.0
    fields[fixed] = held[fixed]
    unknown = network.used[~fixed[network.used]]
    if len(unknown):
        order = _numbered(unknown, mesh)
        fields[order] = _solved(network, belongs, fields, fixed, order)
    return fields


def _prescribed_shares(prescribed: Contacts, belongs: Indices, every: int, count: int) -> Fields:
    """Share of each environment in nodes that it holds; where two meet, by the area of each."""
    held = np.zeros((every, count))
    np.add.at(held, (prescribed.node, belongs[prescribed.edge]), prescribed.amount)
    total = held.sum(axis=1, keepdims=True)
    shares: Fields = np.divide(held, total, out=held, where=total > 0.0)
    return shares


def _numbered(nodes: Indices, mesh: Mesh) -> Indices:
    """Nodes in the order that keeps neighbours close: along the shorter way through the mesh, then on along the longer."""
    rows, columns = np.divmod(nodes, len(mesh.x))
    by_columns = np.lexsort((rows, columns))
    longest_row = int(np.bincount(rows).max())
    longest_column = int(np.bincount(columns).max())
    return nodes if longest_row <= longest_column else nodes[by_columns]


@dataclass(frozen=True)
class _Equations:
    """Symmetric equations of the unknown nodes: diagonal, one entry for each link between two of them, right sides."""

    diagonal: Values
    one: Indices
    other: Indices
    conductance: Values
    right: Fields

    @property
    def band(self) -> int:
        """How far apart in number the ends of a link lie at most."""
        return int(np.abs(self.one - self.other).max(initial=0))


def _solved(network: Network, belongs: Indices, fields: Fields, fixed: NDArray[np.bool_], order: Indices) -> Fields:
    """Unit fields at the nodes in ``order``, in which they are numbered."""
    equations = _equations(network, belongs, fields, fixed, order)
    band = equations.band
    if len(order) * (band + 1) <= _MOST_BANDED:
        return _by_band(equations, band)
    return _by_sparse_factor(equations)


def _equations(
    network: Network, belongs: Indices, fields: Fields, fixed: NDArray[np.bool_], order: Indices
) -> _Equations:
    links, surfaces = network.links, network.surfaces
    count = len(order)
    # nodes of prescribed temperature are numbered after the unknown ones, as one
    number = np.full(len(fixed), count)
    number[order] = np.arange(count)
    one, other = number[links.one], number[links.other]
    met = number[surfaces.node]
    diagonal = np.zeros(count + 1)
    for met_by, amount in ((one, links.conductance), (other, links.conductance), (met, surfaces.amount)):
        diagonal += np.bincount(met_by, amount, count + 1)
    right = np.zeros((count + 1, fields.shape[1]))
    np.add.at(right, (met, belongs[surfaces.edge]), surfaces.amount)
    for near, far in ((one, links.other), (other, links.one)):
        drawn = fixed[far]
        np.add.at(right, near[drawn], links.conductance[drawn, None] * fields[far[drawn]])
    inner = (one < count) & (other < count)
    return _Equations(diagonal[:count], one[inner], other[inner], links.conductance[inner], right[:count])


def _by_band(equations: _Equations, band: int) -> Fields:
    from scipy.linalg import cho_solve_banded, cholesky_banded  # noqa: PLC0415  slow to load, and only junctions need it

    lower = np.zeros((band + 1, len(equations.diagonal)), order="F")
    lower[0] = equations.diagonal
    lower[np.abs(equations.one - equations.other), np.minimum(equations.one, equations.other)] = -equations.conductance
    factor = cholesky_banded(lower, overwrite_ab=True, lower=True, check_finite=False)
    # all environments but the last: the fields add up to one
    solved = cho_solve_banded((factor, True), equations.right[:, :-1], check_finite=False)
    return np.column_stack([solved, 1.0 - solved.sum(axis=1)])


def _by_sparse_factor(equations: _Equations) -> Fields:
    from scipy.sparse import csc_matrix  # noqa: PLC0415  slow to load, and only large junctions need it
    from scipy.sparse.linalg import splu  # noqa: PLC0415  the same

    count = len(equations.diagonal)
    every = np.arange(count)
    rows = np.concatenate([every, equations.one, equations.other])
    columns = np.concatenate([every, equations.other, equations.one])
    values = np.concatenate([equations.diagonal, -equations.conductance, -equations.conductance])
    matrix = csc_matrix((values, (rows, columns)), shape=(count, count))
    factor = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    solved = factor.solve(equations.right[:, :-1])
    return np.column_stack([solved, 1.0 - solved.sum(axis=1)])
