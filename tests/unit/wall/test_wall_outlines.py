"""Outlines and openings: areas of the worked house, base runs, refusals at their pointers."""

import math
from typing import Any

import pytest

from storeyrod.findings import Refusal
from storeyrod.geometry.ticks import millimetres, square_metres
from unit.wall.survey import face, points, rectangle, wall, window

STEPPED = points((0, 0), (1800, 0), (1800, 150), (3723, 150), (3723, 3375), (0, 2475))
LEAN_TO = points((0, 0), (3723, 0), (3723, 3375), (0, 2475))
DOOR = window("d", x_mm=1115, y_mm=0, width_mm=910, height_mm=2100, use="door")
ARCH = {
    "kind": "arch", "id": "a", "x_mm": 1340, "width_mm": 685, "sill_mm": 900, "springing_mm": 1800, "rise_mm": 342.5,
}  # fmt: skip


def test_areas_of_a_stepped_lean_to_with_an_arch() -> None:
    # Trapezoid less step; the arch is a rectangle of 685 by 900 and half a circle of radius 342.5.
    gross = (3723 * (2475 + 3375) / 2 - 1923 * 150) * 1e-6
    arch = (685 * 900 + math.pi * 342.5**2 / 2) * 1e-6
    wall_face = face(rectangle(outline=STEPPED, openings=[ARCH]))
    assert square_metres(wall_face.gross_area) == pytest.approx(gross, abs=1e-12)
    assert square_metres(wall_face.net_area) == pytest.approx(gross - arch, abs=1e-9)
    assert square_metres(wall_face.region.area) == pytest.approx(gross - arch, abs=1e-9)


def test_a_semicircle_over_an_odd_number_of_sixteenths_of_an_inch_is_one() -> None:
    """40 1/16 in are 1017.5875 mm, half of which lies between two whole 0.0001 mm."""
    arch = ARCH | {"width_mm": 1017.5875, "rise_mm": 508.79375}
    made = face(rectangle(openings=[arch]))
    expected = (1017.5875 * 900 + math.pi * 508.79375**2 / 2) * 1e-6
    assert square_metres(made.gross_area - made.net_area) == pytest.approx(expected, abs=1e-6)


def test_width_and_height_mean_the_rectangle_from_the_origin() -> None:
    drawn = points((0, 0), (4800, 0), (4800, 2475), (0, 2475))
    assert face(rectangle()).outline == face(rectangle(outline=drawn)).outline


def test_the_way_the_corners_are_listed_changes_nothing() -> None:
    noisy = [*STEPPED[2:], *STEPPED[:2], STEPPED[2]][::-1]
    assert face(rectangle(outline=noisy)).outline == face(rectangle(outline=STEPPED)).outline


def runs(**members: Any) -> list[tuple[float, float, float]]:
    return [tuple(map(millimetres, run)) for run in face(rectangle(**members)).base_runs()]  # type: ignore[misc]


def test_base_runs_follow_the_steps_of_the_foot() -> None:
    assert runs(outline=STEPPED) == [(0, 1800, 0), (1800, 3723, 150)]


def test_a_door_on_the_foot_breaks_the_base_run() -> None:
    assert runs(outline=LEAN_TO, openings=[DOOR]) == [(0, 1115, 0), (2025, 3723, 0)]


def test_a_window_above_the_foot_leaves_the_base_run_whole() -> None:
    assert runs(openings=[window()]) == [(0, 4800, 0)]


def test_doors_at_both_ends_and_side_by_side_leave_what_is_between() -> None:
    doors = [window(name, x_mm=x, y_mm=0, width_mm=1000) for name, x in (("c", 3800), ("a", 0), ("b", 1000))]
    assert runs(openings=doors) == [(2000, 3800, 0)]


def test_an_end_stands_where_its_plumb_edge_stands() -> None:
    stepped_end = points(
        (0, 0), (4800, 0), (4800, 900), (4500, 900), (4500, 1200), (4800, 1200), (4800, 2475), (0, 2475)
    )
    heights = face(rectangle(outline=stepped_end)).edge_heights("right")
    assert [tuple(map(millimetres, one)) for one in heights] == [(0, 900), (1200, 2475)]


REFUSED: list[tuple[str, str, dict[str, Any]]] = [
    ("outline-missing", "/elevations/0", rectangle(width_mm=None)),
    ("outline-contradictory", "/elevations/0", rectangle(outline=LEAN_TO, height_mm=2475)),
    ("geometry-self-intersecting", "/elevations/0/outline",
     rectangle(outline=points((0, 0), (900, 900), (900, 0), (0, 1000)))),
    ("outline-too-small", "/elevations/0/outline", rectangle(outline=points((0, 0), (9, 9), (20, 20)))),
    ("outline-too-small", "/elevations/0/outline", rectangle(outline=points((0, 0), (39, 0), (39, 25), (0, 25)))),
    ("opening-outside-outline", "/elevations/0/openings/1",
     rectangle(openings=[window("a"), window("b", x_mm=3666)])),
    ("opening-overlap", "/elevations/0/openings/1", rectangle(openings=[window("a"), window("b", x_mm=2034)])),
    ("opening-fills-wall", "/elevations/0/openings",
     rectangle(openings=[window(x_mm=0, y_mm=0, width_mm=4800, height_mm=2475)])),
    ("opening-lining-too-thick", "/elevations/0/openings/0/reveal",
     rectangle(plane="substrate", openings=[window(width_mm=600, reveal={"left": {"lining_mm": 300},
                                                                        "right": {"lining_mm": 300}})])),
    ("arch-too-high", "/elevations/0/openings/0", rectangle(openings=[{**ARCH, "rise_mm": 343}])),
    ("arch-too-high", "/elevations/0/openings/0", rectangle(openings=[{**ARCH, "springing_mm": 899}])),
    ("soldier-over-arch", "/elevations/0/openings/0/head", rectangle(openings=[{**ARCH, "head": "soldier"}])),
    ("duplicate-id", "/elevations/0/openings/1/id", rectangle(openings=[window("a"), window("a", x_mm=2600)])),
    ("corner-too-short", "/elevations/0", rectangle("internal_corner", "internal_corner", plane="substrate",
                                                    width_mm=246)),
    ("corner-too-short", "/elevations/0", rectangle("external_corner", "external_corner", width_mm=246)),
]  # fmt: skip


@pytest.mark.parametrize(
    ("slug", "pointer", "elevation"), REFUSED, ids=[f"{row[0]} {i}" for i, row in enumerate(REFUSED)]
)
def test_what_is_no_wall_is_refused_at_its_member(slug: str, pointer: str, elevation: dict[str, Any]) -> None:
    with pytest.raises(Refusal) as caught:
        wall(elevation)
    assert (caught.value.slug, [fault.pointer for fault in caught.value.faults]) == (slug, [pointer])


@pytest.mark.parametrize(
    "elevation",
    [
        rectangle(openings=[window("a"), window("b", x_mm=2035)]),
        rectangle(openings=[window(x_mm=4800 - 1135)]),
        rectangle(openings=[{**ARCH, "springing_mm": 900}]),
        rectangle("internal_corner", "internal_corner", plane="substrate", width_mm=247),
        rectangle("external_corner", "external_corner", width_mm=247),
        rectangle(outline=points((0, 0), (40, 0), (40, 25), (0, 25))),
    ],
    ids=["openings touching", "flush with the end", "arch from its sill", "a millimetre left", "a millimetre of wall",
         "a thousand square millimetres"],
)  # fmt: skip
def test_just_inside_every_limit_is_a_wall(elevation: dict[str, Any]) -> None:
    wall(elevation)
