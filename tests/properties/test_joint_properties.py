"""Properties of movement joints on random walls: limits kept, clearances kept, sealed length conserved."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.movement_joints.calculation import calculate
from storeyrod.movement_joints.models import MovementJointsRequest

BOARD = {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100}
SLIP = {"length_mm": 215, "height_mm": 65, "thickness_mm": 20}


@st.composite
def walls(draw: st.DrawFn) -> dict:
    width = draw(st.integers(2000, 40000))
    openings, x = [], 200
    for index in range(draw(st.integers(0, 6))):
        x += draw(st.integers(100, 3000))
        size = draw(st.integers(300, 3000))
        if x + size > width - 100:
            break
        openings.append(
            {
                "id": f"o{index}",
                "kind": "rectangle",
                "x_mm": x,
                "y_mm": 0,
                "width_mm": size,
                "height_mm": draw(st.integers(500, 2900)),
            }
        )
        x += size
    return {"id": "wall", "width_mm": width, "height_mm": 3000, "openings": openings}


def answer_of(*elevations: dict, **joint: object):
    system = {"board": BOARD, "slip": SLIP, "movement_joint": {"width_mm": 12, **joint}}
    return calculate(MovementJointsRequest.model_validate({"elevations": list(elevations), "system": system}))


def rows(wall: dict, **joint: object) -> dict:
    return answer_of(wall, **joint).result["elevations"][0]


@given(walls())
@settings(max_examples=80, deadline=None)
def test_every_bay_is_within_the_limit_unless_withheld(wall: dict) -> None:
    row = rows(wall)
    assert row.get("withheld") or all(bay["length_mm"] <= 6000 + 1e-3 for bay in row["bays"])


@given(walls())
@settings(max_examples=80, deadline=None)
def test_bays_and_joints_fill_the_length(wall: dict) -> None:
    row = rows(wall)
    filled = sum(bay["length_mm"] for bay in row["bays"]) + sum(joint["width_mm"] for joint in row["joints"])
    assert abs(filled - wall["width_mm"]) < 1e-3


@given(walls())
@settings(max_examples=80, deadline=None)
def test_every_joint_keeps_clear_of_every_opening(wall: dict) -> None:
    for joint in rows(wall)["joints"]:
        for opening in wall["openings"]:
            left, right = joint["x_mm"] - 6, joint["x_mm"] + 6
            assert right <= opening["x_mm"] - 225 + 1e-3 or left >= opening["x_mm"] + opening["width_mm"] + 225 - 1e-3


@given(walls(), st.integers(200, 38000))
@settings(max_examples=80, deadline=None)
def test_an_opening_on_the_line_takes_exactly_its_height_from_the_sealed_length(wall: dict, x: int) -> None:
    if not 20 < x < wall["width_mm"] - 20:
        return
    line = {**wall, "existing_joints_x_mm": [x]}
    (joint,) = [one for one in rows(line)["joints"] if one["existing"]]
    crossed = sum(o["height_mm"] for o in wall["openings"] if o["x_mm"] < x < o["x_mm"] + o["width_mm"])
    on_jamb = any(x in (o["x_mm"], o["x_mm"] + o["width_mm"]) for o in wall["openings"])
    assert on_jamb or abs(joint["sealed_length_m"] * 1000 - (3000 - crossed)) < 1e-6


@given(walls())
@settings(max_examples=80, deadline=None)
def test_order_of_openings_changes_nothing(wall: dict) -> None:
    assert rows(wall) == rows({**wall, "openings": wall["openings"][::-1]})


@given(walls(), st.one_of(st.none(), st.integers(500, 1500)), st.sampled_from(["left", "right"]))
@settings(max_examples=80, deadline=None)
def test_a_mirrored_wall_has_mirrored_joints(wall: dict, existing: int | None, side: str) -> None:
    """Ties of equally even bays included: equal bays on a symmetrical wall fall to the same end of the bond."""
    drawn = {**wall, "bond_from": side, "existing_joints_x_mm": [] if existing is None else [existing]}
    system = {"board": BOARD, "slip": SLIP, "movement_joint": {"width_mm": 12}}
    request = {"elevations": [drawn, {"id": "handed", "mirror_of": "wall"}], "system": system}
    answer = calculate(MovementJointsRequest.model_validate(request))
    one, two = answer.result["elevations"]
    seen = [(wall["width_mm"] - joint["x_mm"], joint["existing"], joint["segments"]) for joint in one["joints"]]
    assert seen[::-1] == [(joint["x_mm"], joint["existing"], joint["segments"]) for joint in two["joints"]]
    assert one.get("withheld") == two.get("withheld")
    bays = [
        [round(item["value"], 6) for item in answer.findings
         if item["code"] == "no-legal-joint-position" and item["where"]["elevation"] == name]
        for name in ("wall", "handed")
    ]  # fmt: skip
    assert bays[0] == bays[1]


LIMITS = {"adhered_thin_brick": (5500, 13.4, 2.5), "adhered_tiling": (4500, math.inf, math.inf)}


@given(walls(), st.sampled_from(sorted(LIMITS)), st.integers(2200, 5000))
@settings(max_examples=80, deadline=None)
def test_length_and_area_of_every_bay_are_kept_or_the_opening_that_binds_it_is_named(
    wall: dict, profile: str, height: int
) -> None:
    """A storey no higher than the root of 13.4 x 2.5, 5.79 m, can keep area and ratio by upright joints."""
    high = {**wall, "height_mm": height, "openings": [{**one, "height_mm": 2000} for one in wall["openings"]]}
    answer = answer_of(high, profile=profile)
    length, area, ratio = LIMITS[profile]
    named = {
        (item["where"]["x_mm"], item["where"]["x_to_mm"])
        for item in answer.findings
        if item["code"] == "no-legal-joint-position" and item["where"]["openings"]
    }
    slender = {item["where"]["x_mm"] for item in answer.findings if item["code"] == "bay-ratio"}
    for bay in answer.result["elevations"][0]["bays"]:
        size = bay["length_mm"] * height * 1e-6
        assert bay["gross_area_m2"] == pytest.approx(size)
        long = bay["length_mm"] > length + 1e-3 or size > area * (1 + 1e-6)
        assert long == ((bay["x_from_mm"], bay["x_to_mm"]) in named)
        assert long or (bay["ratio"] > ratio) == (bay["x_from_mm"] in slender)


@given(st.integers(2000, 60_000), st.integers(3000, 6000))
@settings(max_examples=80, deadline=None)
def test_a_wall_without_openings_has_the_least_joints_that_perps_allow(width: int, spacing: int) -> None:
    """Centres stand on a grid of 112.5, so joints are at most the whole number of half modules in a bay and a joint apart, and
    what the grid does not divide at the first end is less than one of them.
    """
    row = rows({"id": "wall", "width_mm": width, "height_mm": 3000}, max_spacing_mm=spacing)
    apart = math.floor((spacing + 12) / 112.5) * 112.5
    assert row["joints_lower_bound_count"] == max(0, math.ceil((width + 12) / (spacing + 12) - 1e-9) - 1)
    assert row["joints_lower_bound_count"] <= len(row["joints"]) <= math.ceil((width + 12 + 112.5) / apart) - 1 or (
        width <= spacing and row["joints"] == []
    )


@given(walls())
@settings(max_examples=80, deadline=None)
def test_joints_stand_on_perps_or_on_declared_jamb_lines(wall: dict) -> None:
    jambs = {x for o in wall["openings"] for x in (o["x_mm"], o["x_mm"] + o["width_mm"])}
    for joint in rows({**wall, "joints_at_jambs": True})["joints"]:
        on_perp = abs((joint["x_mm"] + 5) / 112.5 - round((joint["x_mm"] + 5) / 112.5)) < 1e-6
        assert joint["x_mm"] in jambs if joint["reason"] == "jamb" else on_perp


@given(walls())
@settings(max_examples=80, deadline=None)
def test_declared_jamb_lines_cost_no_joint_and_withhold_none(wall: dict) -> None:
    without, with_jambs = rows(wall), rows({**wall, "joints_at_jambs": True})
    assert not with_jambs.get("withheld") or without.get("withheld")
    if not without.get("withheld"):
        assert len(with_jambs["joints"]) <= len(without["joints"])


@given(walls(), st.lists(st.integers(500, 39_000), max_size=3, unique=True), st.booleans())
@settings(max_examples=80, deadline=None)
def test_joints_of_the_structure_are_among_the_joints_exactly(wall: dict, existing: list[int], own: bool) -> None:
    kept = [x + 0.3 for x in existing if x < wall["width_mm"] - 100]
    if any(b - a < 12 for a, b in pairwise(sorted(kept))):
        return
    designed = {"joints_x_mm": [x + 0.4 for x in kept]} if own else {}
    row = rows({**wall, "existing_joints_x_mm": kept, **designed})
    assert {joint["x_mm"] for joint in row["joints"] if joint["existing"]} == set(kept)
    assert not own or len(row["joints"]) == len(kept)


def part(wall: dict, name: str, left: float, right: float) -> dict:
    """The part of a wall between two places, drawn as an elevation of its own whose bond starts where that of the whole does."""
    corners = ((left, 0), (right, 0), (right, wall["height_mm"]), (left, wall["height_mm"]))
    inside = [o for o in wall["openings"] if left <= o["x_mm"] and o["x_mm"] + o["width_mm"] <= right]
    return {
        "id": name, "outline": [{"x_mm": x, "y_mm": y} for x, y in corners], "openings": inside, "bond_origin_x_mm": 0,
    }  # fmt: skip


@given(walls(), st.integers(0, 5))
@settings(max_examples=80, deadline=None)
def test_a_wall_split_at_a_joint_has_the_same_joints_and_sealed_length(wall: dict, at: int) -> None:
    whole = rows(wall)
    if not whole["joints"]:
        return
    cut = whole["joints"][at % len(whole["joints"])]
    left = {**part(wall, "left", 0, cut["x_mm"] - 6), "right_edge": {"kind": "movement_joint"}}
    right = {**part(wall, "right", cut["x_mm"] + 6, wall["width_mm"]), "left_edge": {"kind": "movement_joint"}}
    answer = answer_of(left, right)
    parts = answer.result["elevations"]
    placed = [joint["x_mm"] for row in parts for joint in row["joints"]]
    assert sorted([*placed, cut["x_mm"]]) == [joint["x_mm"] for joint in whole["joints"]]
    sealed = sum(row["sealed_length_m"] for row in parts) + cut["sealed_length_m"]
    assert sealed == pytest.approx(whole["sealed_length_m"])
    assert [bay["length_mm"] for row in parts for bay in row["bays"]] == pytest.approx(
        [bay["length_mm"] for bay in whole["bays"]]
    )


@given(st.integers(3000, 30_000), st.integers(0, 4000), st.integers(100, 6000), st.integers(5, 20))
@settings(max_examples=80, deadline=None)
def test_areas_of_bays_and_joints_fill_a_wall_under_a_rake(width: int, eaves: int, rise: int, area: int) -> None:
    corners = ((0, 0), (width, 0), (width, eaves + 500), (0, eaves + 500 + rise))
    sloped = {"id": "wall", "outline": [{"x_mm": x, "y_mm": y} for x, y in corners]}
    row = rows(sloped, max_area_m2=float(area))
    filled = sum(bay["gross_area_m2"] for bay in row["bays"]) + sum(joint["area_m2"] for joint in row["joints"])
    assert filled == pytest.approx(width * (2 * eaves + 1000 + rise) / 2 * 1e-6)
    assert row.get("withheld") or all(bay["gross_area_m2"] <= area * (1 + 1e-6) for bay in row["bays"])


OUTLINES = [
    ((0, 0), (19_000, 0), (19_000, 3200), (12_000, 3200), (12_000, 5000), (0, 5000)),
    ((0, 0), (16_000, 0), (16_000, 1500), (6000, 5000), (0, 1500)),
]


@given(
    st.sampled_from(OUTLINES),
    st.sampled_from(["common_practice", "adhered_thin_brick", "full_thickness_uk", "clay_brick_us"]),
    st.sampled_from(
        [{}, {"parapet_from_mm": 1400}, {"left_edge": {"kind": "external_corner"}}, {"bond_from": "right"}]
    ),
    st.integers(1000, 9000),
    st.integers(600, 4000),
)
@settings(max_examples=80, deadline=None)
def test_steps_rakes_corners_and_parapets_are_mirrored_too(
    corners: tuple, profile: str, more: dict, x: int, width: int
) -> None:
    opening = {"id": "o", "kind": "rectangle", "x_mm": x, "y_mm": 100, "width_mm": width, "height_mm": 1000}
    points = [{"x_mm": a, "y_mm": b} for a, b in corners]
    drawn = {"id": "wall", "outline": points, "openings": [opening], "joints_at_jambs": True, **more}
    one, two = answer_of(drawn, {"id": "handed", "mirror_of": "wall"}, profile=profile).result["elevations"]
    right = corners[1][0]
    assert [right - joint["x_mm"] for joint in one["joints"]][::-1] == pytest.approx(
        [joint["x_mm"] for joint in two["joints"]]
    )
    assert [joint["reason"] for joint in one["joints"]][::-1] == [joint["reason"] for joint in two["joints"]]
