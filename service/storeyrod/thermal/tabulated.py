"""Numbers that the method reads from tables: each with its symbol, unit and source."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of
from storeyrod.trace import Trace


@dataclass(frozen=True, slots=True)
class Tabulated:
    """One number of a table, as the working prints it."""

    symbol: str
    value: float
    unit: str
    clause: Clause

    def read(self, trace: Trace) -> float:
        """The number, linked to its source."""
        return trace.lookup(self.symbol, self.value, self.unit, self.clause)


def table(name: str) -> Mapping[str, Tabulated]:
    """A data file of ``key, symbol, value, unit, document, number, status`` rows, by key."""
    return MappingProxyType(
        {
            row["key"]: Tabulated(
                row["symbol"], row["value"], row["unit"], Clause(row["document"], row["number"], row["status"])
            )
            for row in rows_of(name)
        }
    )


SURFACES: Final = table("surface_resistances")
AIR_LAYERS: Final = table("air_layers")
U_VALUE_RULES: Final = table("u_value_rules")
FASTENER_HEAT: Final = table("fastener_heat")
