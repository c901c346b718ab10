"""Clipping to a stretch between two plumb lines, each kind of item by hand."""

import math

import pytest

from storeyrod.drawings.clipping import clipped
from storeyrod.drawings.display_list import (
    Group,
    Item,
    Line,
    Marker,
    Polygon,
    Polyline,
    Shapes,
    Strokes,
    Style,
    Text,
    box_polygon,
)

WINDOW = (10.0, 20.0)


def seen(*items: Item, window: tuple[float, float] = WINDOW) -> tuple[Item, ...]:
    return tuple(item for group in clipped([Group("role", Style(0.1), items)], window, 1.0) for item in group.items)


def test_a_line_is_cut_where_it_passes_the_ends():
    assert seen(Line((0.0, 0.0), (40.0, 40.0))) == (Line((10.0, 10.0), (20.0, 20.0)),)
    assert seen(Line((25.0, 5.0), (15.0, 0.0))) == (Line((20.0, 2.5), (15.0, 0.0)),)


def test_a_plumb_line_is_seen_or_not():
    inside, on_the_edge, beyond = (Line((x, 0.0), (x, 5.0)) for x in (12.0, 10.0, 9.0))
    assert seen(inside, on_the_edge, beyond) == (inside, on_the_edge)


def test_strokes_lose_what_lies_beyond_and_vanish_where_none_is_left():
    assert seen(Strokes((((0.0, 1.0), (15.0, 1.0)), ((0.0, 2.0), (5.0, 2.0))))) == (
        Strokes((((10.0, 1.0), (15.0, 1.0)),)),
    )
    assert seen(Strokes((((0.0, 2.0), (5.0, 2.0)),))) == ()


def test_a_polyline_that_leaves_and_comes_back_is_two():
    line = Polyline(((12.0, 0.0), (8.0, 4.0), (12.0, 8.0)))
    assert seen(line) == (Polyline(((12.0, 0.0), (10.0, 2.0))), Polyline(((10.0, 6.0), (12.0, 8.0))))


def test_a_box_stays_a_box_with_its_name():
    assert seen(box_polygon((5.0, 1.0, 15.0, 2.0), "a", "b")) == (box_polygon((10.0, 1.0, 15.0, 2.0), "a", "b"),)


def test_a_shape_that_only_touches_the_window_is_not_seen():
    assert seen(box_polygon((5.0, 1.0, 10.0, 2.0)), box_polygon((20.0, 1.0, 25.0, 2.0))) == ()


def test_a_triangle_across_both_ends_keeps_what_lies_between():
    """From 0 to 40 with its top at 20 over 20: y = x to the left of it. Between 10 and 20 lie (20^2 - 10^2) / 2 = 150."""
    (shape,) = seen(Polygon((((0.0, 0.0), (40.0, 0.0), (20.0, 20.0)),)))
    assert isinstance(shape, Polygon)
    assert shape.area == pytest.approx(150.0)
    assert shape.box == (10.0, 0.0, 20.0, 20.0)


def test_holes_are_cut_too():
    outer = ((0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (0.0, 10.0))
    hole, beyond = ((x, y) for x, y in ((18.0, 2.0), (25.0, 2.0))), ((1.0, 1.0), (1.0, 2.0), (2.0, 2.0))
    (left, low), (right, _) = hole
    ring = ((left, low), (left, 8.0), (right, 8.0), (right, low))
    (shape,) = seen(Polygon((outer, ring, beyond)))
    assert isinstance(shape, Polygon)
    assert len(shape.rings) == 2
    assert shape.area == pytest.approx(10 * 10 - 2 * 6)


def test_a_mark_on_the_left_end_is_seen_and_one_on_the_right_end_is_not():
    left, right = (Marker((x, 0.0), "ring", 1.0) for x in WINDOW)
    assert seen(left, right) == (left,)


def test_lettering_is_seen_whole_or_not_at_all():
    """Ten digits of 1 mm are 8.8 mm long."""
    fits, hangs_out = (Text((x, 0.0), "0" * 10, 1.0, "middle") for x in (15.0, 14.0))
    assert seen(fits, hangs_out) == (fits,)


def test_turned_lettering_takes_its_height():
    fits, hangs_out = (Text((x, 0.0), "0" * 10, 1.0, turned=True) for x in (11.5, 10.5))
    assert seen(fits, hangs_out) == (fits,)


def test_shapes_drawn_as_one_are_cut_one_by_one():
    triangle = (((8.0, 0.0), (12.0, 0.0), (8.0, 4.0)),)
    (shapes,) = seen(Shapes(((0.0, 0.0, 5.0, 1.0), (5.0, 0.0, 12.0, 1.0)), (triangle,), "id"))
    assert isinstance(shapes, Shapes)
    assert (shapes.boxes, shapes.id) == (((10.0, 0.0, 12.0, 1.0),), "id")
    assert shapes.area == pytest.approx(2.0 + 2.0)


def test_an_end_that_is_open_cuts_nothing():
    line = Line((-5.0, 0.0), (12.0, 0.0))
    assert seen(line, window=(-math.inf, 20.0)) == (line,)


def test_a_group_of_which_nothing_is_seen_is_left_out():
    assert clipped([Group("role", Style(0.1), (Line((0.0, 0.0), (1.0, 0.0)),))], WINDOW, 1.0) == ()
