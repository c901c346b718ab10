"""Masses and sizes beside limits: those of the caller and the scopes of published documents."""

from collections.abc import Iterator
from typing import Any, Final

from storeyrod.findings import FINDINGS, Finding, Where, finding
from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of
from storeyrod.units import SQUARE_METRES_PER_SQUARE_MILLIMETRE
from storeyrod.wall.system import System
from storeyrod.weights.layers import Layers
from storeyrod.weights.models import LimitCheck, LoadPathMembers, MassLimit, ScopeLimit

_UNITS: Final = {
    "face_kg_per_m2": "kg_per_m2",
    "total_kg_per_m2": "kg_per_m2",
    "board_mm": "mm",
    "slip_mm": "mm",
    "slip_side_mm": "mm",
    "slip_m2": "m2",
}
_POINTERS: Final = {"mass-above-scope": "/system", "tile-scope": "/system/slip"}
"""Findings about scopes, and where they point."""


def scope_limits(system: System, layers: Layers, *, bonded: bool) -> list[ScopeLimit]:
    """Limits of published scopes beside the system; rows whose value is not known are left out."""
    values = _values(system, layers)
    rows = (row for row in rows_of("scope_limits") if row.get("supplementary_adhesive", bonded) == bonded)
    return [_row(row, values[row["kind"]]) for row in rows if row["kind"] in values]


def _values(system: System, layers: Layers) -> dict[str, float]:
    slip = system.slip
    values = {
        "face_kg_per_m2": layers.face,
        "board_mm": system.board.thickness_mm,
        "slip_mm": slip.thickness_mm,
        "slip_side_mm": max(slip.length_mm, slip.height_mm),
        "slip_m2": slip.length_mm * slip.height_mm * SQUARE_METRES_PER_SQUARE_MILLIMETRE,
    }
    return values if layers.cladding is None else {**values, "total_kg_per_m2": layers.cladding}


def _row(row: dict[str, Any], value: float) -> ScopeLimit:
    return {
        "what": row["text"],
        "value": value,
        "limit": row["limit"],
        "unit": _UNITS[row["kind"]],
        "exceeded": value > row["limit"],
        "finding": row["finding"],
        "source": str(Clause(row["document"], row["number"], row["status"])),
        "status": row["status"],
    }


def scope_findings(scopes: list[ScopeLimit]) -> Iterator[Finding]:
    """One remark of each kind where a scope is left, at the limit that is passed by most."""
    for code, pointer in _POINTERS.items():
        over = [row for row in scopes if row["exceeded"] and row["finding"] == code]
        if over:
            worst = max(over, key=lambda row: row["value"] / row["limit"])
            outside = "; ".join(f"{row['what']} ({row['source']})" for row in over)
            where: Where = {"pointer": pointer}
            yield finding(
                code,
                where,
                value=float(worst["value"]),
                limit=worst["limit"],
                unit=worst["unit"],
                advice=f"Outside: {outside}. {FINDINGS[code].advice}",
            )


def limit_checks(asked: LoadPathMembers, layers: Layers) -> tuple[list[LimitCheck], list[Finding]]:
    """The caller's limits. Where the board's mass is not known the rest of a cladding may be over already; else it is left open."""
    checks = [_limit_check(limit, layers) for limit in asked.mass_limits]
    over = [(index, row) for index, row in enumerate(checks) if row.get("exceeded")]
    return checks, [_over_limit(index, row) for index, row in over]


def _limit_check(limit: MassLimit, layers: Layers) -> LimitCheck:
    whole = limit.of == "face" or layers.cladding is not None
    value = layers.face if limit.of == "face" else layers.known
    over = value > limit.mass_kg_per_m2
    made: LimitCheck = {"name": limit.name, "mass_kg_per_m2": value, "limit_kg_per_m2": limit.mass_kg_per_m2}
    if whole or over:
        made["exceeded"] = over
    if not whole:
        made["missing"] = "the mass of the board"
    return made


def _over_limit(index: int, row: LimitCheck) -> Finding:
    where: Where = {"pointer": f"/mass_limits/{index}/mass_kg_per_m2"}
    value, limit = float(row["mass_kg_per_m2"]), row["limit_kg_per_m2"]
    return finding("mass-over-limit", where, value=value, limit=limit, unit="kg_per_m2")
