import pickle

import httpx2
import pytest
from twin import answer, problem

import storeyrod_client
from storeyrod_client import (
    ConnectionFailed,
    ErrorItem,
    MalformedRequest,
    NotAcceptable,
    NotFound,
    ProblemError,
    Refused,
    RequestInvalid,
    ServerFault,
    StoreyrodError,
    TimedOut,
    TooLarge,
    TooManyRequests,
    Unavailable,
    UnreadableAnswer,
    UnsupportedMedia,
)

ONCE = {"max_attempts": 1}


def raised(twin, response):
    with pytest.raises(StoreyrodError) as caught:
        twin(script=[response], retries=ONCE).call("compute_u_value", {})
    return caught.value


@pytest.mark.parametrize(
    ("status", "slug", "family"),
    [
        (400, "malformed-json", MalformedRequest),
        (403, "origin-not-allowed", ProblemError),
        (404, "problem-unknown", NotFound),
        (405, "method-not-allowed", ProblemError),
        (406, "not-acceptable", NotAcceptable),
        (413, "body-too-large", TooLarge),
        (415, "media-type-unsupported", UnsupportedMedia),
        (422, "request-invalid", RequestInvalid),
        (422, "opening-overlap", Refused),
        (422, "over-time-limit", Refused),
        (429, "quota-exceeded", TooManyRequests),
        (500, "internal-error", ServerFault),
        (502, "some-gateway", ServerFault),
        (503, "service-busy", Unavailable),
    ],
)
def test_each_problem_raises_its_family(twin, status, slug, family):
    error = raised(twin, problem(status, slug))
    assert type(error) is family
    assert (error.status, error.slug) == (status, slug)


def test_a_problem_carries_every_member(twin):
    rows = [{"pointer": "/elevations/0/width_mm", "code": "greater-than-equal", "detail": "At least 100."}]
    error = raised(twin, problem(422, "request-invalid", errors=rows, limit=5))
    assert (error.title, error.detail, error.request_id) == ("T", "D", "r-7")
    assert error.errors == (ErrorItem("/elevations/0/width_mm", "greater-than-equal", "At least 100."),)
    assert error.report.members["limit"] == 5


def test_the_text_of_a_problem_names_slug_place_and_request_id(twin):
    rows = [{"pointer": "/a", "code": "missing", "detail": "Add it."}]
    text = str(raised(twin, problem(422, "request-invalid", errors=rows)))
    assert text == "422 request-invalid: D\n  /a: Add it.\n  Request-Id: r-7"


def test_the_text_of_a_problem_stays_short(twin):
    rows = [{"pointer": f"/{index}", "code": "c", "detail": "d"} for index in range(8)]
    assert "  and 3 more" in str(raised(twin, problem(422, errors=rows))).splitlines()


@pytest.mark.parametrize(
    "response",
    [
        httpx2.Response(502, html="<h1>Bad Gateway</h1>"),
        httpx2.Response(502, content=b"{", headers={"Content-Type": "application/problem+json"}),
        httpx2.Response(502, json=["no", "object"], headers={"Content-Type": "application/problem+json"}),
        httpx2.Response(502, content=b"[" * 100_000, headers={"Content-Type": "application/problem+json"}),
        httpx2.Response(502),
    ],
    ids=["html", "cut off", "no object", "deep", "empty"],
)
def test_an_error_of_a_proxy_is_told_by_its_status(twin, response):
    error = raised(twin, response)
    assert type(error) is ServerFault
    assert str(error) == "502 Bad Gateway: Bad Gateway"


def test_odd_members_of_a_problem_do_no_harm(twin):
    error = raised(twin, problem(422, title=None, detail=5, errors=[1, {"pointer": None}]))
    assert error.errors == (ErrorItem("", "", ""),)
    assert isinstance(error, Refused)


def leaves(kind):
    below = kind.__subclasses__()
    return [leaf for each in below for leaf in leaves(each)] if below else [kind]


@pytest.mark.parametrize("kind", leaves(httpx2.RequestError))
def test_every_failure_below_is_mapped_and_kept_as_the_cause(twin, kind):
    error = raised(twin, kind("what happened"))
    expected = TimedOut if issubclass(kind, httpx2.TimeoutException) else ConnectionFailed
    assert type(error) is (UnreadableAnswer if kind is httpx2.DecodingError else expected)
    assert isinstance(error.__cause__, kind)
    assert str(error) == "what happened"


@pytest.mark.parametrize(
    "response",
    [
        httpx2.Response(200, html="<h1>Welcome</h1>"),
        httpx2.Response(200, json={"some": "other service"}),
        httpx2.Response(200, content=b"{", headers={"Content-Type": "application/json"}),
        httpx2.Response(204),
        httpx2.Response(307, headers={"Location": "http://elsewhere.example/"}),
    ],
    ids=["html", "other json", "cut off", "no content", "redirect"],
)
def test_an_answer_that_is_none_of_the_service_is_unreadable(twin, response):
    assert type(raised(twin, response)) is UnreadableAnswer


def test_every_error_survives_pickling(twin):
    error = raised(twin, problem(422, "opening-overlap", errors=[{"pointer": "/a", "code": "b", "detail": "c"}]))
    copy = pickle.loads(pickle.dumps(error))
    assert (type(copy), str(copy), copy.errors) == (Refused, str(error), error.errors)


def test_one_except_catches_all():
    errors = [
        item for item in vars(storeyrod_client).values() if isinstance(item, type) and issubclass(item, Exception)
    ]
    assert len(errors) == 15
    assert all(issubclass(error, StoreyrodError) for error in errors)


def test_an_answer_that_came_is_not_an_error(twin):
    assert twin(script=[answer()]).call("compute_u_value", {}).result.u_value_w_per_m2_k == 0.25
