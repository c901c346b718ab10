"""Coefficients of conversion by material, and the steps to which conductivities are rounded."""

from collections.abc import Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from types import MappingProxyType
from typing import Final, cast

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause, Status
from storeyrod.reference.tables import rows_of
from storeyrod.thermal.material_models import ConversionRow, TemperatureCoefficient

CONVERSIONS: Final[Mapping[str, ConversionRow]] = MappingProxyType(
    {row["key"]: row for row in cast(list[ConversionRow], rows_of("conductivity_conversions"))}
)
"""Every row of coefficients by key, in the order of the file."""

_STEPS: Final[Sequence[tuple[float, str]]] = tuple(
    (row.get("up_to_w_per_m_k", float("inf")), repr(row["step_w_per_m_k"])) for row in rows_of("conductivity_rounding")
)


def conversion_row(material: str, pointer: str) -> ConversionRow:
    """Coefficients of a material; refuses ``material-unknown`` at the pointer of its key."""
    try:
        return CONVERSIONS[material]
    except KeyError:
        raise refuse(
            "material-unknown",
            pointer,
            "no coefficients of such a material; /v1/materials lists the keys under conversions, or give the coefficients",
        ) from None


def clause_of(row: ConversionRow) -> Clause:
    """Place that the coefficients of a row are from."""
    return Clause(row["document"], row["number"], cast(Status, row["status"]))


def around(
    rows: Sequence[TemperatureCoefficient], conductivity: float
) -> tuple[TemperatureCoefficient, TemperatureCoefficient] | None:
    """The two rows between which a declared conductivity in W/(m.K) lies, one twice if it hits it; none outside the table."""
    if len(rows) == 1 and "conductivity_w_per_m_k" not in rows[0]:
        return rows[0], rows[0]
    below = [row for row in rows if row["conductivity_w_per_m_k"] <= conductivity]
    above = [row for row in rows if row["conductivity_w_per_m_k"] >= conductivity]
    return (below[-1], above[0]) if below and above else None


def rounded_conductivity(conductivity: float) -> float:
    """A conductivity in W/(m.K) as it is stated: 0.001 up to 0.08, 0.005 up to 0.20, 0.01 up to 2, 0.1 above."""
    step = next(Decimal(step) for up_to, step in _STEPS if conductivity <= up_to)
    steps = (Decimal(repr(float(conductivity))) / step).quantize(Decimal(1), ROUND_HALF_UP)
    return float(steps * step)
