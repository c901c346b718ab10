"""What of the wall behind stands out, beside the cladding that grows over it: old sills, and plinths below the base."""

from collections.abc import Iterator
from typing import Final

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face
from storeyrod.wall.opening_models import ArchOpening, RectangleOpening

DRIP_MM: Final = 30.0
"""House limit: a sill that stays must stand out of the finished face by at least this, so that water drips clear of the slips."""


def projection_findings(face: Face) -> Iterator[Finding]:
    """Sills that the cladding buries, and a plinth that it leaves as a ledge."""
    build_up = millimetres(face.build_up)
    for opening in face.openings:
        model = opening.model
        if not isinstance(model, RectangleOpening | ArchOpening) or model.sill_projection_mm is None:
            continue
        if model.sill_projection_mm < build_up + DRIP_MM:
            pointer = f"{opening.pointer}/sill_projection_mm"
            where: Where = {"pointer": pointer, "elevation": face.id, "opening": opening.id}
            yield finding("sill-buried", where, value=model.sill_projection_mm, limit=build_up + DRIP_MM, unit="mm")
    yield from _plinth(face, build_up)


def _plinth(face: Face, build_up: float) -> Iterator[Finding]:
    base = face.elevation.base
    if base is None or base.plinth_projection_mm is None or base.plinth_projection_mm <= build_up:
        return
    where: Where = {"pointer": f"{face.members_pointer}/base/plinth_projection_mm", "elevation": face.id}
    yield finding("plinth-ledge", where, value=base.plinth_projection_mm, limit=build_up, unit="mm")
