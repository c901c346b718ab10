"""The envelope of all directions on a face: rectangles, each with its greatest suction and its greatest pressure."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from storeyrod.wind.face_wind import WindPatch
from storeyrod.wind.face_zones import FaceZone


def envelope(zones: Sequence[FaceZone]) -> tuple[WindPatch, ...]:
    """Disjoint patches from the lowest and leftmost; the first of equal zones governs."""
    levels = sorted({edge for zone in zones for edge in (zone.box[1], zone.box[3])})
    rows: list[list[WindPatch]] = []
    for bottom, top in pairwise(levels):
        row = list(_row([zone for zone in zones if zone.box[1] <= bottom and zone.box[3] >= top], bottom, top))
        if rows and _alike(rows[-1], row):
            row = [replace(patch, bottom=below.bottom) for below, patch in zip(rows.pop(), row, strict=True)]
        rows.append(row)
    return tuple(patch for row in rows for patch in row)


def _row(zones: Sequence[FaceZone], bottom: float, top: float) -> Iterator[WindPatch]:
    made: list[WindPatch] = []
    for left, right in pairwise(sorted({edge for zone in zones for edge in (zone.box[0], zone.box[2])})):
        patch = _patch(
            [zone for zone in zones if zone.box[0] <= left and zone.box[2] >= right], left, right, bottom, top
        )
        if made and _same(made[-1], patch):
            patch = replace(patch, left=made.pop().left)
        made.append(patch)
    yield from made


def _patch(zones: Sequence[FaceZone], left: float, right: float, bottom: float, top: float) -> WindPatch:
    governing = max(zones, key=lambda found: found.zone.suction).zone
    pressure = max((found.zone.inward for found in zones), default=0.0)
    return WindPatch(
        left, right, bottom, top, governing.zone, governing.direction, governing.suction, max(pressure, 0.0)
    )


def _same(first: WindPatch, second: WindPatch) -> bool:
    return (first.zone, first.direction, first.suction, first.pressure) == (
        second.zone,
        second.direction,
        second.suction,
        second.pressure,
    )


def _alike(below: Sequence[WindPatch], above: Sequence[WindPatch]) -> bool:
    return len(below) == len(above) and all(
        (one.left, one.right) == (other.left, other.right) and _same(one, other)
        for one, other in zip(below, above, strict=True)
    )
