"""U-value of a build-up, with and without what corrects it: for its own operation and for rooms that need one."""

from typing import NamedTuple, cast

from storeyrod.answer import Answer
from storeyrod.reference.documents import Clause
from storeyrod.thermal.additions import Additions, additions_of
from storeyrod.thermal.assumed import method_assumptions
from storeyrod.thermal.cautions import build_up_findings, correction_findings, not_checked
from storeyrod.thermal.combined import Limits, mean_resistance, relative_error, transmittance
from storeyrod.thermal.conversion_tables import rounded_conductivity
from storeyrod.thermal.corrections import CorrectionTerms, kept
from storeyrod.thermal.declared_models import DeclaredLayer
from storeyrod.thermal.heat_layers import counted_layers, name_of, refuse_without_resistance
from storeyrod.thermal.models import BuildUp, CorrectionResult, LayerResult, UValueResult
from storeyrod.thermal.question_models import Tapered
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.rounding import rounded, significant
from storeyrod.thermal.surfaces import still_air, surface
from storeyrod.thermal.tapered import Wedge, all_but_wedge, tapered_result, wedge_over
from storeyrod.thermal.variation import on_other_inputs
from storeyrod.thermal.ventilation import ventilated_limits
from storeyrod.trace import SILENT, Trace

_CORRECTED = Clause("ISO 6946", "Annex F", "memory")
_NONE = CorrectionTerms()


class Resistance(NamedTuple):
    """Resistance of a component in m2.K/W: surfaces, limits, every case they were mixed from, and the total.

    With a tapered layer limits and cases are those of all but that layer.
    """

    internal: float
    external: float
    limits: Limits
    cases: list[Limits]
    total: float


class Component(NamedTuple):
    """A build-up as far as it counts: layers, resistance, U-value in W/(m2.K) without corrections, and what those add."""

    layers: tuple[HeatLayer, ...]
    resistance: Resistance
    plain: float
    additions: Additions
    tapered: Tapered | None = None
    wedge: Wedge | None = None

    def u_value(self, trace: Trace, *, applies: bool) -> float:
        """U-value in W/(m2.K), with or without corrections."""
        return with_additions(self.plain, self.additions.all if applies else [], trace)


def build_up_u_value(
    build_up: BuildUp, pointer: str, terms: CorrectionTerms = _NONE, trace: Trace = SILENT
) -> Answer[UValueResult]:
    """Resistance and U-value of the build-up that stands at a pointer of the request.

    ``terms`` hold numbers that are already linked to their origin, so that a fastener count measured on a layout can be
    corrected for. The answer's assumptions are those the method made; the caller adds the request's own.
    """
    return answer_of(build_up, pointer, component_of(build_up, pointer, terms, trace), terms, trace)


def answer_of(
    build_up: BuildUp, pointer: str, component: Component, terms: CorrectionTerms, trace: Trace
) -> Answer[UValueResult]:
    """What is answered of a component, with its findings."""
    layers, additions, plain = component.layers, component.additions, component.plain
    applies = additions_apply(component, trace)
    findings = build_up_findings(build_up, layers, component.resistance.cases, pointer, trace)
    findings += correction_findings(terms, additions, plain, applies=applies)
    return Answer(
        _result(build_up, component, trace, applies=applies),
        findings,
        method_assumptions(build_up, layers, additions, terms, pointer),
        not_checked(layers, terms),
    )


def component_of(
    build_up: BuildUp, pointer: str, terms: CorrectionTerms, trace: Trace, tapered: Tapered | None = None
) -> Component:
    """Everything that a U-value is made of; refuses a build-up that resists nothing."""
    layers = counted_layers(build_up, pointer, trace)
    if not on_other_inputs(trace):  # other inputs are only asked for once the request's own were answered
        refuse_without_resistance(layers, len(build_up.layers), pointer)
    resistance, plain, wedge = _resistance(build_up, layers, pointer, trace, tapered)
    return Component(layers, resistance, plain, additions_of(layers, resistance.total, terms, trace), tapered, wedge)


def additions_apply(component: Component, trace: Trace) -> bool:
    """Whether the 3 % rule keeps the corrections."""
    additions = component.additions.all
    return bool(additions) and kept(trace.sum("dU", "w_per_m2_k", additions, _CORRECTED), component.plain, trace)


def with_additions(plain: float, additions: list[float], trace: Trace) -> float:
    """A U-value in W/(m2.K) with what corrections add."""
    return trace.sum("U_c", "w_per_m2_k", [plain, *additions], _CORRECTED) if additions else plain


def _resistance(
    build_up: BuildUp, layers: tuple[HeatLayer, ...], pointer: str, trace: Trace, tapered: Tapered | None
) -> tuple[Resistance, float, Wedge | None]:
    internal = surface(build_up, pointer, "internal", trace)
    sheltered = len(layers) < len(build_up.layers)
    external = still_air(build_up.element, trace) if sheltered else surface(build_up, pointer, "external", trace)
    rest = layers if tapered is None else all_but_wedge(layers, tapered)
    limits, cases = ventilated_limits(rest, internal, external, build_up.element, f"{pointer}/layers", trace)
    total = limits.lower
    if limits.bridged:
        total = trace.call(mean_resistance, R_upper=limits.upper, R_lower=limits.lower)
    if tapered is None:
        return Resistance(internal, external, limits, cases, total), trace.call(transmittance, R_T=total), None
    wedge = wedge_over(layers, tapered, total, trace)
    return Resistance(internal, external, limits, cases, wedge.total), wedge.u_value, wedge


def _result(build_up: BuildUp, component: Component, trace: Trace, *, applies: bool) -> UValueResult:
    resistance, plain, additions = component.resistance, component.plain, component.additions
    limits, total = resistance.limits, resistance.total
    corrected = with_additions(plain, additions.all, trace)
    u_value = corrected if applies else plain
    result: UValueResult = {
        "u_value_w_per_m2_k": float(u_value),
        "u_value_declared_w_per_m2_k": significant(u_value, 2),
        "u_value_uncorrected_w_per_m2_k": float(plain),
        "u_value_corrected_w_per_m2_k": float(corrected),
        "r_total_m2_k_per_w": float(total),
        "r_total_declared_m2_k_per_w": rounded(total, 2),
        "r_upper_m2_k_per_w": float(limits.upper),
        "r_lower_m2_k_per_w": float(limits.lower),
        "relative_error_fraction": _error(limits, total, component.wedge, trace),
        "surfaces": {
            "internal_m2_k_per_w": float(resistance.internal),
            "external_m2_k_per_w": float(resistance.external),
        },
        "layers": _layer_rows(build_up, component.layers),
        "corrections": _correction_rows(additions, applies=applies),
    }
    if component.tapered is not None and component.wedge is not None:
        result["tapered"] = tapered_result(component.wedge, component.tapered.layer)
    if additions.fasteners is not None:
        result["u_value_without_fasteners_w_per_m2_k"] = float(with_additions(plain, additions.others, trace))
        result["u_value_with_fasteners_w_per_m2_k"] = float(corrected)
        if additions.fasteners.low < additions.fasteners.high:
            low = with_additions(plain, [*additions.others, additions.fasteners.low], trace)
            result["u_value_with_fasteners_low_w_per_m2_k"] = float(low)
    return result


def _error(limits: Limits, total: float, wedge: Wedge | None, trace: Trace) -> float:
    if not limits.bridged:
        return 0.0
    total = total if wedge is None else wedge.rest
    return float(trace.call(relative_error, R_upper=limits.upper, R_lower=limits.lower, R_T=total))


def _layer_rows(build_up: BuildUp, layers: tuple[HeatLayer, ...]) -> list[LayerResult]:
    rows: list[LayerResult] = []
    for index, layer in enumerate(build_up.layers):
        row: LayerResult = {"index": index, "kind": layer.kind, "name": name_of(layer), "counted": index < len(layers)}
        if index < len(layers):
            row["resistance_m2_k_per_w"] = float(layers[index].resistance)
            if isinstance(layer, DeclaredLayer):
                row |= _conductivities(layers[index])
        rows.append(row)
    return rows


def _conductivities(layer: HeatLayer) -> LayerResult:
    value = float(layer.conductivity or 0.0)
    made = {"conductivity_w_per_m_k": value, "conductivity_rounded_w_per_m_k": rounded_conductivity(value)}
    return cast(LayerResult, made)


def _correction_rows(additions: Additions, *, applies: bool) -> list[CorrectionResult]:
    rows: list[CorrectionResult] = []
    if additions.gap is not None:
        rows.append({"kind": "air_gap", "delta_u_w_per_m2_k": float(additions.gap), "applied": applies})
    if additions.fasteners is not None:
        rows.append({"kind": "fasteners", "delta_u_w_per_m2_k": float(additions.fasteners.high), "applied": applies})
    return rows
