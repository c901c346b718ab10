"""The combined method: upper and lower limit of total resistance, and their mean."""

from collections.abc import Sequence
from math import prod
from typing import Final, NamedTuple

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause
from storeyrod.thermal import kernel
from storeyrod.thermal.alignment import columns
from storeyrod.thermal.models import BridgedLayer
from storeyrod.thermal.resistance import HeatLayer, Section, parallel_resistance, section_conductance
from storeyrod.thermal.variation import on_plain_numbers
from storeyrod.trace import Trace, formula

_TOTAL = Clause("ISO 6946", "6.7.1", "memory")
_UPPER = Clause("ISO 6946", "6.7.2.3", "memory")
_LOWER = Clause("ISO 6946", "6.7.2.4", "memory")
_MEAN = Clause("ISO 6946", "6.7.2.2", "memory")
_ERROR = Clause("ISO 6946", "6.7.2.5", "memory")

MOST_PATHS: Final = 4096
"""Heat paths that one request may need; each bridged layer multiplies them by its number of parts."""


class Limits(NamedTuple):
    """Upper and lower limit of a total resistance, in m2.K/W; one and the same when nothing is bridged."""

    upper: float
    lower: float
    bridged: bool


@formula(
    symbol="f_path",
    expression="f_a * f_b",
    unit="fraction",
    inputs={"f_a": "fraction", "f_b": "fraction"},
    clause=_UPPER,
)
def path_fraction(*, f_a: float, f_b: float) -> float:
    """Share of a heat path through parts of two layers whose positions have nothing to do with each other."""
    return f_a * f_b


@formula(
    symbol="R_T",
    expression="(R_upper + R_lower) / 2",
    unit="m2_k_per_w",
    inputs={"R_upper": "m2_k_per_w", "R_lower": "m2_k_per_w"},
    clause=_MEAN,
)
def mean_resistance(*, R_upper: float, R_lower: float) -> float:  # noqa: N803  symbols of the standard
    """Total resistance of a component with bridged layers."""
    return (R_upper + R_lower) / 2.0


@formula(
    symbol="e",
    expression="(R_upper - R_lower) / (2 * R_T)",
    unit="fraction",
    inputs={"R_upper": "m2_k_per_w", "R_lower": "m2_k_per_w", "R_T": "m2_k_per_w"},
    clause=_ERROR,
)
def relative_error(*, R_upper: float, R_lower: float, R_T: float) -> float:  # noqa: N803  symbols of the standard
    """Greatest relative error of the mean."""
    return (R_upper - R_lower) / (2.0 * R_T)


@formula(
    symbol="ratio",
    expression="R_upper / R_lower",
    unit="fraction",
    inputs={"R_upper": "m2_k_per_w", "R_lower": "m2_k_per_w"},
    clause=_MEAN,
)
def limit_ratio(*, R_upper: float, R_lower: float) -> float:  # noqa: N803  symbols of the standard
    """How far the two limits lie apart; the method holds up to 1.5."""
    return R_upper / R_lower


@formula(symbol="U", expression="1 / R_T", unit="w_per_m2_k", inputs={"R_T": "m2_k_per_w"}, clause=_TOTAL)
def transmittance(*, R_T: float) -> float:  # noqa: N803  symbol of the standard
    """U-value before corrections."""
    return 1.0 / R_T


def limits(layers: Sequence[HeatLayer], internal: float, external: float, trace: Trace) -> Limits:
    """Both limits in m2.K/W of layers between two surface resistances."""
    terms = [internal, *[layer.resistance for layer in layers], external]
    bridged = [layer for layer in layers if layer.sections]
    if on_plain_numbers(trace):
        lower = kernel.lower_limit(terms)
        if not bridged:
            return Limits(lower, lower, bridged=False)
        common = kernel.lower_limit([internal, *[layer.resistance for layer in layers if not layer.sections], external])
        return Limits(kernel.upper_limit(common, columns(bridged, trace)), lower, bridged=True)
    lower = trace.sum("R_lower", "m2_k_per_w", terms, _LOWER)
    if not bridged:
        return Limits(lower, lower, bridged=False)
    plain = [internal, *[layer.resistance for layer in layers if not layer.sections], external]
    common = trace.sum("R_common", "m2_k_per_w", plain, _UPPER)
    return Limits(_upper(common, columns(bridged, trace), trace), lower, bridged=True)


def paths_count(layers: Sequence[HeatLayer]) -> int:
    """Heat paths through all combinations of parts that are independent."""
    return prod([len(layer.sections) for layer in layers if layer.sections and not _in_line(layer)])


def _in_line(layer: HeatLayer) -> bool:
    return isinstance(layer.layer, BridgedLayer) and layer.layer.in_line_with is not None


def refuse_too_many_paths(paths: int, pointer: str) -> None:
    """Refuse ``size-limit`` at the pointer of the layers when combinations of parts run away."""
    if paths > MOST_PATHS:
        raise refuse(
            "size-limit",
            pointer,
            f"the bridged layers make {paths} heat paths, {MOST_PATHS} are the most; merge parts that conduct alike",
        )


def _upper(common: float, bridged: Sequence[tuple[Section, ...]], trace: Trace) -> float:
    paths = [
        Section(part.fraction, trace.sum("R_path", "m2_k_per_w", [common, part.resistance], _UPPER))
        for part in bridged[0]
    ]
    for sections in bridged[1:]:
        paths = [_joined(path, part, trace) for path in paths for part in sections]
    conductances = [trace.call(section_conductance, f_q=path.fraction, R_q=path.resistance) for path in paths]
    return trace.call(parallel_resistance, h=trace.sum("h", "w_per_m2_k", conductances, _UPPER))


def _joined(path: Section, part: Section, trace: Trace) -> Section:
    return Section(
        trace.call(path_fraction, f_a=path.fraction, f_b=part.fraction),
        trace.sum("R_path", "m2_k_per_w", [path.resistance, part.resistance], _UPPER),
    )
