"""Faces too short for the corner slips at both their ends."""

from typing import Final

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import ROUNDING_GUARD, millimetres
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import formula
from storeyrod.wall.face import SIDES, SQUARE_DEG, Face
from storeyrod.wall.grid import corner_return_of, corner_stretcher_of
from storeyrod.wall.system import System

_CORNER: Final = "external_corner"


@formula(symbol="L_least", expression="2*l + j", unit="mm", inputs={"l": "mm", "j": "mm"}, clause=GEOMETRY)
def two_legs(*, l: float, j: float) -> float:  # noqa: E741  symbol of the formula
    """Shortest face on which the shorter legs of two corner slips stand back to back with a perp between them."""
    return 2 * l + j


def short_face_findings(face: Face, system: System) -> list[Finding]:
    """A face between two square external corners whose corner slips would meet."""
    edges = [face.edge(side) for side in SIDES]
    if any(edge.kind != _CORNER or edge.angle_deg != SQUARE_DEG for edge in edges):
        return []
    leg = max(0.0, min(corner_stretcher_of(system), corner_return_of(system)))
    least, length = two_legs(l=leg, j=system.joint.perp_mm), millimetres(face.length)
    if length >= least - ROUNDING_GUARD:
        return []
    where: Where = {"pointer": face.pointer, "elevation": face.id}
    return [finding("corner-slips-meet", where, value=length, limit=least, unit="mm")]
