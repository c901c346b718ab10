"""Movement coefficients of materials: one row for each document that gives values, shown beside those that disagree."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, cast

from storeyrod.movement_joints.width_models import Coefficient, CoefficientRow
from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of

COEFFICIENTS: Final[Mapping[str, CoefficientRow]] = MappingProxyType(
    {row["key"]: row for row in cast(list[CoefficientRow], rows_of("movement_coefficients"))}
)
"""Every row by key, in the order of the file."""


def clause_of(row: CoefficientRow) -> Clause:
    """Where the values of a row stand."""
    return Clause(row["document"], row["number"], row["status"])


def of_the_same_material(key: str) -> list[Coefficient]:
    """Every row of the material that a key names, the one used marked."""
    material = COEFFICIENTS[key]["material"]
    return [
        cast(Coefficient, {**row, "used": row["key"] == key})
        for row in COEFFICIENTS.values()
        if row["material"] == material
    ]
