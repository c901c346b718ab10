"""A year that repeats itself: no month is its beginning, planes that gain for ever, layers that never dry."""

import pytest

from moisture_requests import SLIPS_ON_WOOL, air, answer_of, body, by_class, condensation_of, monthly, resistance, solid
from properties import moisture_oracle as oracle
from storeyrod.moisture.calculation import moisture_working
from storeyrod.moisture.models import CondensationRequest

RETARDED = [*SLIPS_ON_WOOL[:3], resistance(0.01, 40.0), SLIPS_ON_WOOL[4]]
"""The worked wall with a sheet outside that retards vapour: one plane, wet all the year."""

SEVERAL_STARTS = (
    [solid(90.6, 0.069, 3.3), solid(124.1, 0.155, 66), solid(44.6, 0.064, 139.7), resistance(0.0, 0.553)],
    [-17.9, -14.4, -10.5, -2.8, 1.5, -0.3, 1.0, -4.5, -10.6, -14.4, -20.9, -22.4],
    [74, 82, 60, 57, 60, 55, 96, 82, 93, 57, 83, 90],
    [19.8, 21.5, 21.4, 23.5, 23.0, 22.8, 20.3, 20.3, 19.3, 18.6, 22.4, 22.1],
    [42, 45, 40, 45, 40, 64, 36, 54, 51, 49, 48, 38],
)
"""Invented: twice a year a month condenses after one that does not, and moisture remains at several planes."""

NO_DRY_MONTH = (
    [solid(169, 0.059, 29.2), resistance(0.0, 8.928), solid(91.6, 1.029, 41.2)],
    [-3.0, -5.7, -12.0, -13.0, -16.6, -15.2, -10.1, -7.2, -4.8, -1.7, -0.6, -2.7],
    [79, 58, 55, 97, 65, 89, 53, 93, 60, 90, 59, 94],
    [19.3, 23.3, 22.5, 18.7, 20.7, 18.1, 20.1, 20.3, 21.2, 20.5, 22.8, 22.1],
    [42, 47, 61, 57, 50, 42, 44, 55, 42, 54, 57, 53],
)
"""Invented: every month condenses."""


def airs(temperatures, percent, turn):
    rows = [air(theta, phi / 100) for theta, phi in zip(temperatures, percent, strict=True)]
    return rows[turn:] + rows[:turn]


def turned(case, turn):
    """The answer, with outdoor and indoor months beginning elsewhere in the same round of 30 days each."""
    layers, outside, wet_outside, inside, wet_inside = case
    outdoor = [{**one, "days": 30} for one in airs(outside, wet_outside, turn)]
    return condensation_of(
        layers, monthly({"kind": "monthly", "months": airs(inside, wet_inside, turn)}, outdoor=outdoor)
    )


def month_after(month, turn):
    return (month - 1 + turn) % 12 + 1


@pytest.mark.parametrize("turn", range(1, 12))
@pytest.mark.parametrize("case", [SEVERAL_STARTS, NO_DRY_MONTH], ids=["several starts", "no dry month"])
def test_months_that_begin_elsewhere_in_the_year_give_the_same_amounts(case, turn):
    here, there = turned(case, 0), turned(case, turn)
    assert there["verdict"] == here["verdict"] == "remains"
    for figure in ("greatest_accumulated_kg_per_m2", "remaining_kg_per_m2"):
        assert there[figure] == pytest.approx(here[figure], rel=1e-12)
    for figure in ("start_month", "greatest_month"):
        assert month_after(there[figure], turn) == here[figure]
    for at, row in enumerate(there["balances"]):
        same = here["balances"][(at + turn) % 12]
        assert row["accumulated_kg_per_m2"] == pytest.approx(same["accumulated_kg_per_m2"], rel=1e-12)


def test_one_plane_is_summed_up_as_the_standard_says():
    """ISO 13788, 6.4.5 and 6.4.6 (from memory): twelve months from a dry start in the first that condenses after one that does not.

    Those twelve months by linear systems; the month before the start condenses nothing in a dry section.
    """
    document = body(RETARDED, monthly(by_class(4)))
    made = moisture_working(CondensationRequest.model_validate(document))
    found = answer_of(document).result["condensation"]
    start = found["start_month"] - 1
    months = [(*one.temperatures, *one.pressures, one.seconds) for one in made.periods]
    layers = [(layer.resistance, layer.sd) for layer in made.section.layers]
    assert oracle.years(layers, months, start=start - 1)[0].sum() == 0.0
    year = oracle.years(layers, months, start=start)[:12].sum(axis=1)
    shown = [found["balances"][(start + at) % 12]["accumulated_kg_per_m2"] for at in range(12)]
    assert shown == pytest.approx(list(year), rel=1e-6)
    assert found["remaining_kg_per_m2"] == pytest.approx(year[-1], rel=1e-6)


@pytest.mark.parametrize("case", [SEVERAL_STARTS, NO_DRY_MONTH], ids=["several starts", "no dry month"])
def test_what_remains_is_what_every_further_year_adds(case):
    """Twelve equal years one after the other, by linear systems: gain of the last, and what its layers never lose."""
    layers, outside, wet_outside, inside, wet_inside = case
    outdoor = [{**one, "days": 30} for one in airs(outside, wet_outside, 0)]
    document = body(layers, monthly({"kind": "monthly", "months": airs(inside, wet_inside, 0)}, outdoor=outdoor))
    made = moisture_working(CondensationRequest.model_validate(document))
    months = [(*one.temperatures, *one.pressures, one.seconds) for one in made.periods]
    passed = [(layer.resistance, layer.sd) for layer in made.section.layers]
    _, remaining = oracle.settled(oracle.years(passed, months), passed)
    assert made.course.remaining == pytest.approx(remaining, rel=1e-5)


def test_a_plane_says_from_which_month_it_is_summed_up():
    rows = condensation_of(SLIPS_ON_WOOL)["interfaces"]
    assert [row.get("start_month") for row in rows] == [None, None, None, 10, None, None]


def amounts_of(found):
    """What every plane holds month by month."""
    return [[row["accumulated_kg_per_m2"] for row in plane["months"]] for plane in found["interfaces"]]


def constant(temperatures, percent, indoors):
    return monthly({"kind": "constant", **indoors}, outdoor=airs(temperatures, [percent] * 12, 0))


def test_layers_and_faces_that_are_wet_by_turns_dry_out_though_the_section_is_never_dry():
    """ISO 13788, 6.4.6 (from memory) asks of each interface whether it dries. Invented months, warm and cold by turns."""
    climate = constant([-10, -7, -6, -1, 8, 5, 5, 6, 16, -6, 15, -11], 70, air(20, 0.5))
    found = condensation_of([resistance(1.0, 1.1), resistance(1.0, 5.0), resistance(0.12, 3.4)], climate)
    assert all(row["accumulated_kg_per_m2"] > 0.0 for row in found["balances"])
    within = [sum(plane) for plane in zip(*amounts_of(found)[2:5], strict=True)]
    assert min(within) == 0.0
    assert all(min(plane) == 0.0 for plane in amounts_of(found))
    assert (found["verdict"], found["remaining_kg_per_m2"]) == ("dries_out", 0.0)


def test_a_layer_within_which_moisture_wanders_does_not_dry_out_though_each_plane_of_it_does():
    """What never leaves is what the layer holds in its driest month. Invented months."""
    climate = constant([-5, -11, 13, -3, -12, -3, -3, 9, 7, -7, 12, 1], 80, air(20, 0.6))
    found = condensation_of([resistance(0.1, 0.6), resistance(3.0, 4.9), resistance(3.0, 9.1)], climate)
    assert all(min(plane) == 0.0 for plane in amounts_of(found))
    outer = [row for row in found["interfaces"] if row.get("inside_layer") == 2 and "depth_fraction" in row]
    least = min(sum(row["months"][at]["accumulated_kg_per_m2"] for row in outer) for at in range(12))
    assert least > 0.0
    assert found["verdict"] == "remains"
    assert found["remaining_kg_per_m2"] == pytest.approx(least, rel=1e-12)
