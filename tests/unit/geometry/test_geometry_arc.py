"""Circular arches: radius and area against the exact circle, the polygon against both."""

import math
from itertools import pairwise

import mpmath
import pytest

from storeyrod.geometry.arc import (
    CHORD_ERROR,
    Circle,
    arc_length,
    arc_of,
    arc_radius,
    arc_vertices,
    concentric_length,
    ring_area,
    sector,
    segment_area,
)
from storeyrod.geometry.plane import is_simple, signed_area
from storeyrod.geometry.ticks import TICKS_PER_MM, square_metres

SHAPES = [
    (685.0, 342.5),
    (1000.0, 100.0),
    (900.0, 1.0),
    (50_000.0, 1.0),
    (50_000.0, 25_000.0),
    (10.0, 5.0),
    (10.0, 1.0),
]
"""Width and rise in mm: semicircles, segments, and the flattest that a request may hold."""


def exact_segment(width: float, rise: float) -> mpmath.mpf:
    """Segment area with fifty digits: r2 acos((r - h)/r) - (r - h) sqrt(2rh - h2)."""
    with mpmath.workdps(50):
        w, h = mpmath.mpf(width), mpmath.mpf(rise)
        r = (w**2 / 4 + h**2) / (2 * h)
        return r**2 * mpmath.acos((r - h) / r) - (r - h) * mpmath.sqrt(2 * r * h - h**2)


def test_a_semicircle_has_half_its_width_as_radius() -> None:
    assert arc_radius(w=685.0, h=342.5) == 342.5


def test_chord_24_and_rise_8_have_radius_13() -> None:
    # Pythagorean triple 5, 12, 13: half chord 12, distance of the chord from the centre 5.
    assert arc_radius(w=24.0, h=8.0) == 13.0


def test_a_semicircle_has_half_the_area_of_its_circle() -> None:
    assert segment_area(R=2.0, h=2.0) == pytest.approx(math.pi * 2.0, rel=1e-15)


@pytest.mark.parametrize(("width", "rise"), SHAPES)
def test_the_segment_area_equals_the_circle(width: float, rise: float) -> None:
    area = segment_area(R=arc_radius(w=width, h=rise), h=rise)
    assert area == pytest.approx(float(exact_segment(width, rise)), rel=1e-7)


def polygon(width: float, rise: float) -> list[tuple[float, float]]:
    return arc_vertices(300.0, 700.0, width * TICKS_PER_MM, rise * TICKS_PER_MM)


@pytest.mark.parametrize(("width", "rise"), SHAPES)
def test_the_polygon_has_the_area_of_the_segment(width: float, rise: float) -> None:
    difference = square_metres(signed_area(polygon(width, rise))) - float(exact_segment(width, rise)) * 1e-6
    assert abs(difference) < 1e-8


@pytest.mark.parametrize(("width", "rise"), SHAPES)
def test_the_polygon_stays_within_the_chord_error_of_the_arc(width: float, rise: float) -> None:
    radius = arc_radius(w=width, h=rise) * TICKS_PER_MM
    centre = (300.0 + width * TICKS_PER_MM / 2, 700.0 + rise * TICKS_PER_MM - radius)
    vertices = polygon(width, rise)
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(vertices)]
    tolerance = CHORD_ERROR + 1e-12 * radius
    assert all(abs(math.dist(centre, point) - radius) <= tolerance for point in [*vertices, *middles])


@pytest.mark.parametrize(("width", "rise"), SHAPES)
def test_the_polygon_runs_from_springing_to_springing_and_is_symmetrical(width: float, rise: float) -> None:
    vertices = polygon(width, rise)
    right = 300.0 + width * TICKS_PER_MM
    assert (vertices[0], vertices[-1]) == ((right, 700.0), (300.0, 700.0))
    mirrored = [(300.0 + right - x, y) for x, y in reversed(vertices)]
    assert max(math.dist(one, other) for one, other in zip(vertices, mirrored, strict=True)) <= 0.01
    assert is_simple(vertices)


def exact_half_angle(width: float, rise: float) -> mpmath.mpf:
    """Half the angle of an arc, by the tangent of a quarter of it: 2 atan(2h/w)."""
    with mpmath.workdps(50):
        return 2 * mpmath.atan(2 * mpmath.mpf(rise) / mpmath.mpf(width))


def test_a_semicircle_is_pi_radii_long() -> None:
    assert arc_length(R=342.5, h=342.5) == pytest.approx(math.pi * 342.5, rel=1e-15)


@pytest.mark.parametrize(("width", "rise"), SHAPES)
def test_the_length_of_an_arc_is_radius_by_angle(width: float, rise: float) -> None:
    radius = arc_radius(w=width, h=rise)
    assert arc_length(R=radius, h=rise) == pytest.approx(float(2 * radius * exact_half_angle(width, rise)), rel=1e-9)


def test_an_arc_grows_with_its_radius() -> None:
    assert concentric_length(s=100.0, r=3.0, R=2.0) == 150.0


def test_a_ring_is_the_difference_of_two_sectors() -> None:
    """Half a ring between radii 3 and 5: pi/2 x (25 - 9)."""
    assert ring_area(s=math.pi * 3, d=2.0, R=3.0) == pytest.approx(math.pi * 8, rel=1e-15)


@pytest.mark.parametrize(("width", "rise"), SHAPES)
def test_the_polygon_of_a_ring_has_its_area_and_keeps_the_inner_vertices(width: float, rise: float) -> None:
    size = width * TICKS_PER_MM, rise * TICKS_PER_MM
    arc, inner = arc_of(300.0, 700.0, *size), arc_vertices(300.0, 700.0, *size)
    depth = 112.5 * TICKS_PER_MM
    made = sector(inner, arc.vertices(arc.radius + depth))
    exact = float(2 * exact_half_angle(width, rise)) * depth * (arc.radius + depth / 2)
    assert square_metres(signed_area(made)) == pytest.approx(square_metres(exact), rel=1e-8)
    assert set(inner) <= set(made)
    assert is_simple(made)


def test_the_ends_of_a_ring_on_a_semicircle_are_level() -> None:
    arc = arc_of(0.0, 0.0, 685.0, 342.5)
    assert [y for _, y in (arc.vertices(445.0)[0], arc.vertices(445.0)[-1])] == [0.0, 0.0]


def test_edges_along_an_arc_are_told_from_those_across_it() -> None:
    radius = 342.5 * TICKS_PER_MM
    circle, along = Circle(radius, 0.0, radius), arc_vertices(0.0, 0.0, 2 * radius, radius)
    assert all(circle.holds(*edge) for edge in pairwise(along))
    assert not circle.holds(along[0], along[10])
    assert not circle.holds((0.0, 0.0), (-1e4, 0.0))


def test_vertices_left_and_right_of_the_crown_stand_at_one_height() -> None:
    """A last digit between them would leave a slab of no height, and pieces beside the arch would be counted twice."""
    for rise in (89.0, 120.0, 33.3):
        ring = arc_vertices(200.0, 3602.0, 1780.0, rise)
        assert [y for _, y in ring] == [y for _, y in reversed(ring)]
