"""The wall of a detail: its layers as slices that can be drawn, with the U-value that they give."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import Finding, Refusal, finding, refuse
from storeyrod.geometry.ticks import ticks
from storeyrod.reference.documents import HOUSE, Clause
from storeyrod.thermal.combined import transmittance
from storeyrod.thermal.corrections import CorrectionTerms
from storeyrod.thermal.heat_layers import counted_layers, name_of
from storeyrod.thermal.insulation import insulation_layer
from storeyrod.thermal.models import AirLayer, BridgedLayer, BuildUp, Layer
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.surfaces import still_air, surface
from storeyrod.thermal.u_value import build_up_u_value
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_EQUIVALENT = Clause("ISO 10211", "equivalent conductivity of air layers and quasi-homogeneous layers", "memory")
_SUM = Clause("ISO 6946", "6.7.1", "memory")

BUILD_UP: Final = "/build_up"
"""Where the build-up stands in the request."""


@dataclass(frozen=True, slots=True)
class Slice:
    """A layer as it is drawn: from ``outer`` to ``inner`` in ticks from the finished face, with its conductivity."""

    outer: float
    inner: float
    conductivity: float
    name: str
    heat: HeatLayer

    @property
    def pointer(self) -> str:
        """Member of the request that the layer was taken from."""
        return self.heat.pointer


@dataclass(frozen=True)
class Wall:
    """Slices from inside to outside, thickness in ticks, surface resistances, and what was assumed and found.

    ``external`` is the resistance of the outermost slice: behind a well-ventilated layer that of still air.
    """

    slices: tuple[Slice, ...]
    thickness: float
    internal: float
    external: float
    build_up: BuildUp
    findings: list[Finding]
    assumptions: list[Assumption]

    @property
    def left_out(self) -> Sequence[Layer]:
        """The well-ventilated layer and all outside it, which are not drawn."""
        return self.build_up.layers[len(self.slices) :]

    def u_value(self, trace: Trace) -> float:
        """U-value of the slices in series: what the flanks of the junction lose."""
        return u_value_of([self.internal, *(one.heat.resistance for one in self.slices), self.external], trace)


@formula(
    symbol="lambda_eq",
    expression="d / R",
    unit="w_per_m_k",
    inputs={"d": "m", "R": "m2_k_per_w"},
    clause=_EQUIVALENT,
)
def equivalent_conductivity(*, d: float, R: float) -> float:  # noqa: N803  symbol of the standard
    """Conductivity with which a layer is drawn, so that it has its resistance."""
    return d / R


def u_value_of(resistances: list[float], trace: Trace) -> float:
    """U-value of resistances in series, surfaces included."""
    return trace.call(transmittance, R_T=trace.sum("R_T", "m2_k_per_w", resistances, _SUM))


def wall_of(build_up: BuildUp, trace: Trace) -> Wall:
    """The layers that count, drawn.

    Refuses ``layer-not-drawable`` for a layer without thickness, and for a slightly ventilated one. Layers outside strong
    ventilation are left out, with still air as the surface that is left.
    """
    layers = counted_layers(build_up, BUILD_UP, trace)
    for heat in layers:
        _refuse_undrawable(heat)
    plain = build_up_u_value(build_up, BUILD_UP)
    sheltered = len(layers) < len(build_up.layers)
    outside = still_air(build_up.element, trace) if sheltered else surface(build_up, BUILD_UP, "external", trace)
    return Wall(
        _slices(layers, trace),
        sum(ticks(_thickness_mm(heat)) for heat in layers),
        surface(build_up, BUILD_UP, "internal", trace),
        outside,
        build_up,
        plain.findings + [_merged(heat) for heat in layers if isinstance(heat.layer, BridgedLayer)],
        plain.assumptions,
    )


def insulation_of(wall: Wall, index: int | None, pointer: str, otherwise: str = "") -> tuple[Slice, list[Assumption]]:
    """The slice of the insulation, by index or because no other could be meant, and what was assumed for it.

    ``otherwise`` is what else the request may say, so that no insulation is asked for: it ends the sentence of a refusal.
    """
    layers = [one.heat for one in wall.slices]
    try:
        found = insulation_layer(layers, CorrectionTerms(pointer, index))
    except Refusal as refusal:
        raise refuse(refusal.slug, refusal.faults[0].pointer, refusal.faults[0].detail + otherwise) from None
    made = wall.slices[found.index]
    if index is not None:
        return made, []
    why = Assumed("", HOUSE, "the only layer that could be meant by the insulation")
    return made, [stated(f"{pointer}/insulation_layer", found.index, why)]


def behind(wall: Wall, insulation: Slice, otherwise: str = "") -> tuple[Slice, ...]:
    """Slices inside the insulation; refuses where the wall has none, with what else the request may say."""
    made = tuple(one for one in wall.slices if one.outer >= insulation.inner)
    if not made:
        raise refuse(
            "detail-unfit",
            insulation.pointer,
            f"nothing stands behind the insulation; give the layers of the wall that the cladding is fixed to{otherwise}",
        )
    return made


def _refuse_undrawable(heat: HeatLayer) -> None:
    if getattr(heat.layer, "thickness_mm", None) is None:
        raise refuse(
            "layer-not-drawable",
            heat.pointer,
            "a layer given by its resistance alone has no thickness to draw; give thickness_mm and conductivity_w_per_m_k",
        )
    if isinstance(heat.layer, AirLayer) and heat.layer.ventilation == "slight":
        raise refuse(
            "layer-not-drawable",
            f"{heat.pointer}/ventilation",
            "a slightly ventilated air layer has no conductivity of its own; calculate it as none and as strong, and take the worse",
        )


def _thickness_mm(heat: HeatLayer) -> float:
    return float(getattr(heat.layer, "thickness_mm"))  # noqa: B009  every layer that is drawn has it, by whatever kind


def _slices(layers: tuple[HeatLayer, ...], trace: Trace) -> tuple[Slice, ...]:
    made: list[Slice] = []
    outer = 0.0
    for heat in reversed(layers):
        inner = outer + ticks(_thickness_mm(heat))
        d = trace.given(_thickness_mm(heat) * METRES_PER_MILLIMETRE, f"{heat.pointer}/thickness_mm")
        conductivity = trace.call(equivalent_conductivity, d=d, R=heat.resistance)
        made.append(Slice(outer, inner, float(conductivity), name_of(heat.layer), heat))
        outer = inner
    return tuple(reversed(made))


def _merged(heat: HeatLayer) -> Finding:
    return finding("bridged-layer-merged", {"pointer": heat.pointer})
