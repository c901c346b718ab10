"""Corners that are not square: lengths against a plan of the building offset by shapely, contradictions and cautions."""

import math
from typing import Any

import pytest
import shapely

from storeyrod.answer import assumptions_of
from storeyrod.findings import Refusal
from storeyrod.geometry.ticks import millimetres
from storeyrod.wall.models import Edge
from unit.wall.survey import face, rectangle, system, wall

EXTERNAL, INTERNAL = "external_corner", "internal_corner"
PLANS = {
    "hexagon": [(4000 * math.cos(math.radians(60 * k)), 4000 * math.sin(math.radians(60 * k))) for k in range(6)],
    "splayed bay": [(0, 0), (2000, 0), (3000, -1000), (5000, -1000), (6000, 0), (9000, 0), (9000, 6000), (0, 6000)],
    "wedge": [(0, 0), (8000, 0), (8000, 6000)],
}
"""Corners of the substrate in plan, anticlockwise: seen from outside, each face runs from left to right."""


def turn(before: tuple[float, float], here: tuple[float, float], after: tuple[float, float]) -> dict[str, Any]:
    """Kind and angle of a corner of the plan."""
    inward, onward = (math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in ((before, here), (here, after)))
    left = (math.degrees(onward - inward) + 180) % 360 - 180
    return {"kind": EXTERNAL if left > 0 else INTERNAL, "angle_deg": round(180 - abs(left), 9)}


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
@pytest.mark.parametrize(("plane", "depth"), [("finished", 123), ("boards", 100)])
def test_faces_meet_where_their_planes_meet_in_plan(plan: list[tuple[float, float]], plane: str, depth: float) -> None:
    outer = shapely.Polygon(plan).buffer(depth, join_style="mitre", mitre_limit=20).normalize()
    expected = sorted(math.dist(a, b) for a, b in zip(outer.exterior.coords, outer.exterior.coords[1:], strict=False))
    found = []
    for index, here in enumerate(plan):
        before, after, beyond = plan[index - 1], plan[(index + 1) % len(plan)], plan[(index + 2) % len(plan)]
        ends = {"left_edge": turn(before, here, after), "right_edge": turn(here, after, beyond)}
        made = face({**rectangle(plane="substrate", width_mm=math.dist(here, after)), **ends})
        left, _, right, _ = made.board_gross(left_runs_through=True, right_runs_through=True).box
        found.append(millimetres(made.length if plane == "finished" else right - left))
    assert sorted(found) == pytest.approx(expected, abs=2e-3)


def test_a_square_corner_moves_by_the_whole_build_up_to_the_tick() -> None:
    assert millimetres(face(rectangle(EXTERNAL, INTERNAL, plane="substrate")).left) == -123
    assert face(rectangle(EXTERNAL, INTERNAL, plane="substrate")).length == 4800e4


def skew(name: str, left: float | None = None, right: float | None = None, **members: Any) -> dict[str, Any]:
    edges = {
        f"{side}_edge": {"kind": EXTERNAL, "angle_deg": angle}
        for side, angle in (("left", left), ("right", right))
        if angle is not None
    }
    return {**rectangle(), "id": name, **edges, **members}


def test_both_rows_of_boards_are_mitred_at_a_skew_corner() -> None:
    made = face(skew("a", left=135))
    lengths = {made.board_gross(left_runs_through=through, right_runs_through=True).box for through in (True, False)}
    assert len(lengths) == 1


def test_a_skew_corner_is_reported_once_with_its_angle() -> None:
    meets = {"kind": EXTERNAL, "angle_deg": 120, "to": "a:right"}
    (found,) = wall(skew("a", right=120), skew("b", left_edge=meets)).findings
    assert (found["code"], found["value"], found["limit"], found["unit"]) == ("corner-not-square", 120, 90, "deg")
    assert found["where"] == {"pointer": "/elevations/0/right_edge", "elevation": "a"}


def test_two_edges_of_a_corner_have_one_angle() -> None:
    meets = {"kind": EXTERNAL, "angle_deg": 121, "to": "a:right"}
    with pytest.raises(Refusal) as caught:
        wall(skew("a", right=120), skew("b", left_edge=meets))
    assert (caught.value.slug, caught.value.faults[0].pointer) == (
        "corner-contradictory", "/elevations/0/right_edge/angle_deg",
    )  # fmt: skip


def test_only_a_corner_has_an_angle_to_assume() -> None:
    assert "/angle_deg" in [row["field"] for row in assumptions_of(Edge(kind="internal_corner"))]
    assert "/angle_deg" not in [row["field"] for row in assumptions_of(Edge(kind="abutment"))]


def between(width: float, **changes: Any) -> list[dict[str, Any]]:
    found = wall(rectangle(EXTERNAL, EXTERNAL, width_mm=width), board={"thickness_mm": 20}, **changes).findings
    return [dict(one) for one in found if one["code"] == "corner-slips-meet"]


def test_two_corner_slips_back_to_back_need_two_headers_and_a_perp() -> None:
    # 2 x 102.5 + 10 = 215.
    assert between(215) == []
    (found,) = between(214.9)
    assert (found["value"], found["limit"], found["where"]) == (
        214.9, 215, {"pointer": "/elevations/0", "elevation": "rear"},
    )  # fmt: skip


def test_the_legs_of_the_corner_slip_that_is_given_count() -> None:
    assert between(250, corner_slip={"stretcher_mm": 240, "return_mm": 115}) == []
    assert between(239, corner_slip={"stretcher_mm": 240, "return_mm": 115})[0]["limit"] == 240


def test_a_short_face_between_other_ends_has_no_corner_slips_to_meet() -> None:
    ends = [rectangle(EXTERNAL, "free_end", width_mm=150), rectangle(INTERNAL, EXTERNAL, width_mm=150)]
    assert all(not wall(one, board={"thickness_mm": 20}).findings for one in ends)
    assert system().corner_slip.return_mm is None
