"""Everything that is refused is refused in one shape (RFC 9457), by a word of one catalogue."""

import pytest
from stand_in import WITH_STAND_INS
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.problem_catalogue import CATALOGUE
from storeyrod.api.problems import Problem
from storeyrod.api.settings import Settings
from storeyrod.findings import REFUSALS

SECRET = "zq7secret"


def is_problem(answer, status, slug):
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.headers["cache-control"] == "no-store"
    problem = answer.json()
    assert problem["status"] == status
    assert problem["type"] == f"urn:storeyrod:problem:{slug}"
    assert problem["title"] == CATALOGUE[slug].title
    assert problem["detail"]
    return problem


@pytest.mark.parametrize(
    "path", ["/", "/v1", "/v1/u-values/", "/v1/U-values", "/docs", "/redoc", "/v2/u-values", "/v1/problems/"]
)
def test_an_unknown_path_is_404(client, path):
    is_problem(client.get(path, follow_redirects=False), 404, "not-found")


@pytest.mark.parametrize("method", ["GET", "PUT", "PATCH", "DELETE", "OPTIONS", "HEAD", "TRACE", "FOO"])
def test_another_method_on_a_calculation_is_405_with_allow(client, method):
    answer = client.request(method, "/v1/u-values")
    is_problem(answer, 405, "method-not-allowed") if method != "HEAD" else None
    assert (answer.status_code, answer.headers["allow"]) == (405, "POST")


def test_another_method_on_data_is_405_with_allow_in_order(client):
    answer = client.post("/v1/standards")
    is_problem(answer, 405, "method-not-allowed")
    assert answer.headers["allow"] == "GET, HEAD"


def test_an_unknown_problem_is_404(client):
    is_problem(client.get("/v1/problems/no-such"), 404, "problem-unknown")


@pytest.mark.parametrize(
    "content_type",
    [None, "", "text/plain", "application/xml", "application/problem+json", "application/jsonx", "application/json; charset=latin-1",
     "application/json; charset=utf-16", "application/json; profile=x", "multipart/form-data; boundary=x", "*/*", "application/json, text/plain"],
)  # fmt: skip
def test_another_media_type_is_415(post, content_type):
    answer = post(content=b"{}", content_type=content_type)
    is_problem(answer, 415, "media-type-unsupported")
    assert answer.headers["accept"] == "application/json"


@pytest.mark.parametrize(
    "content_type",
    ["application/json", "Application/JSON", "application/json;charset=UTF-8", 'application/json; charset="utf-8"'],
)
def test_json_in_utf_8_is_taken(post, content_type):
    assert post(content=b"{}", content_type=content_type).status_code == 200


def test_a_compressed_body_is_415(post):
    is_problem(post(content=b"{}", content_encoding="gzip"), 415, "media-type-unsupported")


def test_an_unavailable_format_is_406_and_says_what_there_is(post):
    problem = is_problem(post("/v1/drawn-stand-ins", accept="image/png"), 406, "not-acceptable")
    assert problem["available"] == ["application/json", "text/plain"]


SMALL = Settings(
    workers=0,
    log_requests=False,
    body_limit_bytes=1000,
    items_limit=10,
    vertices_limit=4,
    work_limit=100,
    errors_limit=3,
)


@pytest.fixture(scope="module")
def small():
    with TestClient(create_app(SMALL, WITH_STAND_INS)) as made:
        yield made


def test_a_long_body_is_413_by_its_length_before_it_is_read(small):
    answer = small.post("/v1/stand-ins", content=b" " * 1001, headers={"content-type": "application/json"})
    problem = is_problem(answer, 413, "body-too-large")
    assert answer.headers["connection"] == "close"
    assert (problem["limit"], problem["unit"]) == (1000, "bytes")


@pytest.mark.parametrize("length", ["99999999999999999999999999", "1001"])
def test_a_claimed_length_is_enough_for_413(small, length):
    headers = {"content-type": "application/json", "content-length": length}
    is_problem(small.post("/v1/stand-ins", content=b"{}", headers=headers), 413, "body-too-large")


def test_a_long_body_in_chunks_is_413_by_counted_bytes(small):
    chunks = (b" " * 100 for _ in range(11))
    answer = small.post("/v1/stand-ins", content=chunks, headers={"content-type": "application/json"})
    is_problem(answer, 413, "body-too-large")
    assert answer.headers["connection"] == "close"


def test_a_body_in_chunks_just_inside_the_limit_is_answered(small):
    chunks = iter([b"{", *[b" " * 100] * 9, b" " * 98, b"}"])
    assert small.post("/v1/stand-ins", content=chunks, headers={"content-type": "application/json"}).status_code == 200


def test_too_many_list_members_are_refused_with_the_limit(small):
    problem = is_problem(small.post("/v1/stand-ins", json={"loose": [1] * 11}), 422, "size-limit")
    assert (problem["limit"], problem["unit"]) == (10, "list members")
    assert small.post("/v1/stand-ins", json={"loose": [1] * 10}).status_code == 200


def test_too_many_vertices_are_refused_with_the_limit(small):
    outline = [{"x_mm": 0, "y_mm": 0}] * 5
    problem = is_problem(small.post("/v1/stand-ins", json={"outline": outline}), 422, "size-limit")
    assert (problem["limit"], problem["unit"]) == (4, "vertices")


def test_too_much_work_is_refused_with_the_limit(small):
    problem = is_problem(small.post("/v1/stand-ins", json={"units_count": 101}), 422, "size-limit")
    assert problem["limit"] == 100
    assert small.post("/v1/stand-ins", json={"units_count": 100}).status_code == 200


def test_the_list_of_schema_errors_is_capped_and_says_how_many_are_left_out(small):
    problem = is_problem(small.post("/v1/stand-ins", json={f"m{i}": 1 for i in range(8)}), 422, "request-invalid")
    assert len(problem["errors"]) == 3
    assert problem["errors_left_out_count"] == 5


def test_the_list_of_a_refusal_is_capped_too(small):
    problem = is_problem(small.post("/v1/stand-ins", json={"behave": "refuse"}), 422, "outside-validity")
    assert len(problem["errors"]) == 3
    assert problem["errors_left_out_count"] == 28


def test_a_list_of_bad_items_stops_at_the_first(post):
    problem = post(document={"layers": [{"kind": "plain"}] * 1000}).json()
    assert len(problem["errors"]) == 1


@pytest.mark.parametrize(
    "document",
    [
        {"behave": SECRET},
        {"units_count": SECRET},
        {"layers": [{"kind": SECRET}]},
        {"layers": SECRET},
        {"layers": [{"kind": "material", "material": SECRET * 9, "thickness_mm": 1}]},
        {"end": {"kind": "to", "to": f"{SECRET}:"}},
        {"options": {"trace": SECRET}},
    ],
)
def test_a_schema_error_never_repeats_a_value(post, document):
    answer = post(document=document)
    assert answer.status_code == 422
    assert SECRET not in answer.text
    assert not {"input", "ctx", "url"} & set(answer.json()["errors"][0])


def test_every_refusal_of_the_rooms_is_a_problem_of_status_422():
    assert {slug: CATALOGUE[slug].status for slug in REFUSALS} == dict.fromkeys(REFUSALS, 422)


@pytest.mark.parametrize("slug", sorted(CATALOGUE))
def test_every_problem_is_explained_under_its_word(client, slug):
    view = client.get(f"/v1/problems/{slug}").json()
    assert view["type"] == Problem(slug).document()["type"]
    assert all(view[member] for member in ("title", "trigger", "advice"))


def test_a_problem_outside_the_catalogue_cannot_be_made():
    with pytest.raises(KeyError):
        Problem("no-such")
