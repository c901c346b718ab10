"""What the corrections of a build-up add to its U-value, one by one."""

from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.thermal.corrections import (
    CorrectionTerms,
    PointFasteners,
    ShankFasteners,
    air_gap_addition,
    conducts_little,
    fasteners_by_point,
    refuse_impossible_shank,
    shank_addition,
)
from storeyrod.thermal.insulation import insulation_layer, pierced_thickness, refuse_wrong_layer
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.tabulated import U_VALUE_RULES
from storeyrod.thermal.variation import on_other_inputs
from storeyrod.trace import Trace


@dataclass(frozen=True, slots=True)
class FastenerAddition:
    """What fasteners add, in W/(m2.K); ``low`` differs from ``high`` when they are not declared."""

    low: float
    high: float
    conducts_little: bool = False


@dataclass(frozen=True, slots=True)
class Additions:
    """Additions in W/(m2.K), each absent when not asked, and the insulation that they refer to."""

    gap: float | None
    fasteners: FastenerAddition | None
    insulation: HeatLayer | None

    @property
    def others(self) -> list[float]:
        """Every addition but that of the fasteners."""
        return [] if self.gap is None else [self.gap]

    @property
    def all(self) -> list[float]:
        """Every addition, air gaps first; of undeclared fasteners the unfavourable end."""
        return self.others if self.fasteners is None else [*self.others, self.fasteners.high]


def additions_of(layers: Sequence[HeatLayer], total: float, terms: CorrectionTerms, trace: Trace) -> Additions:
    """Additions to a component of a total resistance in m2.K/W."""
    if not on_other_inputs(trace):
        refuse_wrong_layer(layers, terms)
    insulation = insulation_layer(layers, terms) if terms.needs_insulation else None
    gap = None
    if insulation is not None and terms.air_gap_level:
        gap = air_gap_addition(terms.air_gap_level, insulation.resistance, total, trace)
    return Additions(gap, _fasteners(terms.fasteners, insulation, total, trace), insulation)


def _fasteners(
    fasteners: PointFasteners | ShankFasteners | None, insulation: HeatLayer | None, total: float, trace: Trace
) -> FastenerAddition | None:
    if isinstance(fasteners, PointFasteners):
        return _by_point(fasteners, trace)
    if fasteners is None or insulation is None:
        return None
    if conducts_little(fasteners, trace):
        none = U_VALUE_RULES["no_fastener_correction"].read(trace)
        return FastenerAddition(none, none, conducts_little=True)
    thickness = pierced_thickness(fasteners, insulation, trace)
    if not on_other_inputs(trace):  # lengths stay while a search moves the thickness
        refuse_impossible_shank(fasteners, thickness)
    addition = shank_addition(fasteners, thickness, insulation.resistance, total, trace)
    return FastenerAddition(addition, addition)


def _by_point(fasteners: PointFasteners, trace: Trace) -> FastenerAddition:
    high = trace.call(fasteners_by_point, chi=fasteners.chi_high, n_f=fasteners.count_per_m2)
    if fasteners.declared:
        return FastenerAddition(high, high)
    return FastenerAddition(trace.call(fasteners_by_point, chi=fasteners.chi_low, n_f=fasteners.count_per_m2), high)
