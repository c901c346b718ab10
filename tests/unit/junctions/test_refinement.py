"""The series of meshes: it ends where doubling no longer changes the heat flow, and says how it ended."""

import numpy as np
import pytest

from storeyrod.findings import Refusal
from storeyrod.junctions.mesh import halved, mesh_of
from storeyrod.junctions.partition import partition_of
from storeyrod.junctions.refinement import EFFORTS, GREATEST_CHANGE, Effort, refined_solution
from unit.junctions.drawn_sections import corner, grid, section

COLD_AND_WARM = np.array([0.0, 20.0])


@pytest.mark.parametrize("effort", EFFORTS)
def test_a_corner_ends_within_the_wanted_change(effort):
    refined = refined_solution(corner(0.3, 1.0), COLD_AND_WARM, EFFORTS[effort])

    assert refined.converged
    assert refined.change <= EFFORTS[effort].wanted_change <= GREATEST_CHANGE


def test_each_level_doubles_the_subdivisions_of_the_one_before():
    refined = refined_solution(corner(0.3, 1.0), COLD_AND_WARM, Effort(1 / 50, 3.0, 0.25, 0.001, 200_000))
    lines = [len(refined.solution.mesh.x)]
    while len(lines) < len(refined.levels):
        lines.append((lines[-1] + 1) // 2)

    assert len(refined.levels) > 2
    assert [level.nodes_count for level in refined.levels] == [count**2 for count in reversed(lines)]


def test_heat_never_grows_from_a_mesh_to_a_finer_one():
    # linear elements give at least the exact heat flow between surfaces, and more elements no more than fewer
    refined = refined_solution(corner(0.3, 1.0), COLD_AND_WARM, Effort(1 / 50, 3.0, 0.25, 0.001, 200_000))
    flows = [level.heat_flow for level in refined.levels]

    assert flows == sorted(flows, reverse=True)


def test_a_limit_of_nodes_ends_the_series_and_says_that_the_criterion_does_not_hold():
    refined = refined_solution(corner(0.3, 1.0), COLD_AND_WARM, Effort(1 / 4, 4.0, 1.0, 0.0, 400))

    assert not refined.converged
    assert refined.change > GREATEST_CHANGE


def test_two_prescribed_temperatures_that_meet_have_no_limit():
    drawn = section(
        [(0, 0, 1, 1, 1.0)],
        [(0, 0, 1, 0, "cold", 0.0), (1, 0, 1, 1, "warm", 0.0), (0, 1, 1, 1, None, 0.0), (0, 0, 0, 1, None, 0.0)],
    )

    assert not refined_solution(drawn, COLD_AND_WARM, EFFORTS["quick"]).bounded


def test_more_lines_than_the_limit_are_refused_with_both_numbers():
    tiles = [(column, row, column + 1, row + 1, 1.0) for row in range(30) for column in range(30)]
    drawn = section(
        tiles,
        [(0, 0, 30, 0, "out", 0.04), (0, 30, 30, 30, "in", 0.13), (0, 0, 0, 30, None, 0.0), (30, 0, 30, 30, None, 0.0)],
    )

    with pytest.raises(Refusal, match="cross 961 times and may cross 500 times"):
        refined_solution(drawn, COLD_AND_WARM, Effort(1 / 250, 2.0, 1.0, GREATEST_CHANGE, 2000))


def test_lines_run_through_the_points_asked_for():
    drawn = corner(0.3, 1.0)
    points = [(grid(0.1234), grid(0.9876)), (grid(0.7001), grid(0.0503))]

    refined = refined_solution(drawn, COLD_AND_WARM, EFFORTS["quick"], points=points)

    for at, lines in enumerate((refined.solution.mesh.x, refined.solution.mesh.y)):
        assert {points[0][at], points[1][at]} <= {grid(line) for line in lines.tolist()}


def test_points_without_number_leave_the_mesh_as_large_as_it_was():
    drawn = corner(0.3, 1.0)
    points = [(grid(0.3 + 0.00417 * at), grid(0.2)) for at in range(200)]
    plain, crowded = (
        refined_solution(drawn, COLD_AND_WARM, EFFORTS["quick"], points=some).levels[0].nodes_count
        for some in ((), points)
    )

    assert crowded <= 1.2 * plain


def test_between_three_environments_the_coupling_that_changes_most_counts():
    # a sum of heat flows hides it where one coupling falls as the mesh gets finer and another one does not
    drawn = section(
        [(0, 0, 1, 1, 1.0)],
        [(0, 0, 1, 0, "cold", 0.04), (0, 1, 1, 1, "warm", 0.04), (0, 0, 0, 1, "side", 0.13), (1, 0, 1, 1, None, 0.0)],
    )

    refined = refined_solution(drawn, np.array([0.0, 20.0, 10.0]), Effort(1 / 8, 3.0, 0.5, 0.01, 40_000))
    before, after = refined.levels[-2:]
    changes = [abs(one - other) / other for one, other in zip(before.couplings, after.couplings, strict=True)]

    assert refined.change == pytest.approx(max(changes))
    assert refined.change > abs(after.heat_flow - before.heat_flow) / after.heat_flow


def test_lines_stand_on_every_side_of_every_rectangle():
    drawn = section([(0, 0, 0.3, 1, 1.0), (0.3, 0, 0.7, 1, 0.5)], [(0, 0, 0, 1, "out", 0.04), (0.7, 0, 0.7, 1, "in", 0.13),
                    (0, 0, 0.7, 0, None, 0.0), (0, 1, 0.7, 1, None, 0.0)])  # fmt: skip

    mesh = halved(mesh_of(drawn, partition_of(drawn), finest_share=0.01, growth=1.5))

    assert {0.0, 0.3, 0.7} <= {round(x, 12) for x in mesh.x.tolist()}
    assert np.ptp(np.log(np.diff(mesh.x))) > 1.0  # graded: the widest cell is several times the narrowest
    assert np.unique(mesh.conductivity[:, mesh.x[1:] <= 0.3 + 1e-12]).tolist() == [1.0]
