"""What a reader of a U-value must be told."""

from collections.abc import Iterable, Sequence
from typing import Final

from storeyrod.findings import Finding, Where, finding
from storeyrod.thermal.additions import Additions
from storeyrod.thermal.air_layers import is_wide_void, void_ratio
from storeyrod.thermal.combined import Limits, limit_ratio
from storeyrod.thermal.corrections import CorrectionTerms, PointFasteners, ShankFasteners
from storeyrod.thermal.models import AirLayer, BridgedLayer, BuildUp
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.tabulated import U_VALUE_RULES
from storeyrod.trace import SILENT, Trace
from storeyrod.units import METRES_PER_MILLIMETRE

_GREATEST_RATIO: Final = U_VALUE_RULES["greatest_limit_ratio"]
_IGNORED_SHARE: Final = U_VALUE_RULES["ignored_share"]

_METAL_RATIO: Final = 100.0
"""House limit: from this ratio of conductivities the bridge is taken for metal (steel to insulation: about 1 000)."""

_METAL_CONDUCTIVITY: Final = 10.0
_BESIDE_METAL: Final = 1.0
"""House limits in W/(m.K): a part that conducts as well as the first, beside one under the second, is taken for metal too. No
stone or concrete conducts so well, and the poorest metals of buildings do (stainless steel: 15 to 17)."""


def build_up_findings(
    build_up: BuildUp, layers: Sequence[HeatLayer], cases: Iterable[Limits], pointer: str, trace: Trace
) -> list[Finding]:
    """Findings on the layers, from inside to outside, then on the method."""
    made = [found for layer in layers if layer.sections for found in _metal(layer)]
    if len(layers) < len(build_up.layers):
        made.append(
            finding(
                "beyond-ventilated-layer",
                {"pointer": f"{pointer}/layers/{len(layers)}"},
                value=float(len(build_up.layers) - len(layers) - 1),
                unit="count",
            )
        )
    made += _voids(layers)
    return made + _far_apart(cases, f"{pointer}/layers", trace)


def method_findings(layers: Sequence[HeatLayer], cases: Iterable[Limits], pointer: str) -> list[Finding]:
    """Findings of metal, then of limits far apart: where the combined method does not hold."""
    made = [found for layer in layers if layer.sections for found in _metal(layer)]
    return made + _far_apart(cases, f"{pointer}/layers", SILENT)


def correction_findings(terms: CorrectionTerms, additions: Additions, plain: float, *, applies: bool) -> list[Finding]:
    """Findings on the fasteners, then on corrections that the 3 % rule left out."""
    made: list[Finding] = []
    fasteners = terms.fasteners
    if isinstance(fasteners, PointFasteners) and not fasteners.declared:
        made.append(finding("fastener-heat-unknown", {"pointer": fasteners.pointer}))
    if fasteners is not None and additions.fasteners is not None and additions.fasteners.conducts_little:
        made.append(finding("fastener-conducts-little", {"pointer": fasteners.pointer}))
    total = sum(additions.all)
    if total > 0.0 and not applies:
        limit = _IGNORED_SHARE.value * plain
        made.append(
            finding("correction-ignored", {"pointer": terms.pointer}, value=total, limit=limit, unit="w_per_m2_k")
        )
    return made


def not_checked(layers: Sequence[HeatLayer], terms: CorrectionTerms) -> list[str]:
    """What a reader might think was checked and was not."""
    made = [
        "Junctions, openings and other thermal bridges outside the layers given.",
        "Moisture, condensation, and the rise of conductivity in damp material.",
        "Any requirement of a building regulation: the local code and a licensed designer decide.",
    ]
    air = [layer.layer for layer in layers if isinstance(layer.layer, AirLayer)]
    if air:
        made.append(
            "Air layers: their width and height, and the temperature difference across them (taken as up to 5 K where not given)."
        )
    if sum(layer.ventilation == "slight" for layer in air) > 1:
        made.append(
            "Several slightly ventilated layers: the standard describes one; they were mixed from the outside inwards."
        )
    if isinstance(terms.fasteners, ShankFasteners):
        made.append("Fasteners: whether both ends touch metal, where the approximate procedure does not hold.")
    return made


def _voids(layers: Sequence[HeatLayer]) -> Iterable[Finding]:
    for heat in layers:
        if isinstance(heat.layer, AirLayer) and is_wide_void(heat.layer):
            ratio, limit = void_ratio(heat.layer)
            where: Where = {"pointer": f"{heat.pointer}/void_width_mm"}
            yield finding("void-wide", where, value=ratio, limit=limit, unit="fraction")


def _metal(heat: HeatLayer) -> Iterable[Finding]:
    assert isinstance(heat.layer, BridgedLayer)
    where: Where = {"pointer": f"{heat.pointer}/parts"}
    resistances = [part.resistance for part in heat.sections]
    thickness = heat.layer.thickness_mm * METRES_PER_MILLIMETRE
    most, least = thickness / min(resistances), thickness / max(resistances)
    if max(resistances) / min(resistances) > _METAL_RATIO:
        ratio = float(max(resistances) / min(resistances))
        yield finding("metal-bridge", where, value=ratio, limit=_METAL_RATIO, unit="fraction")
    elif most >= _METAL_CONDUCTIVITY and least < _BESIDE_METAL:
        yield finding("metal-bridge", where, value=float(most), limit=_METAL_CONDUCTIVITY, unit="w_per_m_k")


def _far_apart(cases: Iterable[Limits], pointer: str, trace: Trace) -> list[Finding]:
    bridged = [case for case in cases if case.bridged]
    if not bridged:
        return []
    ratio = max(trace.call(limit_ratio, R_upper=case.upper, R_lower=case.lower) for case in bridged)
    limit = _GREATEST_RATIO.read(trace)
    if trace.check("ratio", ratio, limit, "fraction", _GREATEST_RATIO.clause, holds=ratio <= limit):
        return []
    return [
        finding("combined-method-limit", {"pointer": pointer}, value=float(ratio), limit=float(limit), unit="fraction")
    ]
