"""Every example file is answered with 200, and the answer fits the published schema (JSON Schema 2020-12)."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.operations import OPERATIONS
from storeyrod.api.settings import Settings

FOLDER = Path(__file__).parents[2] / "openapi" / "examples"
DOCUMENT = json.loads((FOLDER.parent / "openapi.json").read_text(encoding="utf-8"))
BY_NAME = {operation.operation_id: operation for operation in OPERATIONS}
FILES = sorted(FOLDER.glob("*/*.json"))


@pytest.fixture(scope="module")
def client():
    with TestClient(create_app(Settings(workers=0, log_requests=False))) as made:
        yield made


def validator(schema):
    return Draft202012Validator({**schema, "components": DOCUMENT["components"]})


@pytest.mark.parametrize("file", FILES, ids=[f"{file.parent.name}-{file.stem}" for file in FILES])
def test_an_example_is_answered_as_published(client, file):
    operation = BY_NAME[file.parent.name]
    call = DOCUMENT["paths"][operation.path]["post"]
    request = json.loads(file.read_text(encoding="utf-8"))
    validator(call["requestBody"]["content"]["application/json"]["schema"]).validate(request)
    answer = client.post(operation.path, content=file.read_bytes(), headers={"content-type": "application/json"})
    assert answer.status_code == 200, answer.text
    content = call["responses"]["200"]["content"][answer.headers["content-type"]]
    if answer.headers["content-type"] == "application/json":
        validator(content["schema"]).validate(answer.json())


@pytest.mark.parametrize("operation", OPERATIONS, ids=[operation.operation_id for operation in OPERATIONS])
def test_an_operation_has_both_examples(operation):
    assert {"minimal", "full"} <= {file.stem for file in FILES if file.parent.name == operation.operation_id}


def test_no_folder_is_left_without_an_operation():
    assert {file.parent.name for file in FILES} <= set(BY_NAME)
