"""A fault of the service is answered, logged under its id, and never sent as a half answer."""

import json
import logging

import pytest
from stand_in import WITH_STAND_INS
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.envelope import Unsendable, encoded
from storeyrod.api.observability import _JsonLine, trace_id_of
from storeyrod.api.settings import Settings


@pytest.mark.parametrize("behave", ["fault", "nan", "infinity", "none"])
def test_a_fault_is_500_without_a_word_of_its_cause(post, behave):
    answer = post(document={"behave": behave})
    assert answer.status_code == 500
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.json()["type"] == "urn:storeyrod:problem:internal-error"
    assert "planted" not in answer.text
    assert post().status_code == 200


@pytest.mark.parametrize("before", range(5))
@pytest.mark.parametrize("length", [10, 30_000])
def test_a_missing_figure_is_found_wherever_it_stands(before, length):
    document = {"result": ["x" * before, float("nan"), "y" * length]}
    with pytest.raises(Unsendable, match="nan at /result/1"):
        encoded(document)
    assert encoded({"result": ["null" * length]})


def test_the_word_null_in_a_text_is_no_fault(post):
    assert post().json()["result"]["remark"] == "a text with null in it"


def test_the_log_has_one_json_line_for_each_request_and_fault_without_body_or_path(caplog):
    caplog.set_level(logging.INFO, "storeyrod")
    traceparent = "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01"
    with TestClient(create_app(Settings(workers=0), WITH_STAND_INS)) as client:
        answer = client.post("/v1/stand-ins", json={"behave": "fault"}, headers={"traceparent": traceparent})
        client.get("/secret-path?secret=1")
    lines = [json.loads(_JsonLine().format(record)) for record in caplog.records if record.name == "storeyrod"]
    fault, request, unknown = lines
    assert (fault["event"], fault["level"]) == ("fault", "error")
    assert "ZeroDivisionError: planted" in fault["traceback"]
    assert fault["request_id"] == request["request_id"] == answer.headers["request-id"]
    assert (request["operation"], request["status"], request["method"]) == ("computeStandIn", 500, "POST")
    assert request["trace_id"] == "0af7651916cd43dd8448eb211c80319c"
    assert unknown["status"] == 404
    assert "secret" not in json.dumps(unknown)


@pytest.mark.parametrize("sent", [None, b"", b"00-xyz", b"\xff" * 55, b"00-" + b"0" * 500])
def test_a_malformed_traceparent_is_ignored(sent):
    assert trace_id_of(sent) is None
