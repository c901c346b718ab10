"""The vapour pressure sheet: temperature, saturation and vapour pressure in a build-up in one month, and a table of all months."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from storeyrod.drawings.display_list import Item, Line, Marker, Sheet, Style, View, box_polygon
from storeyrod.drawings.layer_bands import STRIP, TIGHT, crowded
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.legend_entries import line_entry
from storeyrod.drawings.lettering import number, shortened
from storeyrod.drawings.line_styles import LETTERS_SMALL
from storeyrod.drawings.material_hatching import material_cell
from storeyrod.drawings.month_table import MOST_WET, month_table, month_table_groups
from storeyrod.drawings.paper import PAPERS
from storeyrod.drawings.ruled_table import Cell, Table, table_groups
from storeyrod.drawings.sheet_frame import Explained, sheet_of_views
from storeyrod.drawings.title_block import Particulars
from storeyrod.drawings.vapour_charts import (
    SATURATION,
    TEMPERATURE,
    VAPOUR,
    WET,
    WET_LINE,
    WET_SIZE,
    layer_materials,
    vapour_charts,
)
from storeyrod.drawings.vapour_subject import VapourSubject

SHOWS: Final = (
    "temperature, saturation and vapour pressure over thickness and over equivalent air layers, planes where moisture "
    "condenses, and a table of months"
)

LEAVES_OUT: Final = "Left out: capillary flow, driving rain, built-in moisture, moving air."

_INSET: Final = 5.0
_HEADING: Final = 18.0
_GAP: Final = 3.0
_NAME: Final = 50.0
_MOST_LAYERS: Final = 18
_SHARE: Final = 0.54


def vapour_pressure_sheet(
    subject: VapourSubject, _scale: int | None, _pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet, not to scale; name and results of ``said`` are set here."""
    paper = PAPERS[0]
    left, bottom, right, top = paper.field
    layers, months = layers_table(subject), month_table(subject)
    foot, head = bottom + _GAP + months.size[1], top - _HEADING
    charts_end = right - _INSET - layers.size[0]
    groups = (
        *vapour_charts(subject, (left + _GAP, foot + _GAP, charts_end, head), _SHARE),
        *table_groups(layers, (charts_end, head)),
        *month_table_groups(subject, months, (left + _INSET, foot)),
    )
    told = Explained(SHOWS, list(_entries(subject)), list(_notes(subject)), [_air(subject)])
    name = f"{said.subject}, {subject.month.name}"
    named = replace(said, subject=name, scale=0, planes=subject.results, planes_are="results")
    return sheet_of_views(paper, (View((0.0, 0.0), 1.0, groups),), named, told, id_prefix)


def _air(subject: VapourSubject) -> str:
    month = subject.month
    sides = (
        f"{side} {air.temperature:.1f} °C, {100 * air.humidity:.0f} % relative humidity, {air.pressure:.0f} Pa"
        for side, air in (("inside", month.indoor), ("outside", month.outdoor))
    )
    return f"{month.name}: {'; '.join(sides)}"


def layers_table(subject: VapourSubject) -> Table:
    """Layers from inside to outside with what they resist."""
    rows: list[tuple[Cell, ...]] = [
        (
            Cell(f"{index} {shortened(layer.name, LETTERS_SMALL, _NAME)}"),
            _drawn(subject, index - 1),
            Cell("-" if layer.thickness is None else number(layer.thickness)),
            Cell(f"{layer.resistance:.3f}"),
            Cell("tight" if layer.sd is None else f"{layer.sd:.4g}"),
        )
        for index, layer in enumerate(subject.layers, start=1)
    ]
    if len(rows) > _MOST_LAYERS:
        more = f"and {len(rows) - _MOST_LAYERS + 1} more"
        rows = [*rows[: _MOST_LAYERS - 1], (Cell(more), *[Cell("")] * 4)]
    heading = tuple(map(Cell, ("layer", "", "mm", "R, m²·K/W", "sd, m")))
    return Table("Layers from inside to outside", (heading, *rows))


def _drawn(subject: VapourSubject, index: int) -> Cell:
    if subject.layers[index].sd is None:
        return Cell("", (("layer-tight", TIGHT, _strip()),))
    return Cell("", material_cell(layer_materials(subject)[index]))


def _strip() -> Item:
    return box_polygon((0.0, -STRIP / 2.0, SYMBOL, STRIP / 2.0))


def _entries(subject: VapourSubject) -> Iterator[Entry]:
    yield line_entry("saturation-pressure", SATURATION, "saturation pressure")
    yield line_entry("vapour-pressure", VAPOUR, "vapour pressure")
    yield line_entry("temperature", TEMPERATURE, "temperature, air at both ends")
    if subject.wet:
        mark: tuple[tuple[str, Style, Item], ...] = (
            ("wet-lines", WET_LINE, Line((SYMBOL / 2.0, -2.4), (SYMBOL / 2.0, 0.0))),
            ("wet-planes", WET, Marker((SYMBOL / 2.0, 0.0), "ring", WET_SIZE)),
        )
        yield Entry(mark, "c1, c2: plane with moisture")
    if any(layer.sd is None for layer in subject.layers):
        yield Entry((("layer-tight", TIGHT, _strip()),), "passes no vapour")


def _notes(subject: VapourSubject) -> Iterator[str]:
    if not subject.wet:
        yield "By this method nothing condenses."
    else:
        yield "What condenses is negative where it could dry."
    if len(subject.wet) > MOST_WET:
        yield f"Planes with moisture that have no rows: {len(subject.wet) - MOST_WET}; they are in the sum."
    if crowded(len(subject.layers)):
        yield "Layers are too many for their numbers over the charts."
    if any(layer.thickness is None for layer in subject.layers):
        yield "Layers without thickness are drawn 10 mm thick."
    if any(layer.sd is None for layer in subject.layers):
        yield "Layers that pass no vapour have no true width over equivalent air layers."
    if any(pressure is None for pressure in subject.month.pressures):
        yield "Between two of them the vapour pressure is not known."
    yield LEAVES_OUT
