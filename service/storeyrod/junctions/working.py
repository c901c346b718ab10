"""A junction solved: its fields, and what is read from them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from math import pi
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from storeyrod.findings import refuse
from storeyrod.geometry.ticks import ticks
from storeyrod.junctions.conduction import Solution, solution_of
from storeyrod.junctions.coupling import couplings
from storeyrod.junctions.mesh import Mesh
from storeyrod.junctions.partition import Cells, Partition, partition_of
from storeyrod.junctions.posed import FRAME_INSIDE, Place, PosedJunction
from storeyrod.junctions.readings import SurfacePoint, coldest, temperature_at
from storeyrod.junctions.refinement import EFFORTS, Effort, Refined, refined_solution
from storeyrod.reference.documents import Clause
from storeyrod.units import METRES_PER_MILLIMETRE

Numbers = NDArray[np.float64]

MOULD: Final = Clause("ISO 13788", "surface resistance for mould at opaque surfaces", "memory")
MOULD_RESISTANCE: Final = 0.25
"""Internal surface resistance in m2.K/W with which the risk of mould is judged: behind furniture and in corners."""

EffortName = Literal["quick", "standard", "thorough"]


@dataclass(frozen=True, slots=True)
class _Fineness:
    """Changes of the coupling at which refining ends where flanks are taken off it: psi in W/(m.K), chi in W/K, or a share of them."""

    psi: float
    chi: float
    share: float


_FINENESS: Final[Mapping[EffortName, _Fineness]] = {
    "quick": _Fineness(0.001, 0.0001, 0.02),
    "standard": _Fineness(0.0001, 0.00001, 0.005),
    "thorough": _Fineness(0.00002, 0.000002, 0.001),
}
"""House values: what flanks leave of a coupling is often a hundredth of it, so the criterion of the standard says little of it."""


@dataclass(frozen=True)
class JunctionWorking:
    """The solved section: at its own surface resistances, and with that for mould inside."""

    posed: PosedJunction
    refined: Refined
    mould: Solution

    @property
    def solution(self) -> Solution:
        """The solution on the finest mesh."""
        return self.refined.solution

    @property
    def mesh(self) -> Mesh:
        """The finest mesh."""
        return self.solution.mesh

    @cached_property
    def x_mm(self) -> Numbers:
        """Lines of the mesh from left to right, in mm."""
        return self.mesh.x / METRES_PER_MILLIMETRE

    @cached_property
    def y_mm(self) -> Numbers:
        """Lines of the mesh from below, in mm."""
        return self.mesh.y / METRES_PER_MILLIMETRE

    @cached_property
    def temperatures(self) -> Numbers:
        """Temperature in °C at every node, as rows from below; no number in a void."""
        return self.solution.temperatures(self.environments)

    @cached_property
    def environments(self) -> Numbers:
        """Temperatures of the environments in °C."""
        return np.array([float(one) for one in self.posed.temperatures])

    @property
    def cells(self) -> Cells:
        """Index of the material of every cell, as rows from below; ``VOID`` where there is none."""
        return self.mesh.patch

    @property
    def materials(self) -> list[tuple[str, float]]:
        """Name and conductivity in W/(m.K) of every material."""
        return [(patch.name, patch.conductivity) for patch in self.posed.section.patches]

    @cached_property
    def heat_flows(self) -> Numbers:
        """Heat that enters through each edge: W/m, in an axisymmetric section W."""
        return self.solution.heat_flows(self.environments)

    @cached_property
    def couplings(self) -> list[tuple[str, str, float]]:
        """Coupling between every two environments."""
        return couplings(self.solution)

    @property
    def between_two(self) -> bool:
        """Whether there are two environments and no more."""
        return len(self.posed.temperatures) == 2

    @property
    def pair(self) -> int:
        """Position of inside and outside among the couplings."""
        return _pair(self.posed, self.couplings)

    @property
    def coupling(self) -> float:
        """Coupling between inside and outside."""
        return self.couplings[self.pair][2]

    @property
    def turned(self) -> bool:
        """Whether the section turns round an axis, so that heat flows are those of a whole body."""
        return self.posed.section.geometry == "axisymmetric"

    @cached_property
    def factors(self) -> Numbers:
        """Temperature factor at every node: 1 at the inside environment, 0 at all others."""
        return self.solution.temperatures(self._shares)

    @cached_property
    def factors_mould(self) -> Numbers:
        """The same with the surface resistance for mould inside."""
        return self.mould.temperatures(self._shares)

    @property
    def _shares(self) -> Numbers:
        made = np.zeros(len(self.posed.temperatures))
        made[self.posed.inside] = 1.0
        return made

    def coldest(self, *, mould: bool) -> SurfacePoint:
        """The place of the inside surface with the lowest factor, which stands as its temperature; frames are left out."""
        inside = self.posed.section.environments[self.posed.inside]
        named = zip(self.posed.section.edges, self.posed.surface_names, strict=True)
        edges = [edge.environment == inside and not (self.posed.ready and name == FRAME_INSIDE) for edge, name in named]
        return coldest(self.solution, self.factors_mould if mould else self.factors, edges)

    def at(self, place: Place, field: Numbers) -> float:
        """Value of a field at a place of the section."""
        found = temperature_at(self.mesh, field, place.x_mm, place.y_mm)
        assert found is not None, place
        return found


def solved(posed: PosedJunction, effort: EffortName) -> JunctionWorking:
    """Solve a junction, on a mesh fine enough for its transmittance too where flanks are given.

    Refuses ``point-outside``, and what the partition and the mesh of its section refuse.
    """
    environments = np.array([float(one) for one in posed.temperatures])
    partition = partition_of(posed.section)
    _refuse_outside(posed.places, partition)
    wanted = _effort(posed, effort, environments, partition)
    points = [_in_ticks(place) for place in posed.places]
    refined = refined_solution(posed.section, environments, wanted, partition=partition, points=points)
    return JunctionWorking(posed, refined, _with_mould(posed, refined.solution))


def _in_ticks(place: Place) -> tuple[float, float]:
    return ticks(place.x_mm), ticks(place.y_mm)


def _refuse_outside(places: Iterable[Place], partition: Partition) -> None:
    for place in places:
        if not partition.holds(*_in_ticks(place)):
            detail = (
                f"point {place.id} at x {place.x_mm:.10g}, y {place.y_mm:.10g} mm lies in no rectangle; move it inside"
            )
            raise refuse("point-outside", place.pointer, detail)


def _effort(posed: PosedJunction, effort: EffortName, environments: Numbers, partition: Partition) -> Effort:
    """The effort asked for; with flanks, one that ends when psi or chi stays, which a rough solution estimates."""
    turned = posed.section.geometry == "axisymmetric"
    sizes = [pi * flank.internal**2 if turned else flank.internal for flank in posed.flanks]
    flat = sum(float(flank.u_value * size) for flank, size in zip(posed.flanks, sizes, strict=True))
    plain, fineness = EFFORTS[effort], _FINENESS[effort]
    if flat <= 0.0 or not posed.paired:
        return plain
    rough = refined_solution(posed.section, environments, EFFORTS["quick"], partition=partition)
    found = couplings(rough.solution)
    whole = found[_pair(posed, found)][2]
    step = max(fineness.chi if turned else fineness.psi, fineness.share * abs(whole - flat))
    return replace(plain, wanted_change=min(plain.wanted_change, step / whole))


def _pair(posed: PosedJunction, found: list[tuple[str, str, float]]) -> int:
    """Position of inside and outside among couplings."""
    sides = {posed.section.environments[posed.inside], posed.section.environments[posed.outside]}
    return next(at for at, (one, other, _) in enumerate(found) if {one, other} == sides)


def _with_mould(posed: PosedJunction, solution: Solution) -> Solution:
    """The same section with the surface resistance for mould wherever the inside environment meets it."""
    inside = posed.section.environments[posed.inside]
    edges = tuple(
        replace(edge, resistance=MOULD_RESISTANCE) if edge.environment == inside else edge
        for edge in posed.section.edges
    )
    return solution_of(replace(posed.section, edges=edges), solution.mesh)
