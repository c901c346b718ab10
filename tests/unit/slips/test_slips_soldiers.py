"""Soldier courses, by hand."""

import pytest
from slip_walls import answer, codes, face, opening, rectangle, result


def wall(width, head=2100, top=3000, **more):
    return rectangle(4490, top, opening(1000, 0, width, head, head="soldier"), **more)


def soldiers(elevation, **changes):
    return result(elevation, **changes)["soldiers"][0]


@pytest.mark.parametrize(("width", "count"), [(2485, 33), (1135, 15)])
def test_openings_of_the_worked_house(width, count) -> None:
    row = soldiers(wall(width))
    assert (row["soldiers_count"], row["perp_mm"]) == (count, 10.0)


def test_the_joint_is_equal_between_soldiers_and_at_both_ends() -> None:
    """n x h + (n + 1) x j = W with 15 soldiers over 1140: j = 10.3125."""
    assert soldiers(wall(1140))["perp_mm"] == pytest.approx((1140 - 15 * 65) / 16, abs=1e-9)


def test_the_zone_is_taken_out_of_the_courses() -> None:
    row, plain = face(wall(1135)), face(rectangle(4490, 3000, opening(1000, 0, 1135, 2100)))
    assert row["soldier_zone_area_m2"] == pytest.approx(1.135 * 0.225, abs=1e-12)
    assert row["soldier_face_area_m2"] == pytest.approx(15 * 0.215 * 0.065, abs=1e-12)
    assert row["course_face_area_m2"] < plain["course_face_area_m2"]
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-12)


def test_the_number_moves_by_one_where_that_brings_the_joint_inside_its_limits() -> None:
    """216: nearest is 3 soldiers with joints of 5.25, under 8; 2 soldiers leave 28.7. Neither fits, so the nearest stays."""
    assert soldiers(wall(216))["soldiers_count"] == 3
    assert "soldier-perp-out-of-range" in codes(wall(216))


def test_one_soldier_fewer_is_taken_when_its_joint_is_inside_the_limits() -> None:
    """With limits from 12 to 30, 3 soldiers over 230 leave 8.75 and 2 leave 33.3; over 216 two leave 28.7."""
    limits = {"joint": {"perp_min_mm": 10, "perp_max_mm": 30}}
    assert soldiers(wall(216), **limits)["soldiers_count"] == 2


@pytest.mark.parametrize(("width", "found"), [(1167.0, False), (1167.1, True)])
def test_the_widest_joint_is_the_limit(width, found) -> None:
    """15 x 65 + 16 x 12 = 1167."""
    assert ("soldier-perp-out-of-range" in codes(wall(width))) is found


def test_an_opening_too_narrow_for_a_soldier_gets_plain_courses() -> None:
    made = answer(wall(40))
    assert made.result["soldiers_count"] == 0
    assert "soldier-perp-out-of-range" in [item["code"] for item in made.findings]


@pytest.mark.parametrize(("top", "found"), [(2325, False), (2310, True)])
def test_soldiers_cut_by_the_top_of_the_wall_are_reported(top, found) -> None:
    """The zone over a head at 2100 ends at 2325."""
    assert ("soldier-clipped" in codes(wall(1135, top=top))) is found


def test_cut_soldiers_are_counted_and_listed() -> None:
    made = result(wall(1135, top=2300))
    assert made["soldiers"][0]["cut_count"] == 15
    row = next(row for row in made["cut_list"] if row["kind"] == "soldier")
    assert (row["length_mm"], row["height_mm"], row["count"]) == (200.0, 65.0, 15)


def test_an_opening_above_clips_the_soldiers() -> None:
    second = opening(1200, 2200, 300, 300, name="vent")
    elevation = rectangle(4490, 3000, opening(1000, 0, 1135, 2100, head="soldier"), second)
    assert "soldier-clipped" in codes(elevation)
    row = face(elevation)
    assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-12)


def test_a_zone_that_splits_the_wall_still_closes() -> None:
    garage = rectangle(2600, 3000, opening(50, 0, 2485, 2100, head="soldier"))
    wide = rectangle(2485, 3000, opening(0, 0, 2485, 2100, head="soldier"))
    for elevation in (garage, wide):
        row = face(elevation)
        assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-12)


def test_each_soldier_consumes_one_straight_slip() -> None:
    row = layout_counts(wall(1135))
    assert row["slips_consumed_count"] - row["slips_lower_bound_count"] >= 0
    assert row["soldiers_count"] == 15


def layout_counts(elevation):
    return result(elevation, options={"detail": "summary"})
