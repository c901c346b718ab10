"""A junction as it goes to the solver: its section, temperatures, and the flanks that are taken off."""

from dataclasses import dataclass, field

from storeyrod.answer import Assumption
from storeyrod.findings import Finding
from storeyrod.junctions.section import Section

INSIDE = "inside"
OUTSIDE = "outside"
"""Environments of a ready detail."""

FRAME_INSIDE = "frame, inside"
"""Surface of a frame that faces the room: its temperature factor is not that of the wall."""


@dataclass(frozen=True, slots=True)
class Flank:
    """A plane element next to the junction: U-value in W/(m2.K) and lengths in m, linked to where they come from.

    In an axisymmetric section both lengths are the radius of the disc.
    """

    name: str
    u_value: float
    internal: float
    external: float


@dataclass(frozen=True, slots=True)
class Place:
    """A point whose temperature is wanted, in mm; ``asked`` by the request rather than named by a detail."""

    id: str
    x_mm: float
    y_mm: float
    pointer: str
    asked: bool = False


@dataclass(frozen=True, slots=True)
class PosedCase:
    """Further temperatures in °C, by environment in the order of the section."""

    id: str
    temperatures: tuple[float, ...]


@dataclass(frozen=True)
class PosedJunction:
    """Everything that is asked of one section.

    ``surface_names`` name the edges of the section in its order; ``temperatures`` are those of its environments, of which ``inside``
    and ``outside`` are the positions of two. ``count_per_m2`` is that of the fasteners, each with a disc of wall of its own, where
    the request gave it. ``paired``: a transmittance lies between these two, because there are no others or the request says so.
    ``ready``: a detail drew the section.
    """

    section: Section
    surface_names: tuple[str, ...]
    temperatures: tuple[float, ...]
    inside: int
    outside: int
    flanks: tuple[Flank, ...] = ()
    places: tuple[Place, ...] = ()
    cases: tuple[PosedCase, ...] = ()
    count_per_m2: float | None = None
    paired: bool = True
    ready: bool = False
    findings: list[Finding] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)
