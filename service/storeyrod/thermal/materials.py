"""Tabulated materials: design conductivities with the source of every row."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, cast

from storeyrod.findings import refuse
from storeyrod.reference.documents import Clause, Status
from storeyrod.reference.tables import rows_of
from storeyrod.thermal.material_models import MaterialRow
from storeyrod.thermal.tabulated import Tabulated

_ROWS: Final = tuple(cast(list[MaterialRow], rows_of("materials")))

MATERIALS: Final[Mapping[str, MaterialRow]] = MappingProxyType({row["key"]: row for row in _ROWS})
"""Every material by key, in the order of the file."""

_CONDUCTIVITIES: Final = {
    key: Tabulated(
        "lambda_",
        row["conductivity_w_per_m_k"],
        "w_per_m_k",
        Clause(row["document"], row["number"], cast(Status, row["status"])),
    )
    for key, row in MATERIALS.items()
}


def conductivity_of(material: str, pointer: str) -> Tabulated:
    """Design conductivity of a material; refuses ``material-unknown`` at the pointer of its key."""
    try:
        return _CONDUCTIVITIES[material]
    except KeyError:
        raise refuse(
            "material-unknown", pointer, "no such material; /v1/materials lists the keys, or give a layer of kind solid"
        ) from None
