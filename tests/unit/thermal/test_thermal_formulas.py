"""Every formula of the room is used, and every figure of a working has an origin and can be made again."""

import importlib
import pkgutil

import pytest

import storeyrod.thermal
from storeyrod.thermal.calculation import calculate
from storeyrod.thermal.models import UValueRequest
from storeyrod.trace import Formula, Recorder
from thermal_requests import SHANK, WALL, air, answer_of, body, bridged, resistance, solid

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


CONVERSION = {
    "material": "expanded-polystyrene",
    "temperature_design_deg_c": 23.0,
    "moisture": {"basis": "by_volume", "content_declared_fraction": 0.0, "content_design_fraction": 0.02},
    "ageing_factor": 1.05,
}
CONVERTED = {
    "kind": "declared", "name": "board", "thickness_mm": 100.0, "conductivity_declared_w_per_m_k": 0.036,
    "conversion": CONVERSION,
}  # fmt: skip
ASKED = body(
    solid(10.0, 0.5),
    bridged((0.15, 0.8), (0.85, 2.5)),
    {**bridged((0.15, 0.4), (0.85, 1.2)), "in_line_with": 1},
    CONVERTED,
    air(40.0, temperature_difference_k=8.0, temperature_mean_deg_c=5.0),
    solid(100.0, 0.77),
    corrections={"insulation_layer": 3, "fasteners": SHANK},
) | {
    "target": {"u_value_w_per_m2_k": 0.15, "layer": 3, "thicknesses_held_mm": [100.0, 400.0]},
    "tolerances": {"layers": [{"layer": 3, "thickness_mm": 5.0, "conductivity_fraction": 0.05}], "samples_count": 100},
    "temperatures": {"internal_deg_c": 20.0, "external_deg_c": 0.0},
    "sensitivity": True,
}
ASKED["build_up"]["surface_conditions"] = {"wind_speed_m_per_s": 7.0}
DOWN = body(air(60.0, temperature_difference_k=12.0), *WALL, element="floor")
TAPERED = body(solid(100.0, 0.5), solid(120.0, 0.035), element="roof") | {
    "tapered": {
        "layer": 1,
        "slope_percent": 2.0,
        "parts": [
            {"shape": "rectangle", "area_m2": 40.0},
            {"shape": "triangle_thickest_at_apex", "area_m2": 10.0, "thickness_mm": 80.0},
            {"shape": "triangle_thinnest_at_apex", "area_m2": 10.0},
        ],
    },
    "target": {"u_value_w_per_m2_k": 0.4, "layer": 1},
    "sensitivity": True,
}
DOCUMENTS = {
    "layered": LAYERED, "undeclared": UNDECLARED, "little": LITTLE, "vented": VENTED, "asked": ASKED, "down": DOWN,
    "tapered": TAPERED,
}  # fmt: skip
EACH_DOCUMENT = pytest.mark.parametrize("document", DOCUMENTS.values(), ids=DOCUMENTS)


@EACH_DOCUMENT
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


@EACH_DOCUMENT
def test_a_traced_answer_is_the_silent_one(document):
    recorder = Recorder()
    assert answer_of(document, recorder) == answer_of(document)


def test_every_formula_is_used_by_one_of_these_requests():
    recorder = Recorder()
    for document in DOCUMENTS.values():
        answer_of(document, recorder)
    assert {step["name"] for step in recorder.steps if step["kind"] == "formula"} == set(FORMULAS)


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
