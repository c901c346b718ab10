"""What wind asks of the fasteners of a piece, and what they give: action, number, and how far each is used."""

import math
from dataclasses import dataclass
from typing import Final

from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Trace, formula

_DESIGN: Final = Clause("EN 1990", "6.3.1, design value of an action", "memory")
_SHARE: Final = Clause("common practice", "load on the area of a piece is shared by its fasteners", "common_practice")

PASCALS_PER_KILOPASCAL: Final = 1000.0


@formula(
    symbol="w_d",
    expression="gamma*w_s",
    unit="kn_per_m2",
    inputs={"gamma": "count", "w_s": "kn_per_m2"},
    clause=_DESIGN,
)
def design_suction(*, gamma: float, w_s: float) -> float:
    """Design suction from a characteristic one."""
    return gamma * w_s


@formula(symbol="F_d", expression="w_d*A", unit="kn", inputs={"w_d": "kn_per_m2", "A": "m2"}, clause=_SHARE)
def action_on_piece(*, w_d: float, A: float) -> float:  # noqa: N803  symbol of the formula
    """Design action on a piece of area A."""
    return w_d * A


@formula(
    symbol="n",
    expression="ceiling(F_d/N_Rd - tolerance)",
    unit="count",
    inputs={"F_d": "kn", "N_Rd": "kn", "tolerance": "count"},
    clause=_SHARE,
)
def fasteners_needed(*, F_d: float, N_Rd: float, tolerance: float) -> float:  # noqa: N803  symbols of the formula
    """Fasteners that carry the action on a piece, rounded up for that piece."""
    return math.ceil(F_d / N_Rd - tolerance)


@formula(symbol="R_d", expression="n*N_Rd", unit="kn", inputs={"n": "count", "N_Rd": "kn"}, clause=_SHARE)
def pull_out_of_piece(*, n: float, N_Rd: float) -> float:  # noqa: N803  symbol of the formula
    """Design resistance to pull-out of n fasteners."""
    return n * N_Rd


@formula(symbol="u", expression="F_d/R_d", unit="fraction", inputs={"F_d": "kn", "R_d": "kn"}, clause=_SHARE)
def utilisation(*, F_d: float, R_d: float) -> float:  # noqa: N803  symbols of the formula
    """Share of a resistance that an action takes."""
    return F_d / R_d


@formula(
    symbol="R_pt",
    expression="(R_panel*n_panel + R_joint*n_joint)/gamma_m",
    unit="kn",
    inputs={"R_panel": "kn", "n_panel": "count", "R_joint": "kn", "n_joint": "count", "gamma_m": "count"},
    clause=Clause("ETAG 004", "wind resistance from pull-through in panel and joint", "memory"),
)
def pull_through_of_piece(
    *,
    R_panel: float,  # noqa: N803  symbols of the guideline
    n_panel: float,
    R_joint: float,  # noqa: N803
    n_joint: float,
    gamma_m: float,
) -> float:
    """Design resistance to pull-through of the heads on a piece."""
    return (R_panel * n_panel + R_joint * n_joint) / gamma_m


@dataclass(frozen=True, slots=True)
class HeadResistance:
    """Pull-through in kN of a head in the panel and of one near an edge, how near in ticks, and the partial factor."""

    panel: float
    joint: float | None
    within: float
    gamma: float


def needed_for(action: float, resistance: float, trace: Trace) -> float:
    """Fasteners for an action in kN at a resistance in kN each: a whole number, with its step."""
    guard = trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY)
    return trace.call(fasteners_needed, F_d=action, N_Rd=resistance, tolerance=guard)
