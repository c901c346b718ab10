"""Rakes of cut pieces: angle, direction and sides by hand, and pieces rebuilt from their rows."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from storeyrod.geometry.arc import Circle, arc_vertices
from storeyrod.geometry.plane import Part, Region, bounds, signed_area
from storeyrod.geometry.ticks import TICKS_PER_MM
from storeyrod.slips.rake import SQUARE, shape_of


def part(*corners):
    """A piece from its corners in mm."""
    ring = tuple((x * TICKS_PER_MM, y * TICKS_PER_MM) for x, y in corners)
    return Part(*bounds(ring), abs(signed_area(ring)), (ring,))


def rake(*corners):
    made = shape_of(part(*corners)).rake
    return made.angle, made.rises, made.run / TICKS_PER_MM, made.rise / TICKS_PER_MM


def test_the_flank_of_the_worked_house_rises_13_59_degrees() -> None:
    """900 over 3723: atan 0.24174 = 13.59 degrees."""
    angle, rises, run, rise = rake(
        (0, 0), (215, 0), (215, 65), (215 - 10 * 3723 / 900, 65), (0, 65 - (215 - 10 * 3723 / 900) * 900 / 3723)
    )
    assert round(angle, 2) == 13.59
    assert angle == pytest.approx(math.degrees(math.atan2(900, 3723)), abs=1e-9)
    assert rises == "right"
    assert rise / run == pytest.approx(900 / 3723, abs=1e-12)


def test_a_trapezoid_under_a_rake_of_45_degrees() -> None:
    """Foot 215, head 150: the corner of 65 by 65 is off."""
    assert rake((0, 0), (215, 0), (215, 65), (65, 65)) == (45, "right", 65, 65)


def test_the_right_half_of_a_gable_rises_to_the_left() -> None:
    assert rake((0, 0), (215, 0), (150, 65), (0, 65)) == (45, "left", 65, 65)


def test_a_triangle_at_the_end_of_a_course() -> None:
    """65 up over 130: 26.57 degrees."""
    angle, rises, run, rise = rake((0, 0), (130, 0), (130, 65))
    assert (round(angle, 2), rises, run, rise) == (26.57, "right", 130, 65)


def test_a_piece_that_lost_a_corner_only() -> None:
    assert rake((0, 0), (215, 0), (215, 25), (175, 65), (0, 65)) == (45, "left", 40, 40)


def test_a_piece_standing_on_a_rake_reads_like_one_under_it() -> None:
    """Turned half round, a piece over a rake is one under it, and the rake rises the same way."""
    under = rake((0, 0), (215, 0), (215, 65), (65, 65))
    over = rake((0, 0), (150, 0), (215, 65), (0, 65))
    assert under == over


def test_a_rectangle_is_square() -> None:
    assert shape_of(Part(0, 0, 100, 50, 5000)) is SQUARE


def test_rounding_makes_no_rake() -> None:
    """A thousandth of a tick off plumb."""
    assert shape_of(part((0, 0), (215, 0), (215 + 1e-7, 65), (0, 65))).rake is None
    assert shape_of(part((0, 0), (215, 0), (215 + 1e-7, 65), (0, 65))).outline == ()


def test_a_corner_in_the_middle_of_a_rake_is_no_second_rake() -> None:
    assert rake((0, 0), (215, 0), (215, 65), (65, 65), (32.5, 32.5)) == (45, "right", 65, 65)


def test_a_piece_under_the_ridge_comes_with_its_outline() -> None:
    shape = shape_of(part((100, 75), (300, 75), (200, 135)))
    assert (shape.rake, shape.curved) == (None, False)
    assert [(x / TICKS_PER_MM, y / TICKS_PER_MM) for x, y in shape.outline] == [(0, 0), (200, 0), (100, 60)]


def test_a_notched_piece_comes_with_its_outline() -> None:
    shape = shape_of(part((0, 0), (215, 0), (215, 30), (100, 30), (100, 65), (0, 65)))
    assert (shape.rake, len(shape.outline)) == (None, 6)


def test_a_rake_beside_a_notch_comes_with_its_outline() -> None:
    shape = shape_of(part((0, 0), (100, 0), (100, 20), (215, 20), (215, 25), (175, 65), (0, 65)))
    assert (shape.rake, len(shape.outline)) == (None, 7)


ARC = Circle(342.5 * TICKS_PER_MM, 0.0, 342.5 * TICKS_PER_MM)


def over_the_arc(left, bottom, right, top):
    ring = tuple(arc_vertices(0.0, 0.0, 685.0 * TICKS_PER_MM, 342.5 * TICKS_PER_MM))
    outside = Region((((-1e7, -1e6), (2e7, -1e6), (2e7, 2e7), (-1e7, 2e7)), ((685e4, -5e5), *ring, (0.0, -5e5))))
    return outside.cells(bottom * 1e4, top * 1e4, [(left * 1e4, right * 1e4)])[0]


def test_a_piece_cut_to_an_arch_is_curved() -> None:
    for piece in over_the_arc(-100, 150, 115, 215):
        assert shape_of(piece, [ARC]).curved


def test_a_corner_cut_by_one_chord_of_an_arch_is_curved_too() -> None:
    """A piece whose corner reaches 1 mm into the arch at 45 degrees meets one or two chords of about 5 mm."""
    at = 342.5 * math.sqrt(0.5)
    piece = over_the_arc(342.5 + at - 1, at - 1, 342.5 + at + 100, at + 64)[0]
    assert shape_of(piece, [ARC]).curved


def test_a_curve_of_many_short_edges_is_curved_without_being_announced() -> None:
    corners = [(100 * math.sin(step / 10), 65 * math.cos(step / 10)) for step in range(8)]
    assert shape_of(part((0, 0), *reversed(corners))).curved


def test_a_straight_rake_near_an_arch_stays_straight() -> None:
    assert shape_of(part((0, 0), (215, 0), (215, 65), (65, 65)), [ARC]).rake is not None


@given(st.floats(1, 89), st.booleans(), st.floats(20, 300), st.floats(10, 100), st.floats(0.02, 0.98), st.booleans())
@settings(max_examples=50, deadline=None)
def test_a_sawyer_can_make_the_piece_from_its_row(angle, right, length, height, share, over) -> None:
    """The box of length and height less the corner that angle and short side give has the area of the clipped piece."""
    slope = math.tan(math.radians(angle)) * (1 if right else -1)
    middle = length * share, height * share
    y0, y1 = middle[1] - (middle[0] + 1e4) * slope, middle[1] + (1e4 - middle[0]) * slope
    keep = [(-1e4, y0), (1e4, y1), *([(1e4, 1e6), (-1e4, 1e6)] if over else [(1e4, -1e6), (-1e4, -1e6)])]
    piece = shapely.intersection(box(0, 0, length, height), Polygon(keep))
    if min(piece.bounds[2] - piece.bounds[0], piece.bounds[3] - piece.bounds[1]) < 1:
        return
    made = part(*list(piece.exterior.coords)[:-1])
    shape = shape_of(made).rake
    assert shape is not None
    long, tall = (made.right - made.left) / 1e4, (made.top - made.bottom) / 1e4
    short = long - shape.run / 1e4
    rise = (long - short) * math.tan(math.radians(shape.angle))
    assert shape.angle == pytest.approx(angle, abs=1e-3)
    assert shape.rises == ("right" if right else "left")
    assert long * tall - (long - short) * rise / 2 == pytest.approx(piece.area, rel=1e-6, abs=1e-3)
