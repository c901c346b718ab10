"""Coefficients and contents that a conversion took from the table, as assumptions."""

from collections.abc import Iterator

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.thermal.conversion import content_in_air, temperature_coefficient
from storeyrod.thermal.conversion_tables import CONVERSIONS, clause_of
from storeyrod.thermal.declared_models import DeclaredLayer
from storeyrod.thermal.material_models import ConversionRow
from storeyrod.trace import SILENT


def conversion_assumptions(layer: DeclaredLayer, pointer: str) -> Iterator[Assumption]:
    """Rows for the layer that stands at a pointer."""
    conversion = layer.conversion
    row = CONVERSIONS.get(conversion.material or "")
    if row is None:
        return
    here, clause = f"{pointer}/conversion", clause_of(row)
    if conversion.temperature_design_deg_c is not None and conversion.temperature_coefficient_per_k is None:
        value = temperature_coefficient(layer, layer.conductivity_declared_w_per_m_k, here, SILENT)
        yield stated(f"{here}/temperature_coefficient_per_k", value, Assumed("per_k", clause))
    moisture = conversion.moisture
    if moisture is None:
        return
    if moisture.coefficient is None:
        value = row["moisture"]["coefficient"]
        yield stated(f"{here}/moisture/coefficient", value, Assumed("count", clause, _dispute(row)))
    if moisture.content_design_fraction is None:
        value = content_in_air(row["moisture"], moisture.air_humidity_percent)
        yield stated(f"{here}/moisture/content_design_fraction", value, Assumed("fraction", clause))


def _dispute(row: ConversionRow) -> str:
    other = row["moisture"].get("coefficient_low")
    return "" if other is None else f"the unfavourable one of two that are recalled; the other is {other:g}"
