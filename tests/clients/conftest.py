import contextlib
import json
import threading
import time
from pathlib import Path

import pytest
import uvicorn
from twin import TWINS, Twin

from storeyrod.api.app import create_app
from storeyrod.api.settings import Settings

EXAMPLES = Path(__file__).parents[2] / "openapi" / "examples"


@pytest.fixture(params=TWINS)
def twin(request):
    """Makes a client of either kind; what it slept is in its ``slept``."""
    return lambda **options: Twin(request.param, **options)


@pytest.fixture(scope="session")
def app():
    return create_app(Settings(workers=0, log_requests=False))


@pytest.fixture(scope="session")
def example():
    """Example request of an operation: the minimal one unless another is named."""

    def read(operation_id, name="minimal"):
        return json.loads((EXAMPLES / operation_id / f"{name}.json").read_text(encoding="utf-8"))

    return read


@pytest.fixture(scope="session")
def served(app):
    """Address of the real service on a socket of this machine."""
    with running(app) as address:
        yield address


@pytest.fixture(scope="session")
def served_small():
    """Address of the real service with room for very short bodies only."""
    with running(create_app(Settings(workers=0, log_requests=False, body_limit_bytes=1_000))) as address:
        yield address


@contextlib.contextmanager
def running(app):
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_config=None, access_log=False))
    thread = threading.Thread(target=server.run)
    thread.start()
    try:
        while not server.started:
            assert thread.is_alive()
            time.sleep(0.01)
        port = server.servers[0].sockets[0].getsockname()[1]
        yield f"http://127.0.0.1:{port}"
    finally:
        server.should_exit = True
        thread.join()
