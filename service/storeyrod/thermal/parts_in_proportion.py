"""Shares of bridged parts that give way to one another: what one gains, the others lose in proportion."""

from collections.abc import Iterator, Sequence
from typing import Any

from storeyrod.thermal.models import BridgedLayer, Layer


def with_share(layers: Sequence[Layer], index: int, part: int, share: Any, pointer: str) -> dict[str, Any]:  # noqa: ANN401  a number or draws
    """Shares by pointer when one part of a layer has another share, in that layer and in those in line with it."""
    layer = layers[index]
    assert isinstance(layer, BridgedLayer)
    was = layer.parts[part].fraction
    rest = (1.0 - share) / (1.0 - was)
    shares = [share if at == part else other.fraction * rest for at, other in enumerate(layer.parts)]
    return {
        f"{pointer}/{row}/parts/{at}/fraction": one for row in _in_line(layers, index) for at, one in enumerate(shares)
    }


def _in_line(layers: Sequence[Layer], index: int) -> Iterator[int]:
    found = {index}
    for at, layer in enumerate(layers):
        if at in found or (isinstance(layer, BridgedLayer) and layer.in_line_with in found):
            found.add(at)
            yield at
