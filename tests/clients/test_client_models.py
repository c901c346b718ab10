"""The models are what the generator makes of the published document; nothing is edited by hand."""

import importlib.util
import json
import subprocess
import sys
from pathlib import Path

import pytest
from pydantic import BaseModel

from storeyrod_client import Received, models

CLIENT = Path(__file__).parents[2] / "clients" / "python"
DOCUMENT = Path(__file__).parents[2] / "openapi" / "openapi.json"


@pytest.fixture(scope="module")
def generate():
    spec = importlib.util.spec_from_file_location("generate_models", CLIENT / "generate_models.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.generate


def schema(**members):
    return {"type": "object", "properties": members}


def document_of(asked, answered):
    """A small document: one operation, its request and its answer."""
    body = {"content": {"application/json": {"schema": {"$ref": "#/components/schemas/Asked"}}}}
    reply = {"content": {"application/json": {"schema": {"$ref": "#/components/schemas/Answered"}}}}
    return {
        "openapi": "3.1.0",
        "info": {"title": "t", "version": "1"},
        "paths": {"/v1/x": {"post": {"operationId": "x", "requestBody": body, "responses": {"200": reply}}}},
        "components": {"schemas": {"Asked": asked, "Answered": answered}},
    }


WORD = {"type": "string", "enum": ["full", "half"]}


@pytest.fixture(scope="module")
def made(generate, tmp_path_factory):
    """Models of a small document that holds each case once."""
    asked = schema(
        bed_mm={"type": "number", "default": 10.0, "description": "Bed joint."},
        width_mm={"anyOf": [{"type": "number", "minimum": 1}, {"type": "null"}]},
        start=WORD,
    )
    answered = schema(start=WORD, starts={"type": "array", "items": WORD})
    output = tmp_path_factory.mktemp("made") / "made.py"
    generate(document_of(asked, answered), output)
    spec = importlib.util.spec_from_file_location("made", output)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_committed_models_are_the_generated_ones(tmp_path):
    output = tmp_path / "models.py"
    subprocess.run([sys.executable, CLIENT / "generate_models.py", "--output", output], check=True)
    assert output.read_text(encoding="utf-8") == Path(models.__file__).read_text(encoding="utf-8")


def test_every_component_has_a_model():
    components = json.loads(DOCUMENT.read_text(encoding="utf-8"))["components"]["schemas"]
    assert components.keys() <= vars(models).keys()


def test_no_number_is_wrapped_in_a_class_of_its_own():
    made = [item for item in vars(models).values() if isinstance(item, type) and issubclass(item, BaseModel)]
    assert not [item.__name__ for item in made if "root" in item.model_fields]


def test_a_default_is_told_but_left_to_the_service(made):
    field = made.Asked.model_fields["bed_mm"]
    assert (field.default, field.is_required()) == (None, False)
    assert '"""Bed joint. Left out: 10.0."""' in Path(made.__file__).read_text(encoding="utf-8")


def test_what_may_be_null_may_be_left_out(made):
    assert made.Asked().width_mm is None
    assert made.Asked(width_mm=5).width_mm == 5.0


def test_words_are_closed_in_requests_and_open_in_answers(made):
    assert made.Answered(start="carried", starts=["carried"]).start == "carried"
    with pytest.raises(ValueError, match="start"):
        made.Asked(start="carried")


def test_a_whole_answer_keeps_what_was_received(made):
    assert issubclass(made.Answered, Received)
