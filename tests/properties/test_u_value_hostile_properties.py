"""Any valid request, at the bounds of its members too, is answered with finite figures or refused; its working changes nothing."""

import math
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from storeyrod.answer import Answer
from storeyrod.findings import Refusal
from storeyrod.trace import CALLER, Recorder
from thermal_requests import SHANK, answer_of


def number(low: float, high: float) -> st.SearchStrategy[float]:
    """Both bounds often, anything between."""
    return st.one_of(st.sampled_from([low, high]), st.floats(low, high))


def members(**wanted: st.SearchStrategy[Any]) -> dict[str, st.SearchStrategy[Any]]:
    return wanted


THICKNESS, CONDUCTIVITY = number(0.01, 3000.0), number(0.001, 500.0)
INDEX = st.integers(0, 4)
SOLIDS = st.fixed_dictionaries(
    {"kind": st.just("solid"), "name": st.just("a"), "thickness_mm": THICKNESS, "conductivity_w_per_m_k": CONDUCTIVITY}
)
RESISTANCES = st.fixed_dictionaries(
    {"kind": st.just("resistance"), "name": st.just("b"), "resistance_m2_k_per_w": number(0.0, 100.0)}
)
MOISTURE = st.fixed_dictionaries(
    {"basis": st.sampled_from(["by_mass", "by_volume"]), "content_declared_fraction": number(0.0, 5.0)},
    optional=members(
        content_design_fraction=number(0.0, 5.0),
        air_humidity_percent=st.sampled_from([50, 80]),
        coefficient=number(0.0, 20.0),
    ),
)
CONVERSIONS = st.fixed_dictionaries(
    {},
    optional=members(
        material=st.sampled_from(["polyurethane", "mortar", "phenolic-foam", "autoclaved-aerated-concrete", "none"]),
        temperature_declared_deg_c=number(-50.0, 100.0),
        temperature_design_deg_c=number(-50.0, 100.0),
        temperature_coefficient_per_k=number(0.0, 0.1),
        moisture=MOISTURE,
        ageing_factor=number(0.5, 3.0),
    ),
)
DECLARED = st.fixed_dictionaries(
    {
        "kind": st.just("declared"), "name": st.just("c"), "thickness_mm": THICKNESS,
        "conductivity_declared_w_per_m_k": CONDUCTIVITY, "conversion": CONVERSIONS,
    }
)  # fmt: skip
AIRS = st.fixed_dictionaries(
    {
        "kind": st.just("air"),
        "thickness_mm": number(0.1, 300.0),
        "ventilation": st.sampled_from(["none", "slight", "strong"]),
    },
    optional=members(
        opening_mm2_per_m=st.sampled_from([500.0, 1000.0, 1500.0]),
        emissivity_inner=number(0.01, 1.0),
        void_width_mm=number(1.0, 1e5),
        temperature_difference_k=number(0.0, 100.0),
        temperature_mean_deg_c=number(-50.0, 100.0),
    ),
)


@st.composite
def bridges(draw) -> dict[str, Any]:
    weights = draw(st.lists(number(1e-6, 1.0), min_size=1, max_size=3))
    kind = draw(
        st.sampled_from([("conductivity_w_per_m_k", number(0.02, 1.0)), ("resistance_m2_k_per_w", number(0.1, 5.0))])
    )
    parts = [{"name": "p", "fraction": one / sum(weights), kind[0]: draw(kind[1])} for one in weights]
    made = {"kind": "bridged", "name": "d", "thickness_mm": draw(THICKNESS), "parts": parts}
    return {**made, "in_line_with": 0} if draw(st.integers(0, 4)) == 4 else made


LAYERS = st.lists(st.one_of(SOLIDS, RESISTANCES, DECLARED, AIRS, bridges()), min_size=1, max_size=4)
BUILD_UPS = st.fixed_dictionaries(
    {"element": st.sampled_from(["wall", "roof", "floor"]), "layers": LAYERS},
    optional=members(
        surface_internal_m2_k_per_w=number(0.0, 2.0),
        surface_external_m2_k_per_w=number(0.0, 2.0),
        surface_conditions=st.fixed_dictionaries(
            {}, optional=members(wind_speed_m_per_s=number(0.0, 50.0), emissivity_internal=number(0.0, 1.0))
        ),
    ),
)
SHAPES = ["rectangle", "triangle_thickest_at_apex", "triangle_thinnest_at_apex"]
PARTS = st.lists(
    st.fixed_dictionaries(
        {"shape": st.sampled_from(SHAPES), "area_m2": number(0.001, 1e6)}, optional=members(thickness_mm=THICKNESS)
    ),
    min_size=1,
    max_size=2,
)
FASTENERS = [
    SHANK,
    {"kind": "undeclared", "count_per_m2": 0.0},
    {"kind": "declared", "chi_w_per_k": 0.0, "count_per_m2": 100.0},
    {"kind": "declared", "chi_w_per_k": 0.1, "count_per_m2": 100.0},
]
TOLERANCES = st.fixed_dictionaries(
    {"samples_count": st.just(100)},
    optional=members(
        layers=st.lists(
            st.fixed_dictionaries(
                {"layer": INDEX},
                optional=members(
                    thickness_mm=number(0.0, 3000.0),
                    conductivity_fraction=number(0.0, 0.9),
                    part_fraction=number(0.0, 0.5),
                ),
            ),
            max_size=1,
        ),
        surfaces_fraction=number(0.0, 0.9),
    ),
)
QUESTIONS = {
    "corrections": st.fixed_dictionaries(
        {"air_gap_level": st.sampled_from([0, 1, 2])},
        optional=members(insulation_layer=INDEX, fasteners=st.sampled_from(FASTENERS)),
    ),
    "target": st.fixed_dictionaries(
        {"u_value_w_per_m2_k": number(0.01, 10.0), "layer": INDEX},
        optional=members(thicknesses_held_mm=st.lists(THICKNESS, max_size=2)),
    ),
    "tolerances": TOLERANCES,
    "temperatures": st.just({"internal_deg_c": 20.0, "external_deg_c": -20.0}),
    "sensitivity": st.just(True),
    "tapered": st.fixed_dictionaries({"layer": INDEX, "slope_percent": number(0.0, 5.0), "parts": PARTS}),
}


@st.composite
def requests(draw) -> dict[str, Any]:
    asked = draw(st.sets(st.sampled_from(sorted(QUESTIONS)), max_size=2))
    return {"build_up": draw(BUILD_UPS), **{name: draw(QUESTIONS[name]) for name in sorted(asked)}}


REQUESTS = requests()


def outcome(document: dict[str, Any], *trace: Recorder) -> Answer | Refusal:
    try:
        return answer_of(document, *trace)
    except Refusal as refusal:
        return refusal


def finite(value: Any) -> bool:
    if isinstance(value, dict):
        return all(map(finite, value.values()))
    if isinstance(value, list):
        return all(map(finite, value))
    return value is not None and (not isinstance(value, float) or math.isfinite(value))


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(REQUESTS)
def test_any_valid_request_is_answered_finite_or_refused_and_its_working_changes_nothing(document):
    silent = outcome(document)
    recorder = Recorder()
    recorded = outcome(document, recorder)
    if isinstance(silent, Refusal):
        assert isinstance(recorded, Refusal)
        assert silent.faults
        assert silent.slug == recorded.slug
        assert all(fault.pointer.startswith("/") for fault in silent.faults)
        return
    assert recorded == silent
    assert finite(silent.result)
    assert not [row for step in recorder.steps for row in step["inputs"] if row["from"] == CALLER]
