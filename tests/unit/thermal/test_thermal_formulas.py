"""Every formula of the room prints what it computes, in the right unit; every figure of a working has an origin."""

import importlib
import math
import pkgutil
import random

import pytest
import sympy

import storeyrod.thermal
from storeyrod.thermal.calculation import calculate
from storeyrod.thermal.models import UValueRequest
from storeyrod.trace import Formula, Recorder
from storeyrod.units import REGISTRY, UNITS
from thermal_requests import SHANK, WALL, air, answer_of, body, bridged, resistance

MODULES = [
    importlib.import_module(f"storeyrod.thermal.{m.name}") for m in pkgutil.iter_modules(storeyrod.thermal.__path__)
]
FORMULAS = {f.name: f for module in MODULES for f in vars(module).values() if isinstance(f, Formula)}

LAYERED = body(
    *WALL,
    air(20.0, void_width_mm=150.0),
    bridged((0.5, 2.0), (0.3, 1.0), (0.2000001, 1.5)),
    bridged((0.9, 2.0), (0.1, 1.0)),
    {"kind": "material", "material": "osb-650", "thickness_mm": 12.0},
    air(25.0, "slight", opening_mm2_per_m=700.0),
    resistance(0.1),
    element="floor",
    corrections={
        "insulation_layer": 1,
        "air_gap_level": 1,
        "fasteners": {**SHANK, "recessed": True, "length_in_insulation_mm": 60.0},
    },
)
UNDECLARED = body(*WALL, air(), corrections={"fasteners": {"kind": "undeclared", "count_per_m2": 6.0}})
LITTLE = body(*WALL, corrections={"fasteners": {**SHANK, "conductivity_w_per_m_k": 0.3}})
VENTED = body(
    *WALL,
    air(40.0, "strong"),
    element="roof",
    corrections={"fasteners": {"kind": "declared", "chi_w_per_k": 0.002, "count_per_m2": 4.0}},
)


def inputs_of(formula, rng):
    drawn = {name: rng.uniform(0.1, 0.9) for name in formula.inputs}
    return drawn | {name: rng.uniform(max(low, 1e-3), high) for name, (low, high) in formula.validity.items()}


@pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)
def test_the_printed_expression_is_the_code(formula):
    names = {name: sympy.Symbol(name, positive=True) for name in formula.inputs}
    printed = sympy.parse_expr(formula.expression, local_dict=names)
    rng = random.Random(6946)
    for _ in range(5):
        inputs = inputs_of(formula, rng)
        assert formula(**inputs) == pytest.approx(
            float(printed.subs({names[k]: v for k, v in inputs.items()})), rel=1e-12
        )


@pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)
def test_the_dimension_and_scale_are_right(formula):
    rng = random.Random(6946)
    inputs = inputs_of(formula, rng)
    quantities = {
        name: REGISTRY.Quantity(value, UNITS[formula.inputs[name]].pint_expression) for name, value in inputs.items()
    }
    functions = {"Max": max, "log": lambda x: math.log(x.m_as("")), "sqrt": lambda x: x**0.5}
    made = eval(formula.expression, functions, quantities)
    in_its_unit = REGISTRY.Quantity(made).m_as(UNITS[formula.unit].pint_expression)
    assert in_its_unit == pytest.approx(formula(**inputs), rel=1e-12)


@pytest.mark.parametrize(
    "document", [LAYERED, UNDECLARED, LITTLE, VENTED], ids=["layered", "undeclared", "little", "vented"]
)
def test_every_input_of_the_working_comes_from_a_step_or_the_request(document):
    request = UValueRequest.model_validate(document)
    recorder = Recorder()
    calculate(request, recorder)
    whole = request.model_dump(exclude_none=True)
    seen: set[str] = set()
    assert recorder.steps
    for step in recorder.steps:
        for row in step["inputs"]:
            assert row["from"] in seen or _exists(whole, row["from"]), (step["symbol"], row)
        seen.add(step["id"])


def _exists(document, pointer: str) -> bool:
    if not pointer.startswith("/"):
        return False
    for part in pointer.split("/")[1:]:
        document = document[int(part)] if isinstance(document, list) else document.get(part)
    return document is not None


@pytest.mark.parametrize(
    "document", [LAYERED, UNDECLARED, LITTLE, VENTED], ids=["layered", "undeclared", "little", "vented"]
)
def test_a_traced_answer_is_the_silent_one(document):
    recorder = Recorder()
    assert answer_of(document, recorder) == answer_of(document)


def test_every_formula_step_gives_its_value_again():
    recorder = Recorder()
    answer_of(LAYERED, recorder)
    steps = [step for step in recorder.steps if step["kind"] == "formula"]
    assert len(steps) > 30
    for step in steps:
        again = FORMULAS[step["name"]](**{row["symbol"]: row["value"] for row in step["inputs"]})
        assert again == step["value"]


def test_the_working_of_the_result_reaches_every_layer():
    recorder = Recorder()
    answer_of(body(*WALL), recorder)
    origins = {row["from"] for step in recorder.steps for row in step["inputs"]}
    assert {f"/build_up/layers/{index}/thickness_mm" for index in range(3)} <= origins
