import pytest
from stand_in import WITH_STAND_INS
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.settings import Settings

INLINE = Settings(workers=0, log_requests=False)


@pytest.fixture(scope="session")
def client():
    with TestClient(create_app(INLINE, WITH_STAND_INS)) as made:
        yield made


@pytest.fixture
def post(client):
    """Post bytes or a document; the media type is JSON unless headers say otherwise."""

    def send(path="/v1/stand-ins", document=None, content=None, **headers):
        sent = {"content-type": "application/json"} | {name.replace("_", "-"): value for name, value in headers.items()}
        if content is not None:
            return client.post(path, content=content, headers={name: value for name, value in sent.items() if value})
        return client.post(path, json=document if document is not None else {}, headers=sent)

    return send
