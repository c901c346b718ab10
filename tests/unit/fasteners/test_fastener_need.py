"""Fasteners by need. Board 1200 x 600 = 0.72 m2, eight courses; the pattern of common practice puts eight into it.

Coefficients for up to 1 m2 are those of EN 1991-1-4, Table 7.1, from memory: A -1.4, B -1.1, C -0.5. At 1 kPa and a partial factor of
1.5 the design action on a board is 1.512 kN in zone A, 1.188 kN in B and 0.54 kN in C. All counts are by hand.
"""

from itertools import combinations, pairwise

import pytest
from fastener_requests import wall, window
from loaded_walls import FRONT, codes, declared, peak, pieces, pulls, scheduled
from shapely.geometry import LinearRing, LineString, Point

ONE, TWO, THREE = "wall-00-01", "wall-00-02", "wall-00-03"

ROW = wall(6000, 600, face=FRONT)
"""Five whole boards beside one another at the left end of the front; zone A ends 2 m from it."""


ABUTTED = {f"{side}_edge": {"kind": "abutment"} for side in ("left", "right")}

BOARD_ALONE = wall(1200, 600, face=FRONT, **ABUTTED)
"""One whole board, without an edge of the substrate in reach."""


def only(*elevations, wind=None, **fastener):
    """The first piece of a schedule."""
    return pieces(scheduled(*elevations, wind=wind or peak(), **fastener))[ONE]


def test_the_action_on_a_board_is_its_area_at_design_suction() -> None:
    need = only(ROW, pull_out=declared(0.24)).need
    assert (need.patch.zone, need.patch.suction) == ("A", pytest.approx(1400))
    assert need.area == pytest.approx(0.72)
    assert need.action == pytest.approx(1.5 * 1.4 * 0.72)


def test_where_the_pattern_holds_more_than_the_wind_asks_it_governs() -> None:
    """Tests with a mean of 0.80 kN: 0.6 of it over 2.0 is 0.24 kN; 1.512/0.24 = 6.3, so seven, and the pattern has eight."""
    one = only(ROW, pull_out={"tests_kn": pulls(0.80)})
    assert (one.need.needed, one.need.minimum, one.total) == (7, 8, 8)
    assert one.need.governed_by == "minimum"


def test_where_the_wind_asks_for_more_than_the_pattern_it_governs() -> None:
    """A mean of 0.50 kN is 0.15 kN each: 10.08, so eleven."""
    one = only(ROW, pull_out={"tests_kn": pulls(0.50)})
    assert (one.need.needed, one.need.governed_by) == (11, "pull_out")
    assert one.total >= 11


def test_a_third_row_stands_half_way_between_the_two_of_the_pattern() -> None:
    """Rows on courses 2 and 6 at 182.5 and 482.5; course 4 at 332.5 makes twelve."""
    one = only(ROW, pull_out=declared(0.15))
    assert sorted({y / 1e4 for _, y in one.places}) == [182.5, 332.5, 482.5]
    assert one.total == 12


def test_a_board_that_zone_a_touches_is_wholly_zone_a_and_the_next_is_not() -> None:
    """Zone A ends at 2000, inside the second board."""
    found = pieces(scheduled(ROW, wind=peak(), pull_out=declared(0.15)))
    assert [found[name].need.patch.zone for name in (ONE, TWO, THREE)] == ["A", "A", "B"]
    assert [found[name].total for name in (ONE, TWO, THREE)] == [12, 12, 8]


def test_in_zone_b_the_pattern_just_suffices() -> None:
    """1.188/0.15 = 7.92, so eight: as many as the pattern has, which still governs."""
    need = pieces(scheduled(ROW, wind=peak(), pull_out=declared(0.15)))[THREE].need
    assert (need.needed, need.governed_by) == (8, "minimum")


def test_a_resistance_that_just_holds_the_action_needs_no_fastener_more() -> None:
    """1.512/8 = 0.189: eight times it is the action but for rounding."""
    assert only(ROW, pull_out=declared(0.189)).need.needed == 8


def test_a_resistance_a_little_less_needs_one_more() -> None:
    assert only(ROW, pull_out=declared(0.1889)).need.needed == 9


def test_after_the_rows_columns_come_closer_one_at_a_time() -> None:
    """0.1165 kN: 12.98, so thirteen. Courses 1, 3 and 5 are 75 from rows on 2, 4 and 6, so a fifth column in one row."""
    one = only(ROW, pull_out=declared(0.1165))
    rows = [sum(y == height for _, y in one.places) for height in sorted({y for _, y in one.places})]
    assert (one.need.needed, sum(rows), sorted(rows)) == (13, 13, [4, 4, 5])


@pytest.mark.parametrize("design", [0.15, 0.1165, 0.09, 0.06])
def test_more_fasteners_keep_the_spacing_and_the_edges(design: float) -> None:
    places = only(ROW, pull_out=declared(design)).places
    assert all(500_000 <= x <= 11_500_000 and 500_000 <= y <= 5_500_000 for x, y in places)
    assert all((a - c) ** 2 + (b - d) ** 2 >= 1_000_000.0**2 for (a, b), (c, d) in combinations(places, 2))


def test_a_full_board_takes_three_straight_rows_of_twelve() -> None:
    """1100 between the edge distances holds twelve at 100; 1.512 over 36 is 0.042 kN."""
    met = only(BOARD_ALONE, pull_out=declared(0.042))
    assert (met.need.needed, met.total, met.need.met) == (36, 36, True)
    assert len({y for _, y in met.places}) == 3


def test_where_straight_rows_have_no_room_they_are_staggered() -> None:
    """0.0415 kN: 36.4, so 37. Rows on every course lie 75 apart, so those of one stand 66.1 beside those of the next
    (66.1 and 75 make 100): columns at 132.3, and wider ones until there are too few.
    """
    met = only(BOARD_ALONE, pull_out=declared(0.0415))
    assert met.need.met
    assert len({y for _, y in met.places}) == 6
    assert all((a - c) ** 2 + (b - d) ** 2 >= 999_999.0**2 for (a, b), (c, d) in combinations(met.places, 2))


def test_a_need_that_has_no_room_is_a_stop_finding_with_its_pieces_and_what_is_used() -> None:
    """Six courses; 1100 holds nine columns at 132.3 from the left, and eight from 66.1 farther: 3*9 + 3*8 = 51.

    0.029 kN: 52.1, so 53: 1.512/(51*0.029) = 1.0223.
    """
    found = scheduled(BOARD_ALONE, wind=peak(), pull_out=declared(0.029))
    (item,) = [item for item in found.findings if item["code"] == "wind-need-unmet"]
    assert (item["level"], item["where"]["pieces"]) == ("stop", [ONE])
    assert item["value"] == pytest.approx(1.0223, abs=5e-5)
    assert item["limit"] == 1.0


def test_a_need_that_is_met_is_no_finding() -> None:
    assert "wind-need-unmet" not in codes(scheduled(ROW, wind=peak(), pull_out=declared(0.042)))


def test_heads_near_an_edge_count_with_their_own_pull_through() -> None:
    """The upper row is 117.5 from the head of the board, the lower one 182.5 from its foot; columns are 150 from its ends.

    Within 120 mm four of eight are near an edge: (4*0.4 + 4*0.3)/1.8 = 1.5556 kN hold 1.512.
    """
    held = {"panel_kn": 0.4, "joint_kn": 0.3, "joint_within_mm": 120, "gamma_m": 1.8}
    one = only(ROW, pull_out=declared(0.24), pull_through=held)
    assert (one.need.near_edge, one.total) == (4, 8)
    assert one.need.pull_through == pytest.approx(2.8 / 1.8)


def test_where_heads_pull_through_first_more_are_set_and_the_piece_says_so() -> None:
    """At a factor of 2.0 the same eight hold 1.4; a row of four in the panel makes (8*0.4 + 4*0.3)/2 = 2.2."""
    held = {"panel_kn": 0.4, "joint_kn": 0.3, "joint_within_mm": 120, "gamma_m": 2.0}
    one = only(ROW, pull_out=declared(0.24), pull_through=held)
    assert (one.total, one.need.governed_by) == (12, "pull_through")
    assert one.need.pull_through == pytest.approx(2.2)


def test_where_more_heads_have_no_room_pull_through_still_governs() -> None:
    """At 1 m least spacing no fastener can be added: two heads hold 2*0.1/2 = 0.1 kN, pull-out 2*0.9 = 1.8, against 1.512."""
    held = {"panel_kn": 0.1, "joint_kn": 0.1, "gamma_m": 2.0}
    found = scheduled(ROW, wind=peak(), min_spacing_mm=1000, pull_out=declared(0.9), pull_through=held)
    one = pieces(found)[ONE]
    assert (one.need.needed, one.need.met, one.need.governed_by) == (2, False, "pull_through")
    assert one.need.pull_through_used > 1.0 > one.need.pull_out_used


@pytest.mark.parametrize(
    ("pull_out_kn", "pull_through_kn", "governs"),
    [(0.18, 0.13, "pull_through"), (0.13, 0.18, "pull_out"), (0.18, 0.20, "pull_out"), (0.2, 0.13, "pull_through")],
)
def test_of_two_that_ask_for_more_than_the_pattern_the_greater_need_governs(
    pull_out_kn: float, pull_through_kn: float, governs: str
) -> None:
    """1.512 kN: 0.13 kN each need 11.6, so twelve; 0.18 kN 8.4, so nine; 0.20 kN the eight of the pattern. A third row makes twelve of all.

    Heads of both rows stand farther than 100 mm from every edge.
    """
    held = {"panel_kn": 2 * pull_through_kn, "joint_kn": 2 * pull_through_kn, "gamma_m": 2}
    one = only(BOARD_ALONE, pull_out=declared(pull_out_kn), pull_through=held)
    assert (one.total, one.need.near_edge, one.need.governed_by) == (12, 0, governs)
    greater = one.need.pull_through_used > one.need.pull_out_used
    assert greater is (pull_through_kn < pull_out_kn)


def test_heads_near_an_edge_without_a_value_leave_pull_through_open() -> None:
    held = {"panel_kn": 0.4, "joint_within_mm": 120, "gamma_m": 2.0}
    need = only(ROW, pull_out=declared(0.24), pull_through=held).need
    assert (need.pull_through, need.pull_through_used) == (None, None)


def test_the_partial_factor_of_wind_is_the_callers() -> None:
    """1.6 instead of 1.5: 1.4*1.6*0.72 = 1.6128 kN."""
    found = scheduled(ROW, wind=peak(), factors={"wind": 1.6}, pull_out=declared(0.24))
    assert pieces(found)[ONE].need.action == pytest.approx(1.6128)


def test_without_wind_there_is_no_need_and_the_pattern_alone() -> None:
    one = pieces(scheduled(ROW, wind=None, pull_out=declared(0.01)))[ONE]
    assert (one.need, one.total) == (None, 8)


def test_without_a_resistance_the_action_is_stated_and_no_number() -> None:
    found = scheduled(ROW, wind=peak())
    one = pieces(found)[ONE]
    assert (one.need.needed, one.need.pull_out, one.total) == (None, None, 8)
    assert one.need.action == pytest.approx(1.512)
    assert "resistance-missing" in codes(found)


def test_a_piece_that_reaches_into_a_parapet_has_the_pattern_and_no_verdict() -> None:
    """The parapet starts at 900, inside the second row of boards."""
    found = pieces(scheduled(wall(1200, 1800, face=FRONT, parapet_from_mm=900), wind=peak(), pull_out=declared(0.15)))
    assert [found[f"wall-0{row}-01"].need is None for row in range(3)] == [False, True, True]
    assert [found[f"wall-0{row}-01"].total for row in range(3)] == [12, 8, 8]


def test_a_notched_piece_carries_wind_on_its_own_area() -> None:
    """A window over a quarter of the board leaves 0.54 m2."""
    found = pieces(scheduled(wall(1200, 600, face=FRONT, openings=[window("w", 600, 300, 600, 300)]), wind=peak()))
    assert found[ONE].need.area == pytest.approx(0.54)


def test_order_of_elevations_changes_no_count() -> None:
    walls = [{**ROW, "id": "a"}, {**wall(2400, 1200, face={"side": "right", "offset_mm": 0}), "id": "b"}]
    ahead, behind = (pieces(scheduled(*some, wind=peak(), pull_out=declared(0.1))) for some in (walls, walls[::-1]))
    assert {name: one.total for name, one in ahead.items()} == {name: one.total for name, one in behind.items()}


def test_stages_are_those_of_the_pattern_with_more_in_the_rest() -> None:
    """On the base: the lowest row of four waits for the trim; of the other eight two hold the board."""
    stages = only(ROW, pull_out=declared(0.15)).stages
    assert [stages.count(stage) for stage in ("after_trim", "first", "rest")] == [4, 2, 6]


def test_more_wind_never_sets_fewer() -> None:
    totals = [only(ROW, wind=peak(100.0 * step), pull_out=declared(0.1)).total for step in range(1, 30)]
    assert all(after >= before for before, after in pairwise(totals))


@pytest.mark.parametrize("design", [0.05, 0.06, 0.07, 0.09, 0.12])
def test_twice_the_resistance_never_more_than_halves_the_fasteners(design: float) -> None:
    once, twice = (only(ROW, pull_out=declared(value)) for value in (design, 2 * design))
    assert twice.total * 2 >= once.total
    assert twice.total >= twice.need.minimum


def test_no_fastener_is_added_near_an_edge_where_nothing_is_known_of_its_head() -> None:
    """Heads of 0.01 kN in the panel and no value near edges: as many as stand clear of them, and the verdict stays."""
    heads = {"panel_kn": 0.01, "gamma_m": 1.0}
    found = scheduled(ROW, wind=peak(), pull_out=declared(5), pull_through=heads)
    for one in pieces(found).values():
        assert one.need.near_edge == 0
        assert one.need.pull_through == pytest.approx(0.01 * one.total)
        assert not one.need.met
    assert "wind-need-unmet" in codes(found)


def test_where_a_closer_row_would_reach_an_edge_heads_go_where_the_board_holds_them() -> None:
    """Heads of 0.2/2 = 0.1 kN 115 from edges, nothing known of closer ones: 1.512 kN take sixteen.

    Six in a row over the width would stand 100 from both ends; between 115 and 1085 six have room at 194.
    """
    heads = {"panel_kn": 0.2, "joint_within_mm": 115, "gamma_m": 2.0}
    one = only(BOARD_ALONE, pull_out=declared(5), pull_through=heads)
    assert (one.total, one.need.near_edge, one.need.met) == (16, 0, True)
    assert all(1_150_000 <= x <= 10_850_000 and 1_150_000 <= y <= 4_850_000 for x, y in one.places)


def test_a_head_off_a_corner_of_a_notch_is_measured_straight_to_it() -> None:
    """Five columns: that at 600 on course 2 is 60 beside and 107.5 under the corner at (660, 290): both within 120, 123 straight."""
    opened = wall(1200, 600, face=FRONT, openings=[window("w", 660, 290, 540, 310)], **ABUTTED)
    heads = {"panel_kn": 5, "joint_kn": 5, "joint_within_mm": 120, "gamma_m": 2.0}
    one = only(opened, columns_count=5, pull_out=declared(5), pull_through=heads)
    near = [(x, y) for x, y in one.places if _from_edges(x / 1e4, y / 1e4) < 120]
    assert (600, 182.5) in [(x / 1e4, y / 1e4) for x, y in one.places]
    assert one.need.near_edge == len(near)


def _from_edges(x: float, y: float) -> float:
    """Distance from the edges of a board of 1200 by 600 with its upper right part from (660, 290) cut out, by the straight lines."""
    edges = [
        ((0, 0), (1200, 0)),
        ((1200, 0), (1200, 290)),
        ((1200, 290), (660, 290)),
        ((660, 290), (660, 600)),
        ((660, 600), (0, 600)),
    ]
    return LineString([a for a, _ in edges] + [(0, 600), (0, 0)]).distance(Point(x, y))


def test_heads_on_a_raked_piece_are_measured_square_to_the_rake() -> None:
    """Against shapely: the rake through (1200, 0) and (0, 600)."""
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (1200, 0), (0, 600)]]
    heads = {"panel_kn": 5, "joint_kn": 5, "joint_within_mm": 80, "gamma_m": 2.0}
    one = only({"id": "wall", "face": FRONT, "outline": outline, **ABUTTED}, pull_out=declared(5), pull_through=heads)
    ring = LinearRing([(0, 0), (1200, 0), (0, 600)])
    near = [point for point in one.places if ring.distance(Point(point[0] / 1e4, point[1] / 1e4)) < 80]
    assert one.need.near_edge == len(near)
    assert one.total > len(near)


def test_a_cap_declared_for_another_substrate_is_not_taken_beside_tests() -> None:
    found = scheduled(ROW, wind=peak(), pull_out={"tests_kn": pulls(0.8), "characteristic_kn": 1.0, "category": "E"})
    assert "resistance-other-substrate" in codes(found)
    assert found.resistance.design is None


def test_without_a_least_spacing_a_row_holds_any_number() -> None:
    """1.512 kN at 0.0151 kN each, half of what is declared: 101 fasteners on one board."""
    one = only(ROW, pull_out=declared(0.0150), min_spacing_mm=0)
    assert one.need.needed == 101
    assert one.total >= 101
