"""Movement joints beside external corners: behind the return of the corner slips, never between them and the arris."""

from collections.abc import Iterator, Sequence

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import ROUNDING_GUARD, millimetres
from storeyrod.wall.face import SIDES, SQUARE_DEG, Face
from storeyrod.wall.grid import corner_return_of, corner_stretcher_of
from storeyrod.wall.system import System


def corner_joint_findings(face: Face, slots: Sequence[tuple[float, float]], system: System) -> Iterator[Finding]:
    """Joints, as the strips they take, that stand nearer to a square external corner than the longer leg of a corner slip."""
    leg = max(corner_stretcher_of(system), corner_return_of(system))
    for side in SIDES:
        edge = face.edge(side)
        if edge.kind != "external_corner" or edge.angle_deg != SQUARE_DEG:
            continue
        for left, right in slots:
            away = millimetres(left - face.left if side == "left" else face.right - right)
            if away < leg - ROUNDING_GUARD:
                where: Where = {
                    "pointer": face.pointer,
                    "elevation": face.id,
                    "x_mm": millimetres((left + right) / 2.0),
                }
                yield finding("joint-at-corner", where, value=away, limit=leg, unit="mm")
