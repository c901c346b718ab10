"""Bridged layers whose parts stand in line: one heat path runs through the same part of each."""

from collections.abc import Sequence
from typing import Final

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.models import BridgedLayer, Layer
from storeyrod.thermal.resistance import HeatLayer, Section
from storeyrod.trace import Trace

_UPPER: Final = Clause("ISO 6946", "6.7.2.3", "memory")

_FRACTION_TOLERANCE: Final = 1e-6
"""By how much shares of parts in line may differ; as parts of one layer may from 1."""


def check_alignment(layers: Sequence[Layer], index: int, pointer: str) -> None:
    """Refuse ``alignment-contradictory`` unless the layer named is an inner bridged one with the same shares, part by part."""
    layer = layers[index]
    assert isinstance(layer, BridgedLayer)
    assert layer.in_line_with is not None
    inner = layers[layer.in_line_with] if layer.in_line_with < index else None
    if not isinstance(inner, BridgedLayer):
        raise refuse(
            "alignment-contradictory",
            f"{pointer}/in_line_with",
            f"layer {layer.in_line_with} is no bridged layer further inside than layer {index}; name one, or leave the member out",
        )
    shares = [(part.fraction, other.fraction) for part, other in zip(layer.parts, inner.parts, strict=False)]
    if len(layer.parts) != len(inner.parts) or any(abs(a - b) > _FRACTION_TOLERANCE for a, b in shares):
        raise refuse(
            "alignment-contradictory",
            f"{pointer}/in_line_with",
            f"parts in line have equal shares, part by part, within {_FRACTION_TOLERANCE:g}, and those of layers "
            f"{layer.in_line_with} and {index} have not; split parts until they have, or leave the member out",
        )


def columns(layers: Sequence[HeatLayer], trace: Trace) -> list[tuple[Section, ...]]:
    """Sections of bridged layers that are independent of one another; layers in line add up, part by part."""
    made: dict[int, tuple[Section, ...]] = {}
    starts: dict[int, int] = {}
    for heat in layers:
        if not isinstance(heat.layer, BridgedLayer):
            continue
        inner = heat.layer.in_line_with
        start = starts[heat.index] = heat.index if inner is None else starts[inner]
        made[start] = _in_line(made[start], heat.sections, trace) if start in made else heat.sections
    return list(made.values())


def _in_line(inner: Sequence[Section], outer: Sequence[Section], trace: Trace) -> tuple[Section, ...]:
    return tuple(
        Section(a.fraction, trace.sum("R_part", "m2_k_per_w", [a.resistance, b.resistance], _UPPER))
        for a, b in zip(inner, outer, strict=True)
    )
