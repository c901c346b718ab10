"""What a caller sees who sends too much, or hangs up: over real sockets, since only they can be reset."""

import http.client
import socket
import threading
import time
from contextlib import contextmanager

import pytest
import uvicorn
from stand_in import WITH_STAND_INS

from storeyrod.api.app import create_app
from storeyrod.api.request_body import DISCARD_LIMIT_BYTES
from storeyrod.api.settings import Settings

LONG = b"x" * 3_000_000
LONG_PATH = "/v1/long-stand-ins"


@contextmanager
def listening(settings):
    """A server on a free port, in a thread."""
    app = create_app(settings, WITH_STAND_INS)
    server = uvicorn.Server(uvicorn.Config(app, host="127.0.0.1", port=0, log_config=None))
    thread = threading.Thread(target=server.run)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    try:
        yield server.servers[0].sockets[0].getsockname()[1]
    finally:
        server.should_exit = True
        thread.join()


@pytest.fixture(scope="module")
def port():
    with listening(Settings(workers=0, log_requests=False)) as found:
        yield found


def said_to_one_who_sends_all_first(port, lines, parts, pause_s=0.0):
    """Everything that comes back until the server closes; a reset raises."""
    with socket.create_connection(("127.0.0.1", port), timeout=20) as caller:
        caller.sendall(b"POST /v1/stand-ins HTTP/1.1\r\nHost: storeyrod\r\n" + lines + b"\r\n")
        for part in parts:
            caller.sendall(part)
            time.sleep(pause_s)
        return b"".join(iter(lambda: caller.recv(65_536), b""))


JSON = b"Content-Type: application/json\r\n"
LENGTH = b"Content-Length: 3000000\r\n"


@pytest.mark.parametrize(
    ("status", "lines", "parts", "pause_s"),
    [
        (413, JSON + LENGTH, [LONG], 0.0),
        (413, JSON + LENGTH, [LONG[:60_000]] * 50, 0.01),
        (413, JSON + b"Transfer-Encoding: chunked\r\n", [b"2dc6c0\r\n" + LONG + b"\r\n0\r\n\r\n"], 0.0),
        (415, b"Content-Type: text/csv\r\nConnection: close\r\n" + LENGTH, [LONG], 0.0),
        (406, JSON + b"Accept: text/csv\r\nConnection: close\r\n" + LENGTH, [LONG], 0.0),
    ],
    ids=["413-fast", "413-slow", "413-chunked", "415", "406"],
)
def test_a_caller_who_sends_everything_first_still_gets_the_answer(port, status, lines, parts, pause_s):
    answer = said_to_one_who_sends_all_first(port, lines, parts, pause_s)
    assert answer.startswith(b"HTTP/1.1 %d " % status)
    assert answer.count(b"HTTP/1.1") == 1
    assert answer.endswith(b"}")


def test_a_body_beyond_all_measure_is_not_read_to_its_end(port):
    length = b"Content-Length: %d\r\n" % (100 * DISCARD_LIMIT_BYTES)
    with pytest.raises(OSError):  # noqa: PT011  a reset or a broken pipe, as the race goes
        said_to_one_who_sends_all_first(port, JSON + length, (LONG for _ in range(500)))


def test_the_answer_comes_before_the_body_does(port):
    caller = http.client.HTTPConnection("127.0.0.1", port, timeout=3)
    caller.putrequest("POST", "/v1/stand-ins")
    caller.putheader("Content-Type", "application/json")
    caller.putheader("Content-Length", "3000000")
    caller.endheaders()
    answer = caller.getresponse()
    assert (answer.status, len(answer.read())) == (413, int(answer.headers["Content-Length"]))
    caller.close()


def test_callers_who_hang_up_leave_the_worker_and_the_queue(caplog):
    with listening(Settings(workers=1, waiting_limit=4, time_limit_s=20.0, log_requests=False)) as port:
        patient = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
        json = {"Content-Type": "application/json"}

        def ask(document):
            patient.request("POST", LONG_PATH, document, json)
            answer = patient.getresponse()
            answer.read()
            return answer.status

        assert ask(b"{}") == 200
        for _ in range(5):
            body = b'{"behave": "sleep"}'
            with socket.create_connection(("127.0.0.1", port)) as caller:
                head = f"POST {LONG_PATH} HTTP/1.1\r\nHost: s\r\nContent-Type: application/json\r\n"
                caller.sendall(f"{head}Content-Length: {len(body)}\r\n\r\n".encode() + body)
                time.sleep(0.05)
        started = time.monotonic()
        while ask(b"{}") == 503:
            time.sleep(0.02)
        assert time.monotonic() - started < 1.9  # one of the five sleeps 2 s
        patient.close()
    assert [record for record in caplog.records if record.levelname == "ERROR"] == []
