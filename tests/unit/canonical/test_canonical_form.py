"""The fingerprint: RFC 8785 form, blind to what does not change the meaning of a request."""

import json
from typing import Annotated, Any

import orjson
import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from storeyrod.answer import Closed
from storeyrod.canonical import canonical_bytes, fingerprint
from storeyrod.units import quantity

NAMES = st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=12)
NUMBERS = st.one_of(
    st.integers(min_value=-(2**53) + 1, max_value=2**53 - 1),
    st.floats(allow_nan=False, allow_infinity=False),
    st.floats(min_value=1e-8, max_value=1e-2),
    st.floats(min_value=1e14, max_value=1e23),
)
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
DOCUMENTS = st.recursive(
    st.one_of(st.none(), st.booleans(), NUMBERS, TEXTS),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(NAMES, inner, max_size=4)),
    max_leaves=20,
)


@given(DOCUMENTS)
def test_equals_the_reference_library(document: Any) -> None:
    assert canonical_bytes(document) == rfc8785.dumps(document)


# RFC 8785, appendix B, "Number serialization samples": bits of the double and its JSON representation.
@pytest.mark.parametrize(
    ("bits", "expected"),
    [
        ("0000000000000000", "0"),
        ("8000000000000000", "0"),
        ("0000000000000001", "5e-324"),
        ("8000000000000001", "-5e-324"),
        ("7fefffffffffffff", "1.7976931348623157e+308"),
        ("4340000000000000", "9007199254740992"),
        ("4430000000000000", "295147905179352830000"),
        ("44b52d02c7e14af5", "9.999999999999997e+22"),
        ("44b52d02c7e14af6", "1e+23"),
        ("44b52d02c7e14af7", "1.0000000000000001e+23"),
        ("444b1ae4d6e2ef4e", "999999999999999700000"),
        ("444b1ae4d6e2ef4f", "999999999999999900000"),
        ("444b1ae4d6e2ef50", "1e+21"),
        ("3eb0c6f7a0b5ed8c", "9.999999999999997e-7"),
        ("3eb0c6f7a0b5ed8d", "0.000001"),
        ("41b3de4355555553", "333333333.3333332"),
        ("41b3de4355555554", "333333333.33333325"),
        ("41b3de4355555555", "333333333.3333333"),
        ("41b3de4355555556", "333333333.3333334"),
        ("41b3de4355555557", "333333333.33333343"),
        ("becbf647612f3696", "-0.0000033333333333333333"),
        ("43143ff3c1cb0959", "1424953923781206.2"),
    ],
)
def test_numbers_are_written_as_the_samples_of_the_rfc(bits: str, expected: str) -> None:
    import struct

    (number,) = struct.unpack(">d", bytes.fromhex(bits))
    assert canonical_bytes(number).decode() == expected


class Wall(Closed):
    width_mm: Annotated[float, quantity("mm", 0.0, 1e6, "Width.")]
    height_mm: Annotated[float, quantity("mm", 0.0, 1e6, "Height.")] = 2475.0
    joints_mm: list[float] = []
    remark: str | None = None


BASE = '{"width_mm": 5046, "height_mm": 2475}'


@pytest.mark.parametrize(
    "same",
    [
        '{"height_mm":2475,"width_mm":5046}',
        '{ "width_mm" : 5046.0 ,\n "height_mm" : 2.475e3 }',
        '{"width_mm": 5046}',
        '{"width_mm": 5046, "remark": null, "joints_mm": []}',
    ],
)
def test_what_means_the_same_has_the_same_fingerprint(same: str) -> None:
    assert fingerprint(Wall.model_validate_json(same)) == fingerprint(Wall.model_validate_json(BASE))


@pytest.mark.parametrize(
    "other",
    ['{"width_mm": 5046.0001}', '{"width_mm": 5046, "joints_mm": [1]}', '{"width_mm": 5046, "remark": ""}'],
)
def test_what_means_something_else_has_another_fingerprint(other: str) -> None:
    assert fingerprint(Wall.model_validate_json(other)) != fingerprint(Wall.model_validate_json(BASE))


def test_the_order_of_a_list_is_part_of_the_meaning() -> None:
    one = Wall(width_mm=1.0, joints_mm=[1.0, 2.0])
    two = Wall(width_mm=1.0, joints_mm=[2.0, 1.0])
    assert fingerprint(one) != fingerprint(two)


def test_the_fingerprint_changes_with_engine_and_data(monkeypatch: pytest.MonkeyPatch) -> None:
    wall = Wall(width_mm=1.0)
    before = fingerprint(wall)
    monkeypatch.setattr("storeyrod.canonical.__version__", "999")
    after_engine = fingerprint(wall)
    monkeypatch.setattr("storeyrod.canonical.DATA_EDITION", "1999-01")
    assert len({before, after_engine, fingerprint(wall)}) == 3


@given(DOCUMENTS)
def test_reading_the_canonical_form_back_gives_the_document(document: Any) -> None:
    as_doubles = {"parse_int": float}
    assert json.loads(canonical_bytes(document), **as_doubles) == json.loads(orjson.dumps(document), **as_doubles)
