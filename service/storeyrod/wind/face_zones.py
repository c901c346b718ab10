"""Zones of the building's sides on the elevations: cut to each face, in its own coordinates and in ticks."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.findings import refuse
from storeyrod.geometry.plane import Box
from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.wall.face import Face
from storeyrod.wall.models import BuildingFace
from storeyrod.wind.directions import SideZone
from storeyrod.wind.site_models import AnyWind

_TICKS_PER_M: Final = 1000.0 * TICKS_PER_MM

SLACK_M: Final = 0.5
"""House rule: how much longer or higher than the building a face may be, since sizes may be those of the bare wall."""


@dataclass(frozen=True, slots=True)
class FaceZone:
    """A zone on a face: its box in ticks, and the zone of the side that it is part of."""

    box: Box
    zone: SideZone


def assessed_to(face: Face) -> float | None:
    """Level in ticks where a parapet starts, to which zones of walls do not apply; nothing where there is none."""
    level = face.elevation.parapet_from_mm
    return ticks(level) if level is not None and ticks(level) < face.top else None


def face_zones(face: Face, place: BuildingFace, zones: Sequence[SideZone], wind: AnyWind) -> list[FaceZone]:
    """Zones of one face; raises ``building-too-small`` for a face that is longer than its side."""
    _refuse_longer(face, place, wind)
    return [
        FaceZone(box, zone)
        for zone in zones
        if zone.side == place.side
        for box in _boxes(face, place, zone, ticks(wind.ground_y_mm))
    ]


def _boxes(face: Face, place: BuildingFace, zone: SideZone, ground: float) -> Iterator[Box]:
    end = assessed_to(face)
    left, right = (_clip(at, face.left, face.right) for at in _ends(face, place, zone))
    head = face.top if end is None else min(face.top, end)
    bottom, top = (_clip(ground + _ticks(at), face.foot, head) for at in (zone.bottom, zone.top))
    if left < right and bottom < top:
        yield left, bottom, right, top


def _ends(face: Face, place: BuildingFace, zone: SideZone) -> tuple[float, float]:
    """Ends of a zone in the frame of the face; one that is drawn from inside has them the other way round."""
    offset = ticks(place.offset_mm)
    if place.seen_from == "inside":
        return face.right + offset - _ticks(zone.end), face.right + offset - _ticks(zone.start)
    return face.left - offset + _ticks(zone.start), face.left - offset + _ticks(zone.end)


def _ticks(metres: float) -> float:
    return metres if math.isinf(metres) else float(round(metres * _TICKS_PER_M))


def _clip(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def side_length(place: BuildingFace, wind: AnyWind) -> float:
    """Length in m of the side on which a face stands."""
    return wind.building.breadth_m if place.side in ("front", "rear") else wind.building.depth_m


def _refuse_longer(face: Face, place: BuildingFace, wind: AnyWind) -> None:
    side = side_length(place, wind)
    reach = (place.offset_mm * TICKS_PER_MM + face.length) / _TICKS_PER_M
    if reach > side + SLACK_M:
        detail = (
            f"The elevation ends {reach:.3f} m from the left end of the {place.side}, which is {side:g} m long; check "
            "offset_mm, or the building's breadth and depth."
        )
        raise refuse("building-too-small", f"{face.pointer}/face", detail)


def refuse_higher(face: Face, wind: AnyWind) -> None:
    """Raise ``building-too-small`` for a face that rises over the building; where its side is not known too."""
    building = wind.building
    top = (face.top - ticks(wind.ground_y_mm)) / _TICKS_PER_M
    if top > building.height_m + SLACK_M:
        detail = (
            f"The elevation ends {top:.3f} m above the ground, and the building is {building.height_m:g} m high; check height_m "
            "and ground_y_mm."
        )
        raise refuse("building-too-small", "/wind/building/height_m", detail)
