"""The recording trace: links, totals, and the same numbers as without it."""

import pickle

import pytest

from storeyrod.findings import Refusal
from storeyrod.reference.documents import COMMON_PRACTICE, GEOMETRY, Clause
from storeyrod.trace import CALLER, SILENT, Figure, Recorder, Trace, formula, origin_of


@formula(symbol="A", expression="w*h", unit="m2", inputs={"w": "m", "h": "m"}, clause=GEOMETRY, validity={"w": (0, 10)})
def area(*, w: float, h: float) -> float:
    return w * h


def working(trace: Trace) -> float:
    width = trace.given(4.0, "/elevations/0/width_mm")
    least = trace.lookup("h_min", 2.5, "m", COMMON_PRACTICE)
    return trace.sum("A", "m2", [trace.call(area, w=width, h=least), trace.call(area, w=width, h=1.0)])


def test_recording_changes_no_number() -> None:
    assert working(SILENT) == working(Recorder()) == 14.0


def test_steps_are_numbered_in_order() -> None:
    trace = Recorder()
    working(trace)
    assert [(step["id"], step["kind"]) for step in trace.steps] == [
        ("s1", "lookup"), ("s2", "formula"), ("s3", "formula"), ("s4", "sum"),
    ]  # fmt: skip


def test_every_input_says_where_it_came_from() -> None:
    trace = Recorder()
    working(trace)
    assert [one["from"] for one in trace.steps[1]["inputs"]] == ["/elevations/0/width_mm", "s1"]
    assert [one["from"] for one in trace.steps[2]["inputs"]] == ["/elevations/0/width_mm", CALLER]
    assert [one["from"] for one in trace.steps[3]["inputs"]] == ["s2", "s3"]


def test_a_step_prints_symbol_expression_unit_and_clause() -> None:
    trace = Recorder()
    trace.call(area, w=2.0, h=3.0)
    (step,) = trace.steps
    assert (step["symbol"], step["expression"], step["unit"], step["value"]) == ("A", "w*h", "m2", 6.0)
    assert step["clause"] == {
        "document": "geometry", "edition": "", "number": "", "status": "independent_calculation",
    }  # fmt: skip


def test_arithmetic_outside_a_formula_loses_the_link() -> None:
    trace = Recorder()
    value = trace.given(4.0, "/a")
    assert origin_of(value) == "/a"
    assert origin_of(value * 2) == CALLER
    assert origin_of(4.0) == CALLER


def test_the_silent_trace_records_nothing() -> None:
    working(SILENT)
    assert SILENT.steps == []


@pytest.mark.parametrize("trace", [SILENT, Recorder()], ids=["silent", "recording"])
def test_totals_of_nothing_are_a_float_zero(trace: Trace) -> None:
    for total in (trace.sum("x", "m", []), trace.count("n", []), trace.measure("x", "m", [])):
        assert total == 0.0
        assert isinstance(total, float)


def test_a_count_keeps_one_input_for_each_row() -> None:
    trace = Recorder()
    total = trace.count("n", [("window", 2, "/elevations/0/openings/0"), ("door", 1, "/elevations/0/openings/1")])
    assert total == 3.0
    assert [(one["symbol"], one["value"], one["from"]) for one in trace.steps[0]["inputs"]] == [
        ("window", 2.0, "/elevations/0/openings/0"), ("door", 1.0, "/elevations/0/openings/1"),
    ]  # fmt: skip


@pytest.mark.parametrize("holds", [True, False])
def test_a_check_passes_its_verdict_through_and_records_it(holds: bool) -> None:
    trace = Recorder()
    assert trace.check("w", 3.0, 2.0, "mm", GEOMETRY, holds=holds) is holds
    assert SILENT.check("w", 3.0, 2.0, "mm", GEOMETRY, holds=holds) is holds
    assert trace.steps[0]["value"] == float(holds)
    assert [one["value"] for one in trace.steps[0]["inputs"]] == [3.0, 2.0]


def test_a_figure_is_a_float_that_survives_pickling() -> None:
    there_and_back = pickle.loads(pickle.dumps(Figure(2.5, "s7")))
    assert (there_and_back, there_and_back.origin) == (2.5, "s7")


def test_an_input_on_the_limit_is_inside_the_range() -> None:
    assert area(w=10.0, h=1.0) == 10.0


def test_an_input_beyond_the_range_refuses_at_its_pointer() -> None:
    trace = Recorder()
    with pytest.raises(Refusal) as caught:
        trace.call(area, w=trace.given(10.5, "/elevations/0/width_mm"), h=1.0)
    (fault,) = caught.value.faults
    assert (caught.value.slug, fault.pointer) == ("outside-validity", "/elevations/0/width_mm")
    assert "w = 10.5 m" in fault.detail


def test_not_a_number_is_outside_every_range() -> None:
    with pytest.raises(Refusal):
        area(w=float("nan"), h=1.0)


def test_a_formula_with_a_unit_outside_the_table_cannot_be_declared() -> None:
    with pytest.raises(KeyError):
        formula(symbol="x", expression="a", unit="furlong", inputs={"a": "m"}, clause=GEOMETRY)(lambda a: a)


def test_a_clause_of_an_unknown_document_cannot_be_made() -> None:
    with pytest.raises(KeyError):
        Clause("no such document", "1", "published")


@pytest.mark.parametrize("trace", [SILENT, Recorder()])
def test_a_total_is_the_same_whatever_the_order_of_its_terms(trace) -> None:
    """Added from the left 0.1 + 0.2 + 0.3 gives 0.6000000000000001, from the right 0.6; the sum rounded once is 0.6."""
    terms = [0.1, 0.2, 0.3]
    assert {trace.sum("x", "m", terms), trace.sum("x", "m", terms[::-1])} == {0.6}
    rows = [("x", term, "") for term in terms]
    assert {trace.measure("x", "m", rows), trace.measure("x", "m", rows[::-1])} == {0.6}
