"""Properties of fastener schedules on random walls, with shapely as an independent judge of distances."""

import math
from itertools import combinations

import pytest
from board_walls import polygon_of, requests
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, box

from storeyrod.boards.calculation import calculate as lay
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest

EDGE_MM, SPACING_MM = 50.0, 100.0
"""Defaults of the request."""


def answer(request: dict):
    return calculate(FastenerScheduleRequest.model_validate({"options": {"effort": "quick"}, **request}))


def pieces_of(request: dict) -> dict[str, dict]:
    return {
        piece["id"]: piece
        for piece in lay(BoardLayoutRequest.model_validate({"options": {"effort": "quick"}, **request})).result[
            "pieces"
        ]
    }


def by_piece(found) -> dict[str, list[dict]]:
    rows: dict[str, list[dict]] = {}
    for position in found.result["positions"]:
        rows.setdefault(position["piece"], []).append(position)
    return rows


def reported(found, code: str) -> set[str]:
    return {name for item in found.findings if item["code"] == code for name in item["where"].get("pieces", [])}


@given(requests())
@settings(max_examples=60, deadline=None)
def test_every_fastener_keeps_the_edge_distance_in_its_piece_unless_reported(request_) -> None:
    found, pieces = answer(request_), pieces_of(request_)
    small = reported(found, "edge-distance-impossible")
    for name, positions in by_piece(found).items():
        polygon = polygon_of(pieces[name])
        for position in positions:
            point = Point(position["x_mm"], position["y_mm"])
            assert polygon.buffer(1e-3).contains(point)
            assert name in small or polygon.exterior.distance(point) >= EDGE_MM - 1e-3
            assert name in small or all(hole.distance(point) >= EDGE_MM - 1e-3 for hole in polygon.interiors)


@given(requests())
@settings(max_examples=60, deadline=None)
def test_fasteners_of_a_piece_keep_the_spacing(request_) -> None:
    for positions in by_piece(answer(request_)).values():
        for a, b in combinations(positions, 2):
            assert math.hypot(a["x_mm"] - b["x_mm"], a["y_mm"] - b["y_mm"]) >= SPACING_MM - 1e-3


@given(requests())
@settings(max_examples=60, deadline=None)
def test_fasteners_reach_the_substrate_at_external_corners(request_) -> None:
    found, elevation, system = answer(request_), request_["elevations"][0], request_["system"]
    build_up = system["board"]["thickness_mm"] + 3.0 + system["slip"]["thickness_mm"]
    width = max(point["x_mm"] for point in elevation["outline"])
    small = reported(found, "edge-distance-impossible")
    for position in found.result["positions"]:
        if position["piece"] in small:
            continue
        if elevation["left_edge"]["kind"] == "external_corner":
            assert position["x_mm"] >= build_up + EDGE_MM - 1e-3
        if elevation["right_edge"]["kind"] == "external_corner":
            assert position["x_mm"] <= width - build_up - EDGE_MM + 1e-3


@given(requests())
@settings(max_examples=60, deadline=None)
def test_every_piece_gets_the_least_number_or_is_reported(request_) -> None:
    found, pieces = answer(request_), pieces_of(request_)
    few, counted = reported(found, "fasteners-few"), by_piece(found)
    assert set(counted) == set(pieces)
    for name, positions in counted.items():
        assert len(positions) >= 2 or name in few


@given(requests())
@settings(max_examples=60, deadline=None)
def test_heads_lie_in_the_middle_of_slips_unless_the_piece_is_too_small(request_) -> None:
    slip = request_["system"]["slip"]
    found = answer(request_)
    small = reported(found, "edge-distance-impossible")
    for position in found.result["positions"]:
        course = (position["y_mm"] - slip["height_mm"] / 2) / (slip["height_mm"] + 10)
        assert position["piece"] in small or math.isclose(course, round(course), abs_tol=1e-6)


@given(requests())
@settings(max_examples=60, deadline=None)
def test_stages_part_the_fasteners_and_two_of_each_piece_come_first(request_) -> None:
    found = answer(request_)
    for positions in by_piece(found).values():
        assert sum(position["stage"] == "first" for position in positions) == min(2, len(positions))
    for row in found.result["elevations"]:
        assert row["first_count"] + row["rest_count"] + row["after_trim_count"] == row["fasteners_count"]


@given(requests())
@settings(max_examples=60, deadline=None)
def test_only_the_lowest_row_of_a_piece_waits_for_the_trim(request_) -> None:
    for positions in by_piece(answer(request_)).values():
        waiting = [position["y_mm"] for position in positions if position["stage"] == "after_trim"]
        assert all(y == min(position["y_mm"] for position in positions) for y in waiting)


@given(requests())
@settings(max_examples=60, deadline=None)
def test_totals_agree_with_positions_and_pieces(request_) -> None:
    found = answer(request_).result
    total = found["fasteners_count"]
    assert total == len(found["positions"]) == sum(row["fasteners_count"] for row in found["pieces"])
    assert total == sum(row["fasteners_count"] for row in found["elevations"])
    area = sum(row["piece_area_m2"] for row in found["elevations"])
    assert found["density_per_m2"] == pytest.approx(total / area)


@given(requests())
@settings(max_examples=60, deadline=None)
def test_rectangles_hold_at_least_the_base_density_unless_reported(request_) -> None:
    """Common practice, no source: four across a board and one row every fourth course."""
    found, pieces = answer(request_), pieces_of(request_)
    flagged = set.union(
        *(reported(found, code) for code in ("pier-narrow", "edge-distance-impossible", "fasteners-few"))
    )
    pitch = request_["system"]["slip"]["height_mm"] + 10
    share = request_["system"]["board"]["cover_length_mm"] / 4
    for name, positions in by_piece(found).items():
        piece = pieces[name]
        if "ring" in piece or name in flagged:
            continue
        courses = math.floor(piece["height_mm"] / pitch + 1e-9)
        assert len(positions) >= math.ceil(piece["width_mm"] / share - 1e-9) * math.ceil(courses / 4)


@given(requests(), st.sampled_from([1, 2, 3, 6]))
@settings(max_examples=40, deadline=None)
def test_no_fastener_stands_in_an_opening_or_a_joint(request_, columns) -> None:
    request_["system"]["fastener"] = {"columns_count": columns}
    request_["elevations"][0]["existing_joints_x_mm"] = [400.0]
    for position in answer(request_).result["positions"]:
        x, y = position["x_mm"], position["y_mm"]
        assert not 394.0 < x < 406.0
        for one in request_["elevations"][0]["openings"]:
            if one["kind"] == "rectangle":
                hole = box(one["x_mm"], one["y_mm"], one["x_mm"] + one["width_mm"], one["y_mm"] + one["height_mm"])
                assert not hole.buffer(-1e-3).contains(Point(x, y))
