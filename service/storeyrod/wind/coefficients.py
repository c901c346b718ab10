"""External pressure coefficients of walls: by zone, height to depth, and loaded area."""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from storeyrod.findings import refuse
from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula
from storeyrod.wind.site_models import AnyWind, GermanAnnex
from storeyrod.wind.tabulated import DEFAULTS, WALL_COEFFICIENTS, Constant

ZONES: Final = ("A", "B", "C", "D", "E")

MOST_SLENDER: Final = 5.0
"""Above this height to depth force coefficients of sections 7.6 to 7.8 hold (Table 7.1)."""

_SLENDERNESS: Final = Clause("EN 1991-1-4", "Table 7.1, h/d", "memory")
_TABLE: Final = Clause("EN 1991-1-4", "Table 7.1, note 1: linear interpolation", "published")
_AREA: Final = Clause("EN 1991-1-4", "7.2.1(1), figure 7.2", "memory")
_STEP: Final = Clause("NA to BS EN 1991-1-4", "NA.2.25, from 1 m2 on", "memory")


@formula(symbol="h_d", expression="h/d", unit="count", inputs={"h": "m", "d": "m"}, clause=_SLENDERNESS)
def slenderness(*, h: float, d: float) -> float:
    """Height to depth along the wind."""
    return h / d


@formula(
    symbol="c_pe",
    expression="c_1 + (c_2 - c_1)*(r - r_1)/(r_2 - r_1)",
    unit="count",
    inputs={"c_1": "count", "c_2": "count", "r": "count", "r_1": "count", "r_2": "count"},
    clause=_TABLE,
)
def between_rows(*, c_1: float, c_2: float, r: float, r_1: float, r_2: float) -> float:
    """Coefficient between two rows of the table."""
    return c_1 + (c_2 - c_1) * (r - r_1) / (r_2 - r_1)


@formula(
    symbol="c_pe",
    expression="c_one - (c_one - c_ten)*log(A/A_1)/log(A_10/A_1)",
    unit="count",
    inputs={"c_one": "count", "c_ten": "count", "A": "m2", "A_1": "m2", "A_10": "m2"},
    clause=_AREA,
)
def between_areas(*, c_one: float, c_ten: float, A: float, A_1: float, A_10: float) -> float:  # noqa: N803  symbols
    """Coefficient of a loaded area between 1 and 10 m2."""
    return c_one - (c_one - c_ten) * math.log(A / A_1) / math.log(A_10 / A_1)


@dataclass(frozen=True, slots=True)
class Coefficients:
    """Coefficients of one direction: for 10 m2, for 1 m2 and for the loaded area, by zone; height to depth."""

    slenderness: float
    ten: dict[str, float]
    one: dict[str, float]
    used: dict[str, float]


def coefficients_of(wind: AnyWind, h: float, d: float, trace: Trace) -> Coefficients:
    """Coefficients of all zones for wind along a depth d; raises ``outside-validity`` above a height to depth of 5."""
    ratio = trace.call(slenderness, h=h, d=d)
    most = trace.lookup("limit", MOST_SLENDER, "count", _SLENDERNESS)
    if not trace.check("h_d", ratio, most, "count", _SLENDERNESS, holds=ratio <= MOST_SLENDER + ROUNDING_GUARD):
        detail = (
            f"Height to depth, here {float(h):g} m to {float(d):g} m along the wind, is {float(ratio):.6g}, over {MOST_SLENDER:g}: coefficients of walls end there, force coefficients or a wind "
            "tunnel take their place; have the wind worked out by a structural engineer."
        )
        raise refuse("outside-validity", "/wind/building", detail)
    rows = WALL_COEFFICIENTS[table_of(wind)]
    ten = {zone: _at(ratio, [(row.slenderness, row.ten) for row in rows[zone]], trace) for zone in ZONES}
    one = {zone: _at(ratio, [(row.slenderness, row.one) for row in rows[zone]], trace) for zone in ZONES}
    used = {zone: _for_area(wind, one[zone], ten[zone], trace) for zone in ZONES}
    return Coefficients(ratio, ten, one, used)


def table_of(wind: AnyWind) -> str:
    """Which table of wall coefficients holds."""
    return "germany" if wind.national_choice == "germany" or isinstance(wind, GermanAnnex) else "recommended"


def steps_at_one_square_metre(wind: AnyWind) -> bool:
    """Whether the annex takes values for 10 m2 from 1 m2 on, without a line between."""
    return wind.national_choice in ("united_kingdom", "ireland")


def _at(ratio: float, rows: list[tuple[float, Constant]], trace: Trace) -> float:
    """Value at a height to depth: that of the first row below it, straight between rows."""
    first, lowest = rows[0]
    if ratio <= first:
        return lowest.read(trace)
    (r_1, low), (r_2, high) = next(pair for pair in pairwise(rows) if ratio <= pair[1][0] + ROUNDING_GUARD)
    if low.value == high.value:
        return high.read(trace)
    return trace.call(
        between_rows,
        c_1=low.read(trace),
        c_2=high.read(trace),
        r=ratio,
        r_1=trace.lookup("r_1", r_1, "count", low.clause),
        r_2=trace.lookup("r_2", r_2, "count", high.clause),
    )


def _for_area(wind: AnyWind, one: float, ten: float, trace: Trace) -> float:
    area = trace.given(wind.loaded_area_m2, "/wind/loaded_area_m2")
    small, large = DEFAULTS["area_one"].read(trace), DEFAULTS["area_ten"].read(trace)
    if trace.check("A", area, small, "m2", _AREA, holds=area <= small):
        return one
    if steps_at_one_square_metre(wind):
        trace.check("A", area, small, "m2", _STEP, holds=False)
        return ten
    if area >= large or one == ten:
        return ten
    return trace.call(between_areas, c_one=one, c_ten=ten, A=area, A_1=small, A_10=large)
