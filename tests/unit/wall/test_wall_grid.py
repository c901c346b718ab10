"""The nominal grid against brick dimension tables (UK metric brick, joint 10 mm)."""

import pytest

from storeyrod.wall.grid import (
    build_up_of,
    corner_return_of,
    corner_stretcher_of,
    course_pitch_of,
    finished_length,
    header_of,
    module_of,
    opening_size,
    pier_size,
)
from unit.wall.survey import system


def test_the_grid_of_the_metric_brick() -> None:
    # Co-ordinating size 225 x 112.5 x 75 of a 215 x 102.5 x 65 brick: brick dimension tables.
    brick = system()
    assert (module_of(brick), header_of(brick), course_pitch_of(brick)) == (225, 102.5, 75)


# Brick dimension tables: openings between units CO+ and piers CO-, by number of whole or half bricks.
@pytest.mark.parametrize(
    ("bricks", "opening", "pier"), [(1, 235, 215), (1.5, 347.5, 327.5), (4, 910, 890), (11, 2485, 2465)]
)
def test_openings_and_piers_of_whole_and_half_bricks(bricks: float, opening: float, pier: float) -> None:
    assert opening_size(n=bricks, m=225.0, j=10.0) == opening
    assert pier_size(n=bricks, m=225.0, j=10.0) == pier


def test_the_build_up_is_board_adhesive_and_slip() -> None:
    assert build_up_of(system()) == 123


def test_the_finished_length_grows_outside_and_shrinks_inside() -> None:
    assert finished_length(L_substrate=4800.0, n_external=2.0, n_internal=0.0, t=123.0) == 5046
    assert finished_length(L_substrate=4800.0, n_external=0.0, n_internal=2.0, t=123.0) == 4554


def test_a_corner_slip_without_sizes_is_a_stretcher_and_a_header() -> None:
    assert (corner_stretcher_of(system()), corner_return_of(system())) == (215, 102.5)
    given = system(corner_slip={"stretcher_mm": 240, "return_mm": 115})
    assert (corner_stretcher_of(given), corner_return_of(given)) == (240, 115)
