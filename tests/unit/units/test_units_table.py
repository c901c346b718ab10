"""The closed table of units: codes, published codes and conversions."""

import pytest

from storeyrod.units import REGISTRY, UNITS, UnknownUnitError, factor, known_words


@pytest.mark.parametrize("code", UNITS)
def test_every_unit_is_known_to_pint(code: str) -> None:
    assert REGISTRY.Quantity(1.0, UNITS[code].pint_expression).units is not None


@pytest.mark.parametrize("code", [code for code in UNITS if "_per_" in code and not code.endswith("_k4")])
def test_a_code_with_per_names_the_quotient_of_its_parts(code: str) -> None:
    words = {
        "um": "micrometer", "mm": "millimeter", "mm2": "millimeter**2", "m": "meter", "m2": "meter**2", "m3": "meter**3", "s": "second", "s2": "second**2",
        "ml": "milliliter", "l": "liter", "kg": "kilogram", "kn": "kilonewton", "w": "watt", "k": "kelvin", "j": "joule", "day": "day",
        "pa": "pascal",
    }  # fmt: skip
    above, below = code.split("_per_")
    expected = REGISTRY.Quantity(1.0, "dimensionless")
    for word in above.split("_"):
        expected = expected * REGISTRY.Quantity(1.0, words[word])
    for word in below.split("_"):
        expected = expected / REGISTRY.Quantity(1.0, words[word])
    unit = REGISTRY.Quantity(1.0, UNITS[code].pint_expression)
    assert (unit / expected).to("dimensionless").magnitude == pytest.approx(1.0, rel=1e-12)


@pytest.mark.parametrize(
    ("source", "target", "expected"),
    [
        # The international yard and pound of 1959: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, both exact.
        ("in", "mm", 25.4),
        ("ft", "mm", 304.8),
        ("yd", "m", 0.9144),
        ("ft2", "m2", 0.09290304),
        ("yd2", "m2", 0.83612736),
        ("ft3", "m3", 0.028316846592),
        ("gal_us", "l", 3.785411784),  # 231 cubic inches
        ("lb", "kg", 0.45359237),
        ("t", "kg", 1000.0),
        ("m", "mm", 1000.0),
        ("m2", "mm2", 1e6),
        ("l", "ml", 1000.0),
        ("m3", "l", 1000.0),
    ],
)
def test_conversion_factors_are_the_defined_ones_to_the_last_digit(source: str, target: str, expected: float) -> None:
    assert factor(source, target) == expected


@pytest.mark.parametrize("dimension", ["length", "area", "volume", "mass"])
def test_there_and_back_is_one(dimension: str) -> None:
    for source in known_words(dimension):
        assert factor(source, source) == 1.0
        for target in known_words(dimension):
            assert factor(source, target) * factor(target, source) == pytest.approx(1.0, rel=1e-14)


@pytest.mark.parametrize(
    "word", ["9**9**9", "1,5 m", "3 ft 6 in", "", "MM", "mm ", "kg/0", "nan", "meter", "m2", "l", "kg"]
)
def test_text_outside_the_table_never_converts_to_a_length(word: str) -> None:
    with pytest.raises(UnknownUnitError):
        factor(word, "mm")
