"""Numbers of the wind standard that are read from tables."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of
from storeyrod.trace import Trace


@dataclass(frozen=True, slots=True)
class Constant:
    """One number with its symbol, unit and clause."""

    symbol: str
    value: float
    unit: str
    clause: Clause

    def read(self, trace: Trace) -> float:
        """The number, linked to its source."""
        return trace.lookup(self.symbol, self.value, self.unit, self.clause)


def _clause(row: Mapping[str, Any]) -> Clause:
    return Clause(row["document"], row["number"], row["status"])


def _constants(table: str) -> Mapping[str, Constant]:
    return MappingProxyType(
        {row["key"]: Constant(row["symbol"], row["value"], row["unit"], _clause(row)) for row in rows_of(table)}
    )


DEFAULTS: Final = _constants("wind_constants")
"""Recommended values and constants of the formulas, by key."""

CLADDING_FACTOR: Final = Clause("EN 1991-1-4", "6.2(1) a and b, low buildings and facade elements", "memory")


@dataclass(frozen=True, slots=True)
class Terrain:
    """A terrain category: roughness length and least height in m."""

    roughness_length: Constant
    least_height: Constant


def _terrain(row: Mapping[str, Any]) -> Terrain:
    clause = _clause(row)
    return Terrain(Constant("z_0", row["z_0"], "m", clause), Constant("z_min", row["z_min"], "m", clause))


TERRAINS: Final[Mapping[str, Terrain]] = MappingProxyType(
    {row["key"]: _terrain(row) for row in rows_of("wind_terrains")}
)


@dataclass(frozen=True, slots=True)
class ZoneRow:
    """Coefficients of a zone at one height to depth: for 10 m2 and for 1 m2."""

    slenderness: float
    ten: Constant
    one: Constant


def _zone_rows(choice: str) -> Mapping[str, tuple[ZoneRow, ...]]:
    rows = [row for row in rows_of("wind_wall_coefficients") if row["choice"] == choice]
    zones = dict.fromkeys(row["zone"] for row in rows)
    return MappingProxyType({zone: tuple(_zone_row(row) for row in rows if row["zone"] == zone) for zone in zones})


def _zone_row(row: Mapping[str, Any]) -> ZoneRow:
    clause, zone = _clause(row), row["zone"]
    ten = Constant(f"c_pe10_{zone}", row["c_pe10"], "count", clause)
    return ZoneRow(row["h_over_d"], ten, Constant(f"c_pe1_{zone}", row["c_pe1"], "count", clause))


WALL_COEFFICIENTS: Final[Mapping[str, Mapping[str, tuple[ZoneRow, ...]]]] = MappingProxyType(
    {choice: _zone_rows(choice) for choice in ("recommended", "germany")}
)
"""Coefficients by national choice and zone, in rising height to depth."""


@dataclass(frozen=True, slots=True)
class GustPressure:
    """A pressure of the simplified table: by zone and region, for buildings up to a height in m."""

    zone: int
    region: str
    up_to: float
    pressure: Constant


GUST_PRESSURES: Final = tuple(
    GustPressure(row["zone"], row["region"], row["up_to_m"], Constant("q_p", row["pressure_pa"], "pa", _clause(row)))
    for row in rows_of("wind_gust_pressures")
)
