"""The table of layers at the right of the charts of a moisture check: what each is and what it resists."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from storeyrod.drawings.display_list import Box, Item, box_polygon
from storeyrod.drawings.layer_bands import TIGHT
from storeyrod.drawings.legend import SYMBOL
from storeyrod.drawings.lettering import both_ends, number
from storeyrod.drawings.line_styles import LETTERS_SMALL
from storeyrod.drawings.material_hatching import Material, material_cell_in
from storeyrod.drawings.ruled_table import ROW, TITLE, Cell, Table
from storeyrod.drawings.vapour_charts import layer_materials
from storeyrod.drawings.vapour_subject import PassedBand, VapourSubject

CLOSEST: Final = 3.6
"""Rows of small letters may stand so close, mm."""

_NAME: Final = 80.0
"""Room for a name, mm; longer ones keep both ends."""

_STRIP_SHARE: Final = 0.75
"""Of the height of a row, for what a layer is drawn like."""


def layer_table(subject: VapourSubject, head: float, foot: float, lowest: float, beside: float) -> Table:
    """Layers from inside to outside, in rows as close as they must be, down from ``head``.

    The table ends at ``foot``, mm of the paper, or at ``lowest`` where it is no wider than the room ``beside`` what stands below foot.
    Layers that find no room are counted.
    """
    every = _table(subject, ROW)
    end = lowest if every.size[0] <= beside else foot
    room = head - end - TITLE
    pitch = max(CLOSEST, min(ROW, room / len(every.rows)))
    rows = _table(subject, pitch).rows
    return replace(every, rows=_first(rows, int(room / pitch + 1e-9)), pitch=pitch)


def _table(subject: VapourSubject, pitch: float) -> Table:
    materials = layer_materials(subject)
    rows = [
        _row(index, layer, material, pitch)
        for index, (layer, material) in enumerate(zip(subject.layers, materials, strict=True), start=1)
    ]
    heading = tuple(map(Cell, ("layer", "", "mm", "R, m²·K/W", "sd, m")))
    return Table("Layers from inside to outside", (heading, *rows))


def _row(index: int, layer: PassedBand, material: Material, pitch: float) -> tuple[Cell, ...]:
    box = _strip_box(_STRIP_SHARE * pitch)
    tight = (("layer-tight", TIGHT, box_polygon(box)),)
    return (
        Cell(f"{index} {both_ends(layer.name, LETTERS_SMALL, _NAME)}"),
        Cell("", tight if layer.sd is None else material_cell_in(box, material)),
        Cell("-" if layer.thickness is None else number(layer.thickness)),
        Cell(f"{layer.resistance:.3f}"),
        Cell("tight" if layer.sd is None else f"{layer.sd:.4g}"),
    )


def tight_strip() -> Item:
    """A layer that passes no vapour, as the legend shows it."""
    return box_polygon(_strip_box(_STRIP_SHARE * ROW))


def _strip_box(high: float) -> Box:
    return 0.0, -high / 2.0, SYMBOL, high / 2.0


def _first(rows: Sequence[tuple[Cell, ...]], most: int) -> tuple[tuple[Cell, ...], ...]:
    """As many rows as find room, and how many more there are."""
    if len(rows) <= most:
        return tuple(rows)
    return (*rows[: most - 1], (Cell(f"and {len(rows) - most + 1} more"), *[Cell("")] * 4))
