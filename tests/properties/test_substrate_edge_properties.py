"""Properties of the distance from edges of the substrate on random walls, with shapely and plain loops as independent judges."""

import math
from itertools import pairwise

import shapely
from board_walls import polygon_of, requests
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, box
from shapely.ops import unary_union

from storeyrod.boards.calculation import calculate as lay
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest

EDGE_MM, SPACING_MM, DISTANCE_MM = 50.0, 100.0, 100.0
"""Defaults of the request."""

BEYOND_MM = 1e5

STEP_MM = 12.0
"""Places are tried that far apart."""

QUICK = settings(max_examples=25, deadline=None)

ENDS = st.tuples(*[st.sampled_from(["free_end", "abutment"])] * 2)


def ended(request: dict, ends: tuple[str, str], **fastener: object) -> dict:
    """The wall between two ends that are no corners."""
    (elevation,) = request["elevations"]
    edges = {"left_edge": {"kind": ends[0]}, "right_edge": {"kind": ends[1]}}
    system = {**request["system"], "fastener": {"pull_out": {"characteristic_kn": 5}, **fastener}}
    return {"elevations": [{**elevation, **edges}], "system": system, "options": {"effort": "quick"}}


def answer(request: dict):
    return calculate(FastenerScheduleRequest.model_validate(request))


def by_piece(found) -> dict[str, list[tuple[float, float]]]:
    rows: dict[str, list[tuple[float, float]]] = {}
    for row in found.result["positions"]:
        rows.setdefault(row["piece"], []).append((row["x_mm"], row["y_mm"]))
    return rows


def edges_of_substrate(elevation: dict):
    """Openings, joints, and the outline over the top from foot to foot without ends at abutments, past which a level top goes on."""
    points = [(point["x_mm"], point["y_mm"]) for point in elevation["outline"]]
    width = max(x for x, _ in points)
    right = points.index(min(point for point in points if point[0] == width))
    chain = [*points[right:], points[0]]
    ends = {0.0: elevation["left_edge"]["kind"], width: elevation["right_edge"]["kind"]}
    found = []
    for (x0, y0), (x1, y1) in pairwise(chain):
        if y0 == y1:
            going_on = [x + math.copysign(BEYOND_MM, x - 1) if ends.get(x) == "abutment" else x for x in (x0, x1)]
            found.append(LineString([(x, y0) for x in going_on]))
        elif x0 != x1 or ends.get(x0) != "abutment":
            found.append(LineString([(x0, y0), (x1, y1)]))
    for one in elevation["openings"]:
        left, wide = one["x_mm"], one["width_mm"]
        if one["kind"] == "rectangle":
            found.append(box(left, one["y_mm"], left + wide, one["y_mm"] + one["height_mm"]))
        else:
            radius = ((wide / 2) ** 2 + one["rise_mm"] ** 2) / (2 * one["rise_mm"])
            circle = Point(left + wide / 2, one["springing_mm"] + one["rise_mm"] - radius).buffer(radius, 512)
            over = circle.intersection(box(left, one["springing_mm"], left + wide, BEYOND_MM))
            found.append(box(left, one["sill_mm"], left + wide, one["springing_mm"]).union(over))
    for x in elevation.get("existing_joints_x_mm", []):
        found.append(LineString([(x, -BEYOND_MM), (x, BEYOND_MM)]))
    return unary_union(found)


def reported(found, code: str) -> set[str]:
    return {name for item in found.findings if item["code"] == code for name in item["where"]["pieces"]}


@given(requests(), ENDS)
@QUICK
def test_pieces_are_named_that_have_a_fastener_too_close_and_no_others(request_, ends) -> None:
    request = ended(request_, ends)
    found, substrate = answer(request), edges_of_substrate(request["elevations"][0])
    named = reported(found, "substrate-edge-close")
    for piece, places in by_piece(found).items():
        nearest = min(substrate.distance(Point(place)) for place in places)
        assert piece in named if nearest < DISTANCE_MM - 0.02 else piece not in named or nearest < DISTANCE_MM + 0.02


@given(requests(), ENDS)
@QUICK
def test_the_number_of_fasteners_of_a_piece_does_not_depend_on_the_distance(request_, ends) -> None:
    kept, free = (
        {piece: len(places) for piece, places in by_piece(answer(ended(request_, ends, **fastener))).items()}
        for fastener in ({}, {"substrate_edge_distance_mm": EDGE_MM})
    )
    assert kept == free


@given(requests(), ENDS)
@QUICK
def test_a_fastener_too_close_has_no_other_place_near_by(request_, ends) -> None:
    """None within half a column's share of board, on any course, that keeps all distances from edges and from the other fasteners.

    On square-cut pieces; on raked ones, where courses differ, others may have moved since.
    """
    request = ended(request_, ends)
    found, substrate = answer(request), edges_of_substrate(request["elevations"][0])
    bare = {**request, "system": request_["system"]}
    pieces = {row["id"]: row for row in lay(BoardLayoutRequest.model_validate(bare)).result["pieces"]}
    small, slip = reported(found, "edge-distance-impossible"), request["system"]["slip"]
    reach = request["system"]["board"]["cover_length_mm"] / 4 / 2
    for piece, places in by_piece(found).items():
        if piece in small or pieces[piece]["kind"] == "raked":
            continue
        inside = polygon_of(pieces[piece]).buffer(-EDGE_MM, join_style="mitre")
        for place in places:
            if substrate.distance(Point(place)) < DISTANCE_MM - 0.02:
                others = [other for other in places if other != place]
                assert not list(_permitted(place, others, reach, slip["height_mm"], inside, substrate))


def _permitted(place, others, reach, slip, inside, substrate):
    """Places near one, on courses, that keep all distances by a millimetre more than they have to."""
    pitch, (x, y) = slip + 10, place
    for course in range(math.ceil((y - reach) / pitch), math.floor((y + reach) / pitch) + 1):
        height = course * pitch + slip / 2
        if abs(height - y) > reach:
            continue
        wide = math.sqrt(reach**2 - (height - y) ** 2)
        steps = [x - wide + STEP_MM * step for step in range(int(2 * wide / STEP_MM) + 1)]
        free = [
            (at, height) for at in steps if all(math.dist((at, height), other) > SPACING_MM + 1 for other in others)
        ]
        if free:
            points = shapely.points(free)
            keeps = shapely.contains(inside, points) & (shapely.distance(substrate, points) > DISTANCE_MM + 1)
            yield from (free[index] for index in keeps.nonzero()[0])
