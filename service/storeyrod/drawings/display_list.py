"""The display list: what a sheet shows, before any file format. All lengths are millimetres, x to the right and y up.

A sheet holds views. Points of a view are millimetres of its own subject (the wall, or the paper itself at scale 1), so that
polygons keep true sizes in every format. Line weights, dashes, marker sizes and heights of lettering are millimetres of paper.
"""

from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

Point = tuple[float, float]
Rings = tuple[tuple[Point, ...], ...]
"""Outer ring, then holes."""

Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""

Symbol = Literal["diagonal_cross", "upright_cross", "ringed_cross", "ring"]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Style:
    """How a group is drawn: line weight, dashes (none is a full line) and fill; greys run from 0 for black to 1 for white."""

    weight: float
    dashes: tuple[float, ...] = ()
    fill: float | None = None
    grey: float = 0.0


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight lines from point to point, open."""

    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed shape, outer ring first, holes after it; ``title`` is what a pointing device reads out."""

    rings: Rings
    id: str = ""
    title: str = ""

    @property
    def area(self) -> float:
        """Area in square millimetres of the subject, holes left out."""
        outer, *holes = (abs(ring_area(ring)) for ring in self.rings)
        return outer - sum(holes)

    @property
    def box(self) -> Box:
        """Smallest box around it."""
        xs, ys = zip(*self.rings[0], strict=True)
        return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering; ``height`` is that of capitals, on paper. Turned text reads from the right of the sheet."""

    at: Point
    words: str
    height: float
    anchor: Anchor = "start"
    middle: bool = False
    turned: bool = False
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Marker:
    """A symbol at a point; ``size`` is its width on paper."""

    at: Point
    symbol: Symbol
    size: float
    id: str = ""


@dataclass(frozen=True, slots=True)
class Shapes:
    """Many closed shapes under one id, none over another: upright boxes, and rings where a shape is no box."""

    boxes: tuple[Box, ...]
    others: tuple[Rings, ...] = ()
    id: str = ""
    title: str = ""

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.boxes) + len(self.others)

    @property
    def area(self) -> float:
        """Area of all of them in square millimetres of the subject."""
        boxes = sum((right - left) * (top - bottom) for left, bottom, right, top in self.boxes)
        return boxes + sum(Polygon(rings).area for rings in self.others)


@dataclass(frozen=True, slots=True)
class Strokes:
    """Many straight lines drawn as one."""

    lines: tuple[tuple[Point, Point], ...]


Item = Line | Polyline | Polygon | Text | Marker | Shapes | Strokes


@dataclass(frozen=True, slots=True)
class Group:
    """Items of one role, drawn in one style; ``role`` is the class of an SVG and the layer of a DXF."""

    role: str
    style: Style
    items: tuple[Item, ...]
    id: str = ""


@dataclass(frozen=True, slots=True)
class View:
    """A subject drawn at one to ``scale``; its origin lies at a point of the paper, measured from the lower left corner."""

    origin: Point
    scale: float
    groups: tuple[Group, ...]

    def on_paper(self, point: Point) -> Point:
        """Where a point of the subject lies on the paper."""
        return self.origin[0] + point[0] / self.scale, self.origin[1] + point[1] / self.scale


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of paper: size, views, and the words for those who cannot see it."""

    width: float
    height: float
    title: str
    description: str
    views: tuple[View, ...]
    id_prefix: str = field(default="")
    """Set on a sheet that shows an elevation again, since an id may stand once in a document."""


Drawing = tuple[Sheet, ...]


def ring_area(ring: tuple[Point, ...]) -> float:
    """Area of a ring, positive when it runs anticlockwise."""
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise((*ring, ring[0]))) / 2.0


def box_polygon(box: Box, id: str = "", title: str = "") -> Polygon:
    """An upright rectangle."""
    left, bottom, right, top = box
    return Polygon((((left, bottom), (right, bottom), (right, top), (left, top)),), id, title)


def upright_box(rings: Rings) -> Box | None:
    """The box that a shape fills, when it is an upright rectangle drawn anticlockwise from its lower left corner."""
    if len(rings) != 1 or len(rings[0]) != 4:
        return None
    (left, bottom), second, (right, top), fourth = rings[0]
    return (left, bottom, right, top) if second == (right, bottom) and fourth == (left, top) else None
