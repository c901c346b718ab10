"""What JSON leaves open is closed: RFC 8259 for the grammar, RFC 7493 (I-JSON) for names, numbers and text."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.api import strict_json
from storeyrod.api.problems import Problem

SECRET = "zq7secret"

REFUSED = [
    # name, body, slug, offset
    ("empty", b"", "malformed-json", 0),
    ("white space only", b"  \n ", "malformed-json", 4),
    ("unclosed", b'{"a": 1', "malformed-json", 7),
    ("trailing comma", b'{"a": 1,}', "malformed-json", 8),
    ("two values", b"{} {}", "malformed-json", 3),
    ("single quotes", b"{'a': 1}", "malformed-json", 1),
    ("comment", b'{"a": 1} // x', "malformed-json", 9),
    ("leading zero", b'{"a": 01}', "malformed-json", 7),
    ("control character in a string", b'{"a": "x\ny"}', "malformed-json", 8),
    ("unterminated string of escapes", b'{"a": "' + b'\\"' * 50_000, "malformed-json", 6),
    ("NaN", b'{"a": NaN}', "number-not-finite", 6),
    ("Infinity", b'{"a": Infinity}', "number-not-finite", 6),
    ("minus Infinity", b'{"a": -Infinity}', "number-not-finite", 6),
    ("1e400", b'{"a": 1e400}', "number-not-finite", 6),
    ("minus 1e999", b'{"a": [0, -1e999]}', "number-not-finite", 10),
    ("whole number of 21 characters", b'{"a": 123456789012345678901}', "number-too-long", 6),
    ("minus and 20 digits", b'{"a": -12345678901234567890}', "number-too-long", 6),
    ("whole number of 400 digits", b'{"a": ' + b"1" * 400 + b"}", "number-too-long", 6),
    ("whole number of 5000 digits", b'{"a": ' + b"1" * 5000 + b"}", "number-too-long", 6),
    ("duplicate", b'{"a": 1, "a": 1}', "duplicate-member", 9),
    ("duplicate by escape", b'{"ab": 1, "\\u0061b": 1}', "duplicate-member", 10),
    ("duplicate deep inside", b'{"o": [{"p": {"q:": 1, "q:": 2}}]}', "duplicate-member", 23),
    ("duplicate behind a colon in a string", b'{"s": "a:b", "s": 1}', "duplicate-member", 13),
    ("duplicate behind an escaped quote", b'{"s": "\\":", "t": 0, "t": 1}', "duplicate-member", 21),
    ("lone high surrogate", b'{"a": "\\ud800"}', "character-not-allowed", 6),
    ("lone low surrogate in a name", b'{"\\udc00": 1}', "character-not-allowed", 1),
    ("NUL", b'{"a": "x\\u0000"}', "character-not-allowed", 8),
    ("NUL behind a backslash", b'{"a": "\\\\\\u0000"}', "character-not-allowed", 9),
    ("not UTF-8", b'{"a": "\xff"}', "text-not-utf-8", 7),
    ("surrogate encoded as UTF-8", b'{"a": "\xed\xa0\x80"}', "text-not-utf-8", 7),
    ("byte order mark", b"\xef\xbb\xbf{}", "text-not-utf-8", 0),
    ("UTF-16", "{}".encode("utf-16"), "text-not-utf-8", 0),
    ("33 arrays deep", b"[" * 33 + b"]" * 33, "nesting-too-deep", 32),
    ("100 000 arrays deep", b"[" * 100_000, "nesting-too-deep", 32),
]


@pytest.mark.parametrize(("body", "slug", "offset"), [row[1:] for row in REFUSED], ids=[row[0] for row in REFUSED])
def test_a_bad_text_is_refused_with_its_place(post, body, slug, offset):
    answer = post(content=body)
    assert answer.status_code == 400
    assert answer.headers["content-type"] == "application/problem+json"
    problem = answer.json()
    assert problem["type"] == f"urn:storeyrod:problem:{slug}"
    assert problem["position"]["offset"] == offset


@pytest.mark.parametrize(
    "text",
    [
        f'{{"{SECRET}": 1, "{SECRET}": 2}}',
        f'{{"a": {SECRET}}}',
        f'{{"a": "{SECRET}\\q"}}',
        f'{{"a": "{SECRET}", }}',
        f'{{"a": "{SECRET}\\u0000"}}',
        f'{{"a": "{SECRET}\\ud800"}}',
    ],
)
def test_a_refusal_never_repeats_what_was_sent(post, text):
    answer = post(content=text.encode())
    assert answer.status_code == 400
    assert SECRET not in answer.text


def test_position_counts_lines_and_columns(post):
    position = post(content=b'{"a": 1,\n  "b": tru}').json()["position"]
    assert position == {"line": 2, "column": 8, "offset": 16}


ACCEPTED = [
    b'{"a": 12345678901234567890}',
    b'{"a": 0.12345678901234567890123}',
    b'{"a": 1.5e-300, "b": -0}',
    b'{"a": "\\ud83e\\uddf1 \\\\u0000 {:\\":[", "b": ": , \\""}',
    b'{"a": {"k": 1}, "b": {"k": 1}, "c": [{"k": 1}, {"k": 1}]}',
    b"[" * 32 + b"]" * 32,
    b' \t\r\n{"a": null, "b": [true, false]} ',
]


@pytest.mark.parametrize("body", ACCEPTED)
def test_what_i_json_allows_is_read_as_the_standard_library_reads_it(body):
    assert strict_json.read(body, 32) == json.loads(body)


_JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**18), 10**18) | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text('ab:"\\{,é', max_size=3), inner, max_size=4),
    max_leaves=15,
)  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(_JSON, st.booleans())
def test_every_json_value_is_read_back(value, ascii_only):
    assert strict_json.read(json.dumps(value, ensure_ascii=ascii_only).encode(), 50) == value


@settings(max_examples=200, deadline=None)
@given(st.lists(st.text('ab:"\\{,é', max_size=3), min_size=1, max_size=6), st.data())
def test_a_name_written_twice_is_always_found(names, data):
    doubled = data.draw(st.sampled_from(names))
    text = ", ".join(
        f"{json.dumps(name)}: {json.dumps(value)}"
        for value, name in zip('x:"{ab', [*dict.fromkeys(names)], strict=False)
    )
    body = f'{{"o": {{{text}, {json.dumps(doubled, ensure_ascii=False)}: 1}}}}'.encode()
    with pytest.raises(Problem) as refused:
        strict_json.read(body, 50)
    assert refused.value.kind.slug == "duplicate-member"


def test_a_top_level_array_does_not_fit_the_schema(post):
    answer = post(content=b"[]")
    assert answer.status_code == 422
    assert answer.json()["errors"] == [{"pointer": "", "code": "model-type", "detail": "Must be an object."}]


def _pairs(pairs):
    assert len({name for name, _ in pairs}) == len(pairs)
    return dict(pairs)


def _finite(text):
    assert abs(float(text)) != float("inf")
    return float(text)


def _short(text):
    assert len(text) <= 20
    return float(text)


def _no(_text):
    raise AssertionError


def read_by_the_standard_library(body):
    """The same rules, by the hooks of ``json``: an independent second reader."""
    text = body.decode("utf-8")
    value = json.loads(text, object_pairs_hook=_pairs, parse_float=_finite, parse_int=_short, parse_constant=_no)
    for word in texts(value):
        word.encode("utf-8")
        assert "\0" not in word
    return value


def texts(value):
    if isinstance(value, str):
        yield value
    for inner in (*value, *value.values()) if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from texts(inner)


SOUND = b'{"a": [1, -2.5e3, {"b": "x: \\"y\\" \\u00e9", "c": {}}], "d": null, "e": true, "f": "12345678901234567890"}'
_BITS = st.lists(st.sampled_from([b'"', b"\\", b"{", b"}", b"[", b"]", b":", b",", b"0", b"9" * 21, b"e", b"-", b".", b"NaN", b'"a":1,',
                                  b'"b":1,', b"\\u0000", b"\\ud800", b"\xff", b"\xc3\xa9", b" ", b"\n", b"1e999"]), max_size=3)  # fmt: skip


@settings(max_examples=500, deadline=None)
@given(st.integers(0, len(SOUND)), st.integers(0, 3), _BITS)
def test_two_readers_agree_on_damaged_texts(start, length, bits):
    body = SOUND[:start] + b"".join(bits) + SOUND[start + length :]
    try:
        expected = read_by_the_standard_library(body)
    except (ValueError, AssertionError):
        with pytest.raises(Problem):
            strict_json.read(body, 32)
    else:
        assert strict_json.read(body, 32) == expected
