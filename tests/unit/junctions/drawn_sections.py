"""Sections drawn for tests, in metres: rectangles (left, bottom, right, top, conductivity) and edges (ends, environment, resistance)."""

import numpy as np

from storeyrod.geometry.ticks import ticks
from storeyrod.junctions.conduction import solution_of
from storeyrod.junctions.mesh import halved, mesh_of
from storeyrod.junctions.partition import partition_of
from storeyrod.junctions.section import Patch, Section, edge


def grid(metres):
    return ticks(metres * 1000)


def section(rectangles, edges, *, geometry="plane", later_covers=False):
    patches = tuple(
        Patch(*(grid(value) for value in sides), conductivity, "", f"/junction/rectangles/{index}")
        for index, (*sides, conductivity) in enumerate(rectangles)
    )
    drawn = tuple(
        edge([grid(value) for value in ends], environment, resistance, f"/junction/boundaries/{index}")
        for index, (*ends, environment, resistance) in enumerate(edges)
    )
    names = tuple(dict.fromkeys(one.environment for one in drawn if one.environment))
    return Section(patches, drawn, names, geometry, later_covers, "/junction")


def solutions(drawn, *, finest_share, growth=1.6, halvings=0):
    """Solutions on a mesh and on each mesh that halving its cells gives."""
    mesh = mesh_of(drawn, partition_of(drawn), finest_share=finest_share, growth=growth, coarsest_share=1 / 24)
    found = [solution_of(drawn, mesh)]
    for _ in range(halvings):
        mesh = halved(mesh)
        found.append(solution_of(drawn, mesh))
    return found


def entering(solution, temperatures, environment):
    """Heat into a section from one environment, for temperatures in the order of the section's environments."""
    flows = solution.heat_flows(np.array(temperatures, dtype=float))
    return float(
        sum(flow for flow, one in zip(flows, solution.section.edges, strict=True) if one.environment == environment)
    )


def wall(layers, height=0.3, *, inside=0.13, outside=0.04):
    """A plain wall from inside (left) to outside: (thickness, conductivity) of each layer."""
    rectangles, x = [], 0.0
    for thickness, conductivity in layers:
        rectangles.append((x, 0.0, x + thickness, height, conductivity))
        x += thickness
    return section(
        rectangles,
        [
            (0.0, 0.0, 0.0, height, "in", inside),
            (x, 0.0, x, height, "out", outside),
            (0.0, 0.0, x, 0.0, None, 0.0),
            (0.0, height, x, height, None, 0.0),
        ],
    )


def corner(thickness, leg, conductivity=1.0):
    """A corner of one material between two isothermal faces; legs are measured inside."""
    reach = leg + thickness
    return section(
        [(0, 0, thickness, reach, conductivity), (thickness, 0, reach, thickness, conductivity)],
        [
            (0, 0, 0, reach, "out", 0.0),
            (0, 0, reach, 0, "out", 0.0),
            (thickness, thickness, thickness, reach, "in", 0.0),
            (thickness, thickness, reach, thickness, "in", 0.0),
            (0, reach, thickness, reach, None, 0.0),
            (reach, 0, reach, thickness, None, 0.0),
        ],
    )


def tube(inner, outer, height, conductivity, *, resistance):
    """A tube about the axis, held at the temperature inside and behind a surface resistance outside."""
    return section(
        [(inner, 0, outer, height, conductivity)],
        [
            (inner, 0, inner, height, "in", 0.0),
            (outer, 0, outer, height, "out", resistance),
            (inner, 0, outer, 0, None, 0.0),
            (inner, height, outer, height, None, 0.0),
        ],
        geometry="axisymmetric",
    )
