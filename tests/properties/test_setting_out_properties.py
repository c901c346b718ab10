"""Properties of whole answers of setting out, and of the layouts on them; numbers as in the list of invariants."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from setting_out_walls import (
    building,
    differences,
    grounded_walls,
    module_of,
    moved,
    pitch_of,
    rectilinear_plans,
    row_of,
    same_pieces,
    scaled,
    set_out_of,
)
from shapely.affinity import translate
from slip_oracle import MODULES, laid, lengths, mirrored, mirrored_polygon, pieces_of, points, system, walls

UNITS = st.sampled_from(MODULES)
BONDS = st.sampled_from(["stretcher", "third_lap", "english", "flemish"])
PERPS = st.sampled_from(["nominal", "equalised"])
PLACES = lengths(-3000, 3000)
QUICK = settings(max_examples=25, deadline=None)
COUNTS = ("full_count", "cut_count", "courses_count")
AREAS = ("net_area_m2", "slip_face_area_m2", "joint_area_m2", "movement_joint_area_m2", "end_joint_area_m2")


def left_of(wall):
    return min(point["x_mm"] for point in wall["outline"])


@given(grounded_walls(), UNITS, BONDS, PERPS, PLACES, PLACES)
@QUICK
def test_p04_a_wall_moved_with_its_datum_and_origin_has_its_setting_out_moved(
    wall, module, bond, perps, across, up
) -> None:
    made = {**system(module, bond), "course_datum_mm": 0.0}
    before = set_out_of([wall], made, perps=perps).result
    after = set_out_of([moved(wall, across, up)], moved(made, across, up), perps=perps).result
    assert differences(after, moved(before, across, up), 1e-5) == []


@given(walls(), UNITS, BONDS, PERPS, PLACES, PLACES)
@QUICK
def test_p04_a_wall_moved_with_its_datum_and_origin_has_its_slips_moved(wall, module, bond, perps, across, up) -> None:
    made = {**system(module, bond), "course_datum_mm": 0.0}
    wall = {**wall, "bond_origin_x_mm": left_of(wall) + 70.3}
    before = row_of(laid([wall], made, perps=perps))
    after = row_of(laid([moved(wall, across, up)], moved(made, across, up), perps=perps))
    for name in COUNTS:
        assert before[name] == after[name], name
    shifted = [translate(piece, across, up) for piece in pieces_of(before)]
    assert same_pieces(shifted, pieces_of(after))


@given(walls(), UNITS, BONDS, PERPS)
@QUICK
def test_p05_slips_set_out_from_the_right_are_those_of_the_mirrored_wall_from_the_left(
    wall, module, bond, perps
) -> None:
    made = system(module, bond)
    axis = left_of(wall) + 500
    edge = {"kind": "external_corner"}
    one = laid([{**wall, "left_edge": edge}], made, perps=perps)
    other = laid([{**mirrored(wall, axis), "right_edge": edge, "bond_from": "right"}], made, perps=perps)
    turned = [mirrored_polygon(piece, axis) for piece in pieces_of(row_of(one))]
    assert same_pieces(turned, pieces_of(row_of(other)))
    (left,), (right,) = one.result["corners"], other.result["corners"]
    assert left["left_handed_count"] == right["right_handed_count"]
    assert left["right_handed_count"] == right["left_handed_count"]


@given(grounded_walls(), UNITS, BONDS, PERPS)
@QUICK
def test_p05_the_image_of_a_wall_has_the_image_of_its_setting_out(wall, module, bond, perps) -> None:
    answer = set_out_of([wall, {"id": "handed", "mirror_of": "wall"}], system(module, bond), perps=perps)
    ring = [point["x_mm"] for point in wall["outline"]]
    ends = min(ring) + max(ring)
    one, other = answer.result["elevations"]
    for bay, image in zip(one["bays"], reversed(other["bays"]), strict=True):
        assert [bay["x_from_mm"], bay["x_to_mm"]] == pytest.approx([ends - image["x_to_mm"], ends - image["x_from_mm"]])
        assert bay["perps_mm"] == pytest.approx(image["perps_mm"], abs=1e-6)
        for course, turned in zip(bay["set_out_courses"], image["set_out_courses"], strict=True):
            assert course["course"] == turned["course"]
            seen = [ends - x for x in turned["perps_x_mm"][::-1]]
            assert course["perps_x_mm"] == pytest.approx(seen, abs=1e-3)
    base, turned_base = answer.result["bases"]
    runs = [(ends - run["x_to_mm"], ends - run["x_from_mm"], run["level_mm"]) for run in turned_base["runs"][::-1]]
    for run, image in zip(base["runs"], runs, strict=True):
        assert (run["x_from_mm"], run["x_to_mm"], run["level_mm"]) == pytest.approx(image, abs=1e-3)
    for name in ("trim_mm", "stop_ends_count", "other_ends_count", "upright_trim_mm"):
        assert base[name] == pytest.approx(turned_base[name], abs=1e-3), name


@given(walls(joints=False), UNITS, BONDS, st.integers(5, 95), PLACES)
@QUICK
def test_p06_a_wall_cut_at_any_plumb_line_with_one_origin_keeps_its_areas(wall, module, bond, percent, origin) -> None:
    ring = [point["x_mm"] for point in wall["outline"]]
    at = round(min(ring) + (max(ring) - min(ring)) * percent / 100, 1)
    assume(
        not any(one["kind"] == "arch" and one["x_mm"] < at < one["x_mm"] + one["width_mm"] for one in wall["openings"])
    )
    wall = {**wall, "bond_origin_x_mm": origin}
    sides = (("a", -1e5, at), ("b", at, 1e5))
    parts = [{**wall, "id": name, **_side(wall, low, high)} for name, low, high in sides]
    made = system(module, bond)
    whole, cut = (laid(drawn, made, detail="summary").result for drawn in ([wall], parts))
    for name in ("net_area_m2", "slip_face_area_m2", "joint_area_m2"):
        assert cut[name] == pytest.approx(whole[name], abs=1e-6), name
    assert cut["pieces"]["face_pieces_count"] >= whole["pieces"]["face_pieces_count"]


def _side(wall, low, high):
    """The part of a wall between two plumb lines, its openings cut too."""
    outer = shapely.Polygon([(point["x_mm"], point["y_mm"]) for point in wall["outline"]])
    part = shapely.intersection(outer, shapely.box(low, -1e5, high, 1e5))
    assume(part.geom_type == "Polygon")
    openings = []
    for one in wall["openings"]:
        left, right = max(low, one["x_mm"]), min(high, one["x_mm"] + one["width_mm"])
        assume(not 0 < right - left < 10)
        if left < right:
            openings.append({**one, "x_mm": left, "width_mm": right - left})
    return {"outline": points(*part.exterior.coords[:-1]), "openings": openings}


@given(st.lists(grounded_walls(), min_size=2, max_size=3), UNITS, PERPS, st.randoms(use_true_random=False))
@QUICK
def test_p09_order_of_elevations_openings_features_and_ground_changes_nothing_but_order(
    drawn, module, perps, chance
) -> None:
    named = [{**wall, "id": f"w{index}"} for index, wall in enumerate(drawn)]
    shuffled = [_shuffled(wall, chance) for wall in named]
    chance.shuffle(shuffled)
    one, two = (set_out_of(rows, system(module), perps=perps) for rows in (named, shuffled))
    assert differences(_sorted(one.result), _sorted(two.result), 0) == []
    assert sorted(map(_finding, one.findings)) == sorted(map(_finding, two.findings))


def _shuffled(wall, chance):
    made = {
        **wall,
        "base": {**wall["base"], "ground": chance.sample(wall["base"]["ground"], len(wall["base"]["ground"]))},
    }
    for name in ("openings", "features", "storey_levels_mm"):
        made[name] = chance.sample(wall[name], len(wall[name]))
    return made


def _sorted(result):
    """The answer with the lists that follow the request in the order of their names."""
    made = dict(result)
    for name in ("faces", "bases", "elevations"):
        made[name] = sorted(result[name], key=lambda row: row["elevation"])
    for face in made["faces"]:
        face["openings"] = sorted(face["openings"], key=lambda row: row["opening"])
    return made


def _finding(item):
    where = {name: place for name, place in item["where"].items() if name != "pointer"}
    return item["code"], item.get("value", 0), repr(sorted(where.items()))


@given(grounded_walls(), UNITS, lengths(-200, 200), st.integers(0, 400))
@QUICK
def test_p12_the_base_clears_the_ground_on_course_lines_and_rises_with_it(wall, module, datum, by) -> None:
    made = {**system(module), "course_datum_mm": datum}
    ground = [(point["x_mm"], point["y_mm"]) for point in wall["base"]["ground"]]
    higher = {**wall, "base": {**wall["base"], "ground": points(*((x, y + by) for x, y in ground))}}
    lower, raised = (set_out_of([one], made).result["bases"][0] for one in (wall, higher))
    for run in lower["runs"]:
        courses = (run["level_mm"] - datum) / pitch_of(module)
        assert courses == pytest.approx(run["course"], abs=1e-6)
        for x in _inside(run):
            assert run["level_mm"] >= _height(ground, x) + wall["base"]["clearance_mm"] - 1e-3
            assert _level(raised, x) >= run["level_mm"] - 1e-6
    changes = [(one["level_mm"], other["level_mm"]) for one, other in pairwise(lower["runs"])]
    assert [(step["from_level_mm"], step["to_level_mm"]) for step in lower["steps"]] == changes
    assert all(low != high for low, high in changes)


def _inside(run, places=12):
    return [run["x_from_mm"] + (run["x_to_mm"] - run["x_from_mm"]) * (at + 0.5) / places for at in range(places)]


def _height(line, x):
    return next(y0 + (y1 - y0) * (x - x0) / (x1 - x0) for (x0, y0), (x1, y1) in pairwise(line) if x0 <= x <= x1)


def _level(base, x):
    """Level of the base at a place; at a step the higher one."""
    return max(run["level_mm"] for run in base["runs"] if run["x_from_mm"] <= x <= run["x_to_mm"])


@given(rectilinear_plans(), st.sampled_from([20, 60, 100, 160]), st.sampled_from([15, 20, 25]))
@QUICK
def test_p12b_the_finished_building_closes_and_is_eight_build_ups_longer_round_than_the_bare_one(
    plan, board, slip
) -> None:
    ends = list(zip(plan, [*plan[1:], plan[0]], strict=True))
    bare = [math.dist(one[:2], other[:2]) for one, other in ends]
    made = system(MODULES[0])
    made = {**made, "board": {**made["board"], "thickness_mm": board}, "slip": {**made["slip"], "thickness_mm": slip}}
    faces = set_out_of(building(bare, [corner[2] for corner in plan], plane="substrate"), made).result["faces"]
    depth = board + 3 + slip
    assert [face["substrate_length_mm"] for face in faces] == bare
    finished = [face["finished_length_mm"] for face in faces]
    for (one, other), before, after in zip(ends, bare, finished, strict=True):
        assert after - before == pytest.approx(depth * ((one[2] + other[2]) - (2 - one[2] - other[2])), abs=1e-6)
    assert sum(finished) - sum(bare) == pytest.approx(8 * depth, abs=1e-6)
    for axis in (0, 1):
        steps = [math.copysign(length, other[axis] - one[axis]) * (one[axis] != other[axis]) for (one, other), length in zip(ends, finished, strict=True)]  # fmt: skip
        assert math.fsum(steps) == pytest.approx(0, abs=1e-6)


TINY = {
    "board": {"cover_length_mm": 150.0, "cover_height_mm": 108.0, "thickness_mm": 15.0},
    "slip": {"length_mm": 30.0, "height_mm": 12.0, "thickness_mm": 5.0},
    "joint": {"perp_mm": 1.5, "bed_mm": 1.5, "perp_min_mm": 1.2, "perp_max_mm": 1.8},
    "adhesive": {"compressed_thickness_mm": 1.0},
    "movement_joint": {"width_mm": 1.5, "max_spacing_mm": 1900.0, "max_boards_count": 100, "clear_of_opening_mm": 60.0},
    "minimum_cut_mm": 7.0,
    "minimum_rip_mm": 5.0,
    "slip_kerf_mm": 0.5,
}
"""A system in inches, taken for millimetres: multiplied by 25.4 it is one of large units."""

LIFESIZE = {
    **system(MODULES[0]),
    "movement_joint": {"width_mm": 10.0, "max_spacing_mm": 20_000.0, "max_boards_count": 100},
    "adhesive": {"compressed_thickness_mm": 3.0},
    "minimum_cut_mm": 50.0,
    "minimum_rip_mm": 32.5,
    "slip_kerf_mm": 3.0,
}


@st.composite
def framed_walls(draw, made):
    """A rectangle with up to two openings, its sizes in the modules of a system; a corner left, an abutment right."""
    module, pitch = (
        made["slip"]["length_mm"] + made["joint"]["perp_mm"],
        made["slip"]["height_mm"] + made["joint"]["bed_mm"],
    )

    def drawn(low, high, size):
        return round(draw(st.integers(low * 20, high * 20)) / 20 * size, 1)

    width, height = drawn(7, 18, module), drawn(8, 20, pitch)
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    openings = []
    for at, left in enumerate((0.2, 0.6)):
        sizes = {"width_mm": drawn(1, 2, module), "height_mm": drawn(1, 5, pitch), "y_mm": drawn(0, 3, pitch)}
        if draw(st.booleans()) and left * width + sizes["width_mm"] < 0.6 * width / (1 - at * 0.4):
            openings.append({"id": f"o{at}", "kind": "rectangle", "x_mm": round(left * width, 1), **sizes})
    edges = {"left_edge": {"kind": "external_corner"}}
    edges["right_edge"] = {"kind": "abutment", "joint_mm": made["joint"]["perp_mm"]}
    return {"id": "wall", "outline": points(*corners), "openings": openings, **edges}


@given(
    st.data(),
    st.sampled_from([(LIFESIZE, 0.5), (LIFESIZE, 2.0), (TINY, 25.4)]),
    st.sampled_from(["stretcher", "english"]),
    PERPS,
)
@QUICK
def test_p18_all_lengths_scaled_give_the_same_counts_and_scaled_lengths_and_areas(data, scale, bond, perps) -> None:
    """Without rakes: pieces there keep an overlap of 40 mm by a rule for masonry, which grows with nothing."""
    made, k = {**scale[0], "bond": bond}, scale[1]
    wall = data.draw(framed_walls(made))
    before, after = (
        set_out_of([one], system_, perps=perps).result
        for one, system_ in ((wall, made), (scaled(wall, k), scaled(made, k)))
    )
    for result in (before, after):
        for face in result["faces"]:
            face.pop("bed_levels")  # published tolerances by length, which grow with nothing
    for name in ("faces", "elevations"):
        assert differences(after[name], scaled(before[name], k), 1e-3 * k) == []
    one, other = (
        row_of(laid([drawn], system_, perps=perps, detail="summary"))
        for drawn, system_ in ((wall, made), (scaled(wall, k), scaled(made, k)))
    )
    for name in COUNTS:
        assert one[name] == other[name], name
    for name in AREAS:
        assert other[name] == pytest.approx(one[name] * k**2, abs=1e-6 * k**2), name


@given(walls(joints=False), UNITS, PLACES, st.sampled_from(["module", "courses", "both"]), PERPS)
@QUICK
def test_p19_a_wall_moved_along_the_bond_keeps_its_layout_with_datum_and_origin_fixed(
    wall, module, origin, way, perps
) -> None:
    """By a module, by two courses, or by half a module and one course: this as drawn only, for in a broken bond it is the number of
    a course that says which of two courses takes one piece and which takes two.
    """
    assume(way != "both" or perps == "nominal")
    step, pitch = module_of(module), pitch_of(module)
    across, up = {"module": (step, 0), "courses": (0, 2 * pitch), "both": (step / 2, pitch)}[way]
    fixed = {"bond_origin_x_mm": origin}
    before, after = (
        row_of(laid([{**one, **fixed}], system(module), perps=perps)) for one in (wall, moved(wall, across, up))
    )
    for name in COUNTS:
        assert before[name] == after[name], name
    shifted = [translate(piece, across, up) for piece in pieces_of(before)]
    assert same_pieces(shifted, pieces_of(after))


@given(
    st.lists(lengths(700, 9000), min_size=4, max_size=4) | st.lists(lengths(700, 9000), min_size=6, max_size=6),
    st.integers(0, 6),
    UNITS,
)
@QUICK
def test_p20_a_loop_closes_when_every_face_is_whole_and_corners_and_half_modules_are_even(
    sizes, internal, module
) -> None:
    """Lengths anywhere, and the same on the module; the rule is worked out here from lengths and kinds of corner alone."""
    externals = [at != internal for at in range(len(sizes))]
    joints = [(2 - externals[at] - externals[(at + 1) % len(sizes)]) * module["perp_mm"] for at in range(len(sizes))]
    half, perp = module_of(module) / 2, module["perp_mm"]
    counts = [round((size - joint + perp) / half) for size, joint in zip(sizes, joints, strict=True)]
    exact = [count * half + joint - perp for count, joint in zip(counts, joints, strict=True)]
    for on_module, faces in ((False, sizes), (True, exact)):
        (loop,) = set_out_of(building(faces, externals), system(module)).result["loops"]
        residuals = [
            (size - joint + perp) - count * half for size, joint, count in zip(faces, joints, counts, strict=True)
        ]
        assert [row["half_modules_count"] for row in loop["faces"]] == counts
        assert [row["residual_mm"] for row in loop["faces"]] == pytest.approx(residuals, abs=1e-3)
        even = (len(sizes) + sum(counts)) % 2 == 0
        whole = all(abs(residual) <= 0.05 for residual in residuals)
        assert (loop["parity"] == 0, loop["closes"]) == (even, even and whole)
        assert on_module <= whole
        for row, residual, count in zip(loop["faces"], residuals, counts, strict=True):
            assert row["perp_mm"] == pytest.approx(perp + residual / max(1, (count - 1) // 2), abs=1e-3)
