"""What a foreman and whoever checks the fixing have to know: narrow piers, edge distances and numbers that cannot be kept."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.fasteners.kinds import Kind
from storeyrod.fasteners.pattern import Pattern
from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.plane import distance_to_edge
from storeyrod.geometry.ticks import millimetres

_OFF_COURSE = (
    "No course of slips has its middle in the piece at that distance: fasteners were set at its middle height, where a bed "
    "joint may lie over their heads. Enlarge the piece."
)

_Rated = tuple[float, Kind]
"""A kind of piece by how bad it is: the lower, the worse."""


def piece_findings(fasteners: FaceFasteners, pattern: Pattern) -> list[Finding]:
    """Each sort of finding once for a face, at its worst place, with all the pieces it concerns."""
    kinds = [kind for kind in fasteners.different if not kind.is_ordinary]
    return [
        *_narrow_piers(fasteners, kinds, pattern),
        *_no_edge_distance(fasteners, kinds, pattern),
        *_too_few(fasteners, kinds),
        *_need_unmet(fasteners, kinds),
    ]


def _need_unmet(fasteners: FaceFasteners, kinds: Sequence[Kind]) -> Iterator[Finding]:
    """Pieces whose fasteners do not carry their wind; the value is the share of its resistance that the worst one uses."""
    short = [(-(kind.need.used or 0.0), kind) for kind in kinds if kind.need and not kind.need.met]
    if short:
        used, _ = min(short, key=_rating)
        yield finding("wind-need-unmet", _where(fasteners, short), value=-used, limit=1.0, unit="fraction")


def _narrow_piers(fasteners: FaceFasteners, kinds: Sequence[Kind], pattern: Pattern) -> Iterator[Finding]:
    limit = pattern.narrow
    narrow = [(kind.shape.held, kind) for kind in kinds if 0.0 < kind.shape.held < limit]
    if narrow:
        value = millimetres(min(narrow, key=_rating)[0])
        yield finding("pier-narrow", _where(fasteners, narrow), value=value, limit=millimetres(limit), unit="mm")


def _no_edge_distance(fasteners: FaceFasteners, kinds: Sequence[Kind], pattern: Pattern) -> Iterator[Finding]:
    """The value is the distance that the fasteners set in the middle keep, from the piece's edges or the substrate's end."""
    small = [(_kept(kind, pattern), kind) for kind in kinds if not kind.places.keeps_edge]
    if small:
        rated = [(kept - limit, kind) for (kept, limit), kind in small]
        (kept, limit), _ = min(small, key=lambda item: item[0][0] - item[0][1])
        if kept >= limit:
            yield finding("edge-distance-impossible", _where(fasteners, rated), advice=_OFF_COURSE)
            return
        value, least = millimetres(kept), millimetres(limit)
        yield finding("edge-distance-impossible", _where(fasteners, rated), value=value, limit=least, unit="mm")


def _kept(kind: Kind, pattern: Pattern) -> tuple[float, float]:
    """Least distance of a piece's fasteners with its limit: from its edges, or from the end of the substrate, negative past it.

    Of the two the one that falls short of its limit by more.
    """
    points, (left, right) = list(zip(kind.places.xs, kind.places.ys, strict=True)), kind.shape.room.substrate
    edges = [edge for ring in kind.shape.part.outline for edge in pairwise((*ring, ring[0]))]
    square = min(distance_to_edge(point, *edge) for point in points for edge in edges)
    end = min(min(x - left, right - x) for x, _ in points)
    return min((square, pattern.edge), (end, pattern.from_end), key=lambda found: found[0] - found[1])


def _too_few(fasteners: FaceFasteners, kinds: Sequence[Kind]) -> Iterator[Finding]:
    few = [(float(kind.total - kind.places.asked), kind) for kind in kinds if kind.total < kind.places.asked]
    if few:
        places = min(few, key=_rating)[1].places
        yield finding("fasteners-few", _where(fasteners, few), value=places.total, limit=places.asked, unit="count")


def _rating(rated: _Rated) -> float:
    return rated[0]


def _where(fasteners: FaceFasteners, rated: Sequence[_Rated]) -> Where:
    """All pieces of these kinds, at the first of the worst."""
    kinds = {id(kind) for _, kind in rated}
    laid = zip(fasteners.boards.pieces, fasteners.kinds, strict=True)
    pieces = [(piece, kind) for piece, kind in laid if id(kind) in kinds]
    _, worst_kind = min(rated, key=_rating)
    worst = next(piece for piece, kind in pieces if kind is worst_kind)
    return {
        "pointer": fasteners.face.pointer,
        "elevation": fasteners.face.id,
        "x_mm": millimetres(worst.left),
        "y_mm": millimetres(worst.bottom),
        "pieces": [piece.id for piece, _ in pieces],
    }
