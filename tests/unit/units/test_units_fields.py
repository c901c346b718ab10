"""Field annotations: what a request field takes, and what its schema says."""

import math
from typing import Annotated, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, TypeAdapter, ValidationError

from storeyrod.units import WHOLE, count, figure, identifier, quantity, words


class Sample(BaseModel):
    length_mm: Annotated[float, quantity("mm", 0.5, 100.0, "A length.")] = 1.0
    pieces_count: Annotated[int, count(1, 9, "A number."), WHOLE] = 1
    remark: Annotated[str, words(5, "A remark.")] = ""
    id: Annotated[str, identifier("A name.")] = "a"


@pytest.mark.parametrize("value", [0.5, 100.0, 7, 33.3])
def test_a_length_inside_its_bounds_is_taken_as_a_float(value: float) -> None:
    taken = Sample(length_mm=value).length_mm
    assert taken == value
    assert type(taken) is float


@pytest.mark.parametrize("value", [0.49999, 100.0001, math.nan, math.inf, -math.inf, True, "7", None, [7.0]])
def test_a_length_refuses_what_is_no_finite_number_in_its_bounds(value: Any) -> None:
    with pytest.raises(ValidationError):
        Sample(length_mm=value)


@pytest.mark.parametrize("value", [1, 9, 4.0])
def test_a_count_takes_whole_numbers_however_json_writes_them(value: float) -> None:
    taken = Sample(pieces_count=value).pieces_count  # type: ignore[arg-type]
    assert taken == value
    assert type(taken) is int


@pytest.mark.parametrize("value", [0, 10, 4.5, 1e300, math.inf, math.nan, True, "4"])
def test_a_count_refuses_fractions_and_other_types(value: Any) -> None:
    with pytest.raises(ValidationError):
        Sample(pieces_count=value)


def test_the_schema_of_a_number_keeps_bounds_and_unit() -> None:
    properties = Sample.model_json_schema()["properties"]
    length, pieces = properties["length_mm"], properties["pieces_count"]
    assert (length["minimum"], length["maximum"], length["format"], length["x-unit"]) == (0.5, 100.0, "double", "mm")
    assert (pieces["minimum"], pieces["maximum"], pieces["type"]) == (1, 9, "integer")


def test_the_schema_of_a_result_figure_has_a_unit_and_no_bounds() -> None:
    schema = TypeAdapter(Annotated[float, figure("m2_k_per_w", "A resistance.")]).json_schema()
    assert schema == {"description": "A resistance.", "format": "double", "type": "number", "x-unit": "m2.K/W"}


@pytest.mark.parametrize("text", ["", "abc", "Ü 7m²", "a\U0001f9f1"])
def test_words_take_one_printable_line(text: str) -> None:
    assert Sample(remark=text).remark == text


LINE_BREAKS_AND_CONTROLS = ["a\nb", "a\n", "\t", "\x00", "\x7f", "\x85", "\u2028", "\u2029"]
NOT_XML = ["\ufffe", "\uffff"]  # outside the Char production of XML 1.0, which every SVG drawing must keep


@pytest.mark.parametrize("text", [*LINE_BREAKS_AND_CONTROLS, *NOT_XML, "abcdef"])
def test_words_refuse_breaks_controls_and_too_much(text: str) -> None:
    with pytest.raises(ValidationError):
        Sample(remark=text)


@pytest.mark.parametrize("text", ["", "a:b", *LINE_BREAKS_AND_CONTROLS, *NOT_XML, "x" * 61])
def test_an_id_refuses_nothing_colons_and_controls(text: str) -> None:
    with pytest.raises(ValidationError):
        Sample(id=text)


@given(st.text(max_size=5).filter(lambda text: text.isprintable()))
def test_every_printable_line_is_taken(text: str) -> None:
    assert Sample(remark=text).remark == text
