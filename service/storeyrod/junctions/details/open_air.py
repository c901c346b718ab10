"""What of a detail stands in the open where its wall has a well-ventilated cladding, and how far that stands before the drawing."""

from dataclasses import dataclass, field
from typing import Final

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import Finding, finding, refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.junctions.details.drawing import Surface
from storeyrod.junctions.details.wall_slices import BUILD_UP, Wall
from storeyrod.junctions.posed import OUTSIDE
from storeyrod.thermal.surfaces import surface
from storeyrod.thermal.tabulated import SURFACES
from storeyrod.trace import Trace

_EXTERNAL: Final = SURFACES["external"]
_IN_THE_OPEN: Final = Assumed(_EXTERNAL.unit, _EXTERNAL.clause, "surfaces in the open, beside the ventilated cladding")


@dataclass(frozen=True)
class OpenAir:
    """Surface resistance in the open in m2.K/W, depth in ticks of what stands before the drawing, and what is said of both.

    Without a well-ventilated layer the resistance is that of the wall itself, and nothing stands before it.
    """

    resistance: float
    depth: float = 0.0
    findings: list[Finding] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)

    def surface(self, name: str) -> Surface:
        """A surface in the open."""
        return Surface(name, OUTSIDE, self.resistance)


def open_air(wall: Wall, trace: Trace) -> OpenAir:
    """The open beside a wall; refuses ``layer-not-drawable`` for a layer before the drawing whose thickness is not given."""
    if not wall.left_out:
        return OpenAir(wall.external)
    pointer = f"{BUILD_UP}/layers/{len(wall.slices)}"
    depth = _depth(wall)
    found = finding("ventilated-cladding-not-drawn", {"pointer": pointer}, value=millimetres(depth), unit="mm")
    given = wall.build_up.surface_external_m2_k_per_w is not None or wall.build_up.surface_conditions is not None
    resistance = surface(wall.build_up, BUILD_UP, "external", trace)
    row = stated(f"{BUILD_UP}/surface_external_m2_k_per_w", _EXTERNAL.value, _IN_THE_OPEN)
    return OpenAir(resistance, depth, [found], [] if given else [row])


def _depth(wall: Wall) -> float:
    total = 0.0
    for index, layer in enumerate(wall.left_out, len(wall.slices)):
        thickness = getattr(layer, "thickness_mm", None)
        if thickness is None:
            raise refuse(
                "layer-not-drawable",
                f"{BUILD_UP}/layers/{index}",
                "the finished face, from which an opening is measured, lies outside this layer, which has no thickness; give it one",
            )
        total += ticks(thickness)
    return total
