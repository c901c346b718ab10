"""U-value of a build-up, with and without what corrects it: for its own operation and for rooms that need one."""

from dataclasses import dataclass

from storeyrod.answer import Answer
from storeyrod.reference.documents import Clause
from storeyrod.thermal.additions import Additions, additions_of
from storeyrod.thermal.assumed import method_assumptions
from storeyrod.thermal.cautions import build_up_findings, correction_findings, not_checked
from storeyrod.thermal.combined import Limits, mean_resistance, relative_error, transmittance
from storeyrod.thermal.corrections import CorrectionTerms, kept
from storeyrod.thermal.models import BuildUp, CorrectionResult, LayerResult, UValueResult
from storeyrod.thermal.resistance import HeatLayer, counted_layers, name_of
from storeyrod.thermal.surfaces import still_air, surface
from storeyrod.thermal.ventilation import ventilated_limits
from storeyrod.trace import SILENT, Trace

_CORRECTED = Clause("ISO 6946", "Annex F", "memory")
_NONE = CorrectionTerms()


@dataclass(frozen=True, slots=True)
class _Resistance:
    """Resistance of a component in m2.K/W: surfaces, limits, every case they were mixed from, and the total."""

    internal: float
    external: float
    limits: Limits
    cases: list[Limits]
    total: float


def build_up_u_value(
    build_up: BuildUp, pointer: str, terms: CorrectionTerms = _NONE, trace: Trace = SILENT
) -> Answer[UValueResult]:
    """Resistance and U-value of the build-up that stands at a pointer of the request.

    ``terms`` hold numbers that are already linked to their origin, so that a fastener count measured on a layout can be
    corrected for. The answer's assumptions are those the method made; the caller adds the request's own.
    """
    layers = counted_layers(build_up, pointer, trace)
    resistance = _resistance(build_up, layers, pointer, trace)
    plain = trace.call(transmittance, R_T=resistance.total)
    additions = additions_of(layers, resistance.total, terms, trace)
    applies = _applies(additions, plain, trace)
    findings = build_up_findings(build_up, layers, resistance.cases, pointer, trace)
    findings += correction_findings(terms, additions, plain, applies=applies)
    return Answer(
        _result(build_up, layers, resistance, plain, additions, trace, applies=applies),
        findings,
        method_assumptions(build_up, layers, additions, terms, pointer),
        not_checked(layers, terms),
    )


def _resistance(build_up: BuildUp, layers: tuple[HeatLayer, ...], pointer: str, trace: Trace) -> _Resistance:
    internal = surface(build_up, pointer, "internal", trace)
    sheltered = len(layers) < len(build_up.layers)
    external = still_air(build_up.element, trace) if sheltered else surface(build_up, pointer, "external", trace)
    limits, cases = ventilated_limits(layers, internal, external, build_up.element, f"{pointer}/layers", trace)
    if not limits.bridged:
        return _Resistance(internal, external, limits, cases, limits.lower)
    total = trace.call(mean_resistance, R_upper=limits.upper, R_lower=limits.lower)
    return _Resistance(internal, external, limits, cases, total)


def _applies(additions: Additions, plain: float, trace: Trace) -> bool:
    if not additions.all:
        return False
    return kept(trace.sum("dU", "w_per_m2_k", additions.all, _CORRECTED), plain, trace)


def _result(
    build_up: BuildUp,
    layers: tuple[HeatLayer, ...],
    resistance: _Resistance,
    plain: float,
    additions: Additions,
    trace: Trace,
    *,
    applies: bool,
) -> UValueResult:
    limits, total = resistance.limits, resistance.total
    corrected = _with(plain, additions.all, trace)
    u_value = corrected if applies else plain
    result: UValueResult = {
        "u_value_w_per_m2_k": float(u_value),
        "u_value_declared_w_per_m2_k": float(f"{u_value:.1e}"),
        "u_value_uncorrected_w_per_m2_k": float(plain),
        "u_value_corrected_w_per_m2_k": float(corrected),
        "r_total_m2_k_per_w": float(total),
        "r_total_declared_m2_k_per_w": round(float(total), 2),
        "r_upper_m2_k_per_w": float(limits.upper),
        "r_lower_m2_k_per_w": float(limits.lower),
        "relative_error_fraction": _error(limits, total, trace),
        "surfaces": {
            "internal_m2_k_per_w": float(resistance.internal),
            "external_m2_k_per_w": float(resistance.external),
        },
        "layers": _layer_rows(build_up, layers),
        "corrections": _correction_rows(additions, applies=applies),
    }
    if additions.fasteners is not None:
        result["u_value_without_fasteners_w_per_m2_k"] = float(_with(plain, additions.others, trace))
        result["u_value_with_fasteners_w_per_m2_k"] = float(corrected)
        if additions.fasteners.low < additions.fasteners.high:
            low = _with(plain, [*additions.others, additions.fasteners.low], trace)
            result["u_value_with_fasteners_low_w_per_m2_k"] = float(low)
    return result


def _with(plain: float, additions: list[float], trace: Trace) -> float:
    return trace.sum("U_c", "w_per_m2_k", [plain, *additions], _CORRECTED) if additions else plain


def _error(limits: Limits, total: float, trace: Trace) -> float:
    if not limits.bridged:
        return 0.0
    return float(trace.call(relative_error, R_upper=limits.upper, R_lower=limits.lower, R_T=total))


def _layer_rows(build_up: BuildUp, layers: tuple[HeatLayer, ...]) -> list[LayerResult]:
    rows: list[LayerResult] = []
    for index, layer in enumerate(build_up.layers):
        row: LayerResult = {"index": index, "kind": layer.kind, "name": name_of(layer), "counted": index < len(layers)}
        if index < len(layers):
            row["resistance_m2_k_per_w"] = float(layers[index].resistance)
        rows.append(row)
    return rows


def _correction_rows(additions: Additions, *, applies: bool) -> list[CorrectionResult]:
    rows: list[CorrectionResult] = []
    if additions.gap is not None:
        rows.append({"kind": "air_gap", "delta_u_w_per_m2_k": float(additions.gap), "applied": applies})
    if additions.fasteners is not None:
        rows.append({"kind": "fasteners", "delta_u_w_per_m2_k": float(additions.fasteners.high), "applied": applies})
    return rows
