"""Corners of a building: which two edges meet, and over which height both stand."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.geometry.intervals import Interval, intersection, total
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.face import SIDES, SQUARE_DEG, Face, Side

_SAME_LEVEL = ticks(1.0)


@dataclass(frozen=True, slots=True)
class CornerEnd:
    """One of the two edges of a corner."""

    face: Face
    side: Side

    @property
    def name(self) -> str:
        """Reference to this edge, as other edges write it in ``to``."""
        return f"{self.face.id}:{self.side}"


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner: its kind, the end with the lesser name first, and the other end when the request holds it."""

    kind: str
    first: CornerEnd
    second: CornerEnd | None

    @property
    def angle_deg(self) -> float:
        """Angle between the faces."""
        return self.first.face.edge(self.first.side).angle_deg

    @property
    def is_square(self) -> bool:
        """Whether L slips turn it."""
        return self.angle_deg == SQUARE_DEG

    @property
    def ends(self) -> tuple[CornerEnd, ...]:
        """The ends in this request."""
        return (self.first,) if self.second is None else (self.first, self.second)

    @property
    def heights(self) -> list[Interval]:
        """Where both edges stand; where the other is not known, where this one stands. Ticks."""
        shared = self.first.face.edge_heights(self.first.side)
        if self.second is not None:
            shared = intersection(shared, self.second.face.edge_heights(self.second.side))
        return shared

    @property
    def slip_heights(self) -> list[Interval]:
        """Where slips of both edges meet: no feature stands at the arris."""
        shared = self.heights
        for end in self.ends:
            shared = intersection(shared, end.face.slip_edge_heights(end.side))
        return shared


def corners_of(faces: Sequence[Face]) -> tuple[list[Corner], list[Finding]]:
    """Corners by name, and what is missing or does not match at them.

    Raises the refusal ``corner-contradictory`` when two edges name different partners or kinds.
    """
    ends = {end.name: end for face in faces for side in SIDES for end in [CornerEnd(face, side)]}
    corners: dict[str, Corner] = {}
    findings: list[Finding] = []
    for name, end in sorted(ends.items()):
        edge = end.face.edge(end.side)
        if not edge.is_corner or name in corners:
            continue
        partner = _partner(end, ends)
        if edge.to is not None and partner is None:
            pointer = f"{end.face.edge_pointer(end.side)}/to"
            findings.append(finding("corner-partner-missing", {"pointer": pointer, "elevation": end.face.id}))
        corner = Corner(edge.kind, end, partner)
        for one in corner.ends:
            corners[one.name] = corner
        findings += [*_mismatch(corner), *_not_square(corner)]
    return [corner for name, corner in sorted(corners.items()) if corner.first.name == name], findings


def _partner(end: CornerEnd, ends: Mapping[str, CornerEnd]) -> CornerEnd | None:
    """The edge that this one names, or that names this one; both may be named by no third."""
    edge = end.face.edge(end.side)
    claimants = _claimants(end, ends)
    partner = ends.get(edge.to) if edge.to is not None else next(iter(claimants), None)
    if partner is not None:
        _refuse_contradiction(end, partner)
        _claimants(partner, ends)
    return partner


def _claimants(end: CornerEnd, ends: Mapping[str, CornerEnd]) -> list[CornerEnd]:
    """The edges that name this one: one at most."""
    claimants = [other for other in ends.values() if other.face.edge(other.side).to == end.name]
    if len(claimants) > 1:
        detail = f"{claimants[0].name} and {claimants[1].name} both name this edge; a corner has two edges."
        raise refuse("corner-contradictory", end.face.edge_pointer(end.side), detail)
    return claimants


def _refuse_contradiction(end: CornerEnd, partner: CornerEnd) -> None:
    pointer = end.face.edge_pointer(end.side)
    back = partner.face.edge(partner.side)
    if partner.face.id == end.face.id:
        detail = "The edge names its own face; name the edge of the face that it meets."
        raise refuse("corner-contradictory", f"{pointer}/to", detail)
    if back.to not in (None, end.name):
        raise refuse(
            "corner-contradictory", f"{pointer}/to", f"{partner.name} names {back.to}; both edges must name each other."
        )
    edge = end.face.edge(end.side)
    if back.kind != edge.kind:
        raise refuse(
            "corner-contradictory",
            f"{pointer}/kind",
            f"{partner.name} is of kind {back.kind}; both must be of one kind.",
        )
    if back.angle_deg != edge.angle_deg:
        detail = f"angle_deg is {edge.angle_deg:g} here and {back.angle_deg:g} at {partner.name}; give both edges the same angle."
        raise refuse("corner-contradictory", f"{pointer}/angle_deg", detail)


def _not_square(corner: Corner) -> list[Finding]:
    if corner.is_square:
        return []
    end = corner.first
    where: Where = {"pointer": end.face.edge_pointer(end.side), "elevation": end.face.id}
    return [finding("corner-not-square", where, value=corner.angle_deg, limit=SQUARE_DEG, unit="deg")]


def _mismatch(corner: Corner) -> list[Finding]:
    if corner.second is None:
        return []
    first, second = (end.face.edge_heights(end.side) for end in corner.ends)
    difference = total(first) + total(second) - 2.0 * total(intersection(first, second))
    if difference <= _SAME_LEVEL:
        return []
    end = corner.first
    return [
        finding(
            "corner-height-mismatch",
            {"pointer": end.face.edge_pointer(end.side), "elevation": end.face.id},
            value=millimetres(difference),
            limit=millimetres(_SAME_LEVEL),
            unit="mm",
        )
    ]
