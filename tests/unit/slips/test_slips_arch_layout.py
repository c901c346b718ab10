"""Voussoirs in the whole answer: areas, what is bought, the cut list and what is said."""

import math
from collections import Counter

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from slip_walls import answer, codes, face, layout, opening, rectangle, result

from storeyrod.findings import Refusal
from storeyrod.geometry.arc import arc_vertices


def arch(x=1000, width=685, springing=900, rise=342.5, name="arch", sill=300, **voussoirs):
    return {
        "id": name, "kind": "arch", "x_mm": x, "width_mm": width, "sill_mm": sill, "springing_mm": springing,
        "rise_mm": rise, "voussoirs": voussoirs,
    }  # fmt: skip


def plain(**members):
    return {name: value for name, value in arch(**members).items() if name != "voussoirs"}


def wall(*openings, width=4490, height=3000, **more):
    return rectangle(width, height, *openings, **more)


def row(elevation, **changes):
    return result(elevation, **changes)["voussoirs"][0]


def test_the_row_says_what_a_bricklayer_asks() -> None:
    """pi x 342.5 / 15 - 65 = 6.733, pi x 445 / 15 - 65 = 28.201; pi/2 x (455^2 - 342.5^2) = 140 929.9 mm2."""
    made = row(wall(arch(cut="square", joint_max_mm=30)))
    assert {name: made[name] for name in ("elevation", "opening", "ring", "voussoirs_count", "cut_count", "cut")} == {
        "elevation": "face-0", "opening": "arch", "ring": 1, "voussoirs_count": 15, "cut_count": 0, "cut": "square",
    }  # fmt: skip
    assert (made["depth_mm"], made["width_intrados_mm"], made["width_extrados_mm"]) == (102.5, 65, 65)
    assert made["joint_intrados_mm"] == pytest.approx(6.7330, abs=1e-4)
    assert made["joint_extrados_mm"] == pytest.approx(28.2006, abs=1e-4)
    assert made["zone_area_m2"] == pytest.approx(0.1409299, abs=1e-7)
    assert made["slip_face_area_m2"] == pytest.approx(15 * 0.1025 * 0.065, abs=1e-12)
    assert made["joint_area_m2"] == pytest.approx(made["zone_area_m2"] - made["slip_face_area_m2"], abs=1e-9)


def test_totals_hold_them() -> None:
    made, bare = face(wall(arch())), face(wall(plain()))
    assert made["voussoir_face_area_m2"] == pytest.approx(
        made["slip_face_area_m2"] - made["course_face_area_m2"], abs=1e-12
    )
    assert made["net_area_m2"] == bare["net_area_m2"]
    assert made["course_face_area_m2"] < bare["course_face_area_m2"]
    assert made["joint_area_m2"] == pytest.approx(made["joint_area_by_strips_m2"], abs=1e-9)
    whole = result(wall(arch()))
    assert (whole["voussoirs_count"], made["voussoirs_count"]) == (19, 19)


def test_without_voussoirs_nothing_changes() -> None:
    made = result(wall(plain()))
    assert (made["voussoirs"], made["voussoirs_count"]) == ([], 0)


def test_two_headers_come_out_of_a_slip() -> None:
    """2 x 102.5 + 3 = 208 of 215: an even number of wedges takes half as many slips."""
    alone = wall(arch(x=0, sill=0, springing=0), width=685, height=342.5 + 112.5)
    made = layout(alone)
    voussoirs = [(size.length, count) for kind, size, count in made.straight.cuts if kind == "voussoir"]
    others = sum(count for kind, _, count in made.straight.cuts if kind != "voussoir")
    assert sum(count for _, count in voussoirs) == made.voussoirs_count
    assert made.straight.consumed <= made.straight.full + math.ceil(made.voussoirs_count / 2) + others


def test_a_ring_of_whole_square_slips_takes_whole_slips() -> None:
    """Width 2400, rise 400 has R = 2000 and an arc of 2574.0; of whole slips 35 keep joints of 8.5 to 16.4."""
    ring = arch(x=500, width=2400, rise=400, depth="stretcher", cut="square", joint_max_mm=17)
    made = layout(wall(ring))
    kinds = Counter(kind for kind, _, _ in made.straight.cuts)
    assert (made.voussoirs_count, kinds["voussoir"]) == (35, 0)
    in_courses = sum(face.full_count for face in made.faces)
    assert made.straight.full == in_courses + 35


def test_bought_by_area_they_count_with_the_courses() -> None:
    made = layout(wall(arch(rings_count=2)))
    area = made.faces[0].course_area + made.faces[0].voussoir_area
    assert made.straight.net * 215 * 65 * 1e8 == pytest.approx(area, rel=1e-12)


def test_joints_of_wedges_are_as_long_as_beds_and_perps_make_them() -> None:
    """All joints are 10 mm wide, so that their lengths give their area."""
    made = layout(wall(arch(rings_count=2)))
    lengths = made.bed_joint_length_m + made.perp_joint_length_m
    assert made.joint_area_m2 == pytest.approx(0.010 * lengths, abs=1e-9)


def test_the_cut_list_names_square_headers_by_length_and_height() -> None:
    rows = [one for one in result(wall(arch(cut="square", joint_max_mm=30)))["cut_list"] if one["kind"] == "voussoir"]
    assert rows == [{"kind": "voussoir", "length_mm": 102.5, "height_mm": 65.0, "count": 15}]


def test_the_cut_list_gives_the_widths_of_wedges_ring_by_ring() -> None:
    """pi x R / n - 10 for n = 19 between 342.5 and 445, and n = 25 between 455 and 557.5."""
    rows = [one for one in result(wall(arch(rings_count=2)))["cut_list"] if one["kind"] == "voussoir"]
    widths = {one["count"]: (one["width_intrados_mm"], one["width_extrados_mm"]) for one in rows}
    assert widths[19] == pytest.approx((math.pi * 342.5 / 19 - 10, math.pi * 445 / 19 - 10), abs=1e-4)
    assert widths[25] == pytest.approx((math.pi * 455 / 25 - 10, math.pi * 557.5 / 25 - 10), abs=1e-4)
    assert all((one["length_mm"], one["height_mm"]) == (102.5, 65.0) for one in rows)


def test_clipped_voussoirs_are_listed_apart() -> None:
    rows = [one for one in result(wall(arch(cut="taper"), height=1300))["cut_list"] if one["kind"] == "voussoir"]
    assert {one.get("trimmed", False) for one in rows} == {True, False}


def test_courses_beside_a_ring_are_cut_to_its_curve() -> None:
    rows = result(wall(arch()))["cut_list"]
    assert any(one.get("curved") for one in rows if one["kind"] == "stretcher")
    assert all("outline" not in one for one in rows if one.get("curved"))


def test_courses_beside_a_skewback_are_cut_at_its_rake() -> None:
    """The end of a ring on R = 2000 over half a width of 1200 rises atan(1600 / 1200) = 53.13 degrees."""
    rows = result(wall(arch(x=1000, width=2400, rise=400)))["cut_list"]
    rakes = [one for one in rows if "rake_deg" in one]
    assert {round(one["rake_deg"], 2) for one in rakes} == {53.13}
    assert {one["rises"] for one in rakes} == {"left", "right"}


def test_outlines_come_with_the_pieces_only() -> None:
    assert "pieces" not in row(wall(arch()), options={"detail": "summary"})
    pieces = row(wall(arch()), options={"detail": "pieces"})["pieces"]
    assert (len(pieces), {len(one["rings"][0]) for one in pieces}, {one["whole"] for one in pieces}) == (
        19,
        {4},
        {True},
    )
    key = pieces[9]["rings"][0]
    assert [(round(corner["x_mm"], 2), round(corner["y_mm"], 2)) for corner in key] == [
        (1319.18, 1242.5), (1365.82, 1242.5), (1374.29, 1345.0), (1310.71, 1345.0),
    ]  # fmt: skip


def test_what_the_request_left_open_comes_back() -> None:
    stated = {one["field"]: one["value"] for one in answer(wall(arch())).assumptions}
    pointer = "/elevations/0/openings/0/voussoirs"
    assert (stated[f"{pointer}/cut"], stated[f"{pointer}/units_count"]) == ("taper", 19)
    assert (stated[f"{pointer}/depth"], stated[f"{pointer}/joint_max_mm"]) == ("header", 15)


def test_what_is_asked_for_is_no_assumption() -> None:
    fields = {one["field"] for one in answer(wall(arch(cut="taper", units_count=19))).assumptions}
    assert not fields & {f"/elevations/0/openings/0/voussoirs/{name}" for name in ("cut", "units_count")}


def test_the_mirror_image_of_a_wall_has_the_mirror_image_of_its_rings() -> None:
    one, other = arch(x=900, rings_count=2), arch(x=1735, width=900, rise=200, name="other")
    there = [{**hole, "x_mm": 4490 - hole["x_mm"] - hole["width_mm"]} for hole in (one, other)]
    made, image = result(wall(one, other)), result(wall(*there))
    for here, mirrored in zip(made["voussoirs"], image["voussoirs"], strict=True):
        assert here["slip_face_area_m2"] == pytest.approx(mirrored["slip_face_area_m2"], abs=1e-9)
        assert (here["voussoirs_count"], here["cut_count"]) == (mirrored["voussoirs_count"], mirrored["cut_count"])


@pytest.mark.parametrize(
    "elevation",
    [
        wall(arch(rings_count=3), height=1500),
        wall(arch(x=60)),
        wall(arch(), opening(1300, 1270, 200, 400, name="vent")),
        wall(arch(), opening(700, 0, 250, 1000, name="door", head="soldier")),
        wall(arch(), existing_joints_x_mm=[1342.5]),
        wall(arch(), arch(x=1835, name="other")),
    ],
    ids=["top", "end", "opening above", "soldiers", "movement joint", "narrow pier"],
)
def test_clipped_rings_close_with_the_wall(elevation) -> None:
    assert "voussoirs-clipped" in codes(elevation)
    made = face(elevation)
    assert made["joint_area_m2"] == pytest.approx(made["joint_area_by_strips_m2"], abs=1e-6)


def test_strict_refuses_clipped_rings_and_lets_wedges_pass() -> None:
    fitting = wall(arch(x=1028.75, sill=900, springing=1650), width=2690, height=2400)
    made = {"options": {"strict": True, "perps": "equalised"}, "minimum_cut_mm": 0, "minimum_rip_mm": 0}
    assert "voussoirs-tapered" in codes(fitting, **made)
    with pytest.raises(Refusal) as caught:
        result({**fitting, "height_mm": 2025}, **made)
    assert "voussoirs-clipped" in {fault.code for fault in caught.value.faults}


# ---------------------------------------------------------------- any arch in any wall


def outline_of(piece):
    outer, *holes = [[(corner["x_mm"], corner["y_mm"]) for corner in ring] for ring in piece["rings"]]
    return Polygon(outer, holes)


def pieces_of(made):
    for course in made["elevations"][0]["courses"]:
        low, high = course["y_mm"], course["y_mm"] + course["height_mm"]
        for run in course["runs"]:
            for index in range(run["count"]):
                left = run["x_mm"] + index * run["pitch_mm"]
                yield box(left, low, left + run["width_mm"], high)
        for cut in course["cuts"]:
            ends = cut["x_mm"], cut["y_mm"], cut["x_mm"] + cut["width_mm"], cut["y_mm"] + cut["height_mm"]
            yield outline_of(cut) if "rings" in cut else box(*ends)
    for ring in made["voussoirs"]:
        yield from (outline_of(piece) for piece in ring["pieces"])


def hole_of(hole):
    left, width = hole["x_mm"], hole["width_mm"]
    arc = arc_vertices(left * 1e4, hole["springing_mm"] * 1e4, width * 1e4, hole["rise_mm"] * 1e4)
    jambs = [(left, hole["sill_mm"]), (left + width, hole["sill_mm"])]
    return Polygon([*jambs, *((x / 1e4, y / 1e4) for x, y in arc)])


@given(
    st.integers(300, 2400), st.floats(0.1, 1.0), st.integers(1, 2), st.integers(0, 700), st.integers(0, 600),
    st.sampled_from(["stretcher", "flemish", "stack"]),
)  # fmt: skip
@settings(max_examples=25, deadline=None)
def test_courses_and_voussoirs_fill_the_wall_without_overlap(width, share, rings, beside, above, bond) -> None:
    rise = round(max(1.0, width / 2 * share), 1)
    hole = arch(x=beside, width=width, rise=rise, springing=450, rings_count=rings)
    size = beside + width + 300, 450 + rise + above + 1
    try:
        made = result(wall(hole, width=size[0], height=size[1]), bond=bond, options={"detail": "pieces"})
    except Refusal as refusal:
        if refusal.slug not in ("voussoir-too-narrow", "arch-bed-thin"):
            raise
        return
    shown = made["elevations"][0]
    assert shown["joint_area_m2"] == pytest.approx(shown["joint_area_by_strips_m2"], abs=1e-6)
    pieces = list(pieces_of(made))
    together = shapely.union_all(pieces)
    assert together.area / 1e6 == pytest.approx(shown["slip_face_area_m2"], abs=1e-6)
    assert math.fsum(piece.area for piece in pieces) == pytest.approx(together.area, abs=1)
    net = shapely.difference(box(0, 0, *size), hole_of(hole))
    assert shapely.difference(together, net.buffer(0.02)).area < 1e-3
    assert len(pieces) == shown["total_count"] + shown["voussoirs_count"]
