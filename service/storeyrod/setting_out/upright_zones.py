"""Zones over heads in which slips stand upright, so that no course and no perp runs through them."""

import math
from collections.abc import Iterator
from typing import Final

from storeyrod.geometry.arc import Arc, arc_of
from storeyrod.geometry.plane import Box
from storeyrod.geometry.ticks import exact_ticks, ticks
from storeyrod.wall.face import Face, FaceOpening
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.grid import header_of
from storeyrod.wall.opening_models import ArchOpening, Voussoirs
from storeyrod.wall.system import System

_HALF: Final = 0.5


def upright_zones(face: Face, system: System, gauge: Gauge) -> list[Box]:
    """Soldiers with the bed above them, over every opening that asks for them and is wide enough for the nearest number; and
    what courses lose to rings of voussoirs, course by course.
    """
    zones = [zone for opening in face.openings for zone in _soldiers(opening, system)]
    for opening in face.openings:
        if isinstance(opening.model, ArchOpening) and opening.model.voussoirs is not None:
            zones += _rings(opening, opening.model.voussoirs, system, gauge)
    return zones


def _soldiers(opening: FaceOpening, system: System) -> Iterator[Box]:
    width, perp = ticks(system.slip.height_mm), ticks(system.joint.perp_mm)
    clear = opening.right - opening.left
    count = math.floor((clear - perp) / (width + perp) + _HALF)
    if opening.model.head == "soldier" and 1 <= count <= clear / width:
        rise = ticks(system.slip.length_mm) + ticks(system.joint.bed_mm)
        yield opening.left, opening.head, opening.right, opening.head + rise


def _rings(opening: FaceOpening, voussoirs: Voussoirs, system: System, gauge: Gauge) -> Iterator[Box]:
    """For each course the width that the opening and the rings over it take at most, in the height of its slips."""
    arc = arc_of(opening.left, opening.springing, opening.right - opening.left, opening.head - opening.springing)
    depth = header_of(system) if voussoirs.depth == "header" else system.slip.length_mm
    radius = arc.radius + voussoirs.rings_count * exact_ticks(depth + system.joint.bed_mm)
    for number in gauge.numbers(opening.springing, arc.y + radius):
        half = _half_width(arc, radius, gauge, number)
        if half > 0:
            yield arc.x - half, gauge.bottom(number), arc.x + half, gauge.top(number)


def _half_width(arc: Arc, radius: float, gauge: Gauge, number: int) -> float:
    """Half the width of the rings in a course: up to the skewback below the end of their outer arc, up to that arc above it."""
    end = arc.y + radius * arc.cosine
    low, high = (min(max(level, arc.y), arc.y + radius) for level in (gauge.bottom(number), gauge.top(number)))
    if low > end:
        return math.sqrt(max(0.0, radius**2 - (low - arc.y) ** 2))
    if high < end:
        return (high - arc.y) * arc.sine / arc.cosine
    return radius * arc.sine
