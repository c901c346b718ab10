"""Corrections to a U-value: air gaps round the insulation, fasteners through it, and the rule that leaves small ones out."""

from dataclasses import dataclass
from math import isclose
from typing import Final, Literal

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal.correction_models import CalculatedFasteners, Corrections, DeclaredFasteners, Fasteners
from storeyrod.thermal.tabulated import FASTENER_HEAT, U_VALUE_RULES
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE, SQUARE_METRES_PER_SQUARE_MILLIMETRE

_AIR_GAP = Clause("ISO 6946", "Annex F, air gaps", "memory")
_FASTENER = Clause("ISO 6946", "Annex F, mechanical fasteners", "memory")
_CHI = Clause("ETAG 004", "point thermal transmittance of anchors", "memory")
_RULE = Clause("ISO 6946", "Annex F, corrections under 3 %", "memory")

_AIR_GAP_LEVELS: Final = {level: U_VALUE_RULES[f"air_gap_level_{level}"] for level in (0, 1, 2)}
_SHARE: Final = U_VALUE_RULES["ignored_share"]
_LEAST_CONDUCTIVITY: Final = U_VALUE_RULES["fastener_least_conductivity"]


LONGEST_SHANK: Final = 2.0
"""House limit: longest shank over the thickness of the insulation, that of one slanted by 60 degrees."""

_WHOLE_AREA: Final = 1.0


@dataclass(frozen=True, slots=True)
class PointFasteners:
    """Fasteners by point thermal transmittance in W/K, low and high when it is not declared; pointer of their origin."""

    pointer: str
    chi_low: float
    chi_high: float
    count_per_m2: float
    declared: bool


@dataclass(frozen=True, slots=True)
class ShankFasteners:
    """Fasteners by shank, in SI; ``thickness`` or ``length`` absent: that of the insulation layer."""

    pointer: str
    conductivity: float
    area: float
    count_per_m2: float
    thickness: float | None
    length: float | None
    recessed: bool


@dataclass(frozen=True, slots=True)
class CorrectionTerms:
    """What is to be corrected; every number already linked to its origin."""

    pointer: str = "/corrections"
    insulation_layer: int | None = None
    air_gap_level: Literal[0, 1, 2] = 0
    fasteners: PointFasteners | ShankFasteners | None = None

    @property
    def needs_insulation(self) -> bool:
        """Whether a correction depends on the resistance of the insulation layer."""
        return self.air_gap_level > 0 or isinstance(self.fasteners, ShankFasteners)


@formula(
    symbol="dU_g",
    expression="dU * (R_1 / R_T)**2",
    unit="w_per_m2_k",
    inputs={"dU": "w_per_m2_k", "R_1": "m2_k_per_w", "R_T": "m2_k_per_w"},
    clause=_AIR_GAP,
)
def air_gap(*, dU: float, R_1: float, R_T: float) -> float:  # noqa: N803  symbols of the standard
    """What air gaps round the insulation add."""
    return dU * (R_1 / R_T) ** 2


@formula(
    symbol="alpha",
    expression="alpha_0 * d_1 / d_0",
    unit="fraction",
    inputs={"alpha_0": "fraction", "d_1": "m", "d_0": "m"},
    clause=_FASTENER,
)
def recessed_factor(*, alpha_0: float, d_1: float, d_0: float) -> float:
    """Factor of a fastener whose head is sunk; a slanted one may be longer than the insulation is thick."""
    return alpha_0 * d_1 / d_0


@formula(
    symbol="dU_f",
    expression="alpha * lambda_f * A_f * n_f / d_0 * (R_1 / R_T)**2",
    unit="w_per_m2_k",
    inputs={
        "alpha": "fraction",
        "lambda_f": "w_per_m_k",
        "A_f": "m2",
        "n_f": "per_m2",
        "d_0": "m",
        "R_1": "m2_k_per_w",
        "R_T": "m2_k_per_w",
    },
    clause=_FASTENER,
)
def fasteners_by_shank(
    *,
    alpha: float,
    lambda_f: float,
    A_f: float,  # noqa: N803  symbols of the standard
    n_f: float,
    d_0: float,
    R_1: float,  # noqa: N803
    R_T: float,  # noqa: N803
) -> float:
    """What fasteners add by the approximate procedure."""
    return alpha * lambda_f * A_f * n_f / d_0 * (R_1 / R_T) ** 2


@formula(
    symbol="dU_f",
    expression="chi * n_f",
    unit="w_per_m2_k",
    inputs={"chi": "w_per_k", "n_f": "per_m2"},
    clause=_CHI,
)
def fasteners_by_point(*, chi: float, n_f: float) -> float:
    """What fasteners of known point thermal transmittance add."""
    return chi * n_f


@formula(
    symbol="dU_limit",
    expression="share * U",
    unit="w_per_m2_k",
    inputs={"share": "fraction", "U": "w_per_m2_k"},
    clause=_RULE,
)
def ignored_below(*, share: float, U: float) -> float:  # noqa: N803  symbol of the standard
    """Sum of corrections below which all of them may be left out."""
    return share * U


def air_gap_addition(level: Literal[0, 1, 2], insulation: float, total: float, trace: Trace) -> float:
    """Addition in W/(m2.K) of an air gap level."""
    return trace.call(air_gap, dU=_AIR_GAP_LEVELS[level].read(trace), R_1=insulation, R_T=total)


def shank_addition(fasteners: ShankFasteners, thickness: float, insulation: float, total: float, trace: Trace) -> float:
    """Addition in W/(m2.K) of fasteners through insulation of a thickness in m."""
    alpha = U_VALUE_RULES["fastener_factor"].read(trace)
    if fasteners.recessed and fasteners.length is not None:
        alpha = trace.call(recessed_factor, alpha_0=alpha, d_1=fasteners.length, d_0=thickness)
    return trace.call(
        fasteners_by_shank,
        alpha=alpha,
        lambda_f=fasteners.conductivity,
        A_f=fasteners.area,
        n_f=fasteners.count_per_m2,
        d_0=thickness,
        R_1=insulation,
        R_T=total,
    )


def conducts_little(fasteners: ShankFasteners, trace: Trace) -> bool:
    """Whether the shank conducts too little for any correction to be due."""
    least = _LEAST_CONDUCTIVITY.read(trace)
    holds = fasteners.conductivity < least
    return trace.check("lambda_f", fasteners.conductivity, least, "w_per_m_k", _FASTENER, holds=holds)


def kept(additions: float, plain: float, trace: Trace) -> bool:
    """The 3 % rule: whether corrections adding up to ``additions`` count against a plain U-value."""
    limit = trace.call(ignored_below, share=_SHARE.read(trace), U=plain)
    return trace.check("dU", additions, limit, "w_per_m2_k", _RULE, holds=additions >= limit)


def declared_fasteners(pointer: str, chi: float, count_per_m2: float) -> PointFasteners:
    """Fasteners of declared point thermal transmittance in W/K."""
    return PointFasteners(pointer, chi, chi, count_per_m2, declared=True)


def undeclared_fasteners(pointer: str, count_per_m2: float, trace: Trace) -> PointFasteners:
    """Fasteners without a declared value: from the best to the worst default of the table."""
    low, high = FASTENER_HEAT["chi_plastic_or_thermal_break"].read(trace), FASTENER_HEAT["chi_other"].read(trace)
    return PointFasteners(pointer, low, high, count_per_m2, declared=False)


def refuse_impossible_shank(fasteners: ShankFasteners, thickness: float) -> None:
    """Refuse a length that goes unused or that no shank has, in insulation of a thickness in m."""
    length, here = fasteners.length, f"{fasteners.pointer}/length_in_insulation_mm"
    if length is None:
        return
    length_mm, thickness_mm = length / METRES_PER_MILLIMETRE, thickness / METRES_PER_MILLIMETRE
    if not fasteners.recessed and not isclose(length, thickness):
        raise refuse(
            "fasteners-contradictory",
            here,
            f"without recessed a shank pierces the whole insulation of {thickness_mm:g} mm, and {length_mm:g} mm would go "
            "unused; set recessed to true, or leave the length out",
        )
    if length > LONGEST_SHANK * thickness:
        raise refuse(
            "fasteners-contradictory",
            here,
            f"a shank of {length_mm:g} mm in insulation of {thickness_mm:g} mm would slant by more than 60 degrees; give "
            f"at most {LONGEST_SHANK:g} times the thickness",
        )


def terms_of(corrections: Corrections, pointer: str, trace: Trace) -> CorrectionTerms:
    """The corrections of a request, linked to their pointers."""
    fasteners = corrections.fasteners
    read = None if fasteners is None else _fasteners(fasteners, f"{pointer}/fasteners", trace)
    return CorrectionTerms(pointer, corrections.insulation_layer, corrections.air_gap_level, read)


def _fasteners(fasteners: Fasteners, pointer: str, trace: Trace) -> PointFasteners | ShankFasteners:
    count = trace.given(fasteners.count_per_m2, f"{pointer}/count_per_m2")
    if isinstance(fasteners, DeclaredFasteners):
        return declared_fasteners(pointer, trace.given(fasteners.chi_w_per_k, f"{pointer}/chi_w_per_k"), count)
    if isinstance(fasteners, CalculatedFasteners):
        _refuse_crowded(fasteners, pointer)
        return ShankFasteners(
            pointer,
            trace.given(fasteners.conductivity_w_per_m_k, f"{pointer}/conductivity_w_per_m_k"),
            trace.given(fasteners.area_mm2 * SQUARE_METRES_PER_SQUARE_MILLIMETRE, f"{pointer}/area_mm2"),
            count,
            _metres(fasteners.insulation_thickness_mm, f"{pointer}/insulation_thickness_mm", trace),
            _metres(fasteners.length_in_insulation_mm, f"{pointer}/length_in_insulation_mm", trace),
            fasteners.recessed,
        )
    return undeclared_fasteners(pointer, count, trace)


def _refuse_crowded(fasteners: CalculatedFasteners, pointer: str) -> None:
    share = fasteners.area_mm2 * SQUARE_METRES_PER_SQUARE_MILLIMETRE * fasteners.count_per_m2
    if share >= _WHOLE_AREA:
        raise refuse(
            "fasteners-contradictory",
            f"{pointer}/area_mm2",
            f"area times number make {share:g} m2 of shanks in 1 m2 of wall, and no insulation is left from 1 on; check both",
        )


def _metres(length_mm: float | None, pointer: str, trace: Trace) -> float | None:
    return None if length_mm is None else trace.given(length_mm * METRES_PER_MILLIMETRE, pointer)
