"""The worked house's order, recomputed by hand from its trace.

Hand means: printed expressions read by sympy, sums added up, lengths and areas converted by pint. Nothing of the service's own
arithmetic takes part.
"""

import math
from collections.abc import Mapping
from functools import cache

import pint
import pytest
import sympy

from storeyrod.take_off.calculation import calculate
from storeyrod.trace import Recorder, Step
from storeyrod.units import UNITS
from unit.take_off.worked_house import asked_for

REGISTRY = pint.UnitRegistry()
FUNCTIONS = {name: getattr(sympy, name) for name in ("sqrt", "acos", "Min", "Max", "ceiling", "floor", "pi")}
PACKS = {
    "board_count": 4, "slip_count": 50, "header_slip_count": 50, "corner_slip_count": 20, "fastener_count": 100,
    "adhesive_count": 10, "mortar_kg": 20, "sealant_ml": 600, "backer_rod_m": 50, "base_trim_count": 5,
}  # fmt: skip


class Working:
    """A take-off with its trace, and the default-filled request that the trace points into."""

    def __init__(self, **changes):
        self.request = asked_for(**changes)
        trace = Recorder()
        self.result = calculate(self.request, trace).result
        self.steps = {step["id"]: step for step in trace.steps}
        self.document = self.request.model_dump(exclude_none=True)

    @property
    def lines(self):
        bought = self.result["quantities"]
        return [one for part in (bought, *bought["elevations"]) for one in part["lines"]]


def tooled_english():
    """The house with everything that adds steps: headers, boxes of all kinds, one joint, declared fasteners."""
    system = {**asked_for().model_dump(exclude_none=True)["system"], "bond": "english", "packs": PACKS}
    system["fastener"] = {**system["fastener"], "chi_w_per_k": 0.002}
    system["adhesive"] = {**system["adhesive"], "bead_triangle": {"width_mm": 8, "height_mm": 10}}
    elevations = asked_for().model_dump(exclude_none=True)["elevations"]
    elevations[1]["existing_joints_x_mm"] = [3000]
    return {"system": system, "elevations": elevations, "corrections": {"insulation_layer": 2, "air_gap_level": 1}}


@pytest.fixture(scope="module", params=["as surveyed", "with everything"])
def working(request):
    return Working(**(tooled_english() if request.param == "with everything" else {}))


def value_at(document, pointer):
    """Member that a JSON Pointer leads to; fails when there is none."""
    for token in pointer.split("/")[1:]:
        name = token.replace("~1", "/").replace("~0", "~")
        document = document[int(name)] if isinstance(document, list) else document[name]
    return document


def in_unit(value, source, target):
    """A value of one unit code in another; temperatures and plain numbers stay as they are."""
    if source == target or {source, target} <= {"count", "fraction"}:
        return value
    return REGISTRY.Quantity(value, UNITS[source].pint_expression).to(UNITS[target].pint_expression).magnitude


def unit_of_member(pointer):
    """Unit code at the end of a member's name, the longest that fits."""
    name = pointer.rpartition("/")[2]
    return max((code for code in UNITS if name.endswith(f"_{code}")), key=len, default=None)


@cache
def printed(expression, symbols):
    names = {symbol: sympy.Symbol(symbol, real=True) for symbol in symbols}
    return sympy.lambdify(list(names.values()), sympy.sympify(expression, locals={**FUNCTIONS, **names}), "math")


def by_hand(step: Step, values: Mapping[str, float]) -> float:
    """Value of a step from its own print and the values of its inputs."""
    match step["kind"]:
        case "formula":
            return float(printed(step["expression"], tuple(values))(*values.values()))
        case "sum" | "count":
            return math.fsum(row["value"] for row in step["inputs"])
        case "check":
            return step["value"]
        case _:
            return step["value"]


def inputs_of(step):
    return {row["symbol"]: row["value"] for row in step["inputs"]}


def test_every_input_comes_from_an_earlier_step_or_from_the_request(working):
    seen = set()
    for step in working.steps.values():
        for row in step["inputs"]:
            if row["from"] in working.steps:
                assert row["from"] in seen, (step["id"], row)
            else:
                assert row["from"].startswith("/"), (step["id"], row)
                value_at(working.document, row["from"])
        seen.add(step["id"])


def test_an_input_taken_from_a_step_is_that_step_s_value(working):
    for step in working.steps.values():
        for row in step["inputs"]:
            if (origin := working.steps.get(row["from"])) is not None:
                there = in_unit(origin["value"], origin["unit"], row["unit"])
                assert row["value"] == pytest.approx(there, rel=1e-12), (step["id"], row, origin["id"])


def test_an_input_taken_from_a_member_is_that_member_s_value(working):
    compared = 0
    for step in working.steps.values():
        for row in step["inputs"]:
            member = value_at(working.document, row["from"]) if row["from"].startswith("/") else None
            unit = unit_of_member(row["from"])
            if isinstance(member, int | float) and unit is not None:
                assert row["value"] == pytest.approx(in_unit(member, unit, row["unit"]), rel=1e-12), (step["id"], row)
                compared += 1
    assert compared > 50


def test_every_formula_recomputes_from_its_print(working):
    formulas = [step for step in working.steps.values() if step["kind"] == "formula"]
    assert len(formulas) > 100
    for step in formulas:
        assert by_hand(step, inputs_of(step)) == pytest.approx(step["value"], rel=1e-9, abs=1e-12), step


def test_every_sum_and_count_adds_up(working):
    totals = [step for step in working.steps.values() if step["kind"] in ("sum", "count")]
    assert len(totals) > 50
    for step in totals:
        assert by_hand(step, {}) == pytest.approx(step["value"], rel=1e-12, abs=1e-12), step
        assert {row["unit"] for row in step["inputs"]} <= {step["unit"]}


def test_every_line_names_its_last_step(working):
    for one in working.lines:
        last = working.steps[one["step"]]
        if "packs_count" in one:
            assert (last["symbol"], last["value"]) == ("n_packs", one["packs_count"])
            (order,) = [row for row in last["inputs"] if row["symbol"] == "q_order"]
            assert order["value"] == one["order"]
        else:
            assert (last["symbol"], last["value"], last["unit"]) == ("q_order", one["order"], one["unit"])


def recomputed(working, step_id):
    """A step from the bottom up: only members of the request, counts of the layout and looked-up values are taken as read."""
    step = working.steps[step_id]
    values = {}
    for row in step["inputs"]:
        origin = working.steps.get(row["from"])
        values[row["symbol"]] = (
            row["value"] if origin is None else in_unit(recomputed(working, row["from"]), origin["unit"], row["unit"])
        )
    if step["kind"] in ("sum", "count") and len(values) == len(step["inputs"]):
        return math.fsum(values.values())
    return by_hand(step, values)


def test_the_whole_order_recomputes_from_the_bottom_up(working):
    for one in working.lines:
        assert recomputed(working, one["step"]) == pytest.approx(one.get("packs_count", one["order"]), rel=1e-9), one


def ancestors(working, step_id):
    found, waiting = set(), [step_id]
    while waiting:
        step = working.steps[waiting.pop()]
        for row in step["inputs"]:
            if row["from"] not in found:
                found.add(row["from"])
                waiting += [row["from"]] if row["from"] in working.steps else []
    return found


REACHED = {
    "board": {"/system/allowances/board"},
    "slip": {"/system/allowances/slip"},
    "corner_slip": {"/system/allowances/corner_slip"},
    "fastener": {"/system/allowances/fastener"},
    "adhesive": {"/system/allowances/adhesive", "/system/slip/height_mm", "/system/adhesive/pack_ml"},
    "mortar": {"/system/allowances/mortar", "/system/joint/depth_mm", "/system/mortar/density_kg_per_m3"},
    "sealant": {"/system/allowances/sealant"},
    "base_trim": {"/system/allowances/base_trim"},
}


@pytest.mark.parametrize("role", REACHED)
def test_a_line_is_reached_from_the_members_it_depends_on(working, role):
    (one,) = [line for line in working.result["quantities"]["lines"] if line["role"] == role]
    assert REACHED[role] <= ancestors(working, one["step"])
    assert any(pointer.startswith("/elevations") for pointer in ancestors(working, one["step"]))


def test_net_needs_and_cut_waste_are_steps_too(working):
    for one in working.lines:
        assert working.steps[one["net"].origin]["value"] == one["net"]
        if one["cut_waste"]:
            assert working.steps[one["cut_waste"].origin]["symbol"] == "q_cut"


def test_the_u_value_reaches_layers_and_the_count_of_fasteners(working):
    corrected = [name for name, step in working.steps.items() if step["symbol"] == "U_c"]
    reached = {name for last in corrected for name in ancestors(working, last)}
    assert any(pointer.startswith("/build_up/layers") for pointer in reached)
    assert {working.steps[name]["symbol"] for name in reached if name in working.steps} >= {"rho", "n", "A"}
