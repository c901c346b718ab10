"""Which layer is the insulation: the R_1 of the corrections."""

from collections.abc import Sequence
from math import isclose
from typing import Final

from storeyrod.findings import refuse
from storeyrod.thermal.corrections import CorrectionTerms, ShankFasteners
from storeyrod.thermal.declared_models import DeclaredLayer
from storeyrod.thermal.materials import conductivity_of
from storeyrod.thermal.models import AirLayer, BridgedLayer, BridgedPart, MaterialLayer, ResistanceLayer, SolidLayer
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.variation import on_other_inputs
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE

_INSULATING_CONDUCTIVITY: Final = 0.065
_INSULATING_RESISTANCE: Final = 0.5
"""Up to this conductivity in W/(m.K), or from this declared resistance in m2.K/W, a layer could be meant by "the
insulation"; the service's own limits, used only to save naming a layer that nobody could mistake."""


def insulation_layer(layers: Sequence[HeatLayer], terms: CorrectionTerms) -> HeatLayer:
    """The layer named, else the only one that could be meant; refuses when there is none, or a choice."""
    if terms.insulation_layer is not None:
        return _named(layers, terms.insulation_layer, f"{terms.pointer}/insulation_layer")
    found = [layer for layer in layers if _insulates(layer)]
    if len(found) != 1:
        which = f"layers {', '.join(str(layer.index) for layer in found)}" if found else "no layer"
        raise refuse(
            "insulation-layer-unclear",
            terms.pointer,
            f"{which} could be meant by the insulation; give insulation_layer, counted from 0 at the inside",
        )
    return found[0]


def refuse_wrong_layer(layers: Sequence[HeatLayer], terms: CorrectionTerms) -> None:
    """Refuse a layer named as insulation that is none, whether a correction needs it or not."""
    if terms.insulation_layer is not None:
        _named(layers, terms.insulation_layer, f"{terms.pointer}/insulation_layer")


def pierced_thickness(fasteners: ShankFasteners, insulation: HeatLayer, trace: Trace) -> float:
    """Thickness in m that fasteners pierce: that of the insulation layer, else as given; refuses two that differ."""
    if isinstance(insulation.layer, ResistanceLayer):
        if fasteners.thickness is not None:
            return fasteners.thickness
        raise refuse(
            "insulation-layer-unclear",
            fasteners.pointer,
            f"layer {insulation.index} is given by resistance and has no thickness; give insulation_thickness_mm",
        )
    thickness = insulation.layer.thickness_mm * METRES_PER_MILLIMETRE
    given = None if on_other_inputs(trace) else fasteners.thickness
    if given is not None and not isclose(given, thickness):
        raise refuse(
            "fasteners-contradictory",
            f"{fasteners.pointer}/insulation_thickness_mm",
            f"layer {insulation.index} is {insulation.layer.thickness_mm:g} mm thick, and another thickness is given for it; "
            "leave insulation_thickness_mm out, it is for layers given by resistance",
        )
    return trace.given(thickness, f"{insulation.pointer}/thickness_mm")


def _named(layers: Sequence[HeatLayer], index: int, pointer: str) -> HeatLayer:
    if index >= len(layers):
        raise refuse(
            "insulation-layer-wrong",
            pointer,
            f"layer {index} is not among the {len(layers)} layers that count; count from 0 at the inside",
        )
    if isinstance(layers[index].layer, AirLayer):
        raise refuse("insulation-layer-wrong", pointer, f"layer {index} is an air layer; name the insulation")
    return layers[index]


def _insulates(heat: HeatLayer) -> bool:
    layer = heat.layer
    if isinstance(layer, BridgedLayer):
        return any(_part_insulates(part) for part in layer.parts)
    if isinstance(layer, SolidLayer):
        return layer.conductivity_w_per_m_k <= _INSULATING_CONDUCTIVITY
    if isinstance(layer, DeclaredLayer):
        return layer.conductivity_declared_w_per_m_k <= _INSULATING_CONDUCTIVITY
    if isinstance(layer, MaterialLayer):
        return conductivity_of(layer.material, heat.pointer).value <= _INSULATING_CONDUCTIVITY
    return isinstance(layer, ResistanceLayer) and layer.resistance_m2_k_per_w >= _INSULATING_RESISTANCE


def _part_insulates(part: BridgedPart) -> bool:
    if part.conductivity_w_per_m_k is not None:
        return part.conductivity_w_per_m_k <= _INSULATING_CONDUCTIVITY
    return part.resistance_m2_k_per_w is not None and part.resistance_m2_k_per_w >= _INSULATING_RESISTANCE
