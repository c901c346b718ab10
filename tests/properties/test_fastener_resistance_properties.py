"""Laws of pull-out tests, needs, lengths and proof tests, on random values."""

import math
from statistics import mean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.fasteners.lengths import length_of
from storeyrod.fasteners.need import needed_for
from storeyrod.fasteners.proof_tests import REGIMES, chosen, share_tested
from storeyrod.fasteners.pull_tests import characteristic_of
from storeyrod.findings import Refusal
from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.trace import SILENT
from storeyrod.wall.fastener_models import PullOut
from storeyrod.wall.substrate_models import Substrate
from storeyrod.wall.system import System

QUICK = settings(max_examples=60, deadline=None)

LOADS = st.integers(1, 1900).map(lambda hundredths: hundredths / 100)
"""In kN, up to what no fastener of this kind passes (20 kN)."""

SAMPLES = st.lists(LOADS, min_size=15, max_size=40)
LOWEST_RULES = st.sampled_from(["insulation_fixing", "general_fixing"])
CAP = 12.0
"""A declared value in kN that general fixings may not exceed."""


def characteristic(loads: list[float], rule: str = "insulation_fixing", declared: float | None = CAP) -> float | None:
    return characteristic_of(PullOut(tests_kn=loads, rule=rule, characteristic_kn=declared), "", SILENT).value


@QUICK
@given(SAMPLES, LOWEST_RULES, st.data())
def test_one_more_test_no_lower_than_any_never_lowers_the_resistance(loads, rule, data) -> None:
    higher = data.draw(st.integers(round(100 * max(loads)), 2000)) / 100
    assert characteristic([*loads, higher], rule) == characteristic(loads, rule)


@QUICK
@given(SAMPLES, LOWEST_RULES, LOADS)
def test_one_more_test_never_raises_the_resistance(loads, rule, another) -> None:
    assert characteristic([*loads, another], rule) <= characteristic(loads, rule) + 1e-12


@QUICK
@given(SAMPLES, LOWEST_RULES, st.data())
def test_a_lower_result_in_place_of_another_never_raises_the_resistance(loads, rule, data) -> None:
    at = data.draw(st.integers(0, len(loads) - 1))
    lower = data.draw(st.integers(1, round(100 * loads[at]))) / 100
    changed = [*loads[:at], lower, *loads[at + 1 :]]
    assert characteristic(changed, rule) <= characteristic(loads, rule) + 1e-12


@QUICK
@given(
    st.lists(LOADS, min_size=3, max_size=30),
    st.sampled_from(["insulation_fixing", "prediction", "tolerance"]),
    st.randoms(),
)
def test_the_order_of_tests_does_not_matter(loads, rule, chance) -> None:
    shuffled = list(loads)
    chance.shuffle(shuffled)
    assert characteristic(shuffled, rule) == characteristic(loads, rule)


@QUICK
@given(SAMPLES)
def test_the_resistance_is_a_share_of_the_five_lowest_under_its_cap(loads) -> None:
    expected = min(0.6 * mean(sorted(loads)[:5]), 1.5)
    assert math.isclose(characteristic(loads, declared=None), expected, rel_tol=1e-12)


@QUICK
@given(st.lists(LOADS, min_size=1, max_size=14), LOWEST_RULES)
def test_fewer_than_fifteen_tests_give_none(loads, rule) -> None:
    found = characteristic_of(PullOut(tests_kn=loads, rule=rule, characteristic_kn=CAP), "", SILENT)
    assert (found.value, found.short) == (None, "tests-few")


@QUICK
@given(st.lists(LOADS, min_size=3, max_size=30), st.sampled_from(["prediction", "tolerance"]))
def test_no_fractile_is_zero_or_less(loads, rule) -> None:
    value = characteristic(loads, rule, declared=None)
    assert value is None or 0.0 < value <= mean(loads) + 1e-9


ACTIONS = st.integers(1, 100_000).map(lambda tens: tens / 10_000)
RESISTANCES = st.integers(10, 5000).map(lambda thousandths: thousandths / 1000)


@QUICK
@given(ACTIONS, ACTIONS, RESISTANCES)
def test_more_action_never_needs_fewer(one, other, held) -> None:
    low, high = sorted((one, other))
    assert needed_for(low, held, SILENT) <= needed_for(high, held, SILENT)


@QUICK
@given(ACTIONS, RESISTANCES, RESISTANCES)
def test_more_resistance_never_needs_more(action, one, other) -> None:
    low, high = sorted((one, other))
    assert needed_for(action, high, SILENT) <= needed_for(action, low, SILENT)


@QUICK
@given(ACTIONS, RESISTANCES)
def test_what_is_needed_carries_the_action_and_one_less_does_not(action, held) -> None:
    number = needed_for(action, held, SILENT)
    assert number * held >= action - held * 2 * ROUNDING_GUARD
    assert (number - 1) * held < action


@QUICK
@given(ACTIONS, RESISTANCES)
def test_twice_the_resistance_never_more_than_halves_the_number(action, held) -> None:
    assert 2 * needed_for(action, 2 * held, SILENT) >= needed_for(action, held, SILENT)


def by_the_rule(number: int, basis: str, failures: int) -> int:
    """Tests of an area as stated in the rule: shares in whole numbers, apart from the code's rounding."""
    share = {"fewer_heavier": 1, "more_lighter": 2}[basis] * (failures + 1)
    least = {"fewer_heavier": 3, "more_lighter": 6}[basis] * (failures + 1)
    return min(number, max(least, -(-number * share // 40)))


@QUICK
@given(st.integers(1, 20_000), st.sampled_from(["fewer_heavier", "more_lighter"]), st.integers(0, 1))
def test_proof_tests_are_a_share_rounded_up_and_a_least_number(number, basis, failures) -> None:
    regime = REGIMES[basis]
    times = failures + 1
    found = share_tested(
        n=float(number), n_least=regime.least * times, p=regime.share * times, tolerance=ROUNDING_GUARD
    )
    assert found == by_the_rule(number, basis, failures)


@QUICK
@given(st.integers(1, 3000), st.data())
def test_the_fasteners_to_test_are_that_many_and_each_once(number, data) -> None:
    tests = data.draw(st.integers(0, number))
    places = chosen(number, tests)
    assert len(set(places)) == len(places) == tests
    assert places == sorted(places)
    assert all(0 <= place < number for place in places)


@QUICK
@given(st.integers(1, 3000), st.data())
def test_more_tests_keep_the_fasteners_of_fewer(number, data) -> None:
    fewer, more = sorted(data.draw(st.tuples(st.integers(0, number), st.integers(0, number))))
    assert set(chosen(number, fewer)) <= set(chosen(number, more))


THICKNESSES = st.integers(0, 60).map(float)


@QUICK
@given(
    st.integers(40, 240),
    THICKNESSES,
    THICKNESSES,
    st.integers(20, 80),
    st.lists(st.integers(100, 450), max_size=8),
    st.sampled_from([*"ABCDE", None]),
)
def test_a_length_is_enough_and_the_next_shorter_one_held_is_not(board, render, level, depth, held, category) -> None:
    fastener = {"embedment_mm": depth, "lengths_mm": held}
    sizes = {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": board}
    slip = {"length_mm": 215, "height_mm": 65, "thickness_mm": 20}
    system = System.model_validate({"board": sizes, "slip": slip, "fastener": fastener})
    substrate = Substrate(category=category, render_mm=render, levelling_mm=level)
    required = board + render + level + depth
    if held and max(held) < required:
        with pytest.raises(Refusal, match="are needed from the head"):
            length_of(system, substrate)
        return
    found = length_of(system, substrate)
    assert found is not None
    assert found["required_mm"] == required
    assert found.get("chosen_mm", required) == min((one for one in held if one >= required), default=required)
    assert found["embedment_mm"] >= depth
    assert found["hole_depth_mm"] == found["embedment_mm"] + (15 if category == "C" else 10)
