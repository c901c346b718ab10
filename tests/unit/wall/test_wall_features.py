"""Features of a face: where slips do not go, by hand; the ends they reach; and what is refused."""

import math
from typing import Any

import pytest

from storeyrod.findings import Refusal
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from unit.wall.survey import band, face, points, rectangle, wall, window


def in_mm(*values: float) -> tuple[float, ...]:
    return tuple(millimetres(value) for value in values)


def polygon(*corners: dict[str, float], **members: Any) -> dict[str, Any]:
    return {"kind": "polygon", "id": "f", "points": list(corners), **members}


def test_slips_go_where_neither_openings_nor_features_are() -> None:
    gable = polygon(*points((0, 1875), (4800, 1875), (2400, 2475)))
    made = face(rectangle(openings=[window(height_mm=600)], features=[band(), gable | {"id": "g"}]))
    assert made.feature_area / TICKS_PER_MM**2 == 4800 * 300 + 4800 * 600 / 2
    assert made.slip_region.area == made.net_area - made.feature_area
    assert made.region.area == made.net_area


def test_without_features_slips_go_where_the_wall_is() -> None:
    made = face(rectangle(openings=[window()]))
    assert made.slip_region is made.region


def test_a_stone_head_may_stand_on_its_opening_and_beside_another_feature() -> None:
    head = band("head", x_mm=900, y_mm=2100, width_mm=1135, height_mm=225)
    beside = band("beside", x_mm=2035, y_mm=2100, width_mm=300, height_mm=225)
    made = face(rectangle(openings=[window()], features=[head, beside]))
    runs = made.slip_region.clear_runs(2100 * TICKS_PER_MM, 2325 * TICKS_PER_MM)
    assert [in_mm(*run) for run in runs] == [(0, 900), (2335, 4800)]


ARCH = {
    "kind": "arch", "id": "a", "x_mm": 1340, "width_mm": 1185, "sill_mm": 900, "springing_mm": 1500, "rise_mm": 300,
}  # fmt: skip


def test_a_keystone_may_stand_on_the_crown_of_an_arch() -> None:
    """The polygon of the arch stands a hair outside it; what that takes of the stone is the arch's, and all areas close."""
    key = band("key", x_mm=1885, y_mm=1800, width_mm=95, height_mm=225)
    made = face(rectangle(openings=[ARCH], features=[key]))
    seen = made.feature_area / TICKS_PER_MM**2
    assert seen == pytest.approx(95 * 225, abs=0.02)
    assert seen != 95 * 225
    assert made.slip_region.area == pytest.approx(made.net_area - made.feature_area, rel=1e-12)


def test_a_stone_ring_may_follow_the_chords_of_its_arch() -> None:
    """Radius 735.1, half angle 53.7 degrees: twenty chords stay within 0.81 mm of the arc, on the side of the opening."""
    radius = (592.5**2 + 300**2) / 600
    half = math.asin(592.5 / radius)
    turns = [half - 2 * half * step / 20 for step in range(21)]
    inner, outer = (
        [(1932.5 + r * math.sin(turn), 1800 - radius + r * math.cos(turn)) for turn in turns]
        for r in (radius, radius + 225)
    )
    made = face(rectangle(openings=[ARCH], features=[polygon(*points(*inner, *reversed(outer)))]))
    # Twenty triangles out to the back of the ring, less the sector of the arch itself.
    seen = 10 * (radius + 225) ** 2 * math.sin(2 * half / 20) - half * radius**2
    assert made.feature_area / TICKS_PER_MM**2 == pytest.approx(seen, rel=1e-6)
    assert made.slip_region.area == pytest.approx(made.net_area - made.feature_area, rel=1e-9)


def test_a_quoin_takes_the_arris_from_the_slips_where_it_stands() -> None:
    quoin = band(width_mm=300, y_mm=600, height_mm=225)
    made = face(rectangle("external_corner", features=[quoin]))
    assert [in_mm(*one) for one in made.slip_edge_heights("left")] == [(0, 600), (825, 2475)]
    assert [in_mm(*one) for one in made.slip_edge_heights("right")] == [(0, 2475)]
    assert [in_mm(*one) for one in made.edge_heights("left")] == [(0, 2475)]


def test_a_corner_has_slips_where_neither_face_has_a_feature_at_it() -> None:
    first = {**rectangle(features=[band()]), "id": "a", "right_edge": {"kind": "external_corner", "to": "b:left"}}
    quoin = band(width_mm=300, y_mm=600, height_mm=225)
    second = {**rectangle(features=[quoin]), "id": "b", "left_edge": {"kind": "external_corner"}}
    (corner,) = wall(first, second).corners
    assert [in_mm(*one) for one in corner.slip_heights] == [(300, 600), (825, 2475)]
    assert [in_mm(*one) for one in corner.heights] == [(0, 2475)]


def ends(left: str, right: str, **members: Any) -> tuple[float, float]:
    (feature,) = face(rectangle(left, right, plane="substrate", features=[band(**members)])).features
    xs = [x for x, _ in feature.ring]
    return in_mm(min(xs), max(xs))  # type: ignore[return-value]


def test_a_feature_of_the_substrate_goes_with_the_ends_that_it_reaches() -> None:
    # Build-up 123: out at an external corner, back at an internal one.
    assert ends("external_corner", "internal_corner") == (-123, 4800 - 123)
    assert ends("external_corner", "external_corner", x_mm=100, width_mm=4700) == (100, 4800 + 123)
    assert ends("internal_corner", "free_end", x_mm=50, width_mm=1000) == (123, 1050)
    assert ends("internal_corner", "free_end", x_mm=150, width_mm=1000) == (150, 1150)


def test_a_feature_under_a_rake_keeps_the_rake_when_its_end_moves() -> None:
    # 900 over 3600 is 1 in 4: at 123 further out the verge is 30.75 lower.
    lean_to = points((0, 0), (3600, 0), (3600, 3375), (0, 2475))
    verge = polygon(*points((0, 2250), (3600, 3150), (3600, 3375), (0, 2475)))
    made = face(rectangle("external_corner", "abutment", plane="substrate", outline=lean_to, features=[verge]))
    assert made.feature_area / TICKS_PER_MM**2 == pytest.approx(225 * (3600 + 123), rel=1e-12)


def test_features_are_mirrored() -> None:
    drawn = [band(x_mm=0, width_mm=300), polygon(*points((1000, 600), (2000, 600), (1000, 900))) | {"id": "p"}]
    one, two = wall(rectangle(features=drawn), {"id": "handed", "mirror_of": "rear"}).faces[1].features
    assert [in_mm(*corner) for corner in one.ring] == [(4500, 0), (4800, 0), (4800, 300), (4500, 300)]
    assert [in_mm(*corner) for corner in two.ring] == [(2800, 600), (3800, 600), (3800, 900)]
    assert one.pointer == "/elevations/0/features/0"


REFUSED = {
    "outside": ("feature-outside-outline", "/elevations/0/features/0", rectangle(features=[band(x_mm=1)])),
    "behind the other face": ("feature-outside-outline", "/elevations/0/features/0",
                              rectangle("internal_corner", plane="substrate", features=[band(width_mm=123)])),
    "over an opening": ("feature-overlap", "/elevations/0/features/0",
                        rectangle(openings=[window()], features=[band(y_mm=2000)])),
    "into an arch": ("feature-overlap", "/elevations/0/features/0",
                     rectangle(openings=[ARCH], features=[band("key", x_mm=1885, y_mm=1790, width_mm=95)])),
    "over another": ("feature-overlap", "/elevations/0/features/1",
                     rectangle(features=[band("a", y_mm=100), band("b", y_mm=399)])),
    "over another listed first": ("feature-overlap", "/elevations/0/features/1",
                                  rectangle(features=[band("a", y_mm=399), band("b", y_mm=100)])),
    "of another's name": ("duplicate-id", "/elevations/0/features/1/id",
                          rectangle(features=[band(), band(y_mm=600)])),
    "everywhere": ("opening-fills-wall", "/elevations/0/features", rectangle(features=[band(height_mm=2475)])),
    "folded": ("geometry-self-intersecting", "/elevations/0/features/0/points",
               rectangle(features=[polygon(*points((0, 0), (900, 900), (900, 0), (0, 1000)))])),
}  # fmt: skip


@pytest.mark.parametrize(("slug", "pointer", "elevation"), REFUSED.values(), ids=REFUSED)
def test_a_feature_that_cannot_be_is_refused(slug: str, pointer: str, elevation: dict[str, Any]) -> None:
    with pytest.raises(Refusal) as caught:
        wall(elevation)
    assert (caught.value.slug, [fault.pointer for fault in caught.value.faults]) == (slug, [pointer])


def test_a_feature_may_have_the_name_of_an_opening() -> None:
    wall(rectangle(openings=[window("f")], features=[band()]))
