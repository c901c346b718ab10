"""What the method assumed where the request was silent."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.reference.documents import HOUSE
from storeyrod.thermal.additions import Additions
from storeyrod.thermal.assumed_conversions import conversion_assumptions
from storeyrod.thermal.corrections import CorrectionTerms, PointFasteners
from storeyrod.thermal.declared_models import DeclaredLayer
from storeyrod.thermal.materials import conductivity_of
from storeyrod.thermal.models import BuildUp, MaterialLayer
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.surfaces import assumed_surfaces
from storeyrod.thermal.tabulated import FASTENER_HEAT

_ONLY_INSULATION: Final = Assumed("", HOUSE, "the only layer that could be meant by the insulation")


def method_assumptions(
    build_up: BuildUp, layers: Sequence[HeatLayer], additions: Additions, terms: CorrectionTerms, pointer: str
) -> list[Assumption]:
    """Surfaces by element, conductivities from the table, the insulation taken, and defaults of undeclared fasteners."""
    sheltered = len(layers) < len(build_up.layers)
    return [
        *assumed_surfaces(build_up, pointer, sheltered=sheltered),
        *_materials(layers),
        *_insulation(additions, terms),
        *_fasteners(terms),
    ]


def _materials(layers: Sequence[HeatLayer]) -> Iterator[Assumption]:
    for heat in layers:
        if isinstance(heat.layer, MaterialLayer):
            tabulated = conductivity_of(heat.layer.material, heat.pointer)
            source = Assumed(tabulated.unit, tabulated.clause)
            yield stated(f"{heat.pointer}/conductivity_w_per_m_k", tabulated.value, source)
        elif isinstance(heat.layer, DeclaredLayer):
            yield from conversion_assumptions(heat.layer, heat.pointer)


def _insulation(additions: Additions, terms: CorrectionTerms) -> Iterator[Assumption]:
    if additions.insulation is not None and terms.insulation_layer is None:
        yield stated(f"{terms.pointer}/insulation_layer", additions.insulation.index, _ONLY_INSULATION)


def _fasteners(terms: CorrectionTerms) -> Iterator[Assumption]:
    fasteners = terms.fasteners
    if isinstance(fasteners, PointFasteners) and not fasteners.declared:
        worst = FASTENER_HEAT["chi_other"]
        note = f"the worst default; the best is {fasteners.chi_low:g} W/K"
        yield stated(f"{fasteners.pointer}/chi_w_per_k", worst.value, Assumed(worst.unit, worst.clause, note))
