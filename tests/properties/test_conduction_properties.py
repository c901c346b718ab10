"""Conduction on random sections: laws of physics, and a finite-element library as a second opinion."""

import numpy as np
import pytest
import skfem
from hypothesis import given, settings
from hypothesis import strategies as st
from skfem.helpers import dot, grad

from unit.junctions.drawn_sections import entering, section, solutions

STEPS = (0.05, 0.1, 0.02, 0.08)
CONDUCTIVITIES = (0.02, 0.035, 0.13, 0.5, 1.0, 2.3, 50.0)


@st.composite
def details(draw):
    """A block of four by three tiles of random materials: outside below, inside above, surfaces that may differ."""
    conductivities = draw(st.lists(st.sampled_from(CONDUCTIVITIES), min_size=12, max_size=12))
    xs, ys = np.cumsum((0.0, *STEPS)), np.cumsum((0.0, *STEPS[:3]))
    tiles = [
        (xs[column], ys[row], xs[column + 1], ys[row + 1], conductivities[4 * row + column])
        for row in range(3)
        for column in range(4)
    ]
    outside, inside = draw(st.sampled_from([0.04, 0.13])), draw(st.sampled_from([0.1, 0.13, 0.25]))
    width, height = xs[-1], ys[-1]
    edges = [
        (0, 0, width, 0, "out", outside),
        (0, height, width, height, "in", inside),
        (0, 0, 0, height, None, 0.0),
        (width, 0, width, height, None, 0.0),
    ]
    return tiles, edges


def coupling_by_elements(tiles, edges, solution):
    """The same section by bilinear elements of a general library, on the same lines."""
    mesh = skfem.MeshQuad.init_tensor(solution.mesh.x, solution.mesh.y)
    element = skfem.ElementQuad1()
    basis = skfem.Basis(mesh, element)
    middle = basis.interpolate(basis.project(lambda x: x[0])), basis.interpolate(basis.project(lambda x: x[1]))
    conductivity = np.zeros_like(np.asarray(middle[0]))
    for left, bottom, right, top, value in tiles:
        conductivity[(middle[0] > left) & (middle[0] < right) & (middle[1] > bottom) & (middle[1] < top)] = value
    stiffness = skfem.BilinearForm(lambda u, v, w: w.k * dot(grad(u), grad(v))).assemble(basis, k=conductivity)
    height = mesh.p[1].max()
    load = np.zeros(basis.N)
    for level, edge in ((0.0, edges[0]), (height, edges[1])):
        surface = skfem.FacetBasis(
            mesh, element, facets=mesh.facets_satisfying(lambda x, at=level: np.isclose(x[1], at))
        )
        stiffness = stiffness + skfem.BilinearForm(lambda u, v, w, r=edge[5]: u * v / r).assemble(surface)
        if edge[4] == "in":
            load += skfem.LinearForm(lambda v, w, r=edge[5]: v / r).assemble(surface)
            inside = surface
    temperature = skfem.solve(stiffness, load)
    return skfem.Functional(lambda w, r=edges[1][5]: (1.0 - w.t) / r).assemble(
        inside, t=inside.interpolate(temperature)
    )


@settings(max_examples=10, deadline=None)
@given(details())
def test_finite_elements_find_the_same_heat(detail):
    tiles, edges = detail
    solution = solutions(section(tiles, edges), finest_share=0.01, halvings=1)[-1]

    assert entering(solution, (0, 1), "in") == pytest.approx(coupling_by_elements(tiles, edges, solution), rel=0.01)


@settings(max_examples=20, deadline=None)
@given(details(), st.floats(-20, 10), st.floats(15, 30))
def test_no_place_is_warmer_or_colder_than_both_environments(detail, cold, warm):
    (solution,) = solutions(section(*detail), finest_share=0.02)

    field = solution.temperatures(np.array([cold, warm]))

    assert cold - 1e-9 <= field.min() <= field.max() <= warm + 1e-9


@settings(max_examples=20, deadline=None)
@given(details(), st.floats(1.05, 4.0), st.integers(0, 11))
def test_a_better_conductor_anywhere_never_lets_less_heat_through(detail, factor, at):
    tiles, edges = detail
    better = [(*tile[:4], tile[4] * factor) if index == at else tile for index, tile in enumerate(tiles)]

    before, after = (
        entering(solutions(section(one, edges), finest_share=0.02)[0], (0, 1), "in") for one in (tiles, better)
    )

    assert after >= before * (1 - 1e-9)


@settings(max_examples=20, deadline=None)
@given(details())
def test_a_mirrored_section_lets_the_same_heat_through(detail):
    tiles, edges = detail
    width = edges[0][2]
    mirrored = [(width - right, bottom, width - left, top, k) for left, bottom, right, top, k in tiles]

    here, there = (
        entering(solutions(section(one, edges), finest_share=0.02)[0], (0, 1), "in") for one in (tiles, mirrored)
    )

    assert there == pytest.approx(here, rel=1e-9)


@settings(max_examples=20, deadline=None)
@given(details())
def test_heat_lies_between_straight_through_and_planes_of_one_temperature(detail):
    # the limits of ISO 6946: adiabatic planes along the flow from below, isothermal planes across it from above
    tiles, edges = detail
    (solution,) = solutions(section(tiles, edges), finest_share=0.01)
    columns, rows = STEPS, STEPS[:3]
    resistances = np.array([[rows[row] / tiles[4 * row + column][4] for column in range(4)] for row in range(3)])
    surfaces = edges[0][5] + edges[1][5]
    straight = sum(width / (surfaces + resistances[:, at].sum()) for at, width in enumerate(columns))
    planes = sum(columns) / (
        surfaces + sum(sum(columns) / (np.array(columns) / resistances[row]).sum() for row in range(3))
    )

    assert straight * (1 - 1e-9) <= entering(solution, (0, 1), "in") <= planes * (1 + 1e-9)
