"""Room for fasteners that is there is found: distances by hand from the middles of slips, 75 mm from course to course."""

import math
from itertools import combinations

import pytest
from fastener_requests import BOARD, SLIP, found_codes, only, places, wall
from loaded_walls import declared, peak

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest

FREE, ABUTMENT = {"kind": "free_end"}, {"kind": "abutment"}
BOX = {"breadth_m": 13, "depth_m": 13, "height_m": 12}
NEAR = 1e-6


def between(left: dict, right: dict, width: float = 1200, height: float = 600, **more: object) -> dict:
    return wall(width, height, left_edge=left, right_edge=right, **more)


def answer(
    *elevations: dict, wind: dict | None = None, board: dict | None = None, substrate: dict | None = None, **fastener
):
    system = {"board": {**BOARD, **(board or {})}, "slip": SLIP, "fastener": fastener}
    body = {"elevations": list(elevations), "system": system, "substrate": {"category": "B", **(substrate or {})}}
    return calculate(FastenerScheduleRequest.model_validate(body | ({"wind": wind} if wind else {})))


def needing(number: int) -> dict[str, float]:
    """A resistance of which a whole board in zone A needs so many: 1.4 x 1 kN/m2 x 1.5 x 0.72 m2 = 1.512 kN."""
    return declared(1.512 / (number - 0.01))


def closest(points: list[tuple[float, float]]) -> float:
    return min(math.dist(one, other) for one, other in combinations(points, 2))


@pytest.mark.parametrize(
    ("spacing", "number"),
    [
        # 5, 4 and 5 in rows of every second course: 264.6 mm along stagger over 150 mm of rise at 200 mm.
        (200, 14),
        # 3 and 3 in rows five courses, 375 mm, apart.
        (400, 6),
    ],
)
def test_rows_stagger_over_as_many_courses_as_the_spacing_asks_for(spacing: float, number: int) -> None:
    found = answer(
        between(ABUTMENT, ABUTMENT), wind=peak(building=BOX), pull_out=needing(number), min_spacing_mm=spacing,
        substrate_edge_distance_mm=0,
    )  # fmt: skip
    points = places(found, "wall-00-01")
    assert len(points) == number
    assert closest(points) >= spacing - NEAR
    assert "wind-need-unmet" not in found_codes(found)


def test_a_denser_pattern_never_sets_fewer_than_the_board_holds() -> None:
    """9 and 8 in turn on the six courses that keep 50 mm from foot and head: 51 at 100 mm, staggered by 66.1 mm."""
    counts = [
        answer(between(ABUTMENT, ABUTMENT), columns_count=columns, every_nth_course=1).result["fasteners_count"]
        for columns in (4, 5, 6, 7, 10)
    ]
    assert counts == sorted(counts)
    assert counts[-1] == 51


@pytest.mark.parametrize("columns", [4, 5, 6])
@pytest.mark.parametrize("ends", [(FREE, ABUTMENT), (ABUTMENT, FREE)])
def test_staggered_rows_keep_from_a_free_end_at_either_side(columns: int, ends: tuple[dict, dict]) -> None:
    found = answer(
        between(*ends, 1000, 300), board={"cover_length_mm": 1000, "cover_height_mm": 300}, columns_count=columns,
        every_nth_course=2, pull_out={"characteristic_kn": 0.75},
    )  # fmt: skip
    xs = [x for x, _ in places(found, "wall-00-01")]
    assert min(xs) >= 100 - NEAR if ends[0] is FREE else max(xs) <= 900 + NEAR
    assert "substrate-edge-close" not in found_codes(found)


@pytest.mark.parametrize("need", [33, 34, 35, 36, 37])
def test_what_wind_asks_for_is_set_away_from_a_free_end_while_there_is_room(need: int) -> None:
    """From 100 to 1150 mm six rows hold 7 and 6 in turn at 165 mm, 39 in all."""
    found = answer(between(FREE, ABUTMENT), wind=peak(building=BOX), pull_out=needing(need))
    points = places(found, "wall-00-01")
    assert len(points) >= need
    assert min(x for x, _ in points) >= 100 - NEAR
    assert closest(points) >= 100 - NEAR


def test_a_row_close_to_the_top_goes_to_other_courses_where_all_have_room_there() -> None:
    """300 by 450 mm: two and two at 50 and 150 mm keep 150 mm from the free end, and 192 mm from the top."""
    found = answer(
        between(ABUTMENT, FREE, 300, 450), board={"cover_height_mm": 450}, substrate_edge_distance_mm=150,
        pull_out={"characteristic_kn": 0.75},
    )  # fmt: skip
    assert places(found, "wall-00-01") == [(50.0, 107.5), (150.0, 107.5), (50.0, 257.5), (150.0, 257.5)]


def test_levelling_and_old_render_set_the_arris_of_the_wall_back() -> None:
    """The arris that holds is 20 + 3 + 100 + 60 + 40 = 223 mm behind the corner, and fasteners keep 100 mm from it."""
    first = wall(6000, 1200, right_edge={"kind": "external_corner", "to": "other:left"})
    other = {**wall(6000, 1200, left_edge={"kind": "external_corner", "to": "wall:right"}), "id": "other"}
    found = answer(first, other, substrate={"levelling_mm": 60, "render_mm": 40}, columns_count=10)
    rows = found.result["positions"]
    assert max(row["x_mm"] for row in rows if row["piece"].startswith("wall")) <= 6000 - 323 + NEAR
    assert min(row["x_mm"] for row in rows if row["piece"].startswith("other")) >= 323 - NEAR


@pytest.mark.parametrize("edge", [90, 100, 101, 120])
def test_fasteners_close_to_a_jamb_are_named_whatever_the_distance_from_the_edges_of_boards(edge: float) -> None:
    """A pier of 150 mm: its column stands 75 mm from both jambs."""
    door = {"id": "door", "kind": "rectangle", "x_mm": 150, "y_mm": 0, "width_mm": 900, "height_mm": 600}
    found = answer(wall(2400, 1200, openings=[door]), edge_distance_mm=edge, pull_out={"characteristic_kn": 0.5})
    assert only(found, "substrate-edge-close")["value"] == 75.0


@pytest.mark.parametrize(("width", "needed"), [(100, 3), (99, 3), (60, 2)])
def test_a_pier_too_narrow_for_the_edge_distance_has_its_fasteners_one_over_the_other(
    width: float, needed: int
) -> None:
    """1.4 x 1 kN/m2 x 1.5 on 600 mm of height at 0.0525 kN each: 2.4, 2.38 and 1.44."""
    door = {"id": "door", "kind": "rectangle", "x_mm": width, "y_mm": 0, "width_mm": 500, "height_mm": 600}
    pier = between(ABUTMENT, ABUTMENT, 1100 + width, 600, openings=[door])
    found = answer(pier, wind=peak(building=BOX), pull_out=declared(0.0525))
    points = places(found, "wall-00-01")
    assert len(points) == needed
    assert {x for x, _ in points} == {width / 2}


def test_fasteners_without_a_least_spacing_stand_no_closer_than_their_heads() -> None:
    """House rule: 20 mm."""
    found = answer(between(ABUTMENT, ABUTMENT), wind=peak(building=BOX), pull_out=declared(0.005), min_spacing_mm=0)
    assert closest(places(found, "wall-00-01")) >= 20 - NEAR


def counts(*elevations: dict, **system: object) -> list[list[int]]:
    body = {"elevations": list(elevations), "system": {"slip": SLIP, **system}, "options": {"effort": "quick"}}
    rows = calculate(FastenerScheduleRequest.model_validate(body)).result["pieces"]
    return [
        sorted(row["fasteners_count"] for row in rows if row["piece"].startswith(elevation["id"]))
        for elevation in elevations
    ]


def test_the_mirror_image_of_boards_round_a_circle_takes_as_many() -> None:
    circle = {"id": "o", "kind": "circle", "x_mm": 2225, "y_mm": 1200, "diameter_mm": 600}
    board = {"cover_length_mm": 600, "cover_height_mm": 480, "thickness_mm": 60, "rib_pitch_mm": 60}
    drawn, image = counts(
        wall(4000, 2700, openings=[circle]), {"id": "image", "mirror_of": "wall"},
        board=board, slip={"length_mm": 215, "height_mm": 50, "thickness_mm": 20}, fastener={"min_spacing_mm": 300},
    )  # fmt: skip
    assert drawn == image


def test_the_mirror_image_of_boards_round_a_pointed_window_takes_as_many() -> None:
    def ring(*points: tuple[float, float]) -> list[dict]:
        return [{"x_mm": x, "y_mm": y} for x, y in points]

    window = {
        "id": "o",
        "kind": "polygon",
        "points": ring((900, 450), (1200, 450), (1200, 720), (1050, 900), (900, 720)),
    }
    gable = {
        "id": "wall", "openings": [window],
        "outline": ring((0, 0), (7777.5, 0), (7777.5, 1200), (3888.75, 7422), (0, 1200)),
    }  # fmt: skip
    board = {"cover_length_mm": 600, "cover_height_mm": 600, "thickness_mm": 60, "rib_pitch_mm": 75}
    fastener = {"edge_distance_mm": 120, "min_spacing_mm": 150}
    drawn, image = counts(gable, {"id": "image", "mirror_of": "wall"}, board=board, fastener=fastener)
    assert drawn == image


def system(length: float, height: float, pitch: float, **fastener: object) -> dict:
    """Boards and slips whose courses are a pitch apart, beds of 10 mm."""
    board = {"cover_length_mm": length, "cover_height_mm": height, "thickness_mm": 100, "rib_pitch_mm": pitch}
    return {"board": board, "slip": {**SLIP, "height_mm": pitch - 10}, "fastener": fastener}


def laid(elevation: dict, of: dict, **members: object):
    body = {"elevations": [elevation], "system": of, "substrate": {"category": "B"}, **members}
    return calculate(FastenerScheduleRequest.model_validate(body))


@pytest.mark.parametrize(
    ("width", "of", "number", "codes"),
    [
        # One course in reach: 750/50 + 1 = 16 fit, 15 are asked for.
        (
            900,
            system(1200, 258, 86, columns_count=6, every_nth_course=1, edge_distance_mm=75, min_spacing_mm=50),
            15,
            [],
        ),
        # 850/50 + 1 of 24, and 1050/70 + 1 of 18.
        (
            1000,
            system(1000, 258, 86, columns_count=8, every_nth_course=1, edge_distance_mm=75, min_spacing_mm=50),
            18,
            ["fasteners-few"],
        ),
        (
            1200,
            system(1200, 225, 75, columns_count=6, every_nth_course=1, edge_distance_mm=75, min_spacing_mm=70),
            16,
            ["fasteners-few"],
        ),
    ],
)
def test_a_course_is_filled_up_to_the_spacing_before_fasteners_are_called_few(
    width: float, of: dict, number: int, codes: list[str]
) -> None:
    height = of["board"]["cover_height_mm"]
    found = laid(between(ABUTMENT, ABUTMENT, width, height), of)
    assert len(places(found, "wall-00-01")) == number
    assert [code for code in found_codes(found) if code == "fasteners-few"] == codes


def test_staggered_rows_take_equal_shares_of_their_board() -> None:
    """406.5 mm over four: quarters at 101.6 and 304.9 mm on both courses."""
    of = system(800, 225, 75, columns_count=6, every_nth_course=3, edge_distance_mm=20, min_spacing_mm=150)
    found = laid(between(ABUTMENT, ABUTMENT, 406.5, 225), of)
    assert [round(x, 1) for x, _ in places(found, "wall-00-01")] == [101.6, 304.9, 101.6, 304.9]


def test_closer_columns_are_spread_anew_over_the_whole_row() -> None:
    """Eight on the only course of a board of 1200 mm: every 150 mm."""
    found = laid(between(ABUTMENT, ABUTMENT, 1200, 225), system(1200, 225, 75, every_nth_course=2))
    assert [x for x, _ in places(found, "wall-00-01")] == [75 + 150 * index for index in range(8)]


def test_rows_laid_anew_off_a_free_end_reach_as_far_towards_it_as_they_may() -> None:
    of = system(600, 600, 60, columns_count=4, edge_distance_mm=30, substrate_edge_distance_mm=200)
    found = laid(between(ABUTMENT, FREE, 440, 1200), of)
    assert max(x for x, _ in places(found, "wall-00-01")) == pytest.approx(440 - 200)


@pytest.mark.parametrize("spacing", [80, 86, 87, 100])
def test_a_row_close_to_the_top_finds_room_on_the_others_at_any_spacing(spacing: float) -> None:
    """Nine on the courses at 38 and 124 mm keep 100 mm from a top at 292 mm."""
    of = system(
        600, 258, 86, columns_count=3, every_nth_course=1, edge_distance_mm=20, min_spacing_mm=spacing,
        pull_out={"characteristic_kn": 1},
    )  # fmt: skip
    found = laid(between(ABUTMENT, ABUTMENT, 600, 292), of, wind=peak(building=BOX))
    assert {y for _, y in places(found, "wall-00-01")} == {38, 124}
    assert closest(places(found, "wall-00-01")) >= spacing - NEAR
