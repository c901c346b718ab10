"""The three charts of a moisture check: temperature over thickness, and pressures over thickness and over equivalent air layers."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.chart import FOOT, LEFT, Chart, chart_groups, measured_axis, whole_axis
from storeyrod.drawings.display_list import Box, Group, Item, Line, Marker, Point, Polyline, Style, Text, box_polygon
from storeyrod.drawings.drawn_lines import DrawnLines
from storeyrod.drawings.free_room import FreeRoom, boxes_beside, middle_of
from storeyrod.drawings.layer_bands import HEAD, Bands, band_groups
from storeyrod.drawings.lettering import width_of
from storeyrod.drawings.line_styles import BLANK, BROAD, LETTERING, LETTERS_SMALL, MEDIUM, THICK
from storeyrod.drawings.material_hatching import Material, materials_of
from storeyrod.drawings.vapour_subject import SATURATED, VapourSubject

SATURATION: Final = Style(MEDIUM)
VAPOUR: Final = Style(THICK, dashes=(3.0, 1.4))
TEMPERATURE: Final = Style(BROAD)
WET_LINE: Final = Style(BROAD, dashes=(0.6, 0.8))
WET: Final = Style(BROAD, fill=1.0)
WET_SIZE: Final = 2.6
AIR: Final = Style(BROAD)
AIR_SIZE: Final = 2.0

_TEMPERATURE_SHARE: Final = 0.3
"""Of the height of charts over thickness."""

_BETWEEN: Final = 10.0
_NEAR: Final = (1.2, 2.2, 3.6, 5.0, 7.0)
_AROUND: Final = 0.6
_SHORTEST_MM: Final = 1e-3


@dataclass(frozen=True, slots=True)
class _Curves:
    """What a pressure chart shows: places of planes along its level axis and the layers over it."""

    chart: Chart
    places: Sequence[float]
    bands: Bands


def layer_materials(subject: VapourSubject) -> list[Material]:
    """Layers hatched by what they conduct: thickness over resistance; one that resists no heat as a metal."""
    conductivities = [
        thickness / 1000.0 / layer.resistance if layer.resistance > 0.0 else 1000.0
        for layer, thickness in zip(subject.layers, subject.thicknesses, strict=True)
    ]
    return materials_of([(layer.name, one) for layer, one in zip(subject.layers, conductivities, strict=True)])


def vapour_charts(subject: VapourSubject, box: Box, share: float) -> Iterator[Group]:
    """Charts over thickness in the left ``share`` of a box of the paper, over equivalent air layers in the rest."""
    left, bottom, right, top = box
    middle = left + share * (right - left)
    materials = layer_materials(subject)
    tight = frozenset(index for index, layer in enumerate(subject.layers) if layer.sd is None)
    over = Bands(subject.thicknesses, materials, tight)
    high = top - HEAD - bottom - 2 * FOOT
    split = top - HEAD - _TEMPERATURE_SHARE * high
    yield from _temperatures(subject, (left + LEFT, split, middle - _BETWEEN, top - HEAD), over)
    thick = measured_axis("thickness from inside, mm", max(sum(over.sizes), _SHORTEST_MM))
    pressures = whole_axis("pressure, Pa", 0.0, _greatest(subject))
    lower = Chart((left + LEFT, bottom + FOOT, middle - _BETWEEN, split - FOOT), thick, pressures)
    yield from _pressures(subject, _Curves(lower, subject.places(over.sizes), over), strip=False)
    beside = Bands(subject.air_layers, materials, tight)
    thin = measured_axis("equivalent air layer from inside, m", max(sum(beside.sizes), _SHORTEST_MM))
    aside = Chart((middle + LEFT, bottom + FOOT, right - _BETWEEN, top - HEAD), thin, pressures)
    yield from _pressures(subject, _Curves(aside, subject.places(beside.sizes), beside), strip=True)


def _greatest(subject: VapourSubject) -> float:
    month = subject.month
    airs = (air.pressure for air in month.airs)
    return max(*month.saturations, *(one for one in month.pressures if one is not None), *airs, 1.0)


def _temperatures(subject: VapourSubject, box: Box, bands: Bands) -> Iterator[Group]:
    month = subject.month
    every = [*month.temperatures, month.indoor.temperature, month.outdoor.temperature]
    level = measured_axis("", max(sum(bands.sizes), _SHORTEST_MM))
    chart = Chart(box, level, whole_axis("temperature, °C", min(every), max(every)))
    yield from chart_groups(chart)
    yield from band_groups(bands, chart)
    line = tuple(chart.at(point) for point in zip(subject.places(bands.sizes), month.temperatures, strict=True))
    ends = (chart.at((level.low, month.indoor.temperature)), *line, chart.at((level.high, month.outdoor.temperature)))
    yield Group("temperature", TEMPERATURE, (Polyline(ends),))


def _pressures(subject: VapourSubject, curves: _Curves, *, strip: bool) -> Iterator[Group]:
    """A pressure chart; the numbers of the layers stand over it with ``strip``, else over the chart above."""
    chart, month = curves.chart, subject.month
    yield from chart_groups(chart)
    yield from (group for group in band_groups(curves.bands, chart) if strip or group.role == "layer-lines")
    saturation = tuple(chart.at(point) for point in zip(curves.places, month.saturations, strict=True))
    vapour = tuple(Polyline(run) for run in _runs(chart, curves.places, month.pressures, subject))
    yield Group("saturation-pressure", SATURATION, (Polyline(saturation),))
    yield Group("vapour-pressure", VAPOUR, vapour)
    drawn = DrawnLines((saturation, *(run.points for run in vapour)))
    room = FreeRoom(chart.box)
    yield from _airs(subject, chart, room, drawn)
    yield from _wet(subject, curves, room, drawn)


def _airs(subject: VapourSubject, chart: Chart, room: FreeRoom, drawn: DrawnLines) -> Iterator[Group]:
    """The pressure of the air itself at both ends; in words where its surface is over saturation and the line is cut to that."""
    month = subject.month
    ends = [
        chart.at((end, air.pressure)) for end, air in zip((chart.level.low, chart.level.high), month.airs, strict=True)
    ]
    yield Group("air-pressure", AIR, tuple(Marker(point, "diagonal_cross", AIR_SIZE) for point in ends))
    texts = tuple(
        text
        for point, air, humidity in zip(ends, month.airs, month.surface_humidities, strict=True)
        if humidity > SATURATED
        for text in _named(f"air {air.pressure:.0f} Pa", point, room, drawn)
    )
    yield from _lettered("air", texts)


def _lettered(role: str, texts: tuple[Text, ...]) -> Iterator[Group]:
    yield Group(f"{role}-blank", BLANK, tuple(map(_blank, texts)))
    yield Group(f"{role}-words", LETTERING, texts)


def _runs(
    chart: Chart, places: Sequence[float], pressures: Sequence[float | None], subject: VapourSubject
) -> Iterator[tuple[Point, ...]]:
    """The line of vapour pressure, broken at vapour-tight layers and where the pressure is not known."""
    run: list[Point] = []
    for index, (place, pressure) in enumerate(zip(places, pressures, strict=True)):
        if _after_tight(subject, index) or pressure is None:
            if len(run) > 1:
                yield tuple(run)
            run = []
        if pressure is not None:
            run.append(chart.at((place, pressure)))
    if len(run) > 1:
        yield tuple(run)


def _after_tight(subject: VapourSubject, index: int) -> bool:
    """Whether a vapour-tight layer lies just inside a plane."""
    plane = subject.planes[index]
    return plane.share > 0.0 and subject.layers[plane.layer].sd is None


def _wet(subject: VapourSubject, curves: _Curves, room: FreeRoom, drawn: DrawnLines) -> Iterator[Group]:
    """Planes that hold or gain moisture in the month, with their numbers."""
    chart, month = curves.chart, subject.month
    wet = [
        (number, plane)
        for number, plane in enumerate(subject.wet, start=1)
        if month.held.get(plane, 0.0) > 0.0 or month.condensed.get(plane, 0.0) > 0.0
    ]
    _, bottom, _, _ = chart.box
    at = {number: chart.at((curves.places[plane], month.saturations[plane])) for number, plane in wet}
    yield Group("wet-lines", WET_LINE, tuple(Line((x, bottom), (x, y)) for x, y in at.values()))
    yield Group("wet-planes", WET, tuple(Marker(point, "ring", WET_SIZE) for point in at.values()))
    texts = tuple(text for number, point in at.items() for text in _named(f"c{number}", point, room, drawn))
    yield from _lettered("wet", texts)


def _named(words: str, point: Point, room: FreeRoom, drawn: DrawnLines) -> Iterator[Text]:
    size = width_of(words, LETTERS_SMALL) + _AROUND, LETTERS_SMALL + _AROUND
    tried = list(boxes_beside(point, *size, [WET_SIZE / 2.0 + near for near in _NEAR]))
    box = room.first([*(one for one in tried if drawn.is_clear(one)), *tried])
    if box is not None:
        yield Text(middle_of(box), words, LETTERS_SMALL, "middle", middle=True, bold=True)


def _blank(text: Text) -> Item:
    long, high = width_of(text.words, text.height) / 2.0 + _AROUND / 2.0, (text.height + _AROUND) / 2.0
    x, y = text.at
    return box_polygon((x - long, y - high, x + long, y + high))
