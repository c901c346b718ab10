"""The cut list: pieces to saw, by kind, size and shape, each row enough to saw them by."""

from collections.abc import Iterable, Iterator

from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import millimetres
from storeyrod.slips.courses import PieceKind
from storeyrod.slips.layout import SlipLayout
from storeyrod.slips.models import CutRow, RingPoint
from storeyrod.slips.rake import shape_of
from storeyrod.slips.sawing import CutSize, circles_of

_SAME_SIZE = 2
"""Decimals of a millimetre and of a degree: pieces that agree to these are one row, at the largest size among them."""

_KINDS: tuple[PieceKind, ...] = ("stretcher", "voussoir", "header", "soldier")

_Order = tuple[float, float, float, str, float, bool, float, float, bool, tuple[tuple[float, float], ...]]


def cut_list(layout: SlipLayout) -> list[CutRow]:
    """Pieces of stretchers, voussoirs, headers and soldiers, the longest of each kind first."""
    pieces = [*layout.straight.cuts, *layout.headers.cuts, *_soldiers(layout)]
    return [
        row for kind in _KINDS for row in _rows(kind, ((size, count) for one, size, count in pieces if one == kind))
    ]


def _soldiers(layout: SlipLayout) -> Iterator[tuple[PieceKind, CutSize, int]]:
    """Cut soldiers; their length stands upright."""
    for face in layout.faces:
        circles = circles_of(face.face, face.voussoirs)
        for course in face.soldiers:
            for cut in course.cuts:
                yield "soldier", CutSize(cut.height, cut.width, shape_of(cut.part, circles)), 1


def _rows(kind: PieceKind, pieces: Iterable[tuple[CutSize, int]]) -> Iterator[CutRow]:
    groups: dict[_Order, CutRow] = {}
    for size, count in pieces:
        made = _row(kind, size, count)
        known = groups.setdefault(_order(made), made)
        if known is not made:
            _join(known, made)
    for order in sorted(groups, reverse=True):
        yield groups[order]


def _row(kind: PieceKind, size: CutSize, count: int) -> CutRow:
    row: CutRow = {
        "kind": kind, "length_mm": millimetres(size.length), "height_mm": millimetres(size.height), "count": count,
    }  # fmt: skip
    shape = size.shape
    if shape.rake is not None:
        along = shape.rake.rise if kind == "soldier" else shape.rake.run
        row["rake_deg"], row["rises"] = shape.rake.angle, shape.rake.rises
        row["short_length_mm"] = max(0.0, millimetres(size.length - along))
    if shape.wedge is not None:
        row["width_intrados_mm"], row["width_extrados_mm"] = (millimetres(width) for width in shape.wedge)
    if shape.curved:
        row["curved"] = True
    if shape.trimmed:
        row["trimmed"] = True
    if shape.outline:
        row["outline"] = _outline(shape.outline)
    return row


def _outline(ring: Ring) -> list[RingPoint]:
    """Corners to the hundredth of a millimetre, so that equal pieces give the same ones."""
    return [
        {"x_mm": round(millimetres(x), _SAME_SIZE) + 0.0, "y_mm": round(millimetres(y), _SAME_SIZE) + 0.0}
        for x, y in ring
    ]


def _order(row: CutRow) -> _Order:
    return (
        round(row["length_mm"], _SAME_SIZE),
        round(row["height_mm"], _SAME_SIZE),
        round(row.get("rake_deg", -1.0), _SAME_SIZE),
        row.get("rises", ""),
        round(row.get("short_length_mm", -1.0), _SAME_SIZE),
        row.get("curved", False),
        round(row.get("width_intrados_mm", -1.0), _SAME_SIZE),
        round(row.get("width_extrados_mm", -1.0), _SAME_SIZE),
        row.get("trimmed", False),
        tuple((corner["x_mm"], corner["y_mm"]) for corner in row.get("outline", ())),
    )


def _join(known: CutRow, other: CutRow) -> None:
    """Add pieces of the same row."""
    known["count"] += other["count"]
    known["length_mm"] = max(known["length_mm"], other["length_mm"])
    known["height_mm"] = max(known["height_mm"], other["height_mm"])
    if "rake_deg" in known and "rake_deg" in other:
        known["rake_deg"] = max(known["rake_deg"], other["rake_deg"])
        known["short_length_mm"] = max(known["short_length_mm"], other["short_length_mm"])
