"""Headers of every answer: Request-Id, caching, allow-list of origins."""

import re

import pytest
from stand_in import WITH_STAND_INS
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.settings import Settings

PAGE = "https://shop.example"
DATA = ["/v1/standards", "/v1/materials", "/v1/findings", "/v1/problems/not-found", "/openapi.json"]


def of_every_status(client):
    json = {"content-type": "application/json"}
    yield 200, client.post("/v1/stand-ins", json={})
    yield 200, client.get("/v1/standards")
    yield 200, client.get("/health/live")
    yield 200, client.get("/health/ready")
    yield 304, client.get("/v1/standards", headers={"if-none-match": "*"})
    yield 400, client.post("/v1/stand-ins", content=b"{", headers=json)
    yield 404, client.get("/nowhere")
    yield 405, client.get("/v1/stand-ins")
    yield 406, client.post("/v1/stand-ins", json={}, headers={"accept": "text/csv"})
    yield 413, client.post("/v1/stand-ins", content=b"{}", headers={**json, "content-length": "9999999999"})
    yield 415, client.post("/v1/stand-ins", content=b"{}")
    yield 422, client.post("/v1/stand-ins", json={"x": 1})
    yield 500, client.post("/v1/stand-ins", json={"behave": "fault"})


def test_every_answer_has_its_own_request_id(client):
    seen = set()
    for status, answer in of_every_status(client):
        assert answer.status_code == status
        assert re.fullmatch("[0-9a-f]{32}", answer.headers["request-id"])
        assert answer.headers["x-content-type-options"] == "nosniff"
        seen.add(answer.headers["request-id"])
    assert len(seen) == 13


def test_an_id_sent_by_the_caller_is_not_taken_over(client):
    assert client.get("/health/live", headers={"request-id": "mine"}).headers["request-id"] != "mine"


def test_calculations_and_errors_are_not_stored(client):
    for status, answer in of_every_status(client):
        kept = status in (200, 304) and "etag" in answer.headers
        assert answer.headers["cache-control"] == ("public, max-age=86400" if kept else "no-store")


@pytest.mark.parametrize("path", DATA)
def test_data_is_cached_and_revalidated_by_a_strong_etag(client, path):
    first = client.get(path)
    etag = first.headers["etag"]
    assert re.fullmatch('"[0-9a-f]{32}"', etag)
    for sent in (etag, f"W/{etag}", f'"other", {etag}', "*"):
        again = client.get(path, headers={"if-none-match": sent})
        assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", etag)
    assert client.get(path, headers={"if-none-match": '"other"'}).content == first.content


@pytest.mark.parametrize("path", [*DATA, "/health/live"])
def test_head_gives_the_headers_alone(client, path):
    got, head = client.get(path), client.head(path)
    assert (head.status_code, head.content) == (200, b"")
    assert head.headers["content-length"] == str(len(got.content))


def test_no_origin_is_allowed_by_default(client):
    answer = client.post("/v1/stand-ins", json={}, headers={"origin": PAGE})
    assert "access-control-allow-origin" not in answer.headers
    preflight = {"origin": PAGE, "access-control-request-method": "POST"}
    assert client.options("/v1/stand-ins", headers=preflight).status_code == 405


@pytest.fixture(scope="module")
def open_to_a_page():
    settings = Settings(workers=0, log_requests=False, allowed_origins=PAGE)
    with TestClient(create_app(settings, WITH_STAND_INS)) as made:
        yield made


def test_a_page_on_the_list_may_call_and_read_the_id(open_to_a_page):
    preflight = {
        "origin": PAGE,
        "access-control-request-method": "POST",
        "access-control-request-headers": "content-type",
    }
    allowed = open_to_a_page.options("/v1/stand-ins", headers=preflight)
    assert (allowed.status_code, allowed.headers["access-control-allow-origin"]) == (200, PAGE)
    assert "request-id" in allowed.headers
    answer = open_to_a_page.post("/v1/stand-ins", json={}, headers={"origin": PAGE})
    assert answer.headers["access-control-allow-origin"] == PAGE
    assert "Request-Id" in answer.headers["access-control-expose-headers"]
    assert "origin" in answer.headers["vary"].lower()


def test_a_page_on_the_list_may_read_a_fault(open_to_a_page):
    answer = open_to_a_page.post("/v1/stand-ins", json={"behave": "fault"}, headers={"origin": PAGE})
    assert (answer.status_code, answer.headers["access-control-allow-origin"]) == (500, PAGE)


def test_another_page_is_refused_by_a_problem(open_to_a_page):
    preflight = {"origin": "https://other.example", "access-control-request-method": "POST"}
    refused = open_to_a_page.options("/v1/stand-ins", headers=preflight)
    assert (refused.status_code, refused.headers["content-type"]) == (403, "application/problem+json")
    assert "request-id" in refused.headers
    assert "access-control-allow-origin" not in refused.headers
