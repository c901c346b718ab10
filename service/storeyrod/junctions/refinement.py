"""The mesh refined until doubling its subdivisions no longer changes the heat flow."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from storeyrod.findings import refuse
from storeyrod.junctions.conduction import Solution, held_twice, solution_of
from storeyrod.junctions.coupling import couplings
from storeyrod.junctions.mesh import Mesh, Point, halved, mesh_of
from storeyrod.junctions.network import Values
from storeyrod.junctions.partition import Partition, partition_of
from storeyrod.junctions.section import Section
from storeyrod.reference.documents import Clause

DOUBLING: Final = Clause("ISO 10211", "criteria for the number of subdivisions", "memory")

GREATEST_CHANGE: Final = 0.01
"""Share by which the heat flow may change when subdivisions are doubled: the criterion of the standard."""


_TWO: Final = 2
"""Environments whose coupling is the heat flow itself but for a factor."""

_LEAST_COUPLING: Final = 0.001
"""Share of the greatest coupling against which changes of smaller ones are measured; a house value, lest refining chase what is next
to nought."""


@dataclass(frozen=True, slots=True)
class Effort:
    """A first mesh, the change at which refining ends, and the most nodes; house values inside the standard's criterion.

    ``finest_share`` and ``coarsest_share`` are the smallest and the largest cell as shares of the section.
    """

    finest_share: float
    growth: float
    coarsest_share: float
    wanted_change: float
    most_nodes: int


EFFORTS: Final[Mapping[Literal["quick", "standard", "thorough"], Effort]] = {
    "quick": Effort(1 / 150, 2.0, 1 / 8, GREATEST_CHANGE, 150_000),
    "standard": Effort(1 / 1250, 1.8, 1 / 24, 0.002, 250_000),
    "thorough": Effort(1 / 1000, 1.4, 1 / 24, 0.0005, 400_000),
}


@dataclass(frozen=True)
class Level:
    """One mesh of the series: its nodes, and the heat that enters the section on it.

    ``couplings``: between every two environments where there are three or more; a sum of heat flows may hide how one of them changes.
    """

    nodes_count: int
    heat_flow: float
    couplings: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Compared:
    """A figure on the last two meshes, and what its change is a share of: the heat flow, or a coupling by its position."""

    coupling: int | None
    before: float
    after: float
    whole: float

    @property
    def change(self) -> float:
        """The change as a share."""
        return abs(self.after - self.before) / self.whole if self.whole > 0.0 else 0.0


@dataclass(frozen=True)
class Refined:
    """The solution on the finest mesh and how it was reached, coarsest level first.

    ``bounded`` is false where two prescribed temperatures meet: the heat flow between them has no limit, and its change says
    nothing.
    """

    solution: Solution
    levels: tuple[Level, ...]
    bounded: bool

    @property
    def change(self) -> float:
        """Share by which the last doubling changed the heat flow, or with three and more environments any coupling, if that is more."""
        return self.compared.change

    @property
    def compared(self) -> Compared:
        """What the last doubling changed most."""
        before, after = self.levels[-2], self.levels[-1]
        least = _LEAST_COUPLING * max(after.couplings, default=0.0)
        pairs = zip(before.couplings, after.couplings, strict=True)
        of_couplings = [Compared(at, one, other, max(other, least)) for at, (one, other) in enumerate(pairs)]
        heat = Compared(None, before.heat_flow, after.heat_flow, after.heat_flow)
        return max([heat, *of_couplings], key=lambda one: one.change)

    @property
    def converged(self) -> bool:
        """Whether the criterion of the standard holds."""
        return self.bounded and self.change < GREATEST_CHANGE


def refined_solution(
    section: Section,
    environments: Values,
    effort: Effort,
    *,
    partition: Partition | None = None,
    points: Sequence[Point] = (),
) -> Refined:
    """Solve on a mesh, double its subdivisions and solve again, until the heat flow stays.

    ``partition`` is that of the section, where it is at hand; ``points`` in ticks become nodes as far as there is room. Refuses
    ``size-limit`` where the section has so many lines that the doubled mesh would pass the limit of nodes.
    """
    mesh = _first_mesh(section, partition or partition_of(section), effort, points)
    solution = solution_of(section, mesh)
    bounded = not held_twice(solution)
    levels = [_level(solution, environments)]
    while True:
        mesh = halved(mesh)
        solution = solution_of(section, mesh)
        levels.append(_level(solution, environments))
        made = Refined(solution, tuple(levels), bounded)
        if made.change <= effort.wanted_change or 4 * levels[-1].nodes_count > effort.most_nodes or not bounded:
            return made


def _first_mesh(section: Section, partition: Partition, effort: Effort, points: Sequence[Point]) -> Mesh:
    share, growth = effort.finest_share, effort.growth
    while True:
        mesh = mesh_of(
            section, partition, finest_share=share, growth=growth, coarsest_share=effort.coarsest_share, points=points
        )
        if 4 * mesh.nodes_count <= effort.most_nodes:
            return mesh
        if share >= 1.0 and points:
            return _first_mesh(section, partition, effort, ())
        if share >= 1.0:
            raise refuse(
                "size-limit",
                section.pointer,
                f"the lines of the section cross {mesh.nodes_count} times and may cross {effort.most_nodes // 4} times; merge "
                "rectangles, or let their sides fall on common lines",
            )
        share, growth = share * 2.0, growth * 1.5


def _level(solution: Solution, environments: Values) -> Level:
    flows = solution.heat_flows(environments)
    pairs = couplings(solution) if len(environments) > _TWO else []
    return Level(solution.mesh.nodes_count, float(np.abs(flows).sum() / 2.0), tuple(pair[2] for pair in pairs))
