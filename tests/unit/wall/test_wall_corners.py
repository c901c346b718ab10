"""Corners of a building: partners by name, heights that both edges have, contradictions."""

from itertools import permutations
from typing import Any

import pytest

from storeyrod.findings import Refusal
from storeyrod.geometry.ticks import millimetres
from unit.wall.survey import points, rectangle, wall

EXTERNAL = "external_corner"


def side(name: str, left: str | None = None, right: str | None = None, **members: Any) -> dict[str, Any]:
    """An elevation between two external corners that name their partners."""
    edges = {
        f"{end}_edge": {"kind": EXTERNAL, **({"to": to} if to else {})}
        for end, to in (("left", left), ("right", right))
    }
    return {**rectangle(), "id": name, **edges, **members}


def test_two_edges_that_name_each_other_are_one_corner() -> None:
    corners = wall(side("a", right="b:left"), side("b", left="a:right")).corners
    assert [[end.name for end in corner.ends] for corner in corners] == [["a:left"], ["a:right", "b:left"], ["b:right"]]


def test_one_edge_that_names_the_other_is_enough() -> None:
    for faces in ([side("a", right="b:left"), side("b")], [side("a"), side("b", left="a:right")]):
        assert ["a:right", "b:left"] in [[end.name for end in corner.ends] for corner in wall(*faces).corners]


def test_the_order_of_elevations_changes_no_corner() -> None:
    faces = [side("a", right="b:left"), side("b", right="c:left"), side("c", right="a:left")]
    named = [[[end.name for end in corner.ends] for corner in wall(*order).corners] for order in permutations(faces)]
    assert all(names == named[0] for names in named)
    assert len(named[0]) == 3


def test_a_corner_stands_where_both_edges_stand() -> None:
    low = side("b", left="a:right", height_mm=1500)
    corner = next(one for one in wall(side("a", right="b:left"), low).corners if one.second is not None)
    assert [tuple(map(millimetres, one)) for one in corner.heights] == [(0, 1500)]


def test_a_corner_without_partner_stands_over_its_own_edge() -> None:
    (corner,) = wall({**rectangle("external_corner")}).corners
    assert [tuple(map(millimetres, one)) for one in corner.heights] == [(0, 2475)]


def codes(*faces: dict[str, Any]) -> list[str]:
    return [one["code"] for one in wall(*faces).findings]


def test_a_partner_that_is_not_in_the_request_is_reported_at_its_name() -> None:
    (found,) = wall(rectangle(left_edge={"kind": EXTERNAL, "to": "gable:right"})).findings
    assert (found["code"], found["where"]) == (
        "corner-partner-missing", {"pointer": "/elevations/0/left_edge/to", "elevation": "rear"},
    )  # fmt: skip


@pytest.mark.parametrize(("height", "reported"), [(2475, False), (2474, False), (2473.9, True)])
def test_edges_of_unlike_height_are_reported(height: float, reported: bool) -> None:
    faces = [side("a", right="b:left"), side("b", left="a:right", height_mm=height)]
    assert ("corner-height-mismatch" in codes(*faces)) is reported


def test_edges_of_the_same_length_at_unlike_levels_are_reported() -> None:
    raised = points((0, 75), (4800, 75), (4800, 2550), (0, 2550))
    other = side("b", left="a:right", outline=raised, width_mm=None, height_mm=None)
    (found,) = [
        one for one in wall(side("a", right="b:left"), other).findings if one["code"] == "corner-height-mismatch"
    ]
    assert found["value"] == 150.0


CONTRADICTORY = {
    "names itself": [side("a", right="a:right")],
    "named by two": [side("a", right="b:left"), side("b"), side("c", right="b:left")],
    "named by two that sort behind it": [side("b", right="0:left"), side("0"), side("c", right="0:left")],
    "names one that names another": [side("a", right="b:left"), side("b", left="c:right"), side("c", right="b:left")],
    "of two kinds": [side("a", right="b:left"), {**side("b"), "left_edge": {"kind": "internal_corner"}}],
    "ends freely": [side("a", right="b:left"), {**side("b"), "left_edge": {"kind": "free_end"}}],
}


@pytest.mark.parametrize("faces", CONTRADICTORY.values(), ids=CONTRADICTORY)
def test_a_corner_has_two_edges_of_one_kind(faces: list[dict[str, Any]]) -> None:
    for order in permutations(faces):
        with pytest.raises(Refusal) as caught:
            wall(*order)
        assert caught.value.slug == "corner-contradictory"


def test_a_face_cannot_meet_itself_round_a_corner() -> None:
    edges = {"left_edge": {"kind": "external_corner", "to": "rear:right"}, "right_edge": {"kind": "external_corner"}}
    with pytest.raises(Refusal) as refused:
        wall({**rectangle(), **edges})
    assert refused.value.slug == "corner-contradictory"
    assert refused.value.faults[0].pointer == "/elevations/0/left_edge/to"
