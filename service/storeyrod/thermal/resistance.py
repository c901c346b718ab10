"""Resistance of a layer and of sections side by side."""

from typing import NamedTuple

from storeyrod.reference.documents import Clause
from storeyrod.thermal import kernel
from storeyrod.thermal.models import Layer
from storeyrod.thermal.variation import on_plain_numbers
from storeyrod.trace import Trace, formula

_HOMOGENEOUS = Clause("ISO 6946", "6.7.1", "memory")
_LOWER_LIMIT = Clause("ISO 6946", "6.7.2.4", "memory")


class Section(NamedTuple):
    """A part of a bridged layer: share of the area and resistance in m2.K/W."""

    fraction: float
    resistance: float


class HeatLayer(NamedTuple):
    """A layer that counts: its resistance in m2.K/W, its parts when bridged, its conductivity when it is of one."""

    index: int  # type: ignore[assignment]  # where it stands; nobody asks a layer for tuple.index
    layer: Layer
    pointer: str
    resistance: float
    sections: tuple[Section, ...] = ()
    conductivity: float | None = None


@formula(
    symbol="R",
    expression="d / lambda_",
    unit="m2_k_per_w",
    inputs={"d": "m", "lambda_": "w_per_m_k"},
    clause=_HOMOGENEOUS,
)
def homogeneous(*, d: float, lambda_: float) -> float:
    """Resistance of a homogeneous layer."""
    return d / lambda_


@formula(
    symbol="f_q",
    expression="f / f_sum",
    unit="fraction",
    inputs={"f": "fraction", "f_sum": "fraction"},
    clause=_LOWER_LIMIT,
)
def scaled_fraction(*, f: float, f_sum: float) -> float:
    """Share of a part, scaled so that the parts of its layer add up to exactly 1."""
    return f / f_sum


@formula(
    symbol="h_q",
    expression="f_q / R_q",
    unit="w_per_m2_k",
    inputs={"f_q": "fraction", "R_q": "m2_k_per_w"},
    clause=_LOWER_LIMIT,
)
def section_conductance(*, f_q: float, R_q: float) -> float:  # noqa: N803  symbol of the standard
    """Conductance that a section adds to the whole area."""
    return f_q / R_q


@formula(symbol="R", expression="1 / h", unit="m2_k_per_w", inputs={"h": "w_per_m2_k"}, clause=_LOWER_LIMIT)
def parallel_resistance(*, h: float) -> float:
    """Resistance of sections side by side, from the sum of their conductances."""
    return 1.0 / h


def side_by_side(sections: tuple[Section, ...], trace: Trace) -> float:
    """Resistance in m2.K/W of sections side by side between planes of one temperature."""
    if on_plain_numbers(trace):
        return kernel.parallel(sections)
    conductances = [trace.call(section_conductance, f_q=part.fraction, R_q=part.resistance) for part in sections]
    return trace.call(parallel_resistance, h=trace.sum("h", "w_per_m2_k", conductances, _LOWER_LIMIT))
