"""Both twins against the real service: in process, and over a socket."""

import json
import re
import socket
import threading

import httpx2
import pytest
from twin import ANSWER, Twin

from storeyrod.api.operations import OPERATIONS
from storeyrod_client import (
    Client,
    ConnectionFailed,
    MalformedRequest,
    NotAcceptable,
    NotFound,
    Refused,
    RequestInvalid,
    TimedOut,
    TooLarge,
    models,
)

IN_JSON = [operation for operation in OPERATIONS if "application/json" in operation.writers]
WALL = {
    "elevations": [{"id": "a", "width_mm": 3000.0, "height_mm": 2400.0}],
    "system": {
        "board": {"cover_length_mm": 1200.0, "cover_height_mm": 600.0, "thickness_mm": 100.0},
        "slip": {"length_mm": 215.0, "height_mm": 65.0, "thickness_mm": 20.0},
    },
}


def method_of(operation_id):
    """computeUValue -> compute_u_value."""
    return re.sub(r"(?=[A-Z])", "_", operation_id).lower()


@pytest.fixture(params=["in process, awaiting", "socket, blocking", "socket, awaiting"])
def real(request, app, served):
    """Either twin against the service, by either way."""
    where, kind = request.param.split(", ")
    if where == "in process":
        return Twin(kind, transport=httpx2.ASGITransport(app))
    return Twin(kind, address=served)


@pytest.mark.parametrize("operation", IN_JSON, ids=lambda operation: operation.operation_id)
@pytest.mark.parametrize("name", ["minimal", "full"])
def test_every_example_is_answered_with_a_typed_result(real, example, operation, name):
    request = example(operation.operation_id, name)
    received = real.call(method_of(operation.operation_id), request)
    assert received.result is not None
    assert re.fullmatch("[0-9a-f]{64}", received.calculation.fingerprint)
    assert received.request_id


@pytest.mark.parametrize("operation", IN_JSON, ids=lambda operation: operation.operation_id)
@pytest.mark.parametrize("name", ["minimal", "full"])
def test_client_and_raw_http_agree_to_the_byte(served, example, operation, name):
    request = example(operation.operation_id, name)
    received = Twin("blocking", address=served).call(method_of(operation.operation_id), request)
    raw = httpx2.post(served + operation.path, json=request, timeout=60.0).content
    assert received.raw_body == raw
    assert received.model_dump(by_alias=True, exclude_unset=True) == json.loads(raw)


@pytest.mark.parametrize("operation", IN_JSON, ids=lambda operation: operation.operation_id)
@pytest.mark.parametrize("name", ["minimal", "full"])
def test_a_request_model_asks_the_same_as_its_document(served, example, operation, name):
    document = example(operation.operation_id, name)
    request = getattr(models, operation.request.__name__).model_validate(document)
    twin = Twin("blocking", address=served)
    method = method_of(operation.operation_id)
    assert twin.call(method, request).raw_body == twin.call(method, document).raw_body


def test_a_drawing_is_received(real, example):
    drawing = real.call("draw_sheets", example("drawSheets"))
    assert drawing.media_type == "image/svg+xml"
    assert b"<svg" in drawing.content
    assert drawing.request_id


@pytest.mark.parametrize(
    ("method", "member"),
    [("materials", "materials"), ("standards", "standards"), ("findings", "problems"), ("self_tests", "self_tests")],
)
def test_reference_data_is_typed(real, method, member):
    received = real.call(method)
    assert received.model_dump(by_alias=True, exclude_unset=True) == json.loads(received.raw_body)
    assert getattr(received, member)


def test_a_problem_is_explained_by_its_slug(real):
    assert real.call("problem", "request-invalid").status == 422


def test_health_is_ready(real):
    assert real.call("health").status == "ready"


@pytest.mark.parametrize(
    ("method", "request_sent", "family", "slug"),
    [
        ("compute_u_value", {"half a pair": "\ud800"}, MalformedRequest, "character-not-allowed"),
        ("compute_u_value", {}, RequestInvalid, "request-invalid"),
        (
            "plan_movement_joints",
            WALL
            | {
                "elevations": [
                    {"id": "a", "width_mm": 3000.0, "height_mm": 2400.0, "outline": [{"x_mm": 0.0, "y_mm": 0.0}] * 3}
                ]
            },
            Refused,
            "outline-contradictory",
        ),
    ],
    ids=["400", "422 schema", "422 domain"],
)
def test_problems_of_the_service_raise_their_family(real, method, request_sent, family, slug):
    with pytest.raises(family) as caught:
        real.call(method, request_sent)
    assert (caught.value.slug, real.slept) == (slug, [])
    assert caught.value.request_id in str(caught.value)


def test_a_body_over_the_limit_is_too_large(twin, served_small):
    with pytest.raises(TooLarge, match="body-too-large") as caught:
        twin(address=served_small).call("compute_u_value", {"padding": "x" * 2_000})
    assert caught.value.report.members["limit"] == 1_000


def test_faults_point_into_what_was_sent(real):
    request = WALL | {"elevations": [*WALL["elevations"], {"id": "b", "width_mm": -1.0, "height_mm": 2400.0}]}
    with pytest.raises(RequestInvalid) as caught:
        real.call("plan_movement_joints", request)
    assert [item.pointer for item in caught.value.errors] == ["/elevations/1/width_mm"]


def test_an_unknown_slug_is_not_found(real):
    with pytest.raises(NotFound, match="problem-unknown"):
        real.call("problem", "no-such-problem")


def test_a_format_that_is_not_made_is_not_acceptable(real, example):
    with pytest.raises(NotAcceptable) as caught:
        real.call("draw_sheets", example("drawSheets"), media_type="image/gif")
    assert "image/svg+xml" in caught.value.report.members["available"]


def test_every_operation_of_the_service_has_a_method(served):
    document = httpx2.get(f"{served}/openapi.json").json()
    named = {
        "listMaterials": "materials",
        "listStandards": "standards",
        "listFindings": "findings",
        "explainProblem": "problem",
        "runSelfTests": "self_tests",
        "getReadiness": "health",
    }
    others = {"getLiveness", "openapi"}
    for methods in document["paths"].values():
        for operation in methods.values():
            name = operation["operationId"]
            assert name in others or hasattr(Client, named.get(name, method_of(name)))


@pytest.fixture
def listening():
    """A socket that takes connections and a thread that treats each as told."""
    closers = []

    def start(*treatments):
        server = socket.create_server(("127.0.0.1", 0))
        server.settimeout(10.0)

        def treat():
            for treatment in treatments:
                connection, _ = server.accept()
                with connection:
                    connection.settimeout(10.0)
                    read_whole(connection)
                    treatment(connection)

        thread = threading.Thread(target=treat)
        thread.start()
        closers.append((thread, server))
        return f"http://127.0.0.1:{server.getsockname()[1]}"

    yield start
    for thread, server in closers:
        thread.join()
        server.close()


def read_whole(connection):
    """Read a request whose body is an empty object."""
    received = b""
    while not received.endswith(b"\r\n\r\n{}"):
        received += connection.recv(65_536)


def cut(_connection):
    """Close without a word."""


def cut_midway(connection):
    connection.sendall(b"HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{")


def answered(connection):
    body = json.dumps(ANSWER).encode()
    connection.sendall(
        b"HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n" % len(body) + body
    )


def silent(connection):
    """Keep the connection until the other side gives up."""
    while connection.recv(65_536):
        pass


@pytest.mark.parametrize("loss", [cut, cut_midway])
def test_a_lost_connection_is_made_good(twin, listening, loss):
    client = twin(address=listening(loss, answered))
    assert client.call("compute_u_value", {}).result.u_value_w_per_m2_k == 0.25
    assert len(client.slept) == 1


def test_silence_ends_at_the_timeout(twin, listening):
    client = twin(address=listening(silent), timeout=0.2)
    with pytest.raises(TimedOut):
        client.call("compute_u_value", {})
    assert client.slept == []


def test_a_closed_port_is_asked_again_and_then_reported(twin):
    with socket.create_server(("127.0.0.1", 0)) as unused:
        port = unused.getsockname()[1]
    client = twin(address=f"http://127.0.0.1:{port}")
    with pytest.raises(ConnectionFailed):
        client.call("compute_u_value", {})
    assert client.slept == [0.25, 0.5, 1.0]
