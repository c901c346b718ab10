"""The cut list: pieces to cut, by kind and size."""

from collections.abc import Iterable, Iterator

from storeyrod.geometry.ticks import millimetres
from storeyrod.slips.courses import PieceKind
from storeyrod.slips.layout import SlipLayout
from storeyrod.slips.models import CutRow

_SAME_SIZE = 2
"""Decimals of a millimetre: pieces that agree to these are one row, at the largest size among them."""


def cut_list(layout: SlipLayout) -> list[CutRow]:
    """Cuts from straight slips, header slips and soldiers, the longest first."""
    soldiers = ((cut.height, cut.width, 1) for face in layout.faces for one in face.soldiers for cut in one.cuts)
    return [
        *_rows("stretcher", layout.straight.cuts),
        *_rows("header", layout.headers.cuts),
        *_rows("soldier", soldiers),
    ]


def _rows(kind: PieceKind, sizes: Iterable[tuple[float, float, int]]) -> Iterator[CutRow]:
    groups: dict[tuple[float, float], CutRow] = {}
    for length, height, count in sizes:
        length_mm, height_mm = millimetres(length), millimetres(height)
        key = round(length_mm, _SAME_SIZE), round(height_mm, _SAME_SIZE)
        row = groups.setdefault(key, {"kind": kind, "length_mm": length_mm, "height_mm": height_mm, "count": 0})
        row["length_mm"] = max(row["length_mm"], length_mm)
        row["height_mm"] = max(row["height_mm"], height_mm)
        row["count"] += count
    for key in sorted(groups, reverse=True):
        yield groups[key]
