"""Properties of slip layouts on random walls, against an independent clipping model; numbers as in the list of invariants."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from slip_oracle import (
    MODULES,
    SHIFTS,
    clipped_units,
    laid,
    lengths,
    mirrored,
    net_polygon,
    pieces_of,
    points,
    system,
    walls,
)

BONDS = st.sampled_from(sorted(SHIFTS))
UNITS = st.sampled_from(MODULES)
PERPS = st.sampled_from(["nominal", "equalised"])
QUICK = settings(max_examples=40, deadline=None)
EPSILON_M2 = 1e-6


def row_of(wall, made, **options):
    return laid(wall, made, **options).result["elevations"][0]


def rectangle(width, height, foot=0.0, left=0.0, **more):
    corners = [(left, foot), (left + width, foot), (left + width, foot + height), (left, foot + height)]
    return {"id": "wall", "outline": points(*corners), "openings": [], **more}


@given(walls(soldiers=True), UNITS, BONDS, PERPS)
@settings(max_examples=120, deadline=None)
def test_p01_areas_close_in_both_ways(wall, module, bond, perps) -> None:
    row = row_of(wall, system(module, bond), perps=perps, detail="summary")
    assert row["net_area_m2"] == pytest.approx(net_polygon(wall).area / 1e6, abs=EPSILON_M2)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=EPSILON_M2)
    parts = row["slip_face_area_m2"] + row["joint_area_by_strips_m2"] + row["movement_joint_area_m2"]
    assert parts + row["end_joint_area_m2"] == pytest.approx(row["net_area_m2"], abs=EPSILON_M2)


@given(walls(soldiers=True), UNITS, BONDS, PERPS)
@settings(max_examples=60, deadline=None)
def test_p02_and_p03_pieces_are_disjoint_and_inside_the_wall(wall, module, bond, perps) -> None:
    row = row_of(wall, system(module, bond), perps=perps)
    pieces = pieces_of(row)
    total = math.fsum(piece.area for piece in pieces)
    assert total / 1e6 == pytest.approx(row["slip_face_area_m2"], abs=1e-8)
    assert shapely.union_all(pieces).area / 1e6 == pytest.approx(total / 1e6, abs=EPSILON_M2)
    outside = shapely.difference(shapely.union_all(pieces), net_polygon(wall).buffer(1e-3))
    assert outside.area / 1e6 < 1e-9
    assert len(pieces) == row["total_count"] + row["soldiers_count"]


@given(walls(soldiers=False), UNITS, BONDS)
@settings(max_examples=80, deadline=None)
def test_every_piece_is_the_clipping_models(wall, module, bond) -> None:
    made = system(module, bond)
    expected = clipped_units(wall, made)
    ours = np.sort([piece.area for piece in pieces_of(row_of(wall, made))])
    assert len(ours) == len(expected)
    assert np.allclose(ours, expected, rtol=0, atol=1e-2)


@given(walls(soldiers=True), UNITS)
@QUICK
def test_courses_beside_soldiers_are_the_clipping_models(wall, module) -> None:
    made = system(module)
    result = laid(wall, made, detail="summary").result
    row = result["elevations"][0]
    assume(row["soldiers_count"])
    expected = clipped_units(wall, made, [one["opening"] for one in result["soldiers"]])
    assert row["total_count"] == len(expected)
    assert row["course_face_area_m2"] == pytest.approx(expected.sum() / 1e6, abs=1e-8)


@given(walls(soldiers=True), UNITS, st.integers(-3000, 3000), st.integers(-4, 4), PERPS)
@QUICK
def test_p04_a_wall_moved_sideways_and_by_pairs_of_courses_keeps_its_layout(wall, module, across, pairs, perps) -> None:
    up = 2 * pairs * (module["height_mm"] + module["bed_mm"])
    moved = {**wall, "outline": points(*((p["x_mm"] + across, p["y_mm"] + up) for p in wall["outline"]))}
    moved["openings"] = [
        {name: value + {"x_mm": across, "y_mm": up, "sill_mm": up, "springing_mm": up}.get(name, 0.0) if isinstance(value, float) else value for name, value in one.items()}
        for one in wall["openings"]
    ]  # fmt: skip
    if "existing_joints_x_mm" in wall:
        moved["existing_joints_x_mm"] = [x + across for x in wall["existing_joints_x_mm"]]
    before, after = (row_of(one, system(module), perps=perps, detail="summary") for one in (wall, moved))
    for name in ("full_count", "cut_count", "soldiers_count"):
        assert before[name] == after[name]
    assert before["slip_face_area_m2"] == pytest.approx(after["slip_face_area_m2"], abs=EPSILON_M2)


@given(walls(soldiers=True), st.integers(8, 40), st.booleans(), PERPS)
@QUICK
def test_p05_a_mirrored_wall_has_the_mirrored_layout(wall, halves, rakes, perps) -> None:
    """On a length of whole half modules the bond of the mirrored wall starts with what the wall ended with."""
    module = MODULES[0]
    length = halves * 112.5 - 10
    left = min(p["x_mm"] for p in wall["outline"])
    top = 2200.3 if rakes else 1500.0
    shape = [(left, 0.0), (left + length, 0.0), (left + length, top), (left, 1500.0)]
    inside = [
        one
        for one in wall["openings"]
        if one["x_mm"] + one["width_mm"] < left + length - 1 and _sill(one) >= 0 and _head(one) < 1500
    ]
    start = "half" if halves % 2 else "full"
    first = {"id": "wall", "outline": points(*shape), "openings": inside, "right_edge": {"kind": "external_corner"}}
    axis = left + length / 2
    second = {**mirrored(first, axis), "left_edge": {"kind": "external_corner"}, "bond_start": start}
    second["right_edge"] = {"kind": "free_end"}
    one, two = (laid(elevation, system(module), perps=perps).result for elevation in (first, second))
    mine = sorted(
        (round(piece.area, 2), round(2 * axis - piece.bounds[2], 3)) for piece in pieces_of(one["elevations"][0])
    )
    theirs = sorted((round(piece.area, 2), round(piece.bounds[0], 3)) for piece in pieces_of(two["elevations"][0]))
    assert len(mine) == len(theirs)
    assert np.allclose(np.array(mine)[:, 0], np.array(theirs)[:, 0], atol=0.02)
    assert np.allclose(sorted(x for _, x in mine), sorted(x for _, x in theirs), atol=2e-3)
    assert [row["left_handed_count"] for row in one["corners"]] == [row["right_handed_count"] for row in two["corners"]]


def _sill(one):
    return one["y_mm"] if one["kind"] == "rectangle" else one["sill_mm"]


def _head(one):
    return one["y_mm"] + one["height_mm"] if one["kind"] == "rectangle" else one["springing_mm"] + one["rise_mm"]


@given(walls(joints=False), UNITS, st.integers(2, 18))
@QUICK
def test_p06_a_wall_cut_on_the_half_module_keeps_its_areas_and_loses_no_piece(wall, module, halves) -> None:
    left, right = (f(p["x_mm"] for p in wall["outline"]) for f in (min, max))
    at = left + halves * (module["length_mm"] + module["perp_mm"]) / 2
    assume(at < right - 50)
    assume(not any(one["x_mm"] < at < one["x_mm"] + one["width_mm"] for one in wall["openings"]))
    starts_half = (wall["bond_start"] == "half") != (halves % 2 == 1)
    parts = [
        {**wall, "id": "a", **_side(wall, left, at)},
        {**wall, "id": "b", **_side(wall, at, right), "bond_start": "half" if starts_half else "full"},
    ]
    assume(all(part["outline"] for part in parts))
    whole = laid(wall, system(module), detail="summary").result
    cut = laid(parts, system(module), detail="summary").result
    assert cut["slip_face_area_m2"] == pytest.approx(whole["slip_face_area_m2"], abs=EPSILON_M2)
    assert cut["joint_area_m2"] == pytest.approx(whole["joint_area_m2"], abs=EPSILON_M2)
    assert cut["pieces"]["face_pieces_count"] >= whole["pieces"]["face_pieces_count"]


def _side(wall, low, high):
    """The part of a wall between two plumb lines; no outline where it falls apart or a corner moves off the tick grid."""
    outer = shapely.Polygon([(p["x_mm"], p["y_mm"]) for p in wall["outline"]])
    part = shapely.intersection(outer, shapely.box(low, -1e5, high, 1e5))
    if part.geom_type != "Polygon":
        return {"outline": []}
    inside = [one for one in wall["openings"] if low <= one["x_mm"] and one["x_mm"] + one["width_mm"] <= high]
    return {"outline": points(*part.exterior.coords[:-1]), "openings": inside}


@given(walls(soldiers=False), UNITS)
@QUICK
def test_p07_an_opening_more_never_adds_face(wall, module) -> None:
    assume(wall["openings"])
    fewer = {**wall, "openings": wall["openings"][:-1]}
    with_it, without = (row_of(one, system(module), detail="summary") for one in (wall, fewer))
    for name in ("net_area_m2", "slip_face_area_m2"):
        assert with_it[name] <= without[name] + EPSILON_M2
    assert (
        with_it["slip_face_area_m2"] + with_it["joint_area_m2"]
        <= without["slip_face_area_m2"] + without["joint_area_m2"]
    )


@given(lengths(900, 4000), lengths(600, 2400), lengths(0, 900), lengths(0, 900), UNITS, BONDS)
@QUICK
def test_p08_a_larger_outline_never_has_less_face(width, height, wider, higher, module, bond) -> None:
    small = row_of(rectangle(width, height), system(module, bond), detail="summary")
    large = row_of(rectangle(width + wider, height + higher), system(module, bond), detail="summary")
    assert small["net_area_m2"] <= large["net_area_m2"]
    assert small["slip_face_area_m2"] <= large["slip_face_area_m2"] + 1e-12


@given(st.lists(walls(soldiers=True), min_size=2, max_size=3), UNITS, st.randoms(use_true_random=False))
@QUICK
def test_p09_order_changes_nothing_but_order(drawn, module, chance) -> None:
    named = [{**wall, "id": f"w{index}"} for index, wall in enumerate(drawn)]
    shuffled = [{**wall, "openings": chance.sample(wall["openings"], len(wall["openings"]))} for wall in named]
    chance.shuffle(shuffled)
    one, two = (laid(rows, system(module), detail="summary").result for rows in (named, shuffled))
    by_name = [{row["elevation"]: row for row in answer["elevations"]} for answer in (one, two)]
    for name, row in by_name[0].items():
        assert row["total_count"] == by_name[1][name]["total_count"]
        assert row["slip_face_area_m2"] == pytest.approx(by_name[1][name]["slip_face_area_m2"], abs=1e-12)
    assert one["slips_consumed_count"] == two["slips_consumed_count"]
    assert one["pieces"] == two["pieces"]


@given(walls(soldiers=True), UNITS, st.integers(0, 5), st.booleans())
@QUICK
def test_p10_order_and_noise_of_corners_change_nothing(wall, module, turn, closed) -> None:
    ring = wall["outline"]
    start = turn % len(ring)
    noisy = [*ring[start:], *ring[:start]][::-1]
    middle = {name: (noisy[0][name] + noisy[1][name]) / 2 for name in ("x_mm", "y_mm")}
    level = noisy[0]["y_mm"] == noisy[1]["y_mm"] or noisy[0]["x_mm"] == noisy[1]["x_mm"]
    extra = [middle] if level else [noisy[0]]
    made = {**wall, "outline": [noisy[0], *extra, *noisy[1:], *([noisy[0]] if closed else [])]}
    assert laid(made, system(module)).result == laid(wall, system(module)).result


@given(lengths(700, 30_000), UNITS, BONDS)
@settings(max_examples=80, deadline=None)
def test_p13_and_p14_equal_perps_fill_each_course(length, module, bond) -> None:
    pitch = module["height_mm"] + module["bed_mm"]
    answer = laid(rectangle(length, 2 * pitch), system(module, bond), perps="equalised")
    row = answer.result["elevations"][0]
    bay = row["bays"][0]
    if any(item["code"] == "perp-out-of-range" for item in answer.findings):
        assert bay["arrangement"] == "nominal"
        return
    for course in row["courses"]:
        perp = bay["perps_mm"][course["course"] % len(bay["perps_mm"])]
        assert module["perp_mm"] - 2 - 1e-3 <= perp <= module["perp_mm"] + 2 + 1e-3
        spans = _spans(course)
        widths = [right - left for left, right in spans]
        assert math.fsum(widths) + (len(spans) - 1) * perp == pytest.approx(length, abs=1e-3)
        for index, (left, _) in enumerate(spans):
            assert left == pytest.approx(math.fsum(widths[:index]) + index * perp, abs=1e-3)


def _spans(course):
    """Left and right ends of the pieces of a course."""
    spans = [(cut["x_mm"], cut["x_mm"] + cut["width_mm"]) for cut in course["cuts"]]
    for run in course["runs"]:
        starts = [run["x_mm"] + index * run["pitch_mm"] for index in range(run["count"])]
        spans += [(start, start + run["width_mm"]) for start in starts]
    return sorted(spans)


@given(lengths(900, 9000), UNITS, PERPS)
@QUICK
def test_p15_perps_of_neighbouring_courses_keep_their_lap(length, module, perps) -> None:
    pitch = module["height_mm"] + module["bed_mm"]
    row = row_of(rectangle(length, 2 * pitch), system(module), perps=perps)
    first, second = ([right for _, right in _spans(course)[:-1]] for course in row["courses"])
    least = min(abs(a - b) for a in first for b in second)
    assert least >= module["length_mm"] / 4


@given(walls(soldiers=False), UNITS, st.sampled_from(["stretcher", "third_lap", "stack"]))
@QUICK
def test_p16_counts_lie_between_their_bounds(wall, module, bond) -> None:
    result = laid(wall, system(module, bond), detail="summary").result
    row = result["elevations"][0]
    unit = module["length_mm"] * module["height_mm"] / 1e6
    assert row["full_count"] <= math.floor(row["net_area_m2"] / unit + 1e-9)
    assert result["slips_consumed_count"] >= math.ceil(row["slip_face_area_m2"] / unit - 1e-6)
    assert result["slips_lower_bound_count"] <= result["slips_consumed_count"] <= row["total_count"]
    assert result["slips_consumed_count"] >= row["net_area_m2"] * 0.8 * result["units_per_m2"]["straight_per_m2"] * 0.5


@given(walls(soldiers=False), UNITS, PERPS)
@QUICK
def test_p17_short_and_low_pieces_are_flagged(wall, module, perps) -> None:
    answer = laid(wall, system(module), perps=perps)
    cuts = [cut for course in answer.result["elevations"][0]["courses"] for cut in course["cuts"]]
    found = {item["code"] for item in answer.findings}
    assert ("sliver" in found) == any(cut["width_mm"] < 50 - 2e-4 for cut in cuts)
    assert ("rip-course" in found) == any(cut["height_mm"] < 32.5 - 2e-4 for cut in cuts)
    for item in answer.findings:
        if item["code"] in ("sliver", "rip-course"):
            assert item["value"] < item["limit"]


@given(walls(soldiers=True, joints=False), st.sampled_from([0.5, 2.0, 25.4 / 10]), BONDS)
@QUICK
def test_p18_all_lengths_scaled_give_the_same_counts(wall, k, bond) -> None:
    module = MODULES[0]
    big = {name: value * k for name, value in module.items()}
    scaled = {**wall, "outline": points(*((p["x_mm"] * k, p["y_mm"] * k) for p in wall["outline"]))}
    scaled["openings"] = [
        {name: value * k if isinstance(value, float) else value for name, value in one.items()}
        for one in wall["openings"]
    ]
    made = system(big, bond)
    made["joint"] |= {"perp_min_mm": 8 * k, "perp_max_mm": 12 * k}
    plain, large = row_of(wall, system(module, bond), detail="summary"), row_of(scaled, made, detail="summary")
    for name in ("full_count", "cut_count", "soldiers_count"):
        assert plain[name] == large[name]
    assert large["slip_face_area_m2"] == pytest.approx(plain["slip_face_area_m2"] * k * k, abs=k * k * EPSILON_M2)


@given(walls(soldiers=True, joints=False), UNITS)
@QUICK
def test_p19_half_a_module_and_one_course_leave_the_layout(wall, module) -> None:
    """Shifting the bond by half a module and the wall by one course is the same wall in half-lap bond."""
    pitch = module["height_mm"] + module["bed_mm"]
    moved = {**wall, "outline": points(*((p["x_mm"], p["y_mm"] + pitch) for p in wall["outline"]))}
    moved["openings"] = [
        {name: value + pitch if name in ("y_mm", "sill_mm", "springing_mm") else value for name, value in one.items()}
        for one in wall["openings"]
    ]
    moved["bond_start"] = "full" if wall["bond_start"] == "half" else "half"
    before, after = (row_of(one, system(module), detail="summary") for one in (wall, moved))
    assert (before["full_count"], before["cut_count"]) == (after["full_count"], after["cut_count"])
    assert before["slip_face_area_m2"] == pytest.approx(after["slip_face_area_m2"], abs=EPSILON_M2)


@given(lengths(300, 4000), lengths(300, 4000), lengths(700, 3000), UNITS, PERPS)
@QUICK
def test_p21_corner_slips_are_the_courses_that_both_faces_have(first, second, width, module, perps) -> None:
    a = {**rectangle(width, first), "id": "a", "right_edge": {"kind": "external_corner", "to": "b:left"}}
    b = {**rectangle(width, second), "id": "b", "left_edge": {"kind": "external_corner", "to": "a:right"}}
    corner = laid([a, b], system(module), perps=perps).result["corners"][0]
    pitch = module["height_mm"] + module["bed_mm"]
    both = min(first, second)
    assert corner["corner_slips_count"] == sum(1 for k in range(math.ceil(both / pitch)) if both - k * pitch > 2e-4)
    hands = corner["left_handed_count"], corner["right_handed_count"]
    assert sum(hands) == corner["corner_slips_count"]
    assert abs(hands[0] - hands[1]) <= 1


@given(walls(soldiers=True), walls(soldiers=True), UNITS, st.sampled_from([0.0, 60.0, 102.5, 340.0]), PERPS)
@QUICK
def test_p22_every_face_piece_is_a_straight_slip_or_belongs_to_an_l_slip(one, two, module, depth, perps) -> None:
    reveal = {"left": {"depth_mm": depth}, "right": {"depth_mm": depth}}
    a, b = (
        {**wall, "id": name, "openings": [{**opening, "reveal": reveal} for opening in wall["openings"]]}
        for wall, name in ((one, "a"), (two, "b"))
    )
    a["right_edge"], b["left_edge"] = (
        {"kind": "external_corner", "to": "b:left"},
        {"kind": "external_corner", "to": "a:right"},
    )
    result = laid([a, b], system(module), perps=perps).result
    balance = result["pieces"]
    assert balance["corner_ends_count"] == 2 * result["corner_slips_count"]
    assert balance["return_ends_count"] == result["return_slips_count"]
    replaced = balance["corner_ends_count"] + balance["return_ends_count"] - balance["twice_replaced_count"]
    assert balance["straight_pieces_count"] + replaced == balance["face_pieces_count"]
    assert result["reveal_area_m2"] >= result["reveal_slip_face_area_m2"] >= 0.0


@given(st.integers(1, 40), UNITS)
@QUICK
def test_p22a_soldiers_over_an_exact_opening_stand_at_the_nominal_joint(count, module) -> None:
    width = count * module["height_mm"] + (count + 1) * module["perp_mm"]
    hole = {
        "id": "o",
        "kind": "rectangle",
        "head": "soldier",
        "x_mm": 300,
        "y_mm": 0,
        "width_mm": width,
        "height_mm": 900,
    }
    wall = {**rectangle(width + 600, 2400), "openings": [hole]}
    row = laid(wall, system(module)).result["soldiers"][0]
    assert row["soldiers_count"] == count
    assert row["perp_mm"] == pytest.approx(module["perp_mm"], abs=1e-3)
    assert row["zone_area_m2"] == pytest.approx(row["slip_face_area_m2"] + row["joint_area_m2"], abs=1e-9)


@given(walls(soldiers=True), UNITS, BONDS, PERPS)
@QUICK
def test_the_same_request_gives_the_same_answer(wall, module, bond, perps) -> None:
    first, second = (laid(wall, system(module, bond), perps=perps) for _ in range(2))
    assert (first.result, first.findings) == (second.result, second.findings)
