import inspect
import json
from importlib import metadata
from pathlib import Path

import httpx2
import pytest
from twin import TWINS, Twin, answer

import storeyrod_client
from storeyrod_client import AsyncClient, Client, models
from storeyrod_client.models import BuildUp, Options, SolidLayer, UValueRequest

SOURCE = Path(storeyrod_client.__file__).parent
LAYER = {"kind": "solid", "name": "block", "thickness_mm": 190.0, "conductivity_w_per_m_k": 1.13}


def sent(twin, request):
    client = twin(script=[answer()])
    client.call("compute_u_value", request)
    return client.sent[0]


def test_a_dict_is_sent_as_it_stands(twin):
    document = {"build_up": {"element": "wall", "layers": [LAYER]}, "unknown": "é\ud800"}
    assert json.loads(sent(twin, document).content) == document


def test_a_model_is_sent_without_what_was_left_out(twin):
    request = UValueRequest(
        build_up=BuildUp(element="wall", layers=[SolidLayer(**LAYER)]), options=Options(trace="steps", strict=False)
    )
    assert json.loads(sent(twin, request).content) == {
        "build_up": {"element": "wall", "layers": [LAYER]},
        "options": {"trace": "steps", "strict": False},
    }


def test_models_may_stand_inside_a_dict(twin):
    request = {"build_up": {"element": "wall", "layers": [SolidLayer(**LAYER)]}}
    assert json.loads(sent(twin, request).content)["build_up"]["layers"] == [LAYER]


@pytest.mark.parametrize(
    ("value", "error"), [(float("nan"), ValueError), (float("inf"), ValueError), (object(), TypeError)]
)
def test_what_json_cannot_hold_is_refused_before_anything_is_sent(twin, value, error):
    client = twin(script=[answer()])
    with pytest.raises(error):
        client.call("compute_u_value", {"value": value})
    assert client.sent == []


def test_headers_say_what_is_sent_what_is_wanted_and_who_asks(twin):
    headers = sent(twin, {}).headers
    assert headers["content-type"] == headers["accept"] == "application/json"
    assert headers["user-agent"] == f"storeyrod-client/{storeyrod_client.__version__}"


def test_the_callers_headers_go_with_every_call(twin):
    client = twin(script=[answer()], headers={"traceparent": "00-1"})
    client.call("compute_u_value", {})
    assert client.sent[0].headers["traceparent"] == "00-1"


def test_a_path_before_the_service_is_kept(twin):
    client = twin(script=[answer()], address="http://gateway.example/walls/")
    client.call("compute_u_value", {})
    assert client.sent[0].url == "http://gateway.example/walls/v1/u-values"


def test_a_slug_cannot_leave_its_path(twin):
    client = twin(script=[httpx2.Response(404)])
    with pytest.raises(storeyrod_client.NotFound):
        client.call("problem", "../materials?x=1#y")
    assert client.sent[0].url.raw_path == b"/v1/problems/..%2Fmaterials%3Fx%3D1%23y"


@pytest.mark.parametrize("address", ["", "localhost:8000", "ftp://host", "http://", "http://[::1"])
@pytest.mark.parametrize("kind", [Client, AsyncClient])
def test_an_address_that_is_none_is_refused_at_once(kind, address):
    with pytest.raises(ValueError, match=r"address"):
        kind(address)


def test_timeouts_are_on_by_default(twin):
    assert all(seconds > 0 for seconds in sent(twin, {}).extensions["timeout"].values())


def test_a_timeout_of_one_call_wins(twin):
    client = twin(script=[answer()])
    client.call("compute_u_value", {}, timeout=1.5)
    assert set(client.sent[0].extensions["timeout"].values()) == {1.5}


def test_a_drawing_comes_back_as_bytes_with_its_media_type(twin):
    reply = httpx2.Response(
        200, content=b"<svg/>", headers={"Content-Type": "image/svg+xml; charset=utf-8", "Request-Id": "r-2"}
    )
    client = twin(script=[reply])
    drawing = client.call("draw_sheets", {})
    assert (drawing.content, drawing.media_type, drawing.request_id) == (b"<svg/>", "image/svg+xml", "r-2")
    assert client.sent[0].headers["accept"] == "image/svg+xml"


def test_a_drawing_is_asked_for_in_the_format_named(twin):
    client = twin(script=[httpx2.Response(200, content=b"%PDF")])
    client.call("draw_sheets", {}, media_type="application/pdf")
    assert client.sent[0].headers["accept"] == "application/pdf"


def test_unknown_members_of_an_answer_are_ignored_but_kept_in_the_raw_body(twin):
    received = twin(script=[answer(later="a member of tomorrow")]).call("compute_u_value", {})
    assert not hasattr(received, "later")
    assert json.loads(received.raw_body)["later"] == "a member of tomorrow"


def test_a_word_of_tomorrow_in_a_finding_is_read(twin):
    finding = {"code": "new-code", "level": "notice", "where": {}, "advice": "Look."}
    assert twin(script=[answer(findings=[finding])]).call("compute_u_value", {}).findings[0].level == "notice"


def operations(kind):
    return {
        name: member for name, member in vars(kind).items() if inspect.isfunction(member) and not name.startswith("_")
    }


def test_the_twins_have_the_same_methods_with_the_same_signatures():
    blocking, awaiting = operations(Client), operations(AsyncClient)
    assert list(blocking) == [name.removeprefix("a") if name == "aclose" else name for name in awaiting]
    for name in blocking.keys() & awaiting.keys():
        assert inspect.signature(blocking[name]) == inspect.signature(awaiting[name])
        assert inspect.getdoc(blocking[name]) == inspect.getdoc(awaiting[name])


def test_options_are_keyword_only():
    for method in operations(Client).values():
        options = list(inspect.signature(method).parameters.values())[2:]
        assert all(option.kind is inspect.Parameter.KEYWORD_ONLY for option in options)


def test_exported_members_are_the_public_names():
    public = {
        name for name, item in vars(storeyrod_client).items() if not name.startswith("_") and not inspect.ismodule(item)
    }
    assert set(storeyrod_client.__all__) == public | {"__version__"}
    assert storeyrod_client.__all__ == sorted(storeyrod_client.__all__, key=lambda name: (not name.isupper(), name))


def test_nothing_of_the_service_is_imported():
    for source in SOURCE.rglob("*.py"):
        text = source.read_text(encoding="utf-8")
        assert "import storeyrod\n" not in text
        assert "from storeyrod." not in text
        assert "from storeyrod " not in text


def test_types_are_published():
    assert (SOURCE / "py.typed").is_file()


def test_requests_are_closed_and_answers_open():
    assert UValueRequest.model_config["extra"] == "forbid"
    assert "extra" not in models.UValueAnswer.model_config


@pytest.mark.parametrize("kind", TWINS)
def test_a_closed_client_is_closed(kind):
    assert isinstance(Twin(kind, script=[answer()]).call("compute_u_value", {}), models.UValueAnswer)


def test_the_http_library_is_the_one_named_in_the_project():
    project = (SOURCE.parents[1] / "pyproject.toml").read_text(encoding="utf-8")
    assert f'"httpx2=={metadata.version("httpx2")}"' in project
