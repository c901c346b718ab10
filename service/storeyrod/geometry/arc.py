"""Circular arches: radius, lengths and areas, and polygons of exactly the same area."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.geometry.plane import Ring, Vertex, tidy
from storeyrod.geometry.ticks import TICKS_PER_MM
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import formula

CHORD_ERROR: Final = 0.01 * TICKS_PER_MM
"""Greatest distance between arc and polygon, in ticks."""

_FEWEST_CHORDS: Final = 8


@formula(symbol="R", expression="(w**2/4 + h**2)/(2*h)", unit="mm", inputs={"w": "mm", "h": "mm"}, clause=GEOMETRY)
def arc_radius(*, w: float, h: float) -> float:
    """Radius of the arc with chord w and rise h."""
    return (w**2 / 4 + h**2) / (2 * h)


@formula(
    symbol="A_segment",
    expression="R**2/2*(4*asin(sqrt(h/(2*R))) - sin(4*asin(sqrt(h/(2*R)))))",
    unit="mm2",
    inputs={"R": "mm", "h": "mm"},
    clause=GEOMETRY,
)
def segment_area(*, R: float, h: float) -> float:  # noqa: N803  symbol of the formula
    """Area between an arc of radius R and its chord at rise h.

    The angle comes from the half-angle formula: an arc cosine loses all digits of a flat arch.
    """
    angle = 4 * math.asin(math.sqrt(h / (2 * R)))
    return R**2 / 2 * (angle - math.sin(angle))


@formula(
    symbol="s",
    expression="4*R*asin(sqrt(h/(2*R)))",
    unit="mm",
    inputs={"R": "mm", "h": "mm"},
    clause=GEOMETRY,
)
def arc_length(*, R: float, h: float) -> float:  # noqa: N803  symbol of the formula
    """Length of an arc of radius R and rise h."""
    return 4 * R * math.asin(math.sqrt(h / (2 * R)))


@formula(symbol="s_r", expression="s*r/R", unit="mm", inputs={"s": "mm", "r": "mm", "R": "mm"}, clause=GEOMETRY)
def concentric_length(*, s: float, r: float, R: float) -> float:  # noqa: N803  symbol of the formula
    """Length at radius r of an arc with the same centre and angle as one of length s at radius R."""
    return s * r / R


@formula(
    symbol="A_ring",
    expression="s*d*(1 + d/(2*R))",
    unit="mm2",
    inputs={"s": "mm", "d": "mm", "R": "mm"},
    clause=GEOMETRY,
)
def ring_area(*, s: float, d: float, R: float) -> float:  # noqa: N803  symbol of the formula
    """Area of a ring of depth d on an arc of length s and radius R, its ends pointing to the centre."""
    return s * d * (1 + d / (2 * R))


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc bulging upwards: its centre, radius, half angle in radians, and the sine and cosine of that. Ticks."""

    x: float
    y: float
    radius: float
    half_angle: float
    sine: float
    cosine: float

    def vertices(self, radius: float) -> list[Vertex]:
        """Vertices of the arc at a radius, from right to left between the lines from the centre through this arc's ends.

        Those between the ends stand a hair outside the arc so that the fan over the centre has the area of the sector; none
        is farther from the arc than ``CHORD_ERROR``.
        """
        chords = max(_FEWEST_CHORDS, math.ceil(self.half_angle / math.acos(1.0 - CHORD_ERROR / radius)))
        step = 2.0 * self.half_angle / chords
        outer = _equal_area_radius(radius, self.half_angle, chords, step)
        # Written so that left and right angles are equal to the last digit: left and right vertices stand at one height.
        angles = [self.half_angle * (chords - 2 * index) / chords for index in range(1, chords)]
        inner = [(self.x + outer * math.sin(angle), self.y + outer * math.cos(angle)) for angle in angles]
        level = self.y + radius * self.cosine
        return [(self.x + radius * self.sine, level), *inner, (self.x - radius * self.sine, level)]


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle that bounds a wall somewhere. Ticks."""

    x: float
    y: float
    radius: float

    def holds(self, start: Vertex, end: Vertex) -> bool:
        """Whether a straight edge is part of a chord of the circle's polygon."""
        middle = (start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0
        off = (abs(math.hypot(x - self.x, y - self.y) - self.radius) for x, y in (start, middle, end))
        return max(off) <= 2.0 * CHORD_ERROR


def arc_of(left: float, springing: float, width: float, rise: float) -> Arc:
    """The arc over a chord, in ticks."""
    radius = arc_radius(w=width, h=rise)
    return Arc(
        left + width / 2.0,
        springing + rise - radius,
        radius,
        half_angle=2.0 * math.atan2(rise, width / 2.0),
        sine=width / 2.0 / radius,
        cosine=(radius - rise) / radius,
    )


def arc_vertices(left: float, springing: float, width: float, rise: float) -> list[Vertex]:
    """Vertices from the right springing point over the crown to the left one, in ticks; see ``Arc.vertices``."""
    arc = arc_of(left, springing, width, rise)
    return [(left + width, springing), *arc.vertices(arc.radius)[1:-1], (left, springing)]


def sector(inner: Sequence[Vertex], outer: Sequence[Vertex]) -> Ring:
    """Ring between two concentric arcs that both run from right to left."""
    return tidy([*outer, *reversed(inner)])


def _equal_area_radius(radius: float, half_angle: float, chords: int, step: float) -> float:
    """Radius of the inner vertices at which the fan of triangles has the area of the sector: a quadratic in it."""
    a = (chords - 2) / 2.0 * math.sin(step)
    b = radius * math.sin(step)
    c = -(radius**2) * half_angle
    return (-b + math.sqrt(b * b - 4.0 * a * c)) / (2.0 * a)
