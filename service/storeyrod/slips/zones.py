"""Zones over openings: which of them lie in the wall beside openings, features, strips and one another."""

from collections.abc import Sequence

from storeyrod.geometry.plane import Box, Region, bounds
from storeyrod.geometry.rings import holds, is_convex, rectangle
from storeyrod.wall.face import Face


def zones_in_wall(face: Face, free: Region, strips: Sequence[Box], zones: Sequence[Box]) -> list[bool]:
    """Whether each zone lies in the free region of a face and meets nothing else; boxes stand in for openings of any shape."""
    if not zones:
        return []
    met = _meeting(zones, [*_obstacles(face), *strips])
    convex = is_convex(face.outline)
    return [
        not meets and (holds(face.outline, rectangle(*zone)) if convex else free.holds(zone))
        for zone, meets in zip(zones, met, strict=True)
    ]


def _obstacles(face: Face) -> list[Box]:
    openings = [(opening.left, opening.sill, opening.right, opening.head) for opening in face.openings]
    return [*openings, *(bounds(feature.ring) for feature in face.features)]


def _meeting(zones: Sequence[Box], obstacles: Sequence[Box]) -> list[bool]:
    """Whether each zone shares an area with an obstacle or another zone: by a sweep from left to right."""
    met = [False] * len(zones)
    boxes = [(*zone, place) for place, zone in enumerate(zones)] + [(*box, -1) for box in obstacles]
    open_now: list[tuple[float, float, float, float, int]] = []
    for box in sorted(boxes):
        left, bottom, _, top, place = box
        open_now = [other for other in open_now if other[2] > left]
        for _, low, _, high, other in open_now:
            if high > bottom and top > low:
                if place >= 0:
                    met[place] = True
                if other >= 0:
                    met[other] = True
        open_now.append(box)
    return met
