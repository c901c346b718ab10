"""A section through a junction: rectangles of material, and what bounds them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Geometry = Literal["plane", "axisymmetric"]
"""A section of unit depth, or one that turns round the line x = 0."""


@dataclass(frozen=True, slots=True)
class Patch:
    """A rectangle of one material: sides in whole ticks, conductivity in W/(m.K)."""

    left: float
    bottom: float
    right: float
    top: float
    conductivity: float
    name: str
    pointer: str


@dataclass(frozen=True, slots=True)
class Edge:
    """An upright or level stretch of the outline, in whole ticks from its lower left end.

    ``environment`` absent: no heat passes. ``resistance`` in m2.K/W; nought holds the surface at the temperature itself.
    """

    x_from: float
    y_from: float
    x_to: float
    y_to: float
    environment: str | None
    resistance: float
    pointer: str

    @property
    def upright(self) -> bool:
        """Whether the stretch runs up; it runs level otherwise."""
        return self.x_from == self.x_to


@dataclass(frozen=True, slots=True)
class Section:
    """Everything that steady conduction in two dimensions needs, but for temperatures.

    ``environments`` are names in the order of first mention. ``later_covers``: where rectangles overlap the later one counts.
    """

    patches: tuple[Patch, ...]
    edges: tuple[Edge, ...]
    environments: tuple[str, ...]
    geometry: Geometry
    later_covers: bool
    pointer: str


def edge(ends: Sequence[float], environment: str | None, resistance: float, pointer: str) -> Edge:
    """An edge between two ends ``x, y, x, y`` in ticks, given in either order."""
    x_1, y_1, x_2, y_2 = ends
    return Edge(min(x_1, x_2), min(y_1, y_2), max(x_1, x_2), max(y_1, y_2), environment, resistance, pointer)
