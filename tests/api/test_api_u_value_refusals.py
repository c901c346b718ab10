"""Bad input of a U-value over HTTP: each a 422 that names the field, the limit and what to do."""

from typing import Any

import pytest
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.settings import Settings
from thermal_requests import WALL, air, body, bridged, resistance, solid


@pytest.fixture(scope="module")
def client():
    with TestClient(create_app(Settings(workers=0, log_requests=False))) as made:
        yield made


def part(fraction: float, conductivity: float) -> dict[str, Any]:
    return {"name": "part", "fraction": fraction, "conductivity_w_per_m_k": conductivity}


def studs(*parts: tuple[float, float]) -> dict[str, Any]:
    return {"kind": "bridged", "name": "studs", "thickness_mm": 100.0, "parts": [part(*one) for one in parts]}


def asking(**more: Any) -> dict[str, Any]:
    return {**body(*WALL), **more}


LAYERS = "/build_up/layers"
CASES = {
    "fractions of 0.9": (
        body(bridged((0.1, 1.0), (0.8, 2.0))),
        f"{LAYERS}/0/parts",
        "add up to 0.9",
        "must make 1 within 1e-06",
    ),
    "bridged by metal": (
        body(studs((0.001, 50.0), (0.999, 0.035))),
        f"{LAYERS}/0/parts",
        "(limit 100)",
        "correct for fasteners",
    ),
    "limits too far apart": (
        body(studs((0.5, 2.0), (0.5, 0.04))),
        LAYERS,
        "holds up to 1.5",
        "calculate the section numerically",
    ),
    "air layer too thick": (body(air(301.0), resistance(1.0)), f"{LAYERS}/0/thickness_mm", "300 mm", "kind resistance"),
    "conductivity too high": (
        body(solid(100.0, 501.0)),
        f"{LAYERS}/0/conductivity_w_per_m_k",
        "500",
        "at most",
    ),
    "conductivity too low": (
        body(solid(100.0, 0.0009)),
        f"{LAYERS}/0/conductivity_w_per_m_k",
        "0.001",
        "at least",
    ),
    "thickness too great": (body(solid(3001.0, 0.04)), f"{LAYERS}/0/thickness_mm", "3000", "at most"),
    "thickness of nothing": (body(solid(0.0, 0.04)), f"{LAYERS}/0/thickness_mm", "0.01", "at least"),
    "slope over 5 percent": (
        asking(tapered={"layer": 1, "slope_percent": 6.0, "parts": [{"shape": "rectangle", "area_m2": 1.0}]}),
        "/tapered/slope_percent",
        "5 %",
        "calculate the section numerically",
    ),
    "unreachable target": (
        asking(target={"u_value_w_per_m2_k": 0.01, "layer": 0}),
        "/target/u_value_w_per_m2_k",
        "0.1366",  # 1/(0.17 + 3/0.77 + 0.1/0.031 + 0.025/0.90)
        "name a better insulating layer",
    ),
}


@pytest.mark.parametrize(("document", "pointer", "limit", "advice"), CASES.values(), ids=CASES)
def test_bad_input_names_field_limit_and_what_to_do(client, document, pointer, limit, advice):
    answer = client.post("/v1/u-values", json=document)
    assert answer.status_code == 422
    fault = answer.json()["errors"][0]
    assert fault["pointer"] == pointer
    assert limit in fault["detail"]
    assert advice in fault["detail"]


def test_materials_show_conflicts_measurements_and_coefficients(client):
    listed = client.get("/v1/materials").json()
    rows = {row["key"]: row for row in listed["materials"]}
    assert {one["value"] for one in rows["stainless-steel"]["conflicts"]} >= {16, 29}
    assert rows["osb-650"]["vapour_measured"][0]["vapour_factor"] == 168
    coefficients = {row["key"]: row for row in listed["conversions"]}
    assert coefficients["polyurethane"]["moisture"]["coefficient_low"] == 3.0
