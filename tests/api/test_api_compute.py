"""Long requests: in workers, with a deadline, a queue's end, and a new worker for one that had to be killed."""

import threading
import time

import pytest
from stand_in import WITH_STAND_INS
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.settings import Settings

ONE = Settings(workers=1, waiting_limit=1, time_limit_s=1.0, retry_after_s=7, log_requests=False)
PATH = "/v1/long-stand-ins"


@pytest.fixture(scope="module")
def one_worker():
    with TestClient(create_app(ONE, WITH_STAND_INS)) as made:
        assert made.post(PATH, json={}).status_code == 200
        yield made


def test_a_worker_gives_the_same_bytes_as_the_event_loop(one_worker, client):
    document = {"layers": [{"kind": "plain", "thickness_mm": 5}]}
    assert one_worker.post(PATH, json=document).content == client.post(PATH, json=document).content


def test_a_worker_gives_the_same_problems_as_the_event_loop(one_worker, client):
    for body in (b"{", b'{"a": 1}', b'{"behave": "refuse"}'):
        headers = {"content-type": "application/json"}
        far, near = (
            one_worker.post(PATH, content=body, headers=headers),
            client.post(PATH, content=body, headers=headers),
        )
        assert (far.status_code, far.content) == (near.status_code, near.content)


def test_a_calculation_over_the_deadline_is_refused_with_the_limit_and_its_worker_replaced(one_worker):
    answer = one_worker.post(PATH, json={"behave": "sleep"})
    problem = answer.json()
    assert (answer.status_code, problem["type"]) == (422, "urn:storeyrod:problem:over-time-limit")
    assert (problem["limit"], problem["unit"]) == (1.0, "s")
    assert one_worker.post(PATH, json={}).status_code == 200


def test_a_long_body_of_a_short_calculation_is_read_in_a_worker_too(one_worker):
    body = b'{"behave": "sleep"' + b" " * ONE.inline_limit_bytes + b"}"
    answer = one_worker.post("/v1/stand-ins", content=body, headers={"content-type": "application/json"})
    assert answer.json()["type"] == "urn:storeyrod:problem:over-time-limit"


def chequered_junction(across: int = 17) -> dict:
    """A section of so many rectangles each way, every other of metal, on the finest mesh: seconds of work inside the solver."""
    side, whole = 50.0, 50.0 * across
    cells = [(column, row) for row in range(across) for column in range(across)]
    rectangles = [
        {
            "x_mm": side * column,
            "y_mm": side * row,
            "width_mm": side,
            "height_mm": side,
            "conductivity_w_per_m_k": 160 if (column + row) % 2 else 0.03,
        }
        for column, row in cells
    ]
    level = [{"x_from_mm": 0, "x_to_mm": whole, "y_from_mm": y, "y_to_mm": y} for y in (0, whole)]
    upright = [{"x_from_mm": x, "x_to_mm": x, "y_from_mm": 0, "y_to_mm": whole} for x in (0, whole)]
    faces = [{"temperature_deg_c": air, "surface_resistance_m2_k_per_w": 0.1} for air in (0, 20)]
    boundaries = [
        *({"segment": one, "adiabatic": True} for one in level),
        *({"segment": one, **face} for one, face in zip(upright, faces, strict=True)),
    ]
    return {"junction": {"rectangles": rectangles, "boundaries": boundaries}, "options": {"effort": "thorough"}}


def test_a_junction_over_the_deadline_is_stopped_inside_its_solver(one_worker):
    answer = one_worker.post("/v1/thermal-junctions", json=chequered_junction())
    assert (answer.status_code, answer.json()["type"]) == (422, "urn:storeyrod:problem:over-time-limit")
    assert one_worker.post(PATH, json={}).status_code == 200


@pytest.mark.parametrize("behave", ["fault", "nan", "die"])
def test_a_fault_in_a_worker_is_500_and_the_next_request_is_answered(one_worker, behave):
    assert one_worker.post(PATH, json={"behave": behave}).status_code == 500
    assert one_worker.post(PATH, json={}).status_code == 200


def test_one_too_many_is_503_with_retry_after_and_readiness_says_so(one_worker):
    threads = [
        threading.Thread(target=one_worker.post, args=(PATH,), kwargs={"json": {"behave": "sleep"}}) for _ in range(2)
    ]
    for thread in threads:
        thread.start()
    time.sleep(0.5)
    answer, ready, live = (
        one_worker.post(PATH, json={}),
        one_worker.get("/health/ready"),
        one_worker.get("/health/live"),
    )
    for thread in threads:
        thread.join()
    assert (answer.status_code, answer.headers["retry-after"]) == (503, "7")
    assert answer.json()["type"] == "urn:storeyrod:problem:service-busy"
    assert (ready.status_code, live.status_code) == (503, 200)
    assert one_worker.get("/health/ready").status_code == 200
