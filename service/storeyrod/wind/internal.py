"""Internal pressure coefficients: the highest and the lowest that may stand behind a face."""

from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula
from storeyrod.wind.coefficients import Coefficients
from storeyrod.wind.site_models import (
    AnyWind,
    InternalDeclared,
    InternalDominantFace,
    InternalNotEstimated,
    InternalOnBackground,
    SideName,
)
from storeyrod.wind.tabulated import DEFAULTS

_DOMINANT: Final = Clause("EN 1991-1-4", "7.2.9(5), expressions 7.1 and 7.2", "memory")
_BACKGROUND: Final = Clause("EN 1991-1-4", "7.2.10, airtight wall behind the cladding", "memory")

SIDES: Final[tuple[SideName, ...]] = ("front", "right", "rear", "left")
"""Sides of the plan, each at the right end of the one before it."""


@formula(symbol="c_pi", expression="k*c_pe", unit="count", inputs={"k": "count", "c_pe": "count"}, clause=_DOMINANT)
def dominant_coefficient(*, k: float, c_pe: float) -> float:
    """Internal coefficient from the external one at the openings of the dominant face."""
    return k * c_pe


def internal_coefficients(
    wind: AnyWind, side: SideName, zones: tuple[str, ...], outside: Coefficients, trace: Trace
) -> tuple[float, float]:
    """The highest and the lowest internal coefficient for wind on a side; ``zones`` are those of the walls along the wind.

    Where the openings of a dominant face may lie in several zones, the worse one is taken for each.
    """
    match wind.internal_pressure:
        case InternalNotEstimated():
            return DEFAULTS["c_pi_high"].read(trace), DEFAULTS["c_pi_low"].read(trace)
        case InternalOnBackground():
            none = trace.lookup("c_pi", 0.0, "count", _BACKGROUND)
            return none, none
        case InternalDeclared() as declared:
            given = trace.given(declared.coefficient, "/wind/internal_pressure/coefficient")
            return given, given
        case InternalDominantFace() as dominant:
            share = DEFAULTS[f"dominant_{dominant.ratio}"].read(trace)
            found = _zones_of(dominant.side, side, zones)
            made = [trace.call(dominant_coefficient, k=share, c_pe=outside.ten[zone]) for zone in found]
            named = [(f"zone {zone}", one, "count") for zone, one in zip(found, made, strict=True)]
            return (
                trace.solved(
                    "c_pi", max(made), "count", "highest of the zones in which the openings may be", named, _DOMINANT
                ),
                trace.solved(
                    "c_pi", min(made), "count", "lowest of the zones in which the openings may be", named, _DOMINANT
                ),
            )


def _zones_of(face: SideName, windward: SideName, along: tuple[str, ...]) -> tuple[str, ...]:
    """Zones of a side for wind on another one."""
    turns = (SIDES.index(face) - SIDES.index(windward)) % len(SIDES)
    return {0: ("D",), 2: ("E",)}.get(turns, along)
