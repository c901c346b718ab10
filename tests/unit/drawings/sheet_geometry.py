"""Sheets as documents and as boxes on paper, for the tests of the drawing room."""

from xml.etree import ElementTree

from storeyrod.answer import Answer
from storeyrod.drawings.display_list import (
    Box,
    Line,
    Marker,
    Point,
    Polygon,
    Polyline,
    Shapes,
    Sheet,
    Strokes,
    Text,
    View,
)
from storeyrod.drawings.lettering import width_of
from storeyrod.drawings.svg import write

SVG = "{http://www.w3.org/2000/svg}"


def parsed(*sheets: Sheet) -> ElementTree.Element:
    return ElementTree.fromstring(write(Answer(sheets)))


def points_of(item: object) -> list[Point]:
    match item:
        case Line(start, end):
            return [start, end]
        case Polyline(points):
            return list(points)
        case Polygon(rings):
            return [point for ring in rings for point in ring]
        case Shapes(boxes, others):
            corners = [point for box in boxes for point in (box[:2], box[2:])]
            return [*corners, *(point for rings in others for ring in rings for point in ring)]
        case Strokes(lines):
            return [point for line in lines for point in line]
        case Marker(at) | Text(at):
            return [at]
    raise TypeError(item)


def box_of_text(view: View, text: Text) -> Box:
    """Box of a line of lettering on the paper."""
    (x, y), long, high = view.on_paper(text.at), width_of(text.words, text.height), text.height
    before = {"start": 0.0, "middle": long / 2.0, "end": long}[text.anchor]
    below = high / 2.0 if text.middle else 0.0
    if text.turned:
        return x - high + below, y - before, x + below, y - before + long
    return x - before, y - below, x - before + long, y - below + high


def overlap(first: Box, second: Box) -> bool:
    return first[0] < second[2] and second[0] < first[2] and first[1] < second[3] and second[1] < first[3]
