"""Voussoirs, by hand and against polygons of shapely."""

import math
from itertools import combinations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import rotate
from shapely.geometry import Polygon, box
from slip_walls import opening, outline, rectangle, request

from storeyrod.findings import Refusal
from storeyrod.slips.arch_rings import voussoir_rings
from storeyrod.slips.face_slips import free_region, plumb_boxes
from storeyrod.trace import Recorder
from storeyrod.wall.wall import wall_of

MM2 = 1e8
"""Square ticks of a square millimetre."""


def arch(x=1000, width=685, springing=900, rise=342.5, name="arch", sill=300, **voussoirs):
    return {
        "id": name, "kind": "arch", "x_mm": x, "width_mm": width, "sill_mm": sill, "springing_mm": springing,
        "rise_mm": rise, "voussoirs": voussoirs,
    }  # fmt: skip


def laid(elevation, strips=(), trace=None, **changes):
    """Rings, the region left for courses, findings, and the face."""
    made = request(elevation, **changes)
    face = wall_of(made.elevations, made.system).faces[0]
    free = free_region(face, plumb_boxes(face, [(left * 1e4, right * 1e4) for left, right in strips]))
    rings, rest, findings = voussoir_rings(face, free, made.system, *([] if trace is None else [trace]))
    return rings, rest, findings, free


def wall(*openings, width=4490, height=3000):
    return rectangle(width, height, *openings)


def setting(number=1, **voussoirs):
    return laid(wall(arch(**voussoirs)))[0][number - 1].setting


def refused(elevation, **changes):
    with pytest.raises(Refusal) as caught:
        laid(elevation, **changes)
    return caught.value


def polygons(ring):
    """Millimetres."""
    return [Polygon([(x / 1e4, y / 1e4) for x, y in outer]) for outer, *_ in ring.outlines]


# ---------------------------------------------------------------- numbers and joints


def test_the_semicircle_of_685_takes_15_headers_with_joints_from_6_7_to_28_2() -> None:
    """pi x 342.5 / 15 - 65 = 6.733 and pi x 445 / 15 - 65 = 28.201; 1075.995 / 75 = 14.35, and 13 would leave 17.8."""
    made = setting(cut="square", joint_max_mm=30)
    assert (made.count, made.depth_mm, made.width_intrados_mm, made.width_extrados_mm) == (15, 102.5, 65, 65)
    assert made.joint_intrados_mm == pytest.approx(math.pi * 342.5 / 15 - 65, abs=1e-9)
    assert made.joint_extrados_mm == pytest.approx(math.pi * 445 / 15 - 65, abs=1e-9)
    assert (round(made.joint_intrados_mm, 1), round(made.joint_extrados_mm, 1)) == (6.7, 28.2)


def test_square_slips_whose_joint_is_too_wide_outside_are_refused_with_value_limit_and_cure() -> None:
    refusal = refused(wall(arch(cut="square")))
    assert refusal.slug == "arch-joint-wide"
    assert refusal.faults[0].pointer == "/elevations/0/openings/0/voussoirs"
    for word in ("28.2", "joint_max_mm 15", "taper"):
        assert word in refusal.detail


def test_more_rings_of_headers_are_offered_for_a_ring_of_whole_slips() -> None:
    assert "more rings" in refused(wall(arch(cut="square", depth="stretcher"))).detail


@pytest.mark.parametrize(("least", "slug"), [(6.73, None), (6.74, "arch-joint-narrow")])
def test_the_joint_at_the_intrados_has_a_limit(least, slug) -> None:
    elevation = wall(arch(cut="square", units_count=15, joint_min_mm=least, joint_max_mm=30))
    if slug is None:
        assert laid(elevation)[0][0].count == 15
    else:
        assert refused(elevation).slug == slug


def test_a_wide_arch_keeps_square_slips_without_being_asked() -> None:
    """Width 2400, rise 400: R = (1200^2 + 400^2) / 800 = 2000; 102.5 x 75 / 2000 is what a pitch gains, about 3.8 mm."""
    rings, _, findings, _ = laid(wall(arch(width=2400, rise=400)))
    made = rings[0].setting
    arc = 2 * 2000 * math.asin(1200 / 2000)
    assert (made.cut, findings) == ("square", [])
    assert made.arc_mm == pytest.approx(arc, abs=1e-9)
    assert made.count == 35  # 2574.0 / 75 = 34.3; 33 leaves 13.0 and 35 leaves 8.5: 10 is nearer to 8.5
    assert made.joint_extrados_mm - made.joint_intrados_mm == pytest.approx(arc / 35 * 102.5 / 2000, abs=1e-9)


def test_the_number_stays_odd_and_moves_to_where_both_joints_keep_their_limits() -> None:
    """The same arch: 35 units have joints of 8.54 to 12.31. A limit of 12 takes 37: 4.57 to 8.13."""
    assert setting(width=2400, rise=400, joint_min_mm=4, joint_max_mm=12).count == 37


def test_slips_are_tapered_where_square_ones_would_leave_the_limits_and_the_answer_says_so() -> None:
    """19 is the least odd number with pi x 445 / n - 10 <= 65: 18.64 pitches of 75 mm go into the extrados."""
    rings, _, findings, _ = laid(wall(arch()))
    made = rings[0].setting
    assert (made.cut, made.count) == ("taper", 19)
    assert made.width_intrados_mm == pytest.approx(math.pi * 342.5 / 19 - 10, abs=1e-9)  # 46.63
    assert made.width_extrados_mm == pytest.approx(math.pi * 445 / 19 - 10, abs=1e-9)  # 63.58
    assert (made.joint_intrados_mm, made.joint_extrados_mm) == (10, 10)
    assert [item["code"] for item in findings] == ["voussoirs-tapered"]
    assert (findings[0]["value"], findings[0]["limit"]) == (pytest.approx(28.2006, abs=1e-4), 15)


def test_asking_for_taper_needs_no_finding() -> None:
    assert laid(wall(arch(cut="taper")))[2] == []


def test_a_number_that_exactly_fills_the_extrados_is_taken() -> None:
    """21 wedges of 65 with joints of 10 need pi x Ro = 21 x 75; then R = Ro - 102.5."""
    radius = round(21 * 75 / math.pi - 102.5, 4)
    made = setting(width=2 * radius, rise=radius, cut="taper")
    assert (made.count, made.width_extrados_mm) == (21, pytest.approx(65, abs=2e-4))


def test_units_count_fixes_the_innermost_ring_alone() -> None:
    rings = laid(wall(arch(cut="taper", units_count=20, rings_count=2)))[0]
    assert rings[0].setting.count == 20
    assert rings[1].setting.count == 25  # pi x 557.5 / 75 = 23.35


def test_too_few_wedges_would_be_wider_than_a_slip() -> None:
    """17: pi x 445 / 17 - 10 = 72.2 over 65; 18.64 pitches ask for 19."""
    refusal = refused(wall(arch(cut="taper", units_count=17)))
    assert refusal.slug == "voussoir-too-wide"
    assert "at least 19" in refusal.detail


@pytest.mark.parametrize(("least", "refuses"), [(46.6, False), (46.7, True)])
def test_the_narrow_end_of_a_wedge_keeps_the_least_height_of_a_rip(least, refuses) -> None:
    elevation = wall(arch(cut="taper"))
    if refuses:
        assert refused(elevation, minimum_rip_mm=least).slug == "voussoir-too-narrow"
    else:
        assert laid(elevation, minimum_rip_mm=least)[0][0].count == 19


def test_joints_between_wedges_keep_the_limits_too() -> None:
    assert refused(wall(arch(cut="taper", joint_max_mm=9))).slug == "arch-joint-wide"
    assert refused(wall(arch(cut="taper", joint_min_mm=11))).slug == "arch-joint-narrow"


@pytest.mark.parametrize(("bed", "refuses"), [(1.2, False), (1.1, True)])
def test_corners_of_straight_ends_must_stay_under_the_joint_above(bed, refuses) -> None:
    """A wedge 63.58 wide at the radius 445: sqrt(445^2 + 31.79^2) - 445 = 1.134."""
    elevation = wall(arch(cut="taper"))
    if refuses:
        assert refused(elevation, joint={"bed_mm": bed}).slug == "arch-bed-thin"
    else:
        assert laid(elevation, joint={"bed_mm": bed})[0][0].count == 19


def test_each_ring_has_its_own_number_over_the_joint_of_the_ring_below() -> None:
    """Rings of 102.5 and joints of 10: radii 342.5, 455 and 567.5; extrados 445, 557.5 and 670."""
    rings = laid(wall(arch(rings_count=3)))[0]
    assert [ring.setting.radius_mm for ring in rings] == [342.5, 455, 567.5]
    assert [ring.setting.count for ring in rings] == [19, 25, 29]  # 18.6, 23.4 and 28.1 pitches of 75


def test_a_ring_may_be_a_whole_slip_deep() -> None:
    made = setting(width=2400, rise=400, depth="stretcher", joint_max_mm=20)
    assert (made.depth_mm, made.cut) == (215, "square")


def test_a_slip_without_header_is_refused() -> None:
    refusal = refused(wall(arch(width=2400, rise=400)), slip={"length_mm": 30}, joint={"perp_mm": 30})
    assert refusal.slug == "header-too-short"


def test_every_step_of_the_working_is_linked() -> None:
    trace = Recorder()
    laid(wall(arch(rings_count=2, units_count=19)), trace=trace)
    names = {step["id"] for step in trace.steps}
    origins = {entry["from"] for step in trace.steps for entry in step["inputs"]}
    assert all(origin in names or origin.startswith("/") for origin in origins)
    assert "/elevations/0/openings/0/voussoirs/units_count" in origins


# ---------------------------------------------------------------- areas, in the wall and against polygons


def fan(x, springing, width, rise, inner, outer):
    """An annular sector as a polygon of 20 000 chords."""
    radius = (width**2 / 4 + rise**2) / (2 * rise)
    half = math.asin(min(1.0, width / 2 / radius))
    centre = x + width / 2, springing + rise - radius
    turns = [half * (2 * at / 20_000 - 1) for at in range(20_001)]
    return Polygon(
        [(centre[0] + r * math.sin(a), centre[1] + r * math.cos(a)) for r, way in ((outer, 1), (inner, -1)) for a in turns[::way]]
    )  # fmt: skip


def test_areas_of_square_voussoirs_are_slips_and_sector() -> None:
    """Zone pi/2 x (455^2 - 342.5^2), slips 15 x 65 x 102.5."""
    ring = laid(wall(arch(cut="square", joint_max_mm=30)))[0][0]
    assert ring.zone_area / MM2 == pytest.approx(math.pi / 2 * (455**2 - 342.5**2), abs=1e-6)
    assert ring.face_area / MM2 == pytest.approx(15 * 65 * 102.5, abs=1e-6)
    assert ring.joint_area / MM2 == pytest.approx(math.pi / 2 * (455**2 - 342.5**2) - 15 * 65 * 102.5, abs=1e-4)


def test_areas_of_wedges_are_the_sector_less_parallel_joints() -> None:
    """Between 342.5 and 445 the sector less 19 joints of 10 x 102.5 are slips."""
    ring = laid(wall(arch(cut="taper")))[0][0]
    assert ring.face_area / MM2 == pytest.approx(math.pi / 2 * (445**2 - 342.5**2) - 19 * 10 * 102.5, abs=1e-4)


@pytest.mark.parametrize(("width", "rise", "more"), [
    (685, 342.5, {"cut": "square", "joint_max_mm": 30}), (685, 342.5, {"cut": "taper", "rings_count": 3}),
    (2400, 400, {"rings_count": 2}), (1500, 150, {"depth": "stretcher"}),
])  # fmt: skip
def test_both_measures_of_joints_agree_with_polygons(width, rise, more) -> None:
    rings = laid(wall(arch(width=width, rise=rise, **more)))[0]
    for ring in rings:
        made = ring.setting
        zone = fan(1000, 900, width, rise, made.radius_mm, made.extrados_mm + 10)
        pieces = shapely.union_all(polygons(ring))
        assert ring.zone_area - ring.face_area == pytest.approx(ring.joint_area, abs=1e-9 * 1e14)
        assert zone.area == pytest.approx(ring.zone_area / MM2, abs=0.05)
        assert pieces.area == pytest.approx(ring.face_area / MM2, abs=1e-4)
        assert shapely.difference(zone, pieces).area == pytest.approx(ring.joint_area / MM2, abs=0.1)


def test_a_square_voussoir_is_a_slip_turned_about_the_centre() -> None:
    """The fourth of 15 stands (3 - 7) x 12 degrees from plumb; shapely turns anticlockwise."""
    ring = laid(wall(arch(cut="square", joint_max_mm=30)))[0][0]
    upright = box(1342.5 - 32.5, 900 + 342.5, 1342.5 + 32.5, 900 + 445)
    turned = rotate(upright, 48, origin=(1342.5, 900))
    assert polygons(ring)[3].symmetric_difference(turned).area < 1e-3


def test_voussoirs_stand_apart_outside_the_opening_and_inside_their_zone() -> None:
    elevation = wall(arch(rings_count=3))
    rings, rest, _, _ = laid(elevation)
    pieces = [piece for ring in rings for piece in polygons(ring)]
    assert all(one.distance(other) > 6 for one, other in combinations(pieces, 2))
    zone = fan(1000, 900, 685, 342.5, 342.5, 680)
    assert shapely.difference(shapely.union_all(pieces), zone.buffer(0.001)).area < 1e-3
    left = shapely.affinity.scale(rest.polygon, 1e-4, 1e-4, origin=(0, 0))
    assert shapely.intersection(shapely.union_all(pieces), left).area == 0


def test_half_a_joint_lies_at_each_springing() -> None:
    """The lowest wedges: their sides stand 5 mm over the springing, within what an arc differs from its chord."""
    pieces = polygons(laid(wall(arch(cut="taper")))[0][0])
    for piece in (pieces[0], pieces[-1]):
        assert piece.bounds[1] == pytest.approx(905, abs=0.15)


def test_a_segmental_arch_springs_from_a_skewback() -> None:
    """The ends of the zone point to the centre, at (2200, 1300 - 2000): the right one runs along 3 : 4."""
    rest = laid(wall(arch(width=2400, rise=400)))[1]
    left = shapely.affinity.scale(rest.polygon, 1e-4, 1e-4, origin=(0, 0))
    along, across = (0.6, 0.8), (0.8, -0.6)
    for depth in (1, 50, 112):
        x, y = 3400 + depth * along[0], 900 + depth * along[1]
        assert left.contains(shapely.Point(x + across[0] * 0.01, y + across[1] * 0.01))
        assert not left.intersects(shapely.Point(x - across[0] * 0.01, y - across[1] * 0.01))


def closes(elevation, strips=(), **changes):
    rings, rest, findings, free = laid(elevation, strips, **changes)
    zones = math.fsum(ring.zone_area for ring in rings)
    assert rest.area + zones == pytest.approx(free.area, abs=1e-7 * 1e14)
    for ring in rings:
        assert ring.face_area + ring.joint_area == pytest.approx(ring.zone_area, abs=1e-9 * 1e14)
    return rings, findings


def test_zones_and_courses_fill_the_wall() -> None:
    rings, findings = closes(wall(arch(rings_count=3), arch(x=2800, width=900, rise=150, name="other")))
    assert {item["code"] for item in findings} == {"voussoirs-tapered"}
    assert [ring.opening.id for ring in rings] == ["arch", "arch", "arch", "other"]


CLIPPED = [
    ("top", wall(arch(), height=1300), ()),
    ("end", wall(arch(x=50)), ()),
    ("rake", outline((0, 0), (4000, 0), (4000, 3000), (0, 1000)), ()),
    ("opening above", wall(arch(), opening(1300, 1270, 200, 400, name="vent")), ()),
    ("movement joint", wall(arch()), [(1340, 1350)]),
    ("soldiers beside", wall(arch()), [(600, 900)]),
]


@pytest.mark.parametrize(("elevation", "strips"), [row[1:] for row in CLIPPED], ids=[row[0] for row in CLIPPED])
def test_clipped_rings_are_reported_and_still_close(elevation, strips) -> None:
    if "outline" in elevation:
        elevation = {**elevation, "openings": [arch(x=600, springing=1000)]}
    rings, findings = closes(elevation, strips)
    clipped = next(item for item in findings if item["code"] == "voussoirs-clipped")
    assert clipped["value"] < 1
    assert clipped["where"]["opening"] == "arch"
    assert len(rings[0].whole) < 19


def test_voussoirs_beside_the_clipped_ones_stay_whole() -> None:
    """A slot of 10 mm at the crown of 19 wedges cuts the key into two; the other 18 stand."""
    ring = closes(wall(arch(cut="taper")), [(1337.5, 1347.5)])[0][0]
    assert (len(ring.whole), [index for index, _ in ring.parts], ring.count) == (18, [9, 9], 20)
    assert [part.area / MM2 for _, part in ring.parts] == pytest.approx(
        2 * [(46.631 + 63.579) / 4 * 102.5 - 5 * 102.5], abs=1
    )


def test_rings_over_a_narrow_pier_meet_at_its_middle() -> None:
    """Piers of 150 mm take two rings of 112.5: each arch loses as much, and the left is the mirror of the right."""
    rings, findings = closes(wall(arch(x=1000), arch(x=1835, name="other")))
    assert [item["code"] for item in findings].count("voussoirs-clipped") == 2
    assert rings[0].zone_area == pytest.approx(rings[1].zone_area, abs=1e-9 * 1e14)
    assert rings[0].zone_area / 1e14 < 0.1409298
    reach = max(piece.bounds[2] for piece in polygons(rings[0]))
    assert reach == pytest.approx(1760, abs=1e-3)


def test_of_two_arches_above_one_another_the_lower_ring_is_whole() -> None:
    """The upper opening stands over the right shoulder of the lower ring, whose other voussoirs give nothing to the upper ring."""
    low, high = arch(name="low"), arch(name="high", x=1600, sill=1130, springing=1140)
    rings, findings = closes(wall(high, low))
    alone = laid(wall({**high, "voussoirs": None}, low))[0][0]
    upper, lower = rings
    assert (lower.opening.id, lower.zone_area) == ("low", pytest.approx(alone.zone_area, abs=1e4))
    assert upper.share < 0.95
    assert [item["where"]["opening"] for item in findings if item["code"] == "voussoirs-clipped"] == ["high", "low"]


def test_a_ring_wholly_outside_the_wall_has_no_pieces() -> None:
    """The wall ends on the crown of the inner ring's joint, at 900 + 455; the outer ring keeps its shoulders only."""
    rings, _ = closes(wall(arch(rings_count=2), height=1250))
    assert rings[1].count < rings[1].setting.count


@given(
    st.integers(200, 3000), st.floats(0.05, 1.0), st.integers(1, 3), st.sampled_from(["header", "stretcher"]), st.integers(0, 900),
    st.integers(0, 600),
)  # fmt: skip
@settings(max_examples=40, deadline=None)
def test_any_arch_in_any_wall_closes_and_its_pieces_stand_apart(
    width, share, rings_count, depth, beside, above
) -> None:
    rise = round(max(1.0, width / 2 * share), 1)
    hole = arch(x=beside, width=width, rise=rise, cut="taper", rings_count=rings_count, depth=depth)
    elevation = wall(hole, width=beside + width + 300, height=900 + rise + above + 1)
    try:
        rings, _ = closes(elevation)
    except Refusal as refusal:
        if refusal.slug not in ("voussoir-too-narrow", "arch-bed-thin"):
            raise
        return
    pieces = [piece for ring in rings for piece in polygons(ring)]
    assert shapely.union_all(pieces).area == pytest.approx(sum(piece.area for piece in pieces), abs=1e-2)
