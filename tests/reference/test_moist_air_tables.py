"""Saturation pressure and dew point against printed tables and a general-purpose library for moist air."""

import psychrolib
import pytest

from storeyrod.moisture.humid_air import dew_point, saturation, saturation_constants, saturations
from storeyrod.trace import SILENT

psychrolib.SetUnitSystem(psychrolib.SI)
KNOWN = saturation_constants(SILENT)


def saturation_at(temperature):
    return saturation(temperature, KNOWN, SILENT)


def dew_point_of(temperature, humidity):
    return dew_point(humidity * saturation_at(temperature), KNOWN, SILENT)


@pytest.mark.parametrize(
    ("temperature", "printed"),
    [
        # Danish guideline 224, Moisture in buildings, annex A.
        (-20, 103.5),
        (-19, 113.9),
        (-18, 125.2),
        (32, 4755),
        # ASHRAE Handbook, Fundamentals, 2021, chapter 27, values used in examples 7 and 8.
        (21, 2488),
        (25, 3169),
        # DIN 4108-3, from memory.
        (-5, 401),
        # IAPWS formulation for ice, and IAPWS-97.
        (-10, 259.87),
        (20, 2339.21),
    ],
)
def test_saturation_pressure_is_that_of_printed_tables(temperature, printed):
    """Other formulas than that of ISO 13788: within 0.25 % from -10 degrees Celsius, 1 % below."""
    assert saturation_at(temperature) == pytest.approx(printed, rel=0.0025 if temperature >= -10 else 0.01)


@pytest.mark.parametrize(
    ("temperature", "calculated"),
    [
        (-20, 102.74),
        (-10, 259.33),
        (0, 610.50),
        (5, 871.86),
        (10, 1227.31),
        (15, 1704.41),
        (20, 2336.95),
        (25, 3165.92),
    ],
)
def test_saturation_pressure_is_that_of_the_formulas_of_iso_13788(temperature, calculated):
    """The formulas of ISO 13788, annex E (from memory), worked out by a script of its own."""
    assert saturation_at(temperature) == pytest.approx(calculated, abs=0.005)


@pytest.mark.parametrize("temperature", range(-20, 41))
def test_saturation_pressure_agrees_with_another_formula(temperature):
    """Psychrolib 2.5, after the ASHRAE Handbook: the formulas part by 0.1 % at 20, 0.22 % at -10 and 0.5 % at -20 degrees."""
    expected = psychrolib.GetSatVapPres(float(temperature))
    assert saturation_at(temperature) == pytest.approx(expected, rel=0.0025 if temperature >= -10 else 0.006)


@pytest.mark.parametrize("temperature", [-5.0, 5.0, 12.0, 20.0, 26.0])
@pytest.mark.parametrize("humidity", [0.2, 0.5, 0.6, 0.8, 0.95])
def test_the_dew_point_agrees_with_another_formula(temperature, humidity):
    """Psychrolib 2.5: within 0.05 K, which 0.3 % of pressure makes."""
    expected = psychrolib.GetTDewPointFromRelHum(temperature, humidity)
    assert dew_point_of(temperature, humidity) == pytest.approx(expected, abs=0.06)


@pytest.mark.parametrize(("humidity", "calculated"), [(0.5, 9.269), (0.6, 12.004)])
def test_the_dew_point_of_a_room_is_that_of_the_formulas(humidity, calculated):
    """ISO 13788, annex E (from memory), inverted by a script of its own."""
    assert dew_point_of(20.0, humidity) == pytest.approx(calculated, abs=0.0005)


def test_planes_saturate_at_the_pressures_that_the_formula_gives():
    temperatures = [theta / 7 for theta in range(-200, 300)]
    assert saturations(temperatures) == [saturation_at(theta) for theta in temperatures]


def test_both_formulas_meet_at_freezing():
    assert saturation_at(-1e-9) == pytest.approx(saturation_at(0.0), rel=1e-9)
