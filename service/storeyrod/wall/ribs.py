"""Upright slips on ribbed boards: a soldier crosses the ribs on which courses stand."""

from storeyrod.findings import FINDINGS, Finding, Where, finding
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face, FaceOpening
from storeyrod.wall.system import System


def rib_findings(face: Face, system: System) -> list[Finding]:
    """Heads with soldiers or voussoirs where the boards have ribs and no flat area is declared over heads: one finding a face."""
    board = system.board
    if board.rib_pitch_mm is None or board.flat_over_heads:
        return []
    upright = [opening for opening in face.openings if _stands_upright(opening)]
    if not upright:
        return []
    first = upright[0]
    where: Where = {"pointer": first.pointer, "elevation": face.id, "opening": first.id}
    where |= {"x_mm": millimetres(first.left), "y_mm": millimetres(first.head)}
    advice = f"Heads with upright slips: {len(upright)}. {FINDINGS['rib-conflict'].advice}"
    return [finding("rib-conflict", where, value=float(len(upright)), limit=0.0, unit="count", advice=advice)]


def _stands_upright(opening: FaceOpening) -> bool:
    model = opening.model
    return getattr(model, "head", "plain") == "soldier" or getattr(model, "voussoirs", None) is not None
