"""The solver against closed solutions and the validation cases of ISO 10211."""

import itertools
from math import exp, log, log2, pi, sin

import numpy as np
import pytest

from storeyrod.junctions import conduction
from storeyrod.junctions.coupling import couplings
from storeyrod.junctions.readings import coldest, temperature_at
from unit.junctions.drawn_sections import corner, entering, section, solutions, tube, wall

CASE_1 = [
    (9.7, 13.4, 14.7, 15.1), (5.3, 8.6, 10.3, 10.8), (3.2, 5.6, 7.0, 7.5), (2.0, 3.6, 4.7, 5.0),
    (1.3, 2.3, 3.0, 3.2), (0.7, 1.4, 1.8, 1.9), (0.3, 0.6, 0.8, 0.9),
]  # fmt: skip
"""ISO 10211, validation case 1, from memory: rows from seven eighths of the height down, columns from the cold side to the axis."""

CASE_2 = {
    "A": (0, 47.5, 7.1), "B": (500, 47.5, 0.8), "C": (0, 41.5, 7.9), "D": (15, 41.5, 6.3), "E": (500, 41.5, 0.8),
    "F": (0, 36.5, 16.4), "G": (15, 36.5, 16.3), "H": (0, 0, 16.8), "I": (500, 0, 18.3),
}  # fmt: skip
"""ISO 10211, validation case 2, as a general finite-element library publishes it: x and y in mm, temperature in degrees."""


def half_column(width=0.4):
    height = 2 * width
    return section(
        [(0, 0, width, height, 1.0)],
        [
            (0, 0, 0, height, "cold", 0.0),
            (0, 0, width, 0, "cold", 0.0),
            (0, height, width, height, "warm", 0.0),
            (width, 0, width, height, None, 0.0),
        ],
    )


def composite():
    rectangles = [
        (0, 41.5, 500, 47.5, 1.15), (0, 36.5, 15, 41.5, 0.12), (15, 36.5, 500, 41.5, 0.029), (0, 0, 500, 1.5, 230),
        (0, 1.5, 1.5, 36.5, 230), (1.5, 35, 15, 36.5, 230), (1.5, 1.5, 15, 35, 0.029), (15, 1.5, 500, 36.5, 0.029),
    ]  # fmt: skip
    metres = [(*(side / 1000 for side in sides), conductivity) for *sides, conductivity in rectangles]
    return section(
        metres,
        [
            (0, 0.0475, 0.5, 0.0475, "cold", 0.06),
            (0, 0, 0.5, 0, "warm", 0.11),
            (0, 0, 0, 0.0475, None, 0.0),
            (0.5, 0, 0.5, 0.0475, None, 0.0),
        ],
    )


def series(x, y, side):
    """Temperature in a square with one side at 20 and three at 0, by its Fourier series."""
    return 20 * sum(
        4
        / (n * pi)
        * sin(n * pi * x / side)
        * (exp(n * pi * (y / side - 1)) - exp(-n * pi * (y / side + 1)))
        / (1 - exp(-2 * n * pi))
        for n in range(1, 400, 2)
    )


@pytest.fixture(scope="module")
def column():
    solution = solutions(half_column(), finest_share=0.001, halvings=2)[-1]
    return solution, solution.temperatures(np.array([0.0, 20.0]))


@pytest.mark.parametrize("row", range(7))
@pytest.mark.parametrize("along", range(4))
def test_validation_case_1_is_within_a_tenth_of_a_kelvin_of_every_published_temperature(column, row, along):
    solution, field = column
    x, y = 100.0 * (along + 1), 800.0 * (7 - row) / 8

    assert temperature_at(solution.mesh, field, x, y) == pytest.approx(CASE_1[row][along], abs=0.1)


def test_validation_case_1_follows_its_series_to_a_hundredth_of_a_kelvin(column):
    solution, field = column
    places = [(x, y) for x in (100, 200, 300, 400) for y in range(100, 800, 100)]

    worst = max(abs(temperature_at(solution.mesh, field, x, y) - series(x / 1000, y / 1000, 0.8)) for x, y in places)

    assert worst < 0.01


@pytest.fixture(scope="module")
def composed():
    return solutions(composite(), finest_share=0.001, halvings=1)[-1]


@pytest.mark.parametrize("point", CASE_2)
def test_validation_case_2_is_within_a_tenth_of_a_kelvin_of_every_published_temperature(composed, point):
    x, y, published = CASE_2[point]

    assert temperature_at(composed.mesh, composed.temperatures(np.array([0.0, 20.0])), x, y) == pytest.approx(
        published, abs=0.1
    )


def test_validation_case_2_has_the_published_heat_flow_within_a_tenth_of_a_watt_per_metre(composed):
    assert entering(composed, (0, 20), "warm") == pytest.approx(9.5, abs=0.1)


def test_a_corner_of_one_material_adds_one_less_two_over_pi_times_log_two_to_its_inner_lengths():
    # closed solution by conformal mapping; handbooks of heat transfer print 0.54 to 0.56
    coarse, fine = (
        entering(solution, (0, 1), "in") - 2 * 1.5 / 0.3
        for solution in solutions(corner(0.3, 1.5), finest_share=1 / 1000, halvings=1)
    )

    assert fine == pytest.approx(1 - 2 / pi * log(2), abs=0.002)
    assert abs(fine - (1 - 2 / pi * log(2))) < abs(coarse - (1 - 2 / pi * log(2)))


@pytest.mark.parametrize("finest_share", [1.0, 0.1, 0.01])
def test_a_plain_wall_is_exact_on_any_mesh(finest_share):
    layers = [(0.215, 0.77), (0.1, 0.031), (0.025, 0.9)]
    total = 0.13 + sum(thickness / conductivity for thickness, conductivity in layers) + 0.04

    (solution,) = solutions(wall(layers), finest_share=finest_share)

    assert entering(solution, (20, 0), "in") == pytest.approx(20 / total * 0.3, rel=1e-9)
    inside = [one.environment == "in" for one in solution.section.edges]
    assert coldest(solution, solution.temperatures(np.array([20.0, 0.0])), inside).temperature == pytest.approx(
        20 - 0.13 / total * 20
    )


def test_a_tube_follows_the_logarithm_of_its_radii():
    solution = solutions(tube(0.01, 0.05, 0.1, 0.5, resistance=0.04), finest_share=0.002, halvings=2)[-1]
    resistance = log(5) / (2 * pi * 0.5 * 0.1) + 0.04 / (2 * pi * 0.05 * 0.1)

    assert entering(solution, (1, 0), "in") == pytest.approx(1 / resistance, rel=2e-4)


def test_a_disc_along_its_axis_is_a_plain_wall():
    disc = section(
        [(0, 0, 0.2, 0.1, 0.04), (0, 0.1, 0.2, 0.3, 0.8)],
        [(0, 0, 0.2, 0, "out", 0.04), (0, 0.3, 0.2, 0.3, "in", 0.13), (0.2, 0, 0.2, 0.3, None, 0.0)],
        geometry="axisymmetric",
    )

    (solution,) = solutions(disc, finest_share=0.05)

    assert entering(solution, (0, 1), "in") == pytest.approx(pi * 0.2**2 / (0.04 + 0.1 / 0.04 + 0.2 / 0.8 + 0.13))


def order_of_convergence(errors):
    return [log2(before / after) for before, after in itertools.pairwise(errors)]


def test_heat_through_a_tube_converges_with_the_square_of_the_mesh():
    exact = 2 * pi * 0.5 * 0.1 / log(5)
    drawn = tube(0.01, 0.05, 0.1, 0.5, resistance=0.0)

    errors = [
        entering(one, (1, 0), "in") - exact for one in solutions(drawn, finest_share=0.04, growth=1.0001, halvings=4)
    ]

    assert order_of_convergence(errors)[1:] == pytest.approx([2, 2, 2], abs=0.05)


def test_heat_round_a_corner_converges_by_the_power_four_thirds_of_its_singularity():
    # the gradient at an inward corner of 270 degrees goes with r**(-1/3); the energy error of linear elements with h**(4/3)
    exact = 2 * 1.0 / 0.3 + 1 - 2 / pi * log(2)
    drawn = corner(0.3, 1.0)

    errors = [
        entering(one, (0, 1), "in") - exact for one in solutions(drawn, finest_share=0.02, growth=1.0001, halvings=3)
    ]

    assert order_of_convergence(errors)[1:] == pytest.approx([4 / 3, 4 / 3], abs=0.1)


def test_both_factors_give_one_field(monkeypatch):
    drawn = composite()
    (banded,) = solutions(drawn, finest_share=0.01)
    monkeypatch.setattr(conduction, "_MOST_BANDED", 0)
    (sparse,) = solutions(drawn, finest_share=0.01)

    assert np.allclose(banded.unit, sparse.unit, rtol=0, atol=1e-9, equal_nan=True)


def test_equal_temperatures_move_no_heat(composed):
    assert composed.heat_flows(np.array([7.0, 7.0])) == pytest.approx(0.0, abs=1e-9)


def three_rooms():
    """A party wall that meets a façade: one outside, two rooms, each side named by what it faces."""
    return section(
        [(0, 0, 2.2, 0.3, 0.5), (1, 0.3, 1.2, 1.3, 0.8)],
        [
            (0, 0, 2.2, 0, "out", 0.04),
            (0, 0, 0, 0.3, None, 0.0),
            (2.2, 0, 2.2, 0.3, None, 0.0),
            (0, 0.3, 1, 0.3, "left", 0.13),
            (1, 0.3, 1, 1.3, "left", 0.13),
            (1, 1.3, 1.2, 1.3, None, 0.0),
            (1.2, 0.3, 1.2, 1.3, "right", 0.13),
            (1.2, 0.3, 2.2, 0.3, "right", 0.13),
        ],
    )


def test_couplings_of_three_environments_add_up_to_every_heat_flow():
    (solution,) = solutions(three_rooms(), finest_share=0.01)
    by_pair = {frozenset((one, other)): value for one, other, value in couplings(solution)}
    temperatures = {"out": -5.0, "left": 20.0, "right": 16.0}

    for name, temperature in temperatures.items():
        expected = sum(
            by_pair[frozenset((name, other))] * (temperature - there)
            for other, there in temperatures.items()
            if other != name
        )
        assert entering(solution, list(temperatures.values()), name) == pytest.approx(expected, rel=1e-9)


def test_heat_that_enters_leaves_again(composed):
    flows = composed.heat_flows(np.array([0.0, 20.0]))

    assert abs(flows.sum()) < 1e-4 * abs(flows).sum() / 2  # balance asked for by ISO 10211, from memory


def test_a_point_on_a_surface_is_read_at_the_surface(composed):
    field = composed.temperatures(np.array([0.0, 20.0]))

    assert temperature_at(composed.mesh, field, 0, 47.5) == field[-1, 0]


def test_a_point_outside_every_material_has_no_temperature():
    (solution,) = solutions(corner(0.3, 1.0), finest_share=0.01)
    field = solution.temperatures(np.array([0.0, 20.0]))

    assert temperature_at(solution.mesh, field, 900, 900) is None
    assert temperature_at(solution.mesh, field, 300, 300) == pytest.approx(20.0)
