"""The SVG writer on hand-made display lists."""

from xml.etree import ElementTree

import pytest

from storeyrod.answer import Answer
from storeyrod.drawings.display_list import (
    Group,
    Line,
    Marker,
    Polygon,
    Polyline,
    Shapes,
    Sheet,
    Strokes,
    Style,
    Text,
    View,
    box_polygon,
)
from storeyrod.drawings.svg import id_of, text_of, write

SVG = "{http://www.w3.org/2000/svg}"


PEN = Style(0.25)


def drawn(*items, style=PEN, scale=10.0):
    sheet = Sheet(420.0, 297.0, "title", "description", (View((20.0, 30.0), scale, (Group("role", style, items),)),))
    return ElementTree.fromstring(write(Answer((sheet,), not_checked=["Not checked."])))


def element_of(root):
    return root.find(f".//{SVG}g[@class='role']/*")


@pytest.mark.parametrize(
    ("name", "written"),
    [
        ("rear-00-01", "rear-00-01"),
        ("a b", "a%20b"),
        ("a%20b", "a%2520b"),
        ("<b>&\"'", "&lt;b&gt;&amp;&quot;&#x27;"),
        ("a\u00a0b", "a%A0b"),
    ],
)
def test_ids_are_escaped_and_hold_no_white_space(name, written):
    assert id_of(name) == written


@pytest.mark.parametrize("words", ["\x00", "\x1f", "\ud800", "\ufffe", "a\uffffb"])
def test_characters_outside_xml_are_replaced(words):
    assert "\N{REPLACEMENT CHARACTER}" in text_of(words)
    ElementTree.fromstring(f"<t>{text_of(words)}</t>")


@pytest.mark.parametrize("words", ["]]>", "<!--", "&amp;", "<script>alert(1)</script>", "\"'", "北 é ± 𝟙"])
def test_text_comes_back_as_it_was(words):
    root = drawn(Text((0.0, 0.0), words, 2.5))
    assert root.find(f".//{SVG}text").text == words


def test_an_upright_rectangle_is_a_rect():
    rect = element_of(drawn(box_polygon((1.5, 2.0, 11.5, 7.0), "p", "a piece")))
    assert rect.tag == f"{SVG}rect"
    assert {key: rect.get(key) for key in ("id", "x", "y", "width", "height")} == {
        "id": "p", "x": "1.5", "y": "2", "width": "10", "height": "5",
    }  # fmt: skip
    assert rect.find(f"{SVG}title").text == "a piece"


def test_a_polygon_with_a_hole_is_a_path_under_the_even_odd_rule():
    rings = (((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)), ((3.0, 3.0), (6.0, 3.0), (6.0, 6.0), (3.0, 6.0)))
    path = element_of(drawn(Polygon(rings)))
    assert path.get("fill-rule") == "evenodd"
    assert path.get("d") == "M0 0L9 0L9 9L0 9ZM3 3L6 3L6 6L3 6Z"


@pytest.mark.parametrize(
    ("item", "path"),
    [
        (Line((0.0, 1.0), (2.5, 3.0)), "M0 1L2.5 3"),
        (Polyline(((0.0, 0.0), (1.0, 1.0), (2.0, 0.0))), "M0 0L1 1L2 0"),
        (Marker((50.0, 60.0), "diagonal_cross", 2.0), "M40 50l20 20m-20 0l20 -20"),
        (Marker((50.0, 60.0), "upright_cross", 2.0), "M40 60h20M50 50v20"),
        (Marker((50.0, 60.0), "ring", 2.0), "M40 60a10 10 0 1 0 20 0a10 10 0 1 0 -20 0"),
        (Marker((50.0, 60.0), "ringed_cross", 2.0), "M40 60a10 10 0 1 0 20 0a10 10 0 1 0 -20 0M40 60h20M50 50v20"),
    ],
)
def test_lines_and_symbols_are_paths_in_millimetres_of_the_wall(item, path):
    assert element_of(drawn(item)).get("d") == path


def test_shapes_are_one_path_each_box_from_the_one_before():
    shapes = Shapes(
        ((1.0, 2.0, 4.0, 3.0), (5.0, 2.0, 8.0, 3.0)), ((((0.0, 5.0), (2.0, 5.0), (0.0, 6.0)),),), "c", "two"
    )
    path = element_of(drawn(shapes))
    assert (path.get("id"), path.get("fill-rule"), path.find(f"{SVG}title").text) == ("c", "evenodd", "two")
    assert path.get("d") == "M1 2h3v1h-3zm4 0h3v1h-3zM0 5L2 5L0 6Z"


def test_strokes_are_one_path_each_from_the_end_of_the_one_before():
    path = element_of(drawn(Strokes((((1.0, 1.0), (2.0, 3.0)), ((5.0, 1.0), (5.0, 4.0))))))
    assert path.get("d") == "M1 1l1 2m3 -2l0 3"


def test_shapes_are_counted_and_measured():
    shapes = Shapes(((0.0, 0.0, 4.0, 3.0),), ((((0.0, 5.0), (2.0, 5.0), (0.0, 6.0)),),))
    assert (shapes.count, shapes.area) == (2, 13.0)


def test_line_weights_and_dashes_are_millimetres_of_paper():
    group = drawn(Line((0.0, 0.0), (1.0, 0.0)), style=Style(0.25, (4.0, 1.0), fill=1.0)).find(
        f".//{SVG}g[@class='role']"
    )
    assert group.get("stroke-width") == "2.5"
    assert group.get("stroke-dasharray") == "40 10"
    assert group.get("fill") == "#ffffff"


def test_lettering_is_set_on_the_paper():
    text = drawn(Text((100.0, 200.0), "x", 3.6, "middle")).find(f".//{SVG}text")
    assert (text.get("x"), text.get("y"), text.get("font-size"), text.get("text-anchor")) == (
        "30",
        "247",
        "5",
        "middle",
    )


def test_turned_lettering_reads_from_the_right():
    text = drawn(Text((100.0, 200.0), "x", 3.6, turned=True)).find(f".//{SVG}text")
    assert text.get("transform") == "matrix(0 -1 1 0 30 247)"


def test_what_was_not_checked_stands_in_the_description():
    assert drawn(Line((0.0, 0.0), (1.0, 0.0))).find(f"{SVG}desc").text == "description Not checked."
