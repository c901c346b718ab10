"""The vapour pressure sheet: temperature, saturation and vapour pressure in a build-up in one month, and a table of all months."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from storeyrod.drawings.display_list import Item, Line, Marker, Sheet, Style, View
from storeyrod.drawings.layer_bands import TIGHT, crowded
from storeyrod.drawings.layer_table import layer_table, tight_strip
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.legend_entries import line_entry
from storeyrod.drawings.month_table import MOST_WET, month_table, month_table_groups
from storeyrod.drawings.paper import PAPERS
from storeyrod.drawings.ruled_table import table_groups
from storeyrod.drawings.sheet_frame import Explained, sheet_of_views
from storeyrod.drawings.title_block import Particulars
from storeyrod.drawings.vapour_charts import (
    AIR,
    AIR_SIZE,
    SATURATION,
    TEMPERATURE,
    VAPOUR,
    WET,
    WET_LINE,
    WET_SIZE,
    vapour_charts,
)
from storeyrod.drawings.vapour_subject import SATURATED, VapourSubject

SHOWS: Final = (
    "temperature, saturation and vapour pressure over thickness and over equivalent air layers, planes where moisture "
    "condenses, and a table of"
)

SURFACE_RESULTS: Final = "Results of the inside surface: by its resistance for mould; charts: by that of the build-up."
LEAVES_OUT: Final = "Left out: capillary flow, driving rain, built-in moisture, moving air."

_INSET: Final = 5.0
_HEADING: Final = 18.0
_GAP: Final = 3.0
_SHARE: Final = 0.54


def vapour_pressure_sheet(
    subject: VapourSubject, _scale: int | None, _pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet, not to scale; name and results of ``said`` are set here."""
    paper = PAPERS[0]
    left, bottom, right, top = paper.field
    months, head = month_table(subject), top - _HEADING
    foot = bottom + _GAP + months.size[1]
    beside = right - 2 * _INSET - (left + _INSET + months.size[0])
    layers = layer_table(subject, head, foot, bottom + _GAP, beside)
    charts_end = right - _INSET - layers.size[0]
    groups = (
        *vapour_charts(subject, (left + _GAP, foot + _GAP, charts_end, head), _SHARE),
        *table_groups(layers, (charts_end, head)),
        *month_table_groups(subject, months, (left + _INSET, foot)),
    )
    shows = f"{SHOWS} {'months' if subject.monthly else 'blocks of days'}"
    cautions = [" ".join(subject.cautions)] if subject.cautions else []
    told = Explained(shows, list(_entries(subject)), list(_notes(subject)), [_air(subject), *cautions])
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


def _entries(subject: VapourSubject) -> Iterator[Entry]:
    yield line_entry("saturation-pressure", SATURATION, "saturation pressure")
    yield line_entry("vapour-pressure", VAPOUR, "vapour pressure")
    yield line_entry("temperature", TEMPERATURE, "temperature, air at both ends")
    cross = Marker((SYMBOL / 2.0, 0.0), "diagonal_cross", AIR_SIZE)
    yield Entry((("air-pressure", AIR, cross),), "vapour pressure of the air itself")
    if subject.wet:
        mark: tuple[tuple[str, Style, Item], ...] = (
            ("wet-lines", WET_LINE, Line((SYMBOL / 2.0, -2.4), (SYMBOL / 2.0, 0.0))),
            ("wet-planes", WET, Marker((SYMBOL / 2.0, 0.0), "ring", WET_SIZE)),
        )
        yield Entry(mark, "c1, c2: plane with moisture")
    if any(layer.sd is None for layer in subject.layers):
        yield Entry((("layer-tight", TIGHT, tight_strip()),), "passes no vapour")


def _notes(subject: VapourSubject) -> Iterator[str]:
    yield from _cut_surfaces(subject)
    if not subject.wet:
        yield "By this method nothing condenses between layers."
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
    yield SURFACE_RESULTS
    yield LEAVES_OUT


def _cut_surfaces(subject: VapourSubject) -> Iterator[str]:
    """Surfaces on which vapour pressure is drawn at saturation, because the air itself holds more."""
    month = subject.month
    ends = zip(("Inside", "Outside"), month.airs, month.surface_humidities, strict=True)
    for side, air, humidity in ends:
        if humidity > SATURATED:
            saturation = air.pressure / humidity
            yield f"{side} surface: vapour pressure is cut to saturation, {saturation:.0f} Pa; the air holds {air.pressure:.0f} Pa."
