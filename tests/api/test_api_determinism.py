"""Equal requests get equal bytes: in one process, and in two with different hash seeds and threads for linear algebra."""

import json
import os
import subprocess
import sys
from pathlib import Path

import storeyrod
from storeyrod.api.examples import example_names, example_of
from storeyrod.api.operations import OPERATIONS

SCRIPT = """
import hashlib
from starlette.testclient import TestClient
from storeyrod.api.app import create_app
from storeyrod.api.examples import example_names, example_of
from storeyrod.api.operations import OPERATIONS
from storeyrod.api.settings import Settings

client = TestClient(create_app(Settings(workers=0, log_requests=False)))
for operation in OPERATIONS:
    for name in example_names(operation.operation_id):
        answer = client.post(operation.path, json=example_of(operation.operation_id, name))
        print(operation.operation_id, name, answer.status_code, hashlib.sha256(answer.content).hexdigest())
for path in ("/openapi.json", "/v1/findings", "/v1/standards", "/v1/materials", "/v1/self-tests"):
    print(path, hashlib.sha256(client.get(path).content).hexdigest())
print(client.post("/v1/u-values", json={chr(97 + i): 1 for i in range(26)}).text)
print(client.post("/v1/standards").headers["allow"])
"""


def printed(seed, threads):
    source = str(Path(storeyrod.__file__).parents[1])
    asked = {"PYTHONHASHSEED": seed, "OPENBLAS_NUM_THREADS": threads}
    environment = {**os.environ, **asked, "PYTHONPATH": source}
    return subprocess.run(
        [sys.executable, "-c", SCRIPT], capture_output=True, text=True, env=environment, check=True
    ).stdout


def test_two_processes_with_different_hash_seeds_and_threads_give_the_same_bytes():
    first = printed("1", "1")
    assert first == printed("2", "2")
    assert " 200 " in first


def test_key_order_and_white_space_change_neither_fingerprint_nor_answer(client):
    for operation in OPERATIONS:
        for name in example_names(operation.operation_id):
            document = example_of(operation.operation_id, name)
            headers = {"content-type": "application/json"}
            texts = (json.dumps(document), json.dumps(document, sort_keys=True, indent=3))
            first, second = (client.post(operation.path, content=text.encode(), headers=headers) for text in texts)
            assert first.status_code == 200
            assert first.content == second.content
