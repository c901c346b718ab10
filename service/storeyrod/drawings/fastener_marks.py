"""Fasteners on an elevation: small crosses, a symbol for each stage of fixing."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

from storeyrod.drawings.display_list import Group, Marker, Symbol
from storeyrod.drawings.line_styles import FASTENER, finer
from storeyrod.fasteners.face_fasteners import PieceFasteners
from storeyrod.fasteners.stages import Stage
from storeyrod.geometry.ticks import millimetres

SYMBOLS: Final[Mapping[Stage, tuple[Symbol, str]]] = MappingProxyType(
    {
        "first": ("diagonal_cross", "fastener, set first"),
        "rest": ("upright_cross", "fastener, the rest"),
        "after_trim": ("ringed_cross", "fastener, after base trim"),
    }
)
"""Symbol and legend by stage."""

_ON_THE_WALL: Final = 60.0
_LARGEST: Final = 2.0
_SMALLEST: Final = 0.7


def marker_size(scale: float) -> float:
    """Width of a fastener's symbol on paper: about a washer on the wall, within what can be read and told apart."""
    return min(_LARGEST, max(_SMALLEST, _ON_THE_WALL / scale))


def fastener_groups(fastened: Sequence[PieceFasteners], scale: float) -> tuple[Group, ...]:
    """Fasteners of a face, one group for each stage."""
    size = marker_size(scale)
    marks: dict[Stage, list[Marker]] = {stage: [] for stage in SYMBOLS}
    for one in fastened:
        for (x, y), stage in zip(one.places, one.stages, strict=True):
            marks[stage].append(Marker((millimetres(x), millimetres(y)), SYMBOLS[stage][0], size))
    style = finer(FASTENER, scale)
    return tuple(Group(f"fastener-{stage.replace('_', '-')}", style, tuple(found)) for stage, found in marks.items())
