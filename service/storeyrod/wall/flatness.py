"""Flatness of the wall behind the boards, beside published limits."""

import math
from collections.abc import Mapping
from itertools import pairwise
from types import MappingProxyType
from typing import Final

from storeyrod.findings import Finding, finding
from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of
from storeyrod.trace import Trace, formula
from storeyrod.wall.flatness_models import FlatnessRow
from storeyrod.wall.substrate_models import Flatness

_ROUNDED: Final = Clause("DIN 18202", "Table 3, straight lines between values, rounded half up", "memory")

_Limit = tuple[float, float, Clause]
"""Spacing in m, limit in mm, and where it is printed."""


def _limits(surface: str) -> tuple[_Limit, ...]:
    rows = (row for row in rows_of("flatness_limits") if row["surface"] == surface)
    return tuple(
        (row["spacing_m"], row["limit_mm"], Clause(row["document"], row["number"], row["status"])) for row in rows
    )


SURFACES: Final[Mapping[str, tuple[_Limit, ...]]] = MappingProxyType(
    {surface: _limits(surface) for surface in ("unfinished_wall", "cladding_raised")}
)
ROUTES: Final = tuple(
    (row["text"], row["limit_mm_per_m"], Clause(row["document"], row["number"], row["status"]))
    for row in rows_of("evenness_routes")
)
HALF: Final = 0.5


@formula(
    symbol="t",
    expression="floor((t_1 + (t_2 - t_1)*(s - s_1)/(s_2 - s_1))/one + half)*one",
    unit="mm",
    inputs={"t_1": "mm", "t_2": "mm", "s": "m", "s_1": "m", "s_2": "m", "half": "count", "one": "mm"},
    clause=_ROUNDED,
)
def flatness_limit(*, t_1: float, t_2: float, s: float, s_1: float, s_2: float, half: float, one: float) -> float:
    """Limit at a spacing between two of the table, in whole millimetres, halves up."""
    return math.floor((t_1 + (t_2 - t_1) * (s - s_1) / (s_2 - s_1)) / one + half) * one


def limit_at(surface: str, spacing: float, trace: Trace) -> float:
    """Limit in mm for a surface at a spacing in m, from 0.1 to 15 m."""
    rows = SURFACES[surface]
    low, high = next(pair for pair in pairwise(rows) if spacing <= pair[1][0])
    return trace.call(
        flatness_limit,
        t_1=trace.lookup("t_1", low[1], "mm", low[2]),
        t_2=trace.lookup("t_2", high[1], "mm", high[2]),
        s=spacing,
        s_1=trace.lookup("s_1", low[0], "m", low[2]),
        s_2=trace.lookup("s_2", high[0], "m", high[2]),
        half=trace.lookup("half", HALF, "count", _ROUNDED),
        one=trace.lookup("one", 1.0, "mm", _ROUNDED),
    )


def flatness_row(flatness: Flatness, trace: Trace) -> FlatnessRow:
    """A surveyed gap beside the limits for the bare wall and for the finished face, and what it allows boards to be fixed by."""
    spacing = trace.given(flatness.spacing_m, "/substrate/flatness/spacing_m")
    on_a_metre = flatness.gap_mm / max(1.0, flatness.spacing_m)
    return {
        "gap_mm": flatness.gap_mm,
        "limit_unfinished_mm": limit_at("unfinished_wall", spacing, trace),
        "limit_finished_mm": limit_at("cladding_raised", spacing, trace),
        "gap_mm_per_m": on_a_metre,
        "fixing": next(
            (text for text, limit, _ in ROUTES if on_a_metre <= limit), "none of the usual ways without levelling"
        ),
        "source": "; ".join(str(clause) for clause in (SURFACES["unfinished_wall"][0][2], ROUTES[0][2])),
    }


def flatness_findings(row: FlatnessRow) -> list[Finding]:
    """A remark where the bare wall is out of its own limit."""
    if row["gap_mm"] <= row["limit_unfinished_mm"]:
        return []
    where, limit = "/substrate/flatness/gap_mm", float(row["limit_unfinished_mm"])
    return [finding("substrate-uneven", {"pointer": where}, value=row["gap_mm"], limit=limit, unit="mm")]
