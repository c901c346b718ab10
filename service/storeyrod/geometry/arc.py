"""Circular arches: radius, area, and a polygon of exactly the same area."""

import math
from typing import Final

from storeyrod.geometry.plane import Vertex
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


def arc_vertices(left: float, springing: float, width: float, rise: float) -> list[Vertex]:
    """Vertices from the right springing point over the crown to the left one, in ticks.

    Inner vertices stand a hair outside the arc so that the polygon's area equals the segment's; none is farther from the
    arc than ``CHORD_ERROR``.
    """
    radius = arc_radius(w=width, h=rise)
    half_angle = 2.0 * math.atan2(rise, width / 2.0)
    chords = max(_FEWEST_CHORDS, math.ceil(half_angle / math.acos(1.0 - CHORD_ERROR / radius)))
    step = 2.0 * half_angle / chords
    outer = _equal_area_radius(radius, half_angle, chords, step)
    centre_x, centre_y = left + width / 2.0, springing + rise - radius
    inner = [
        (centre_x + outer * math.sin(half_angle - step * index), centre_y + outer * math.cos(half_angle - step * index))
        for index in range(1, chords)
    ]
    return [(left + width, springing), *inner, (left, springing)]


def _equal_area_radius(radius: float, half_angle: float, chords: int, step: float) -> float:
    """Radius of the inner vertices at which the fan of triangles has the area of the sector: a quadratic in it."""
    a = (chords - 2) / 2.0 * math.sin(step)
    b = radius * math.sin(step)
    c = -(radius**2) * half_angle
    return (-b + math.sqrt(b * b - 4.0 * a * c)) / (2.0 * a)
