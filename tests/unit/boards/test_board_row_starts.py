"""Where rows of boards start and end: anew over level joints, and lower where the base trim takes a cut edge."""

import pytest
from board_requests import LONG_BAYS, answer, found_codes, row_of, wall

STOREYS = {**LONG_BAYS, "at_storeys": True, "storey_width_mm": 20}


def levels(found) -> list[tuple[float, float]]:
    return sorted({(piece["y_mm"], piece["y_mm"] + piece["height_mm"]) for piece in found.result["pieces"]})


def test_rows_end_under_a_level_joint_and_start_anew_over_it() -> None:
    """The joint of 20 lies in the bed under course 12, whose foot is lifted from 900 by 20 less a bed of 10."""
    found = answer(wall(2400, 1510, storey_levels_mm=[900]), joints=STOREYS)
    assert levels(found) == [(0, 600), (600, 890), (910, 1510)]


def test_the_strip_of_a_level_joint_is_joint_area_in_the_board_plane() -> None:
    found = answer(wall(2400, 1510, storey_levels_mm=[900]), joints=STOREYS)
    (row,) = found.result["elevations"]
    assert row["joint_area_m2"] == pytest.approx(2.4 * 0.02, abs=1e-12)
    assert row["piece_area_m2"] + row["joint_area_m2"] == pytest.approx(row["board_net_area_m2"], abs=1e-9)


def test_seams_over_a_level_joint_keep_no_stagger_to_those_below_it() -> None:
    found = answer(wall(2400, 2400, storey_levels_mm=[900, 1500]), joints=STOREYS, stagger_mm=600)
    assert "stagger-short" not in found_codes(found)


def test_rows_are_numbered_through_over_a_level_joint() -> None:
    found = answer(wall(1200, 1510, storey_levels_mm=[900]), joints=STOREYS)
    assert [piece["id"] for piece in found.result["pieces"]] == ["wall-00-01", "wall-01-01", "wall-02-01"]


def test_a_lowest_row_is_cut_at_its_foot_where_that_spares_a_low_top_row() -> None:
    """1275 are two rows of 600 and 75, or a lowest row of 525 or less and two rows: one course off the foot does."""
    found = answer(wall(1200, 1275), base_row_cut=True)
    heights = [top - foot for foot, top in levels(found)]
    assert min(heights) >= 150
    assert sum(heights) == 1275


def test_a_lowest_row_keeps_its_factory_foot_where_the_base_trim_takes_no_cut_edge() -> None:
    assert levels(answer(wall(1200, 1275))) == [(0, 600), (600, 1200), (1200, 1275)]


def test_a_lowest_row_is_whole_where_nothing_is_gained_by_cutting_it() -> None:
    assert levels(answer(wall(1200, 1350), base_row_cut=True)) == [(0, 600), (600, 1200), (1200, 1350)]


def test_a_cut_lowest_row_keeps_its_ribs_on_the_course_lines() -> None:
    found = answer(wall(1200, 1275), base_row_cut=True)
    assert all(piece["y_mm"] % 75 == 0 for piece in found.result["pieces"])
    assert row_of(found, 0)[0]["kind"] == "cut"
