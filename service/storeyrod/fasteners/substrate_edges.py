"""Fasteners that stand closer to an edge of the substrate than their distance from it, because their piece has no other room."""

from collections.abc import Iterator
from typing import Final

from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.fasteners.kinds import Kind
from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.findings import Finding, finding
from storeyrod.geometry.ticks import millimetres, ticks

GUARD: Final = 1.0
"""A tick, by which places may be out from rounding."""

_Closest = tuple[float, float, float]
"""Distance of the closest fastener of a kind, and its place from the lower left corner of its piece."""


def edge_findings(schedule: FastenerSchedule) -> list[Finding]:
    """One remark for each face with such fasteners: how close the closest stands, and on which pieces they are."""
    if schedule.wind is None and schedule.resistance is None:
        return []
    limit = ticks(schedule.system.fastener.substrate_edge_distance_mm)
    return [item for face in schedule.faces for item in _face_findings(face, limit)]


def _face_findings(fasteners: FaceFasteners, limit: float) -> Iterator[Finding]:
    closest = {id(kind): _closest(kind) for kind in fasteners.different if kind.shape.room.beside and kind.total}
    close = {kind: found for kind, found in closest.items() if found[0] < limit - GUARD}
    if not close:
        return
    laid = zip(fasteners.boards.pieces, fasteners.kinds, strict=True)
    pieces = [(piece, close[id(kind)]) for piece, kind in laid if id(kind) in close]
    worst, (distance, x, y) = min(pieces, key=lambda one: one[1][0])
    yield finding(
        "substrate-edge-close",
        {
            "pointer": fasteners.face.pointer,
            "elevation": fasteners.face.id,
            "x_mm": millimetres(worst.left + x),
            "y_mm": millimetres(worst.bottom + y),
            "pieces": [piece.id for piece, _ in pieces],
        },
        value=millimetres(distance),
        limit=millimetres(limit),
        unit="mm",
    )


def _closest(kind: Kind) -> _Closest:
    room, left, bottom = kind.shape.room, kind.shape.part.left, kind.shape.part.bottom
    places = zip(kind.places.xs, kind.places.ys, strict=True)
    return min([(edge.distance(x, y), x - left, y - bottom) for x, y in places for edge in room.beside])
