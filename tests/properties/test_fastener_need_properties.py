"""Properties of fasteners by need on random walls under random wind."""

import math
from itertools import combinations, pairwise

from board_walls import mirrored, polygon_of, requests
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Point

from storeyrod.boards.calculation import calculate as lay
from storeyrod.boards.layout import lay_boards
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.fasteners.calculation import calculate, loads_of
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.fasteners.schedule import FastenerSchedule, set_fasteners
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.wall.wall import wall_of

EDGE_MM, SPACING_MM = 50.0, 100.0
"""Defaults of the request."""

QUICK = settings(max_examples=25, deadline=None)

PRESSURES = st.sampled_from([300, 700, 1100, 1600, 2500])
DESIGNS = st.sampled_from([0.03, 0.06, 0.1, 0.15, 0.25])
HEADS = st.sampled_from([None, {"panel_kn": 0.3, "joint_kn": 0.2, "gamma_m": 2.0}, {"panel_kn": 0.2, "gamma_m": 2.0}])


def loaded(request: dict, pressure: float, design: float, heads: dict | None = None, height_m: float = 5) -> dict:
    """The wall as the whole front of a box, under one pressure."""
    (elevation,) = request["elevations"]
    width = max(point["x_mm"] for point in elevation["outline"])
    fastener = {"pull_out": {"characteristic_kn": 2 * design}} | ({"pull_through": heads} if heads else {})
    return {
        "elevations": [{**elevation, "face": {"side": "front", "offset_mm": 0}}],
        "system": {**request["system"], "fastener": fastener},
        "substrate": {"category": "B"},
        "wind": {
            "kind": "peak_pressures",
            "building": {"breadth_m": max(1.0, width / 1000), "depth_m": 30, "height_m": height_m},
            "peak_pressures": [{"height_m": height_m, "pressure_pa": pressure}],
        },
        "options": {"effort": "quick"},
    }


def scheduled(body: dict) -> FastenerSchedule:
    request = FastenerScheduleRequest.model_validate(body)
    wall = wall_of(request.elevations, request.system)
    return set_fasteners(wall, lay_boards(wall, joint_plans(wall)), loads_of(request))


def totals(body: dict) -> dict[str, int]:
    return {one.piece.id: one.total for face in scheduled(body).faces for one in face.pieces}


def reported(findings, code: str) -> set[str]:
    return {name for item in findings if item["code"] == code for name in item["where"].get("pieces", [])}


@given(requests(), st.lists(PRESSURES, min_size=2, max_size=2, unique=True), DESIGNS, HEADS)
@QUICK
def test_more_suction_never_sets_fewer_fasteners_on_a_piece(wall, pressures, design, heads) -> None:
    less, more = (totals(loaded(wall, pressure, design, heads)) for pressure in sorted(pressures))
    assert all(more[piece] >= number for piece, number in less.items())


@given(requests(), PRESSURES, DESIGNS, HEADS)
@QUICK
def test_twice_the_resistance_to_pull_out_never_sets_more(wall, pressure, design, heads) -> None:
    once, twice = (totals(loaded(wall, pressure, value, heads)) for value in (design, 2 * design))
    assert all(twice[piece] <= number for piece, number in once.items())


@given(requests(), PRESSURES, DESIGNS)
@QUICK
def test_twice_the_resistance_never_more_than_halves_the_need(wall, pressure, design) -> None:
    once, twice = (scheduled(loaded(wall, pressure, value)).faces[0].pieces for value in (design, 2 * design))
    for one, other in zip(once, twice, strict=True):
        assert 2 * other.need.needed >= one.need.needed
        assert 2 * max(other.need.minimum, other.need.needed) >= max(one.need.minimum, one.need.needed)


@given(requests(), PRESSURES, DESIGNS, HEADS)
@QUICK
def test_a_higher_building_whose_edge_zone_is_longer_sets_no_piece_fewer(wall, pressure, design, heads) -> None:
    """At the same pressure: e = min(b, 2h) grows with the height, and with it zones A and B."""
    low, high = (totals(loaded(wall, pressure, design, heads, height_m=height)) for height in (4, 5))
    assert all(high[piece] >= number for piece, number in low.items())


@given(requests(), PRESSURES, DESIGNS)
@QUICK
def test_the_suction_of_a_piece_is_the_strongest_of_all_zones_that_it_touches(wall, pressure, design) -> None:
    found = scheduled(loaded(wall, pressure, design))
    (wind,) = found.wind.plan.faces
    for one in found.faces[0].pieces:
        part = one.piece.part
        touched = [
            patch.suction
            for patch in wind.patches
            if min(patch.right, part.right) > max(patch.left, part.left)
            and min(patch.top, part.top) > max(patch.bottom, part.bottom)
        ]
        assert not touched or one.need.patch.suction == max(touched)


@given(requests(), PRESSURES, DESIGNS, HEADS)
@QUICK
def test_every_piece_has_its_minimum_and_its_need_or_is_reported(wall, pressure, design, heads) -> None:
    found = scheduled(loaded(wall, pressure, design, heads))
    unmet = reported(found.findings, "wind-need-unmet")
    for one in found.faces[0].pieces:
        need = one.need
        assert one.total >= need.minimum
        assert need.needed == math.ceil(need.action / design - 1e-9)
        assert one.total >= need.needed or one.piece.id in unmet
        used = [share for share in (need.pull_out_used, need.pull_through_used) if share is not None]
        assert (max(used) > 1 + 1e-9) == (one.piece.id in unmet)


@given(requests(), PRESSURES, DESIGNS, HEADS)
@QUICK
def test_what_governs_asks_for_more_than_the_pattern_and_of_two_it_is_used_more(wall, pressure, design, heads) -> None:
    for one in scheduled(loaded(wall, pressure, design, heads)).faces[0].pieces:
        need = one.need
        by_pull_out, by_heads = need.pull_out_used or 0.0, need.pull_through_used or 0.0
        if one.total and need.governed_by == "minimum":
            assert need.needed <= need.minimum == one.total
        if one.total and need.governed_by == "pull_out":
            assert need.needed > need.minimum
        if need.needed > need.minimum and need.governed_by == "pull_through":
            assert by_heads > by_pull_out


@given(requests(), PRESSURES, DESIGNS, HEADS)
@QUICK
def test_many_fasteners_keep_spacing_edges_and_the_end_of_the_substrate(wall, pressure, design, heads) -> None:
    body = loaded(wall, pressure, design, heads)
    found = calculate(FastenerScheduleRequest.model_validate(body))
    bare = {key: value for key, value in body.items() if key in ("elevations", "system", "options")}
    pieces = {row["id"]: row for row in lay(BoardLayoutRequest.model_validate(bare)).result["pieces"]}
    small = reported(found.findings, "edge-distance-impossible")
    rows: dict[str, list[Point]] = {}
    for row in found.result["positions"]:
        rows.setdefault(row["piece"], []).append(Point(row["x_mm"], row["y_mm"]))
    for name, points in rows.items():
        polygon = polygon_of(pieces[name])
        assert all(polygon.buffer(1e-3).contains(point) for point in points)
        assert all(a.distance(b) >= SPACING_MM - 1e-3 for a, b in combinations(points, 2))
        assert name in small or all(polygon.boundary.distance(point) >= EDGE_MM - 1e-3 for point in points)


@given(requests(), PRESSURES, DESIGNS)
@QUICK
def test_stages_part_what_wind_adds_too(wall, pressure, design) -> None:
    for one in scheduled(loaded(wall, pressure, design)).faces[0].pieces:
        assert one.stages.count("first") == min(2, one.total)
        lowest = min(y for _, y in one.places)
        assert all(y == lowest for (_, y), stage in zip(one.places, one.stages, strict=True) if stage == "after_trim")


@given(requests(), PRESSURES, DESIGNS)
@QUICK
def test_the_mirror_image_of_a_wall_takes_as_many_fasteners(wall, pressure, design) -> None:
    """Laid from the other end: the box and its zones are alike from both sides. Arches are polygons, whose images differ by rounding."""
    (elevation,) = wall["elevations"]
    assume(all(one["kind"] != "arch" for one in elevation["openings"]))
    drawn = {**elevation, "bond_from": "left"}
    image = {**mirrored(elevation), "bond_from": "right"}
    one, other = (totals(loaded({**wall, "elevations": [some]}, pressure, design)) for some in (drawn, image))
    assert sorted(one.values()) == sorted(other.values())


@given(requests(), PRESSURES, DESIGNS, HEADS)
@QUICK
def test_zones_pieces_and_positions_agree(wall, pressure, design, heads) -> None:
    result = calculate(FastenerScheduleRequest.model_validate(loaded(wall, pressure, design, heads))).result
    total = result["fasteners_count"]
    assert total == sum(row["fasteners_count"] for row in result["zones"])
    assert total == sum(row["fasteners_count"] for row in result["pieces"]) == len(result["positions"])
    names = [row["id"] for row in result["positions"]]
    assert len(set(names)) == total
    assert all(a < b for a, b in pairwise(sorted(names)))
