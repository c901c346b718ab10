"""Zones over heads in which slips stand upright, so that no course and no perp runs through them."""

import math
from typing import Final

from storeyrod.geometry.plane import Box
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.face import Face
from storeyrod.wall.system import System

_HALF: Final = 0.5


def upright_zones(face: Face, system: System) -> list[Box]:
    """Soldiers with the bed above them, over every opening that asks for them and is wide enough for the nearest number."""
    width, perp = ticks(system.slip.height_mm), ticks(system.joint.perp_mm)
    rise = ticks(system.slip.length_mm) + ticks(system.joint.bed_mm)
    zones: list[Box] = []
    for opening in face.openings:
        clear = opening.right - opening.left
        count = math.floor((clear - perp) / (width + perp) + _HALF)
        if opening.model.head == "soldier" and 1 <= count <= clear / width:
            zones.append((opening.left, opening.head, opening.right, opening.head + rise))
    return zones
