"""Assumptions, repeated findings and the strict option."""

from typing import Annotated

import pytest
from pydantic import Field

from storeyrod.answer import Assumed, Closed, assumptions_of, refuse_cautions, unique
from storeyrod.findings import Finding, Refusal, finding
from storeyrod.reference.documents import COMMON_PRACTICE, HOUSE
from storeyrod.units import quantity


class Edge(Closed):
    kind: str
    joint_mm: Annotated[float, quantity("mm", 0, 60, "Joint."), Assumed("mm", HOUSE)] = 10.0


class Face(Closed):
    width_mm: Annotated[float, quantity("mm", 0, 1e6, "Width.")]
    bed_mm: Annotated[float, quantity("mm", 0, 50, "Bed."), Assumed("mm", COMMON_PRACTICE, "10 mm joints")] = 10.0
    bond: Annotated[str, Assumed("", HOUSE)] = "stretcher"
    chi_w_per_k: Annotated[float | None, Assumed("w_per_k", HOUSE)] = None
    edge: Annotated[Edge, Assumed("", HOUSE, "a free end when none is given")] = Edge(kind="free_end")
    others: Annotated[list[Edge], Field(max_length=9)] = []


def rows(face: Face) -> dict[str, object]:
    return {row["field"]: row["value"] for row in assumptions_of(face)}


def test_every_default_that_was_relied_on_is_stated_in_field_order() -> None:
    assert list(rows(Face(width_mm=1.0)).items()) == [
        ("/bed_mm", 10.0), ("/bond", "stretcher"), ("/edge", "free_end"), ("/edge/joint_mm", 10.0),
    ]  # fmt: skip


def test_a_value_that_was_given_is_no_assumption_even_when_it_equals_the_default() -> None:
    assert rows(Face(width_mm=1.0, bed_mm=10.0, bond="stretcher", edge=Edge(kind="free_end", joint_mm=10.0))) == {}


def test_an_absent_optional_value_is_no_assumption() -> None:
    assert "/chi_w_per_k" not in rows(Face(width_mm=1.0))


def test_defaults_inside_lists_carry_their_index() -> None:
    face = Face(width_mm=1.0, others=[Edge(kind="a", joint_mm=3.0), Edge(kind="b")])
    assert "/others/1/joint_mm" in rows(face)
    assert "/others/0/joint_mm" not in rows(face)


def test_an_assumption_names_unit_status_and_source() -> None:
    bed, bond = assumptions_of(Face(width_mm=1.0))[:2]
    assert bed == {
        "field": "/bed_mm",
        "value": 10.0,
        "unit": "mm",
        "status": "common_practice",
        "source": "common practice (10 mm joints)",
    }
    assert "unit" not in bond


def _row(code: str, x_mm: float) -> Finding:
    return finding(code, {"elevation": "rear", "x_mm": x_mm})


def test_equal_findings_of_two_rooms_come_once_and_in_order() -> None:
    one, two = _row("sliver", 1.0), _row("sliver", 2.0)
    assert unique([two, one, _row("sliver", 2.0)]) == [two, one]


def test_strict_refuses_cautions_and_stops_with_their_places() -> None:
    found = [finding("sliver", {"pointer": "/elevations/0"}), finding("no-legal-joint-position", {"elevation": "rear"})]
    with pytest.raises(Refusal) as caught:
        refuse_cautions(found)
    assert caught.value.slug == "strict-cautions"
    assert [(fault.pointer, fault.code) for fault in caught.value.faults] == [
        ("/elevations/0", "sliver"), ("", "no-legal-joint-position"),
    ]  # fmt: skip


def test_strict_lets_information_pass() -> None:
    refuse_cautions([finding("pack-unknown", {"pointer": "/system/packs"})])
