"""What is no section is refused where it is at fault."""

import pytest

from storeyrod.findings import Refusal
from storeyrod.junctions.partition import partition_of
from unit.junctions.drawn_sections import grid, section

SQUARE = [(0, 0, 1, 1, 1.0)]
ROUND_THE_SQUARE = [
    (0, 0, 1, 0, "out", 0.04),
    (1, 0, 1, 1, None, 0.0),
    (0, 1, 1, 1, "in", 0.13),
    (0, 0, 0, 1, None, 0.0),
]


def refused(rectangles, edges, **members):
    with pytest.raises(Refusal) as caught:
        partition_of(section(rectangles, edges, **members))
    (fault,) = caught.value.faults
    return fault


def test_a_square_with_four_sides_is_a_section():
    partition = partition_of(section(SQUARE, ROUND_THE_SQUARE))

    assert len(partition.sides) == 4


def test_overlapping_rectangles_are_refused_with_the_area_they_share():
    fault = refused([(0, 0, 1, 1, 1.0), (0.75, 0, 2, 1, 0.5)], ROUND_THE_SQUARE)

    assert (fault.code, fault.pointer) == ("rectangles-overlap", "/junction/rectangles/1")
    assert "x 750 to 1000 mm" in fault.detail


def test_the_later_rectangle_counts_where_the_request_says_so():
    partition = partition_of(section([*SQUARE, (0.25, 0.25, 0.5, 0.5, 50.0)], ROUND_THE_SQUARE, later_covers=True))

    assert partition.patch.tolist() == [[0, 0, 0], [0, 1, 0], [0, 0, 0]]


def test_a_hole_is_refused_with_its_place():
    frame = [(0, 0, 1, 0.25, 1.0), (0, 0.75, 1, 1, 1.0), (0, 0.25, 0.25, 0.75, 1.0), (0.75, 0.25, 1, 0.75, 1.0)]

    fault = refused(frame, ROUND_THE_SQUARE)

    assert fault.code == "section-hole"
    assert "x 250 to 750 mm, y 250 to 750 mm" in fault.detail


def test_rectangles_that_meet_in_a_corner_only_are_two_sections():
    fault = refused([(0, 0, 1, 1, 1.0), (1, 1, 2, 2, 1.0)], ROUND_THE_SQUARE)

    assert (fault.code, fault.pointer) == ("section-apart", "/junction/rectangles/1")


def test_a_stretch_of_outline_without_boundary_is_refused_with_its_ends():
    short = [(0, 0, 0.6, 0, "out", 0.04), *ROUND_THE_SQUARE[1:]]

    fault = refused(SQUARE, short)

    assert fault.code == "boundary-missing"
    assert "y 0, x 600 to 1000 mm" in fault.detail


def test_a_stretch_without_boundary_that_lines_cut_is_named_as_a_whole():
    thirds = [(0, at / 3, 1, (at + 1) / 3, 1.0) for at in range(3)]

    assert "x 0, y 0 to 1000 mm;" in refused(thirds, ROUND_THE_SQUARE[:3]).detail


def test_further_stretches_without_boundary_are_counted():
    assert "y 1000, x 0 to 1000 mm, nor for 2 more stretches;" in refused(SQUARE, ROUND_THE_SQUARE[:1]).detail


def test_an_axis_is_crossed_by_the_rectangle_that_lies_beyond_it():
    fault = refused([*SQUARE, (-0.5, 0, 0, 1, 1.0)], ROUND_THE_SQUARE, geometry="axisymmetric")

    assert (fault.code, fault.pointer) == ("axis-crossed", "/junction/rectangles/1")


@pytest.mark.parametrize("resistance", [0.0, 0.13])
def test_no_environment_lies_on_an_axis(resistance):
    fault = refused(SQUARE, [*ROUND_THE_SQUARE[:3], (0, 0, 0, 1, "in", resistance)], geometry="axisymmetric")

    assert (fault.code, fault.pointer) == ("axis-open", "/junction/boundaries/3")


def test_an_axis_may_be_adiabatic_or_left_out():
    with_axis, without = (
        partition_of(section(SQUARE, edges, geometry="axisymmetric"))
        for edges in (ROUND_THE_SQUARE, ROUND_THE_SQUARE[:3])
    )

    assert len(with_axis.sides) == len(without.sides) + 1


def test_a_point_on_the_outline_is_held_and_one_beyond_it_is_not():
    ell = partition_of(
        section(
            [(0, 0, 1, 1, 1.0), (1, 0, 2, 0.5, 1.0)],
            [
                (0, 0, 2, 0, "in", 0.1),
                (2, 0, 2, 0.5, None, 0.0),
                (1, 0.5, 2, 0.5, "out", 0.1),
                (1, 0.5, 1, 1, "out", 0.1),
                (0, 1, 1, 1, None, 0.0),
                (0, 0, 0, 1, None, 0.0),
            ],
        )
    )

    held = [(0, 0), (1, 1), (2, 0.5), (1.5, 0.5), (0.3, 0.7)]
    off = [(1.5, 0.6), (2, 0.6), (-0.1, 0), (2.1, 0.2), (0.5, 1.1)]
    assert all(ell.holds(grid(x), grid(y)) for x, y in held)
    assert not any(ell.holds(grid(x), grid(y)) for x, y in off)


def test_two_boundaries_on_one_stretch_are_refused():
    fault = refused(SQUARE, [*ROUND_THE_SQUARE, (0.2, 1, 0.4, 1, None, 0.0)])

    assert (fault.code, fault.pointer) == ("boundary-twice", "/junction/boundaries/4")


@pytest.mark.parametrize(
    "ends",
    [(0, 0.5, 1, 0.5), (0, 1, 1.5, 1), (0, 0, 1, 1), (0, 2, 1, 2)],
    ids=["inside", "past the end", "slanted", "outside"],
)
def test_a_boundary_off_the_outline_is_refused(ends):
    fault = refused(SQUARE, [*ROUND_THE_SQUARE[:2], (*ends, "in", 0.13), ROUND_THE_SQUARE[3]])

    assert (fault.code, fault.pointer) == ("boundary-off-outline", "/junction/boundaries/2")


def test_an_axis_needs_no_boundary():
    partition = partition_of(section(SQUARE, ROUND_THE_SQUARE[:3], geometry="axisymmetric"))

    assert len(partition.sides) == 3


def test_a_section_across_its_axis_is_refused():
    assert refused([(-0.5, 0, 1, 1, 1.0)], [], geometry="axisymmetric").code == "axis-crossed"
