"""The mesh as a network of conductances: nodes on its lines, links along the sides of cells, surfaces to environments.

A link takes half the width of the cell on each of its sides, with that cell's conductivity. That is what linear elements on
right triangles give, so for given surface temperatures the heat flow of the network is never under the exact one. Nodes lie on
every surface and at every corner of a material: temperatures there are read, not extrapolated.
"""

from dataclasses import dataclass
from math import pi

import numpy as np
from numpy.typing import NDArray

from storeyrod.junctions.mesh import Mesh, Sides
from storeyrod.junctions.section import Section

Indices = NDArray[np.intp]
Values = NDArray[np.float64]


@dataclass(frozen=True)
class Links:
    """Conductances between nodes: W/(m.K) in a plane section, W/K in one that turns round an axis."""

    one: Indices
    other: Indices
    conductance: Values


@dataclass(frozen=True)
class Contacts:
    """Where nodes meet an edge: shares of its surface as conductances, or as areas where the temperature is prescribed."""

    node: Indices
    edge: Indices
    amount: Values


@dataclass(frozen=True)
class Network:
    """Nodes numbered row by row over the whole mesh, of which only those in ``used`` touch any material."""

    used: Indices
    links: Links
    surfaces: Contacts
    prescribed: Contacts


def network_of(section: Section, mesh: Mesh) -> Network:
    """Links and surfaces of a mesh."""
    turned = section.geometry == "axisymmetric"
    links = _links(mesh, turned=turned)
    surfaces, prescribed = _contacts(section, mesh, turned=turned)
    touched = np.zeros(len(mesh.x) * len(mesh.y), dtype=bool)
    touched[links.one] = True
    touched[links.other] = True
    return Network(np.flatnonzero(touched), links, surfaces, prescribed)


def _links(mesh: Mesh, *, turned: bool) -> Links:
    nodes = np.arange(len(mesh.x) * len(mesh.y)).reshape(len(mesh.y), len(mesh.x))
    width, height = np.diff(mesh.x), np.diff(mesh.y)
    middle = (mesh.x[:-1] + mesh.x[1:]) / 2.0
    # across a cell heat flows through the round of its mean radius, up it through the rings on either side of it
    across = mesh.conductivity * (height[:, None] / (2.0 * width)) * (2.0 * pi * middle if turned else 1.0)
    up = mesh.conductivity / height[:, None]
    left = up * (pi * (middle**2 - mesh.x[:-1] ** 2) if turned else width / 2.0)
    right = up * (pi * (mesh.x[1:] ** 2 - middle**2) if turned else width / 2.0)
    level = np.zeros((len(mesh.y), len(width)))
    level[:-1] += across
    level[1:] += across
    upright = np.zeros((len(height), len(mesh.x)))
    upright[:, :-1] += left
    upright[:, 1:] += right
    one = np.concatenate([nodes[:, :-1].ravel(), nodes[:-1].ravel()])
    other = np.concatenate([nodes[:, 1:].ravel(), nodes[1:].ravel()])
    conductance = np.concatenate([level.ravel(), upright.ravel()])
    conducts = conductance > 0.0
    return Links(one[conducts], other[conducts], conductance[conducts])


def _contacts(section: Section, mesh: Mesh, *, turned: bool) -> tuple[Contacts, Contacts]:
    sides = mesh.sides
    columns = len(mesh.x)
    node = np.concatenate([sides.row_from * columns + sides.column_from, sides.row_to * columns + sides.column_to])
    edge = np.tile(sides.edge, 2)
    area = _areas(sides, mesh, turned=turned)
    resistance = np.array([one.resistance for one in section.edges])[edge]
    open_to = np.array([one.environment is not None for one in section.edges])[edge]
    resists = open_to & (resistance > 0.0)
    held = open_to & (resistance == 0.0)
    return (
        Contacts(node[resists], edge[resists], area[resists] / resistance[resists]),
        Contacts(node[held], edge[held], area[held]),
    )


def _areas(sides: Sides, mesh: Mesh, *, turned: bool) -> Values:
    """Area that each node of each side has of it: first ends of all sides, then second ends."""
    x_from, x_to = mesh.x[sides.column_from], mesh.x[sides.column_to]
    length = (x_to - x_from) + (mesh.y[sides.row_to] - mesh.y[sides.row_from])
    if not turned:
        return np.tile(length / 2.0, 2)
    upright = sides.column_from == sides.column_to
    middle = (x_from + x_to) / 2.0
    inner = np.where(upright, pi * x_from * length, pi * (middle**2 - x_from**2))
    outer = np.where(upright, pi * x_from * length, pi * (x_to**2 - middle**2))
    return np.concatenate([inner, outer])
