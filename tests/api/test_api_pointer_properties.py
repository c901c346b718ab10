"""Whatever is spoilt in a sound request, the errors point at the spoilt place and at nothing that is not there."""

import json

from hypothesis import given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from storeyrod.api.app import create_app
from storeyrod.api.examples import example_of
from storeyrod.api.operations import OPERATIONS
from storeyrod.api.pointers import pointer, value_at
from storeyrod.api.settings import Settings

CLIENT = TestClient(create_app(Settings(workers=0, log_requests=False)))
GARBAGE = st.sampled_from(
    ["\tx", True, -1e300, 1e300, 1.5, {}, [], {"kind": 5}, [[]], {"kind": "material", "material": {}}, "plain"]
)


def places(value, here=()):
    """Path of everything inside a document."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, item in inner:
        yield (*here, key)
        yield from places(item, (*here, key))


CASES = [
    (operation.path, document, place)
    for operation in OPERATIONS
    for document in [example_of(operation.operation_id, "full")]
    for place in places(document)
]


def spoilt(document, place, how, garbage):
    copy = json.loads(json.dumps(document))
    holder = copy
    for key in place[:-1]:
        holder = holder[key]
    if how == "replace":
        holder[place[-1]] = garbage
    elif how == "remove":
        del holder[place[-1]]
    elif isinstance(holder, dict):
        holder["not/a~member"] = garbage
    return copy


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(CASES), st.sampled_from(["replace", "remove", "add"]), GARBAGE)
def test_errors_point_into_what_was_sent_at_the_spoilt_place(case, how, garbage):
    path, document, place = case
    sent = spoilt(document, place, how, garbage)
    answer = CLIENT.post(path, json=sent)
    assert answer.status_code in (200, 422)
    if answer.status_code == 200 or not answer.json()["type"].endswith("request-invalid"):
        return
    spot, holder = pointer(place), pointer(place[:-1])
    for error in answer.json()["errors"]:
        at = error["pointer"]
        standing = at.rpartition("/")[0] if error["code"] in ("missing", "union-tag-not-found") else at
        value_at(sent, standing)
        # A spoilt ``kind`` makes its neighbours wrong as well, so the object that holds the place is near enough.
        assert at.startswith(holder) or spot.startswith(at)
