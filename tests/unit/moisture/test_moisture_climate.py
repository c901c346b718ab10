"""Air on both sides of a section: classes of humidity, given air, months and blocks."""

import pytest
from pydantic import ValidationError

from moisture_requests import OUTDOOR_TEMPERATURES, air, answer_of, body, by_class, monthly, months, resistance, steady
from storeyrod.findings import Refusal

WALL = [resistance(3.0, 1.0)]
SATURATED_AT_FREEZING = 610.5


def climate_of(climate):
    return answer_of(body(WALL, climate)).result["climate"]


def even(temperature, humidity=0.5):
    return [air(temperature, humidity)] * 12


@pytest.mark.parametrize(("number", "excess"), [(1, 270), (2, 540), (3, 810), (4, 1080), (5, 1360)])
def test_a_class_adds_its_excess_with_a_tenth_at_freezing_and_below(number, excess):
    """ISO 13788, annex A (from memory); the design factor of 1.10 as the Polish report uses it."""
    for temperature in (0.0, -10.0):
        row = climate_of(monthly(by_class(number), outdoor=even(temperature)))[0]
        added = row["indoor"]["vapour_pressure_pa"] - row["outdoor"]["vapour_pressure_pa"]
        assert added == pytest.approx(1.1 * excess)


@pytest.mark.parametrize(("temperature", "share"), [(5.0, 0.75), (10.0, 0.5), (19.0, 0.05), (20.0, 0.0), (25.0, 0.0)])
def test_the_excess_falls_evenly_to_nothing_at_20_degrees(temperature, share):
    outdoor = [air(temperature, 0.3), *even(0.0)[1:]]
    row = climate_of(monthly(by_class(3, margin_factor=1.0), outdoor=outdoor))[0]
    added = row["indoor"]["vapour_pressure_pa"] - row["outdoor"]["vapour_pressure_pa"]
    assert added == pytest.approx(810 * share, abs=1e-9)


def test_classes_give_the_indoor_pressures_of_the_polish_report():
    """Report of a design calculation, class 3 with the factor 1.10: p_e + 1.1 x 810 x (1 - theta / 20), by hand for January.

    At 0.2 degrees 610.5 x exp(17.269 x 0.2 / 237.5) = 619.44 Pa saturate; 86 % are 532.72 Pa; the excess is 882.09 Pa.
    """
    row = climate_of(monthly(by_class(3)))[0]
    assert row["outdoor"]["vapour_pressure_pa"] == pytest.approx(532.72, abs=0.01)
    assert row["indoor"]["vapour_pressure_pa"] == pytest.approx(1414.81, abs=0.01)


def test_indoor_air_given_by_months_is_used_as_given():
    indoor = {"kind": "monthly", "months": [air(20.0 + at / 10, 0.4) for at in range(12)]}
    rows = climate_of(monthly(indoor))
    assert [row["indoor"]["temperature_deg_c"] for row in rows] == [20.0 + at / 10 for at in range(12)]
    assert {row["indoor"]["humidity_fraction"] for row in rows} == {0.4}


def test_months_have_the_days_of_the_calendar():
    assert [row["days"] for row in climate_of(monthly())] == [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def test_days_given_stand_for_their_month_alone():
    outdoor = months()
    outdoor[1]["days"] = 29
    assert [row["days"] for row in climate_of(monthly(outdoor=outdoor))][:3] == [31, 29, 31]


@pytest.mark.parametrize("days", [27.9, 31.1, 20, 400])
def test_a_month_of_another_length_than_28_to_31_days_is_refused(days):
    outdoor = [{**month, "days": days} for month in months()]
    with pytest.raises(ValidationError) as refused:
        answer_of(body(WALL, monthly(outdoor=outdoor)))
    assert refused.value.errors()[0]["loc"][-3:] == ("months", 0, "days")


@pytest.mark.parametrize("days", [28, 30.4375, 31])
def test_a_month_may_have_any_length_of_a_month(days):
    outdoor = [{**month, "days": days} for month in months()]
    assert {row["days"] for row in climate_of(monthly(outdoor=outdoor))} == {days}


def test_the_calendar_is_stated_as_an_assumption_unless_all_days_are_given():
    given = [{**month, "days": 30} for month in months()]
    for outdoor, stated in ((months(), True), (given, False)):
        fields = [row["field"] for row in answer_of(body(WALL, monthly(outdoor=outdoor))).assumptions]
        assert ("/climate/months" in fields) is stated


def test_blocks_are_named_and_months_are_numbered():
    dry = {"days": 90, "outdoor": air(15, 0.7), "indoor": air(15, 0.7)}
    rows = climate_of(steady(air(20, 0.5), air(-5, 0.8), drying=dry))
    assert [row["block"] for row in rows] == ["condensing", "drying"]
    assert [row["month"] for row in climate_of(monthly())] == list(range(1, 13))


def test_air_without_vapour_has_no_dew_point():
    row = climate_of(steady(air(20, 0.5), air(-5, 0.0)))[0]
    assert "dew_point_deg_c" not in row["outdoor"]
    # 20 degrees and 50 %: 9.27 degrees by the formulas, psychrolib and CoolProp.
    assert row["indoor"]["dew_point_deg_c"] == pytest.approx(9.27, abs=0.005)


@pytest.mark.parametrize(
    ("climate", "pointer", "said"),
    [
        (monthly(outdoor=months()[:11]), "/climate/months", "holds 11 months; give 12, from January to December"),
        (monthly({"kind": "monthly", "months": [air(20, 0.5)] * 13}), "/climate/indoor/months", "holds 13 months"),
        (
            monthly(outdoor=[*months()[:11], air(5.0, 86)]),
            "/climate/months/11/humidity_fraction",
            "humidity 86 is over 1; give a fraction, such as 0.8 for 80 %",
        ),
        (
            steady(air(20, 0.5), air(0, 0.5), drying={"days": 9, "outdoor": air(15, 1.1), "indoor": air(15, 0.7)}),
            "/climate/drying/outdoor/humidity_fraction",
            "humidity 1.1 is over 1",
        ),
        (
            monthly({"kind": "constant", **air(-30, 0.5)}, outdoor=even(-20.0)),
            "/climate/indoor",
            "in no month is it warmer indoors than outdoors",
        ),
        (
            monthly(by_class(5), outdoor=[*even(0.0)[:11], air(30.0, 0.9)]),
            "/climate/indoor",
            "2337 Pa is the most",
        ),
    ],
)
def test_air_that_cannot_be_is_refused_where_it_stands(climate, pointer, said):
    with pytest.raises(Refusal) as refused:
        answer_of(body(WALL, climate))
    assert refused.value.faults[0].pointer == pointer
    assert said in refused.value.detail


def test_a_cold_room_is_answered_by_steady_blocks():
    row = climate_of(steady(air(-20, 0.8), air(15, 0.7)))[0]
    assert row["indoor"]["vapour_pressure_pa"] < row["outdoor"]["vapour_pressure_pa"]


def test_the_report_s_temperatures_are_those_sent():
    assert [row["outdoor"]["temperature_deg_c"] for row in climate_of(monthly())] == OUTDOOR_TEMPERATURES
