"""Units of the wire, and the only place where pint is used.

Every dimensioned field ends in a unit code of this closed table. Client text never reaches pint's parser: conversions go
through factors computed once, at import.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

import pint
from pydantic import BeforeValidator, Field
from pydantic_core import PydanticKnownError


@dataclass(frozen=True, slots=True)
class Unit:
    """One row of the closed table: wire code, UCUM code, pint expression and what a reader sees."""

    code: str
    ucum: str
    pint_expression: str
    label: str


def _unit_table(*rows: tuple[str, str, str, str]) -> Mapping[str, Unit]:
    return MappingProxyType({code: Unit(code, ucum, expression, label) for code, ucum, expression, label in rows})


UNITS: Final = _unit_table(
    ("mm", "mm", "millimeter", "mm"),
    ("mm2", "mm2", "millimeter**2", "mm²"),
    ("m", "m", "meter", "m"),
    ("m2", "m2", "meter**2", "m²"),
    ("m3", "m3", "meter**3", "m³"),
    ("ml", "mL", "milliliter", "ml"),
    ("l", "L", "liter", "l"),
    ("l_per_m2", "L/m2", "liter/meter**2", "l/m²"),
    ("l_per_m3", "L/m3", "liter/meter**3", "l/m³"),
    ("ml_per_m", "mL/m", "milliliter/meter", "ml/m"),
    ("kg", "kg", "kilogram", "kg"),
    ("kg_per_m2", "kg/m2", "kilogram/meter**2", "kg/m²"),
    ("kg_per_m3", "kg/m3", "kilogram/meter**3", "kg/m³"),
    ("kn", "kN", "kilonewton", "kN"),
    ("kn2", "kN2", "kilonewton**2", "kN²"),
    ("kn_per_kg", "kN/kg", "kilonewton/kilogram", "kN/kg"),
    ("kn_per_m2", "kN/m2", "kilonewton/meter**2", "kN/m²"),
    ("pa", "Pa", "pascal", "Pa"),
    ("m_per_s2", "m/s2", "meter/second**2", "m/s²"),
    ("m_per_s", "m/s", "meter/second", "m/s"),
    ("mm2_per_m", "mm2/m", "millimeter**2/meter", "mm²/m"),
    ("per_m2", "/m2", "1/meter**2", "/m²"),
    ("per_m", "/m", "1/meter", "/m"),
    ("mm_per_m", "mm/m", "millimeter/meter", "mm/m"),
    ("um_per_m_k", "um/(m.K)", "micrometer/meter/kelvin", "µm/(m·K)"),
    ("mm_per_m_k", "mm/(m.K)", "millimeter/meter/kelvin", "mm/(m·K)"),
    ("w", "W", "watt", "W"),
    ("w_per_m", "W/m", "watt/meter", "W/m"),
    ("w_per_m_k", "W/(m.K)", "watt/meter/kelvin", "W/(m·K)"),
    ("m2_k_per_w", "m2.K/W", "meter**2*kelvin/watt", "m²·K/W"),
    ("w_per_m2_k", "W/(m2.K)", "watt/meter**2/kelvin", "W/(m²·K)"),
    ("w_per_m2_k4", "W/(m2.K4)", "watt/meter**2/kelvin**4", "W/(m²·K⁴)"),
    ("w_per_k", "W/K", "watt/kelvin", "W/K"),
    ("j_per_kg_k", "J/(kg.K)", "joule/kilogram/kelvin", "J/(kg·K)"),
    ("deg_c", "Cel", "degree_Celsius", "°C"),
    ("k", "K", "kelvin", "K"),
    ("per_k", "/K", "1/kelvin", "/K"),
    ("deg", "deg", "degree", "°"),
    ("percent", "%", "percent", "%"),
    ("count", "1", "dimensionless", ""),
    ("fraction", "1", "dimensionless", ""),
    ("days", "d", "day", "d"),
    ("s", "s", "second", "s"),
    ("kg_per_m2_s", "kg/(m2.s)", "kilogram/meter**2/second", "kg/(m²·s)"),
    ("kg_per_m_s_pa", "kg/(m.s.Pa)", "kilogram/meter/second/pascal", "kg/(m·s·Pa)"),
    ("m2_per_day", "m2/d", "meter**2/day", "m²/d"),
)
"""Every unit a field name may end in, or a trace step may carry."""

_SYMBOLS: Final = frozenset({"gamma_m"})
"""Names that are symbols and end in no unit: the partial factor of a resistance."""


def unit_of_member(name: str) -> Unit | None:
    """Unit that the name of a member ends in; none where it says nothing."""
    codes = [code for code in UNITS if name.endswith(f"_{code}")]
    return UNITS[max(codes, key=len)] if codes and name not in _SYMBOLS else None


_TYPED_UNITS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "length": {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot", "yd": "yard"},
        "area": {"mm2": "millimeter**2", "m2": "meter**2", "ft2": "foot**2", "yd2": "yard**2"},
        "volume": {"ml": "milliliter", "l": "liter", "m3": "meter**3", "ft3": "foot**3", "gal_us": "gallon"},
        "mass": {"g": "gram", "kg": "kilogram", "lb": "pound", "t": "metric_ton"},
    }
)
"""What people type, by dimension: the only unit words a conversion accepts."""

REGISTRY: Final[pint.UnitRegistry[float]] = pint.UnitRegistry()
"""Built eagerly: pint's own lazy registry is not safe when first used by several threads."""


def _factors() -> dict[tuple[str, str], float]:
    pairs: dict[tuple[str, str], float] = {}
    for words in _TYPED_UNITS.values():
        for source, source_expression in words.items():
            for target, target_expression in words.items():
                ratio = REGISTRY.Quantity(1.0, source_expression).to(target_expression).magnitude
                pairs[source, target] = float(f"{ratio:.15g}")
    return pairs


_FACTORS: Final[Mapping[tuple[str, str], float]] = MappingProxyType(_factors())


class UnknownUnitError(KeyError):
    """A unit word outside the closed table, or two words of different dimensions."""


def factor(source: str, target: str) -> float:
    """Multiplier from one typed unit to another of the same dimension; raises ``UnknownUnitError`` otherwise."""
    try:
        return _FACTORS[source, target]
    except KeyError:
        raise UnknownUnitError(f"no conversion from {source!r} to {target!r}") from None


def known_words(dimension: str) -> tuple[str, ...]:
    """Unit words accepted for a dimension: length, area, volume or mass."""
    return tuple(_TYPED_UNITS[dimension])


METRES_PER_MILLIMETRE: Final = factor("mm", "m")
SQUARE_METRES_PER_SQUARE_MILLIMETRE: Final = factor("mm2", "m2")
LITRES_PER_CUBIC_METRE: Final = factor("m3", "l")
MILLILITRES_PER_LITRE: Final = factor("l", "ml")
MILLIMETRES_PER_MICROMETRE: Final = METRES_PER_MILLIMETRE


def quantity(code: str, low: float, high: float, description: str) -> Any:  # noqa: ANN401  pydantic's own FieldInfo
    """Field annotation of a dimensioned number: strict, finite, bounded, with its unit in the published schema."""
    return Field(
        strict=True,
        ge=low,
        le=high,
        allow_inf_nan=False,
        description=description,
        json_schema_extra={"format": "double", "x-unit": UNITS[code].ucum},
    )


def figure(code: str, description: str) -> Any:  # noqa: ANN401  pydantic's own FieldInfo
    """Field annotation of a number in a result: finite, with its unit in the published schema, without bounds."""
    return Field(
        allow_inf_nan=False, description=description, json_schema_extra={"format": "double", "x-unit": UNITS[code].ucum}
    )


def _whole(value: object) -> object:
    """JSON Schema calls 930.0 an integer, so a strict integer field must take it; ``Literal[0, 1]`` would take ``true``."""
    if isinstance(value, bool):
        raise PydanticKnownError("int_type")
    return int(value) if type(value) is float and value.is_integer() else value


WHOLE: Final = BeforeValidator(_whole)
"""Goes behind ``count(...)`` in an annotation: put first, it would drop the bounds from the published schema."""


def count(low: int, high: int, description: str) -> Any:  # noqa: ANN401  pydantic's own FieldInfo
    """Field annotation of a whole number, to be followed by ``WHOLE`` in its ``Annotated``."""
    return Field(strict=True, ge=low, le=high, description=description)


_UNPRINTABLE: Final = r"\x00-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff"
"""Control characters, line and paragraph separators, and the two code points that XML forbids."""


def words(longest: int, description: str) -> Any:  # noqa: ANN401  pydantic's own FieldInfo
    """Field annotation of free text: one line, no control characters, nothing that a drawing's XML could not carry."""
    return Field(strict=True, max_length=longest, pattern=f"^[^{_UNPRINTABLE}]*$", description=description)


def identifier(description: str) -> Any:  # noqa: ANN401  pydantic's own FieldInfo
    """Field annotation of an id: 1 to 60 characters, no colon (it separates elevation and edge in references)."""
    return Field(strict=True, min_length=1, max_length=60, pattern=f"^[^{_UNPRINTABLE}:]+$", description=description)
