"""Upright slips on ribbed boards: a soldier crosses the ribs on which courses stand."""

from collections.abc import Iterator

from storeyrod.findings import Finding, finding
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face, FaceOpening
from storeyrod.wall.system import System


def rib_findings(face: Face, system: System) -> list[Finding]:
    """Heads with soldiers or voussoirs where the boards have ribs and no flat area is declared over heads."""
    board = system.board
    if board.rib_pitch_mm is None or board.flat_over_heads:
        return []
    return list(_conflicts(face, system.slip.length_mm, board.rib_pitch_mm))


def _conflicts(face: Face, slip_length_mm: float, rib_pitch_mm: float) -> Iterator[Finding]:
    for opening in face.openings:
        if _stands_upright(opening):
            yield finding(
                "rib-conflict",
                {
                    "pointer": opening.pointer,
                    "elevation": face.id,
                    "opening": opening.id,
                    "x_mm": millimetres(opening.left),
                    "y_mm": millimetres(opening.head),
                },
                value=slip_length_mm,
                limit=rib_pitch_mm,
                unit="mm",
            )


def _stands_upright(opening: FaceOpening) -> bool:
    model = opening.model
    return getattr(model, "head", "plain") == "soldier" or getattr(model, "voussoirs", None) is not None
