"""Pointers lead into what was sent: through unions, past their tags, with RFC 6901 escaping."""

import pytest

from storeyrod.api.pointers import existing, value_at

PLAIN = {"kind": "plain", "thickness_mm": 5}
MATERIAL = {"kind": "material", "material": "wool", "thickness_mm": 5}

CASES = [
    # name, document, pointer, code
    ("too thin, in a union", {"layers": [PLAIN, {**PLAIN, "thickness_mm": 0}]}, "/layers/1/thickness_mm", "greater-than-equal"),
    ("tag named like a member, fault in another", {"layers": [{**MATERIAL, "thickness_mm": 0}]}, "/layers/0/thickness_mm", "greater-than-equal"),
    ("tag named like a member, fault in it", {"layers": [{**MATERIAL, "material": 1}]}, "/layers/0/material", "string-type"),
    ("tag named like a member, member missing", {"layers": [{"kind": "material", "thickness_mm": 5}]}, "/layers/0/material", "missing"),
    ("tag named like a member, another missing", {"layers": [{"kind": "material", "material": "wool"}]}, "/layers/0/thickness_mm", "missing"),
    ("unknown member of the same name as a tag", {"layers": [{**PLAIN, "plain": 1}]}, "/layers/0/plain", "extra-forbidden"),
    ("member that holds what is asked for above", {"layers": [{**MATERIAL, "material": {"thickness_mm": 0}}]}, "/layers/0/material", "string-type"),
    ("no tag", {"layers": [{"thickness_mm": 5}]}, "/layers/0/kind", "union-tag-not-found"),
    ("wrong tag", {"layers": [{**PLAIN, "kind": "wood"}]}, "/layers/0/kind", "union-tag-invalid"),
    ("a number for a layer", {"layers": [7]}, "/layers/0", "model-attributes-type"),
    ("an object for a list", {"layers": {}}, "/layers", "list-type"),
    ("kind outside a union", {"end": {"kind": "free", "to": 5}}, "/end/to", "string-type"),
    ("kind outside a union, equal to a member", {"end": {"kind": "to", "to": 5}}, "/end/to", "string-type"),
    ("slash and tilde in a name", {"a/b~c": 1}, "/a~1b~0c", "extra-forbidden"),
    ("empty name", {"": 1}, "/", "extra-forbidden"),
    ("digits as a name", {"0": 1}, "/0", "extra-forbidden"),
    ("true for a number", {"units_count": True}, "/units_count", "int-type"),
    ("text for a number", {"units_count": "5"}, "/units_count", "int-type"),
    ("a fraction for a count", {"units_count": 1.5}, "/units_count", "int-type"),
    ("word outside the list", {"options": {"trace": "some"}}, "/options/trace", "literal-error"),
    ("number for a switch", {"options": {"strict": 1}}, "/options/strict", "bool-type"),
    ("control character", {"layers": [{**MATERIAL, "material": "a\tb"}]}, "/layers/0/material", "string-pattern-mismatch"),
    ("too long", {"layers": [{**MATERIAL, "material": "a" * 21}]}, "/layers/0/material", "string-too-long"),
]  # fmt: skip


@pytest.mark.parametrize(("document", "pointer", "code"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_an_error_points_at_its_place(post, document, pointer, code):
    answer = post(document=document)
    assert answer.status_code == 422
    problem = answer.json()
    assert problem["type"] == "urn:storeyrod:problem:request-invalid"
    assert [(error["pointer"], error["code"]) for error in problem["errors"]] == [(pointer, code)]


def test_a_whole_number_with_a_decimal_point_is_a_whole_number(post):
    assert post(content=b'{"units_count": 3.0}').status_code == 200


def test_only_the_nearest_standing_parent_is_named_by_a_refusal(post):
    errors = post(document={"behave": "refuse", "layers": [PLAIN]}).json()["errors"]
    assert [error["pointer"] for error in errors[:3]] == ["", "/layers/0", "/layers"]


def test_a_pointer_does_not_grow_with_the_name(post):
    pointer = post(document={"layers": [{**PLAIN, "x" * 100_000: 1}]}).json()["errors"][0]["pointer"]
    assert pointer == "/layers/0"


@pytest.mark.parametrize(
    ("text", "found"),
    [("/a/0/b", "/a/0/b"), ("/a/1/b", "/a"), ("/c/d", ""), ("", ""), ("/a/-1", "/a"), ("/x~1y", "/x~1y")],
)
def test_existing_shortens_to_a_parent(text, found):
    assert existing(text, {"a": [{"b": 1}], "x/y": 2}) == found


def test_value_at_refuses_what_is_not_there():
    with pytest.raises(KeyError):
        value_at({"a": [1]}, "/a/1")
