"""What a foreman and whoever checks the fixing have to know: narrow piers, edge distances and numbers that cannot be kept."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from storeyrod.boards.pieces import Piece
from storeyrod.boards.rows import substrate_of
from storeyrod.fasteners.demand import PieceNeed
from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.places import PiecePlaces
from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import distance_to_edge
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.face import Face

_OFF_COURSE = (
    "No course of slips has its middle in the piece at that distance: fasteners were set at its middle height, where a bed "
    "joint may lie over their heads. Enlarge the piece."
)

_Placed = tuple[Piece, PiecePlaces]


def piece_findings(face: Face, placed: Sequence[_Placed], pattern: Pattern) -> list[Finding]:
    """Each kind of finding once for a face, at its worst place, with all the pieces it concerns."""
    return [
        *_narrow_piers(face, placed, pattern),
        *_no_edge_distance(face, placed, pattern),
        *_too_few(face, placed),
    ]


def need_findings(face: Face, needs: Sequence[tuple[Piece, PieceNeed]]) -> list[Finding]:
    """Pieces whose fasteners do not carry their wind: at the worst one, with the share of its resistance that is used."""
    short = [(-(need.used or 0.0), piece) for piece, need in needs if not need.met]
    if not short:
        return []
    where = _where(face, [piece for _, piece in short], _worst(short))
    used = -min(rated for rated, _ in short)
    return [finding("wind-need-unmet", where, value=used, limit=1.0, unit="fraction")]


def _narrow_piers(face: Face, placed: Sequence[_Placed], pattern: Pattern) -> Iterator[Finding]:
    left, right = substrate_of(face)
    held = [(min(piece.right, right) - max(piece.left, left), piece) for piece, _ in placed]
    narrow = [(width, piece) for width, piece in held if 0.0 < width < pattern.narrow]
    if narrow:
        width, _ = min(narrow, key=lambda item: item[0])
        where = _where(face, [piece for _, piece in narrow], _worst(narrow))
        value, limit = millimetres(width), millimetres(pattern.narrow)
        yield finding("pier-narrow", where, value=value, limit=limit, unit="mm")


def _no_edge_distance(face: Face, placed: Sequence[_Placed], pattern: Pattern) -> Iterator[Finding]:
    """The value is the distance that the fasteners set in the middle keep, from the piece's edges or the substrate's end."""
    substrate = substrate_of(face)
    small = [(_kept(piece, places, substrate, pattern), piece) for piece, places in placed if not places.keeps_edge]
    if small:
        (kept, limit), worst = min(small, key=lambda item: item[0][0] - item[0][1])
        where = _where(face, [piece for _, piece in small], worst)
        if kept >= limit:
            yield finding("edge-distance-impossible", where, advice=_OFF_COURSE)
            return
        yield finding("edge-distance-impossible", where, value=millimetres(kept), limit=millimetres(limit), unit="mm")


def _kept(piece: Piece, places: PiecePlaces, substrate: Interval, pattern: Pattern) -> tuple[float, float]:
    """Least distance of a piece's fasteners with its limit: from its edges, or from the end of the substrate, negative past it.

    Of the two the one that falls short of its limit by more.
    """
    edges = [edge for ring in piece.part.outline for edge in pairwise((*ring, ring[0]))]
    points = [(x, height) for height, xs in places.rows for x in xs]
    square = min(distance_to_edge(point, *edge) for point in points for edge in edges)
    end = min(min(x - substrate[0], substrate[1] - x) for x, _ in points)
    return min((square, pattern.edge), (end, pattern.from_end), key=lambda found: found[0] - found[1])


def _too_few(face: Face, placed: Sequence[_Placed]) -> Iterator[Finding]:
    few = [
        (float(places.total - places.asked), piece, places) for piece, places in placed if places.total < places.asked
    ]
    if few:
        _, _, places = min(few, key=lambda item: item[0])
        where = _where(face, [piece for _, piece, _ in few], _worst([(short, piece) for short, piece, _ in few]))
        yield finding("fasteners-few", where, value=places.total, limit=places.asked, unit="count")


def _worst(rated: Sequence[tuple[float, Piece]]) -> Piece:
    return min(rated, key=lambda item: item[0])[1]


def _where(face: Face, pieces: Sequence[Piece], worst: Piece) -> Where:
    return {
        "pointer": face.pointer,
        "elevation": face.id,
        "x_mm": millimetres(worst.left),
        "y_mm": millimetres(worst.bottom),
        "pieces": [piece.id for piece in pieces],
    }
