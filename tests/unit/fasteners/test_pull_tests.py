"""Characteristic resistance from pull-out tests. Fifteen loads in kN; the five lowest are 2.2, 2.3, 2.4, 2.5 and 2.6, mean 2.40.

Rules are those of ETAG 014 Annex D, ETAG 020 Annex B and EN 1990 Annex D, all from memory; numbers are by hand.
"""

import random
from statistics import mean, stdev
from typing import Any

import pytest
from pydantic import ValidationError

from storeyrod.fasteners.pull_tests import Characteristic, characteristic_of
from storeyrod.trace import SILENT, Recorder
from storeyrod.wall.fastener_models import PullOut

LOADS = [2.9, 3.1, 2.4, 2.7, 3.3, 2.2, 2.6, 3.0, 2.8, 2.5, 3.4, 2.3, 2.9, 2.7, 3.2]


def worked(loads: list[float], **members: Any) -> Characteristic:
    return characteristic_of(PullOut(tests_kn=loads, **members), "/system/fastener/pull_out", SILENT)


def test_insulation_fixings_take_six_tenths_of_the_mean_of_the_five_lowest() -> None:
    found = worked(LOADS)
    assert (found.mean, found.value) == (pytest.approx(2.40), pytest.approx(1.44))


def test_equal_loads_all_count() -> None:
    """2.2 twice among the five lowest: (2.2 + 2.2 + 2.3 + 2.4 + 2.5)/5 = 2.32."""
    assert worked([*LOADS[:-1], 2.2]).mean == pytest.approx(2.32)


def test_the_order_of_tests_does_not_matter() -> None:
    shuffled = random.Random(5).sample(LOADS, len(LOADS))
    assert worked(shuffled) == worked(LOADS)


def test_no_more_than_one_and_a_half_kilonewton() -> None:
    assert worked([2.6] * 15).value == 1.5


def test_no_more_than_the_declared_value_where_one_is_given() -> None:
    assert worked(LOADS, characteristic_kn=1.2).value == 1.2


def test_a_declared_value_above_what_tests_give_raises_nothing() -> None:
    assert worked(LOADS, characteristic_kn=1.45).value == pytest.approx(1.44)


def test_general_fixings_take_half_of_that_mean() -> None:
    """Not six tenths: the two documents must not be mixed."""
    assert worked(LOADS, rule="general_fixing", characteristic_kn=2.0).value == pytest.approx(1.20)


def test_general_fixings_have_no_other_cap_than_the_declared_value() -> None:
    assert worked([8.0] * 15, rule="general_fixing", characteristic_kn=3.5).value == 3.5


def test_general_fixings_without_a_declared_value_have_none() -> None:
    found = worked(LOADS, rule="general_fixing")
    assert (found.value, found.short) == (None, "declared-missing")


@pytest.mark.parametrize("rule", ["insulation_fixing", "general_fixing"])
def test_fourteen_tests_give_no_value(rule: str) -> None:
    found = worked(LOADS[:14], rule=rule, characteristic_kn=1.5)
    assert (found.value, found.short) == (None, "tests-few")


@pytest.mark.parametrize("rule", ["prediction", "tolerance"])
def test_two_tests_tell_nothing_of_scatter(rule: str) -> None:
    assert worked([2.0, 2.1], rule=rule).short == "tests-few"


@pytest.mark.parametrize("load", [0.0, -1.0])
def test_a_load_that_is_not_above_zero_is_refused(load: float) -> None:
    with pytest.raises(ValidationError, match="tests_kn"):
        PullOut(tests_kn=[*LOADS, load])


def test_the_prediction_lies_so_many_deviations_under_the_mean() -> None:
    """k_n of fifteen: t(0.95, 14) = 1.7613, times sqrt(1 + 1/15), is 1.8191."""
    assert worked(LOADS, rule="prediction").value == pytest.approx(mean(LOADS) - 1.8191 * stdev(LOADS), abs=5e-5)


def test_the_tolerance_limit_lies_lower_the_surer_one_is() -> None:
    """k_s of fifteen: 1.991 at 0.75 and 2.566 at 0.95, by an independent calculation."""
    usual, surer = worked(LOADS, rule="tolerance"), worked(LOADS, rule="tolerance", confidence_fraction=0.95)
    assert usual.value == pytest.approx(mean(LOADS) - 1.991 * stdev(LOADS), abs=5e-4)
    assert surer.value == pytest.approx(mean(LOADS) - 2.566 * stdev(LOADS), abs=5e-4)


def test_a_fractile_under_zero_is_no_resistance() -> None:
    """Mean 1 and deviation 0.3 of three: 1 - 3.372*0.3 is under zero."""
    found = worked([0.7, 1.0, 1.3], rule="prediction")
    assert (found.value, found.short, found.mean) == (None, "scatter-too-large", pytest.approx(1.0))


def test_a_fractile_is_capped_by_the_declared_value() -> None:
    assert worked(LOADS, rule="prediction", characteristic_kn=1.0).value == 1.0


def test_the_working_names_the_five_tests_that_counted() -> None:
    trace = Recorder()
    characteristic_of(PullOut(tests_kn=LOADS), "/system/fastener/pull_out", trace)
    (total,) = [step for step in trace.steps if step["symbol"] == "S"]
    named = sorted(one["from"] for one in total["inputs"])
    assert named == sorted(
        f"/system/fastener/pull_out/tests_kn/{LOADS.index(load)}" for load in (2.2, 2.3, 2.4, 2.5, 2.6)
    )


def test_the_document_of_the_rule_and_how_it_is_known_come_back() -> None:
    rules = ("insulation_fixing", "general_fixing", "prediction", "tolerance")
    clauses = [worked(LOADS, rule=rule, characteristic_kn=1.5).clause for rule in rules]
    assert [clause.document for clause in clauses] == ["ETAG 014", "ETAG 020", "EN 1990", "NIST handbook"]
    assert {clause.status for clause in clauses} == {"memory"}
