"""Properties of perps, cuts, corner slips and soldiers on random walls; numbers as in the list of invariants.

Gaps between pieces are measured here on the polygons of the slip layout and held against what the setting out says of them.
"""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from setting_out_walls import codes, perps_on, pieces_by_course, pitch_of, row_of, set_out_of, slots_of, spans_on
from slip_oracle import MODULES, laid, lengths, net_polygon, points, system, walls

UNITS = st.sampled_from(MODULES)
STRETCHERS = st.sampled_from(["stretcher", "third_lap"])
BONDS = st.sampled_from(["stretcher", "third_lap", "english", "flemish"])
PERPS = st.sampled_from(["nominal", "equalised"])
QUICK = settings(max_examples=30, deadline=None)
ENDS = st.sampled_from(["free_end", "external_corner", "internal_corner", "abutment"])


def with_ends(wall, left, right):
    return {**wall, "left_edge": {"kind": left}, "right_edge": {"kind": right}}


def bay_at(bays, x):
    return next(bay for bay in bays if bay["x_from_mm"] <= x <= bay["x_to_mm"])


@given(walls(), UNITS, BONDS, PERPS, ENDS, ENDS)
@QUICK
def test_p13_what_a_course_has_beside_its_pieces_is_perps_and_joints_at_ends(
    wall, module, bond, perps, left, right
) -> None:
    """Every run of wall in the middle of a course is filled by pieces, perps no wider than the bay's, and the joints at ends."""
    wall = with_ends(wall, left, right)
    made = system(module, bond)
    row = row_of(laid([wall], made, perps=perps))
    net, slots = net_polygon(wall), slots_of(wall)
    free = net.difference(shapely.union_all([shapely.box(a, -1e5, b, 1e5) for a, b in slots]))
    widest = max(perp for bay in row["bays"] for perp in bay["perps_mm"])
    ends = row["bays"][0]["x_from_mm"] - net.bounds[0] + net.bounds[2] - row["bays"][-1]["x_to_mm"]
    for number, shapes in pieces_by_course(row).items():
        y = number * pitch_of(module) + module["height_mm"] / 2
        bare = free.difference(shapely.union_all(shapes))
        for low, high in spans_on(bare, y):
            assert high - low <= widest + ends + 1e-3


@given(walls(), UNITS, BONDS, PERPS)
@QUICK
def test_p13_and_p14_gaps_between_pieces_are_the_perps_of_their_bay_within_the_limits(
    wall, module, bond, perps
) -> None:
    assume(perps == "nominal" or _is_plumb(wall))
    made = system(module, bond)
    row = row_of(laid([wall], made, perps=perps))
    answer = set_out_of([wall], made, perps=perps)
    bays = row_of(answer)["bays"]
    net, slots = net_polygon(wall), slots_of(wall)
    for number, shapes in pieces_by_course(row).items():
        y = number * pitch_of(module) + module["height_mm"] / 2
        for low, high in perps_on(shapes, net, y, slots):
            bay = bay_at(bays, (low + high) / 2)
            expected = bay["perps_mm"][number % len(bay["perps_mm"])]
            assert high - low == pytest.approx(expected, abs=1e-3)
            inside = module["perp_mm"] - 2 - 1e-3 <= high - low <= module["perp_mm"] + 2 + 1e-3
            assert inside or "perp-out-of-range" in codes(answer)


def _is_plumb(wall):
    ring = [(point["x_mm"], point["y_mm"]) for point in wall["outline"]]
    level = all(a[0] == b[0] or a[1] == b[1] for a, b in pairwise([*ring, ring[0]]))
    return level and all(one["kind"] == "rectangle" for one in wall["openings"])


@given(walls(), UNITS, BONDS, PERPS)
@QUICK
def test_p13_the_perps_marked_for_the_gang_stand_between_the_slips(wall, module, bond, perps) -> None:
    """In a set-out course every perp is marked that stands in the wall with all its height, and no mark stands on a slip."""
    assume(perps == "nominal" or _is_plumb(wall))
    made = system(module, bond)
    row = row_of(laid([wall], made, perps=perps))
    bays = row_of(set_out_of([wall], made, perps=perps))["bays"]
    net, slots, courses = net_polygon(wall).buffer(1e-6), slots_of(wall), pieces_by_course(row)
    for bay in bays:
        for course in bay["set_out_courses"]:
            foot = course["y_mm"] - module["height_mm"] / 2
            gaps = perps_on(courses.get(course["course"], []), net, course["y_mm"], slots)
            whole = [
                (low + high) / 2
                for low, high in gaps
                if bay["x_from_mm"] <= low and high <= bay["x_to_mm"]
                and net.contains(shapely.box(low - 0.1, foot, high + 0.1, foot + module["height_mm"]))
            ]  # fmt: skip
            for x in whole:
                assert min(abs(x - marked) for marked in course["perps_x_mm"]) < 1e-3
            for marked in course["perps_x_mm"]:
                place = shapely.Point(marked, course["y_mm"])
                assert net.covers(place)
                assert not any(shape.covers(place) for shape in courses[course["course"]])


@given(walls(), UNITS, STRETCHERS, PERPS)
@QUICK
def test_p15_no_perp_stands_over_a_perp_of_the_next_course_beside_openings_either(wall, module, bond, perps) -> None:
    """A quarter module is the least lap, less what unequal perps of two courses move them."""
    assume(perps == "nominal" or _is_plumb(wall))
    answer = laid([wall], system(module, bond), perps=perps)
    row = row_of(answer)
    net, slots = net_polygon(wall), slots_of(wall)
    middles = {
        number: [
            (low + high) / 2
            for low, high in perps_on(shapes, net, number * pitch_of(module) + module["height_mm"] / 2, slots)
        ]
        for number, shapes in pieces_by_course(row).items()
    }
    least = (module["length_mm"] + module["perp_mm"]) / 4
    for number, here in middles.items():
        for x in here:
            bay = bay_at(row["bays"], x)
            count = (bay["x_to_mm"] - bay["x_from_mm"]) / module["length_mm"] + 1
            moved = count * (max(bay["perps_mm"]) - min(bay["perps_mm"]))
            over = [other for other in middles.get(number + 1, []) if bay["x_from_mm"] <= other <= bay["x_to_mm"]]
            assert min((abs(x - other) for other in over), default=least) >= least - moved - 1e-3


@given(walls(soldiers=True), UNITS, STRETCHERS, PERPS)
@QUICK
def test_p16_slips_consumed_lie_between_the_area_of_the_pieces_and_their_number(wall, module, bond, perps) -> None:
    result = laid([wall], system(module, bond), perps=perps).result
    row = result["elevations"][0]
    unit = module["length_mm"] * module["height_mm"] / 1e6
    assert row["full_count"] <= math.floor(row["net_area_m2"] / unit + 1e-9)
    consumed = result["slips_consumed_count"] + result["header_slips_consumed_count"]
    assert consumed >= math.ceil(row["slip_face_area_m2"] / unit - 1e-6)
    assert (
        result["slips_lower_bound_count"]
        <= result["slips_consumed_count"]
        <= row["total_count"] + row["soldiers_count"]
    )


@given(walls(), UNITS, STRETCHERS, PERPS, st.sampled_from([0.0, 3.0, 6.5]))
@QUICK
def test_p17_cuts_share_a_slip_only_where_they_and_a_kerf_fit(wall, module, bond, perps, kerf) -> None:
    """Cuts longer than half of what a kerf leaves need a slip each, and all cuts at least their lengths and the kerfs between."""
    result = laid([wall], {**system(module, bond), "slip_kerf_mm": kerf}, perps=perps).result
    row = result["elevations"][0]
    cuts = [length for one in result["cut_list"] for length in [one["length_mm"]] * one["count"]]
    assert len(cuts) == row["cut_count"]
    taken = result["slips_consumed_count"] - row["full_count"]
    length = module["length_mm"]
    assert taken >= sum(cut > (length - kerf) / 2 + 1e-6 for cut in cuts)
    shared = math.fsum(min(cut + kerf, length + kerf) for cut in cuts) / (length + kerf)
    assert math.ceil(shared - 1e-6) <= taken <= len(cuts)
    assert max(cuts, default=0) <= length + 0.01


@given(walls(), walls(), UNITS, BONDS, PERPS)
@QUICK
def test_p21_a_corner_has_a_slip_for_each_course_that_stands_on_both_sides_of_the_arris(
    one, two, module, bond, perps
) -> None:
    """Edge heights are read off the two polygons, a hair inside the arris."""
    a = {**one, "id": "a", "right_edge": {"kind": "external_corner", "to": "b:left"}}
    b = {**two, "id": "b", "left_edge": {"kind": "external_corner", "to": "a:right"}}
    edges = [net_polygon(a), net_polygon(b)]
    places = [edges[0].bounds[2] - 1e-4, edges[1].bounds[0] + 1e-4]
    stands = [_heights(edge, x) for edge, x in zip(edges, places, strict=True)]
    low, high = max(low for low, _ in stands), min(high for _, high in stands)
    pitch, height = pitch_of(module), module["height_mm"]
    numbers = range(math.floor(low / pitch) - 1, math.ceil(high / pitch) + 1)
    shared = [min(high, number * pitch + height) - max(low, number * pitch) for number in numbers]
    assume(not any(0 < abs(part) < 1e-2 for part in shared))
    (corner,) = laid([a, b], system(module, bond), perps=perps).result["corners"]
    assert corner["corner_slips_count"] == sum(part > 0 for part in shared)
    hands = corner["left_handed_count"], corner["right_handed_count"]
    assert sum(hands) == corner["corner_slips_count"]
    assert abs(hands[0] - hands[1]) <= 1
    assert corner["replaced_pieces_count"] == 2 * corner["corner_slips_count"]


def _heights(wall, x):
    met = wall.intersection(shapely.LineString([(x, -1e5), (x, 1e5)]))
    return met.bounds[1], met.bounds[3]


@given(
    st.lists(st.integers(6, 30), min_size=4, max_size=4),
    walls(joints=False),
    UNITS,
    st.sampled_from([0.0, 102.5]),
    PERPS,
)
@QUICK
def test_p22_round_a_building_straight_slips_and_l_slips_are_all_the_pieces_there_are(
    halves, wall, module, depth, perps
) -> None:
    """Four faces in a ring, one with lined openings: a corner slip owns a piece on two faces, a return one on its own."""
    names = "abcd"
    reveal = {"left": {"depth_mm": depth}, "right": {"depth_mm": depth}}
    openings = [{**one, "reveal": reveal} for one in wall["openings"]]
    faces = []
    for at, name in enumerate(names):
        length = halves[at] * (module["length_mm"] + module["perp_mm"]) / 2 - module["perp_mm"]
        sizes = {"width_mm": length, "height_mm": 900.0} if at else {"outline": wall["outline"], "openings": openings}
        left = {"kind": "external_corner", "to": f"{names[at - 1]}:right"}
        right = {"kind": "external_corner", "to": f"{names[(at + 1) % 4]}:left"}
        faces.append({"id": name, **sizes, "left_edge": left, "right_edge": right})
    result = laid(faces, system(module), perps=perps).result
    balance = result["pieces"]
    assert balance["face_pieces_count"] == sum(row["total_count"] for row in result["elevations"])
    assert balance["corner_ends_count"] == 2 * sum(row["corner_slips_count"] for row in result["corners"])
    assert balance["return_ends_count"] == sum(row["return_slips_count"] for row in result["returns"])
    replaced = balance["corner_ends_count"] + balance["return_ends_count"] - balance["twice_replaced_count"]
    assert balance["straight_pieces_count"] + replaced == balance["face_pieces_count"]


@given(lengths(200, 3500), UNITS)
@QUICK
def test_p22a_soldiers_of_any_width_stand_at_one_joint_within_the_limits_or_are_reported(width, module) -> None:
    """n slips and n + 1 joints fill the width; the zone is a slip and a bed high."""
    hole = {
        "id": "o",
        "kind": "rectangle",
        "x_mm": 300.0,
        "y_mm": 0.0,
        "width_mm": width,
        "height_mm": 900.0,
        "head": "soldier",
    }
    wall = {
        "id": "wall",
        "outline": points((0, 0), (width + 600, 0), (width + 600, 2400), (0, 2400)),
        "openings": [hole],
    }
    answer = laid([wall], system(module))
    (row,) = answer.result["soldiers"]
    count, perp = row["soldiers_count"], row["perp_mm"]
    assert count * module["height_mm"] + (count + 1) * perp == pytest.approx(width, abs=1e-3)
    inside = module["perp_mm"] - 2 - 1e-3 <= perp <= module["perp_mm"] + 2 + 1e-3
    assert inside != ("soldier-perp-out-of-range" in codes(answer))
    others = [(width - n * module["height_mm"]) / (n + 1) for n in range(1, count + 3)]
    best = min(abs(one - module["perp_mm"]) for one in others)
    assert inside or best > 2 - 1e-3
    zone = width * (module["length_mm"] + module["bed_mm"]) / 1e6
    assert row["zone_area_m2"] == pytest.approx(zone, abs=1e-9)
    assert row["slip_face_area_m2"] + row["joint_area_m2"] == pytest.approx(zone, abs=1e-9)
