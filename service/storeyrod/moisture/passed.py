"""The layers that a section passes, each with the heat and vapour resistance of what is passed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final, Literal

from storeyrod.answer import Assumption, stated
from storeyrod.findings import refuse
from storeyrod.moisture.models import PART_OF_LARGEST_SHARE, SectionPart
from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.moisture.vapour import holder_of, vapour_of
from storeyrod.thermal.heat_layers import name_of
from storeyrod.thermal.models import AirLayer, BridgedLayer, Layer
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.trace import Trace

Factors = Literal["less_favourable", "dry", "wet"]

_SUBLAYER_RESISTANCE: Final = MOISTURE_RULES["sublayer_resistance"].value
_ROUNDING: Final = 1e-9
"""A layer of 0.75 makes three sub-layers of 0.25, whatever the last binary digit says."""


@dataclass(frozen=True, slots=True)
class PassedLayer:
    """A layer as the section passes it: m2.K/W, m of still air (none when vapour-tight), part when bridged."""

    index: int
    name: str
    pointer: str
    layer: Layer
    resistance: float
    sd: float | None
    sublayers: int
    part: int | None = None
    assumed: tuple[Assumption, ...] = ()


def passed_layers(
    layers: Sequence[HeatLayer], parts: Sequence[SectionPart], factors: Factors, trace: Trace
) -> tuple[PassedLayer, ...]:
    """What the section passes of each layer; refuses parts that are not there and vapour data that is missing."""
    lines = _lines(layers)
    named = _named_parts(layers, lines, parts)
    passes = [_part_of(heat, layers, lines, named) for heat in layers]
    resistances = [
        heat.resistance if part is None else heat.sections[part].resistance
        for heat, part in zip(layers, passes, strict=True)
    ]
    insulation = max(range(len(layers)), key=resistances.__getitem__)
    return tuple(
        _passed(
            heat,
            part,
            resistance,
            trace,
            named=lines.get(heat.index) in named,
            takes_dry=factors == "dry" or (factors == "less_favourable" and at > insulation),
        )
        for at, (heat, part, resistance) in enumerate(zip(layers, passes, resistances, strict=True))
    )


def sublayers_of(resistance: float) -> int:
    """Into how many sub-layers a layer goes, so that none resists heat more than the standard allows."""
    return max(1, ceil(resistance / _SUBLAYER_RESISTANCE - _ROUNDING))


def _passed(
    heat: HeatLayer, part: int | None, resistance: float, trace: Trace, *, named: bool, takes_dry: bool
) -> PassedLayer:
    holder = holder_of(heat.layer, heat.pointer, part)
    vapour = vapour_of(holder, resists_heat=resistance > 0.0, takes_dry=takes_dry, trace=trace)
    divided = vapour.sd is not None and not isinstance(heat.layer, AirLayer)
    name = name_of(heat.layer)
    assumed = vapour.assumed
    if isinstance(heat.layer, BridgedLayer) and part is not None:
        name = f"{name}: {heat.layer.parts[part].name}"
        if not named:
            assumed = (stated("/section_parts", name, PART_OF_LARGEST_SHARE), *assumed)
    return PassedLayer(
        heat.index,
        name,
        heat.pointer,
        heat.layer,
        resistance,
        vapour.sd,
        sublayers_of(resistance) if divided else 1,
        part,
        assumed,
    )


def _lines(layers: Sequence[HeatLayer]) -> dict[int, int]:
    """For every bridged layer the innermost one of its line: itself, unless its parts stand behind those of another."""
    made: dict[int, int] = {}
    for heat in layers:
        if isinstance(heat.layer, BridgedLayer):
            inner = heat.layer.in_line_with
            made[heat.index] = heat.index if inner is None else made[inner]
    return made


def _part_of(
    heat: HeatLayer, layers: Sequence[HeatLayer], lines: Mapping[int, int], named: Mapping[int, int]
) -> int | None:
    """One part for a whole line: that which is named, else the one with the largest share of the innermost layer."""
    if heat.index not in lines:
        return None
    line = lines[heat.index]
    sections = next(one.sections for one in layers if one.index == line)
    return named.get(line, max(range(len(sections)), key=lambda at: sections[at].fraction))


def _named_parts(layers: Sequence[HeatLayer], lines: Mapping[int, int], parts: Sequence[SectionPart]) -> dict[int, int]:
    """The part named for each line, by its innermost layer."""
    bridged = {heat.index: heat.layer for heat in layers if isinstance(heat.layer, BridgedLayer)}
    named: dict[int, int] = {}
    seen: set[int] = set()
    for at, wanted in enumerate(parts):
        layer = bridged.get(wanted.layer)
        if layer is None or wanted.part >= len(layer.parts) or wanted.layer in seen:
            raise refuse(
                "section-part-wrong",
                f"/section_parts/{at}",
                f"layer {wanted.layer} is not a bridged layer that counts and has a part {wanted.part}, or is named twice; count layers "
                "and parts from 0 and name each layer once",
            )
        seen.add(wanted.layer)
        line = lines[wanted.layer]
        if named.setdefault(line, wanted.part) != wanted.part:
            raise refuse(
                "section-part-wrong",
                f"/section_parts/{at}/part",
                f"layer {wanted.layer} stands in line with layers through whose part {named[line]} the section goes, and part "
                f"{wanted.part} lies beside that; name one layer of a line, or the same part of each",
            )
    return named
