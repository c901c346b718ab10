"""Openings that are no rectangle: their level and plumb edges, areas against closed formulas, and what is refused."""

import math
from typing import Any

import pytest

from storeyrod.findings import Refusal
from storeyrod.geometry.plane import bounds
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from storeyrod.wall.openings import FaceOpening
from unit.wall.survey import face, points, rectangle, wall, window

RAKED = points((900, 1050), (2025, 1050), (2025, 2100), (900, 1500))
STEPPED = points((900, 1050), (1350, 1050), (1350, 1200), (1800, 1200), (1800, 2100), (900, 2100))
DIAMOND = points((1500, 900), (1800, 1200), (1500, 1500), (1200, 1200))


def polygon(*corners: dict[str, float], **members: Any) -> dict[str, Any]:
    return {"kind": "polygon", "id": "p", "points": list(corners), **members}


def circle(**members: Any) -> dict[str, Any]:
    return {"kind": "circle", "id": "c", "x_mm": 1500, "y_mm": 1200, "diameter_mm": 600, **members}


def opening(one: dict[str, Any]) -> FaceOpening:
    return face(rectangle(openings=[one])).openings[0]


def in_mm(*values: float) -> list[float]:
    return [millimetres(value) for value in values]


def test_a_polygon_has_the_box_around_it() -> None:
    found = opening(polygon(*RAKED))
    assert in_mm(found.left, found.right, found.sill, found.springing, found.head) == [900, 2025, 1050, 2100, 2100]
    assert found.area / TICKS_PER_MM**2 == 1125 * (1050 + 450) / 2


def test_a_polygon_without_jambs_springs_from_its_sill() -> None:
    found = opening(polygon(*DIAMOND))
    assert in_mm(found.sill, found.springing, found.head) == [900, 900, 1500]


def test_only_level_edges_are_heads_and_sills() -> None:
    raked = opening(polygon(*RAKED))
    assert [(*in_mm(one.height), *in_mm(*one.span)) for one in raked.sills] == [(1050, 900, 2025)]
    assert raked.heads == []
    assert opening(polygon(*DIAMOND)).heads == opening(polygon(*DIAMOND)).sills == []


def test_a_stepped_opening_has_two_sills_and_two_right_jambs() -> None:
    found = opening(polygon(*STEPPED))
    assert [(*in_mm(one.height), *in_mm(*one.span)) for one in found.sills] == [(1050, 900, 1350), (1200, 1350, 1800)]
    assert [(*in_mm(one.height), *in_mm(*one.span)) for one in found.heads] == [(2100, 900, 1800)]
    assert [(*in_mm(one.x), *in_mm(*one.heights)) for one in found.jambs("left")] == [(900, 1050, 2100)]
    assert [(*in_mm(one.x), *in_mm(*one.heights)) for one in found.jambs("right")] == [
        (1350, 1050, 1200), (1800, 1200, 2100),
    ]  # fmt: skip


def test_the_way_the_corners_are_listed_changes_nothing() -> None:
    assert opening(polygon(*reversed(STEPPED))).ring == opening(polygon(*STEPPED)).ring


def test_a_rectangle_and_its_polygon_are_one_opening() -> None:
    drawn, given = opening(polygon(*points((900, 1050), (2035, 1050), (2035, 2100), (900, 2100)))), opening(window())
    assert (drawn.ring, drawn.springing, drawn.heads, drawn.sills) == (
        given.ring,
        given.springing,
        given.heads,
        given.sills,
    )
    assert [drawn.jambs(side) for side in ("left", "right")] == [given.jambs(side) for side in ("left", "right")]
    assert sorted(drawn.corners) == sorted(given.corners)


def test_an_arch_has_jambs_and_a_sill_but_no_level_head() -> None:
    arch = {
        "kind": "arch", "id": "a", "x_mm": 900, "width_mm": 685, "sill_mm": 900, "springing_mm": 1800, "rise_mm": 342.5,
    }  # fmt: skip
    found = opening(arch)
    assert found.heads == []
    assert [in_mm(one.height, *one.span) for one in found.sills] == [[900, 900, 1585]]
    assert [in_mm(one.x, *one.heights) for one in found.jambs("right")] == [[1585, 900, 1800]]


@pytest.mark.parametrize("diameter", [10, 110, 600, 2400])
def test_a_circle_has_its_area_inside_its_box_and_a_hundredth_from_its_line(diameter: float) -> None:
    found = opening(circle(diameter_mm=diameter))
    assert found.area / TICKS_PER_MM**2 == pytest.approx(math.pi * diameter**2 / 4, rel=1e-12)
    left, bottom, right, top = bounds(found.ring)
    assert found.left <= left <= right <= found.right
    assert found.sill <= bottom <= top <= found.head
    away = [abs(math.dist(one, (1500e4, 1200e4)) - diameter / 2 * 1e4) for one in found.ring]
    assert max(away) <= 100


def test_a_circle_has_neither_heads_nor_sills_nor_jambs_nor_corners() -> None:
    found = opening(circle())
    assert found.heads == found.sills == found.jambs("left") == found.jambs("right") == found.corners == []


def test_no_course_is_missed_by_rakes_and_circles() -> None:
    off = [polygon(*points((903, 1050), (2025, 1050), (2025, 2111), (903, 1511))), circle(x_mm=3000, y_mm=1213)]
    assert wall(rectangle(openings=off)).findings == ()


def test_every_level_edge_of_a_polygon_is_checked_against_the_courses() -> None:
    off = points((900, 1050), (1350, 1050), (1350, 1210), (1800, 1210), (1800, 2105), (900, 2105))
    found = wall(rectangle(openings=[polygon(*off)])).findings
    assert [(one["code"], one["value"], one["where"]["y_mm"]) for one in found] == [
        ("head-off-course", 5, 2105), ("sill-off-course", 10, 1210),
    ]  # fmt: skip


def test_only_the_threshold_of_a_polygon_on_the_foot_breaks_the_base() -> None:
    flared = points((1000, 0), (2000, 0), (2400, 2100), (600, 2100))
    runs = face(rectangle(openings=[polygon(*flared)])).base_runs()
    assert [tuple(in_mm(*run)) for run in runs] == [(0, 1000, 0), (2000, 4800, 0)]


def test_boards_are_cut_to_the_polygon() -> None:
    (found,) = face(rectangle(openings=[polygon(*RAKED)])).board_openings()
    assert found.ring == opening(polygon(*RAKED)).ring


def test_polygons_and_circles_are_mirrored() -> None:
    source = rectangle(openings=[polygon(*RAKED), circle(x_mm=3000)])
    raked, round_one = wall(source, {"id": "handed", "mirror_of": "rear"}).faces[1].openings
    assert [in_mm(*corner) for corner in raked.ring] == [[2775, 1050], [3900, 1050], [3900, 1500], [2775, 2100]]
    assert in_mm(round_one.left, round_one.right) == [4800 - 3300, 4800 - 2700]


REFUSED = {
    "crosses itself": ("geometry-self-intersecting", "/elevations/0/openings/0/points",
                       polygon(*points((900, 900), (1800, 1800), (1800, 900), (900, 1900)))),
    "on one line": ("outline-too-small", "/elevations/0/openings/0/points",
                    polygon(*points((900, 900), (1200, 900), (1800, 900)))),
    "of a few square millimetres": ("outline-too-small", "/elevations/0/openings/0/points",
                                    polygon(*points((900, 900), (931, 900), (931, 931), (900, 931)))),
    "outside": ("opening-outside-outline", "/elevations/0/openings/0", circle(x_mm=299)),
}  # fmt: skip


@pytest.mark.parametrize(("slug", "pointer", "one"), REFUSED.values(), ids=REFUSED)
def test_a_shape_that_is_no_opening_is_refused(slug: str, pointer: str, one: dict[str, Any]) -> None:
    with pytest.raises(Refusal) as caught:
        wall(rectangle(openings=[one]))
    assert (caught.value.slug, [fault.pointer for fault in caught.value.faults]) == (slug, [pointer])


def test_a_circle_may_touch_the_end_and_a_polygon_its_neighbour() -> None:
    beside = points((600, 900), (1200, 900), (900, 1500))
    wall(rectangle(openings=[circle(x_mm=300), polygon(*beside)]))
