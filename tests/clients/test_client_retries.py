from email.utils import formatdate

import httpx2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from twin import answer, problem

from storeyrod_client import ConnectionFailed, Retries, ServerFault, TimedOut, TooManyRequests, Unavailable
from storeyrod_client.retries import retry_after_s

REFUSED = httpx2.ConnectError("refused")
NOW = 1_700_000_000


@pytest.mark.parametrize(
    "failed",
    [
        problem(429),
        problem(503),
        httpx2.ConnectError("refused"),
        httpx2.ReadError("reset"),
        httpx2.WriteError("reset"),
        httpx2.RemoteProtocolError("closed without an answer"),
    ],
    ids=["429", "503", "connect", "read", "write", "closed"],
)
def test_what_repetition_may_help_is_repeated(twin, failed):
    client = twin(script=[failed, answer()])
    assert client.call("compute_u_value", {}).request_id == "r-1"
    assert len(client.sent) == 2


@pytest.mark.parametrize("status", [400, 404, 406, 413, 415, 422, 500, 502, 504])
def test_what_would_be_answered_alike_is_sent_once(twin, status):
    client = twin(script=[problem(status)])
    with pytest.raises(Exception, match=str(status)):
        client.call("compute_u_value", {})
    assert client.slept == []


@pytest.mark.parametrize(
    "failed",
    [
        httpx2.ReadTimeout("slow"),
        httpx2.UnsupportedProtocol("ftp"),
        httpx2.LocalProtocolError("bad header"),
        httpx2.ProxyError("403"),
    ],
)
def test_timeouts_and_what_can_never_work_are_not_repeated(twin, failed):
    client = twin(script=[failed])
    with pytest.raises((TimedOut, ConnectionFailed)):
        client.call("compute_u_value", {})
    assert client.slept == []


def test_a_repeated_request_is_the_same_request(twin):
    client = twin(script=[problem(503), answer()])
    client.call("compute_u_value", {"build_up": {"element": "wall", "layers": []}})
    first, second = client.sent
    assert (first.method, first.url, first.content, first.headers) == (
        second.method,
        second.url,
        second.content,
        second.headers,
    )


def test_pauses_double_up_to_the_cap(twin):
    client = twin(
        script=[REFUSED] * 7 + [answer()],
        chance=1.0,
        retries={"max_attempts": 8, "first_delay_s": 0.5, "longest_delay_s": 8.0},
    )
    client.call("compute_u_value", {})
    assert client.slept == [0.5, 1.0, 2.0, 4.0, 8.0, 8.0, 8.0]


def test_the_least_jitter_halves_the_pause(twin):
    client = twin(script=[REFUSED, REFUSED, answer()], chance=0.0)
    client.call("compute_u_value", {})
    assert client.slept == [0.25, 0.5]


def test_the_last_failure_is_raised_once_the_attempts_are_used_up(twin):
    client = twin(script=[problem(503), REFUSED, problem(429, "third")], retries={"max_attempts": 3})
    with pytest.raises(TooManyRequests) as caught:
        client.call("compute_u_value", {})
    assert caught.value.slug == "third"
    assert len(client.slept) == 2


def test_one_attempt_never_repeats(twin):
    client = twin(script=[problem(503)], retries={"max_attempts": 1})
    with pytest.raises(Unavailable):
        client.call("compute_u_value", {})


def test_retry_after_in_seconds_is_waited_in_full(twin):
    client = twin(script=[problem(503, headers={"Retry-After": "7"}), answer()])
    client.call("compute_u_value", {})
    assert client.slept == [7.0]


def test_jitter_goes_on_top_of_retry_after(twin):
    client = twin(script=[problem(503, headers={"Retry-After": "7"}), answer()], chance=1.0)
    client.call("compute_u_value", {})
    assert client.slept == [7.5]


def test_retry_after_as_a_date_is_waited_by_the_clock(twin):
    client = twin(script=[problem(429, headers={"Retry-After": formatdate(NOW + 12, usegmt=True)}), answer()], now=NOW)
    client.call("compute_u_value", {})
    assert client.slept == [12.0]


def test_a_date_that_has_passed_asks_for_no_pause(twin):
    client = twin(script=[problem(429, headers={"Retry-After": formatdate(NOW - 12, usegmt=True)}), answer()], now=NOW)
    client.call("compute_u_value", {})
    assert client.slept == [0.0]


@pytest.mark.parametrize("text", ["", "soon", "-3", "1.5", "٣", "Mon, 99 Foo 2026 25:61:00 GMT"])
def test_an_invalid_retry_after_is_ignored(twin, text):
    client = twin(script=[problem(503, headers={"Retry-After": text.encode()}), answer()])
    client.call("compute_u_value", {})
    assert client.slept == [0.25]


def test_an_invalid_retry_after_does_not_mask_the_problem(twin):
    client = twin(script=[problem(503, headers={"Retry-After": "soon"})], retries={"max_attempts": 1})
    with pytest.raises(Unavailable) as caught:
        client.call("compute_u_value", {})
    assert caught.value.retry_after_s is None


@pytest.mark.parametrize(("asked", "attempts"), [("30", 2), ("31", 1), ("9" * 5000, 1)])
def test_a_retry_after_beyond_the_bound_ends_the_attempts(twin, asked, attempts):
    client = twin(
        script=[problem(503, headers={"Retry-After": asked})] * 2,
        retries={"max_attempts": 2, "longest_retry_after_s": 30.0},
    )
    with pytest.raises(Unavailable) as caught:
        client.call("compute_u_value", {})
    assert len(client.sent) == attempts
    assert caught.value.retry_after_s == float(asked)


@given(st.text(st.characters(codec="latin-1", exclude_characters="\r\n"), max_size=60))
def test_no_retry_after_breaks_the_reader(text):
    response = httpx2.Response(503, headers={"Retry-After": text.encode("latin-1")})
    seconds = retry_after_s(response, now=NOW)
    assert seconds is None or seconds >= 0.0


@given(st.integers(1, 10_000), st.floats(0.0, 1.0, exclude_max=True))
def test_every_pause_stays_inside_the_cap(attempt, chance):
    policy = Retries(max_attempts=20_000, chance=lambda: chance)
    pause = policy.pause_s(httpx2.Response(503), attempt=attempt)
    assert 0.0 < pause <= policy.longest_delay_s


def test_health_asks_once(twin):
    client = twin(script=[problem(503, "service-busy")])
    with pytest.raises(ServerFault):
        client.call("health")
    assert client.slept == []
