"""Candidates for the datum, weighed by hand and against a search that tries every tenth of a millimetre."""

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.setting_out.datum import chosen_level, datum_result
from storeyrod.setting_out.models import DatumBest, DatumFixed, DatumMatchBed
from unit.setting_out.level_walls import PITCH_MM, SLIP_MM, candidate, levelled, result_of, stood

LOW = levelled(0, 2485, (1060, 2110))
"""Foot on course 0 at level 0; sill, head and top all 10 above a course."""


def offsets(row: Any) -> list[tuple[str, float]]:
    return [(one["what"], one["offset_mm"]) for one in row["levels"]]


def test_levels_are_measured_from_the_nearest_course_line_of_the_datum() -> None:
    row = candidate(result_of(stood(LOW)), "as_given")
    assert offsets(row) == [("base", 0.0), ("sill", 10.0), ("head", 10.0), ("top", 10.0)]
    assert [one["course"] for one in row["levels"]] == [0, 14, 28, 33]
    assert (row["worst_offset_mm"], row["mean_offset_mm"], row["off_course_count"]) == (10.0, 7.5, 3)


def test_slips_are_ripped_to_what_stands_on_the_wall_side_of_a_level() -> None:
    """Below sill and top 10 mm of a slip are left; over the head 65 - 10 = 55."""
    row = candidate(result_of(stood(LOW)), "as_given")
    assert {one["what"]: one["rip_mm"] for one in row["levels"] if "rip_mm" in one} == {
        "sill": 10.0, "head": 55.0, "top": 10.0,
    }  # fmt: skip
    assert (row["ripped_count"], row["least_rip_mm"]) == (3, 10.0)


def test_a_level_in_a_bed_joint_rips_nothing() -> None:
    """A datum of 10 leaves the foot 10 under course 0, in the bed over the slips of course -1: 65 of 75 lie below it."""
    row = candidate(result_of(stood(LOW)), "head")
    assert offsets(row) == [("base", -10.0), ("sill", 0.0), ("head", 0.0), ("top", 0.0)]
    assert (row["level_mm"], row["off_course_count"], row["ripped_count"]) == (10.0, 1, 0)
    assert "least_rip_mm" not in row


def test_the_least_worst_datum_lies_in_the_middle_of_the_levels() -> None:
    """Places 0 and 10 on a pitch of 75: 5, from which both are 5 away."""
    row = candidate(result_of(stood(LOW)), "least_worst")
    assert (row["level_mm"], row["worst_offset_mm"]) == (5.0, 5.0)


def test_the_fewest_ripped_levels_come_first() -> None:
    """A datum of 10 rips none; 0 and 5 rip three each, 0 with three levels off course and 5 with all four."""
    rows = result_of(stood(LOW))["candidates"]
    assert [(one["rank"], one["why"]) for one in rows] == [(1, "head"), (2, "as_given"), (3, "least_worst")]


def test_one_rip_under_the_least_height_weighs_more_than_several_that_are_higher() -> None:
    """Above courses from 0: foot and heads 0, sills 20 and 45, top 45. From 0 one sill leaves 20 of a slip. From 45, which is
    -30, foot and heads leave 65 - 30 = 35 and a sill 50: four rips, none under 32.5.
    """
    wall = stood(levelled(0, 2445, (1070, 2100), (1095, 2175)))
    first, given_ = result_of(wall)["candidates"][0], candidate(result_of(wall), "as_given")
    assert (first["level_mm"], first["ripped_count"], first["least_rip_mm"]) == (-30.0, 4, 35.0)
    assert (given_["ripped_count"], given_["least_rip_mm"]) == (3, 20.0)


def test_levels_a_course_apart_are_one_candidate() -> None:
    wall = stood(levelled(0, 2475, (1050, 2100), (975, 2175)), levelled(75, 2400, name="left"))
    assert [one["why"] for one in result_of(wall)["candidates"]] == ["as_given"]


def test_an_arch_counts_by_its_sill_only_and_a_threshold_by_the_foot_it_stands_on() -> None:
    arch = {
        "kind": "arch", "id": "a", "x_mm": 900, "width_mm": 685, "sill_mm": 907, "springing_mm": 1811, "rise_mm": 100,
    }  # fmt: skip
    door = {"kind": "rectangle", "id": "d", "x_mm": 2000, "y_mm": 0, "width_mm": 900, "height_mm": 2100}
    wall = stood({**levelled(0, 2475), "openings": [arch, door]})
    levels = candidate(result_of(wall), "as_given")["levels"]
    assert [(one["what"], one.get("opening"), one["y_mm"]) for one in levels] == [
        ("base", None, 0.0), ("sill", "a", 907.0), ("head", "d", 2100.0), ("top", None, 2475.0),
    ]  # fmt: skip


def test_a_wall_without_any_level_keeps_the_datum_as_given() -> None:
    diamond = [{"x_mm": x, "y_mm": y} for x, y in ((0, 1000), (1000, 0), (2000, 1000), (1000, 2000))]
    (row,) = result_of(stood({"id": "d", "outline": diamond}))["candidates"]
    assert (row["why"], row["levels"], row["worst_offset_mm"]) == ("as_given", [], 0.0)


def test_a_fixed_datum_is_taken_as_it_is() -> None:
    wall = stood(LOW)
    assert chosen_level(wall, DatumFixed(kind="fixed", level_mm=1234.5)) == 1234.5


@pytest.mark.parametrize(("bed", "level"), [(85, 10), (1540, -35), (-5, -5), (75, 0), (37.5, 37.5), (-37.5, 37.5)])
def test_a_bed_is_matched_by_the_nearest_course_line(bed: float, level: float) -> None:
    """The level is the bed's less whole courses of 75, at most half a course from the datum as given."""
    assert chosen_level(stood(LOW), DatumMatchBed(kind="match_bed", match_bed_at_mm=bed)) == level


def test_the_datum_in_use_stands_in_the_answer_beside_the_one_as_given() -> None:
    asked = DatumMatchBed(kind="match_bed", match_bed_at_mm=85)
    result, _ = datum_result(stood(LOW, datum=10), asked, given_mm=0.0)
    assert (result["level_mm"], result["kind"]) == (10.0, "match_bed")
    assert {one["why"]: one["level_mm"] for one in result["candidates"]} == {
        "match_bed": 10.0, "least_worst": 5.0, "as_given": 0.0,
    }  # fmt: skip


def test_the_best_datum_is_the_first_candidate_and_stays_the_best_once_it_is_used() -> None:
    best = chosen_level(stood(LOW), DatumBest(kind="best"))
    assert best == result_of(stood(LOW))["candidates"][0]["level_mm"] == 10.0
    assert chosen_level(stood(LOW, datum=best), DatumBest(kind="best")) == best


def test_many_openings_list_the_best_candidates_with_the_one_as_given_and_the_least_worst() -> None:
    """Sills at 60 places of the pitch, heads on course: of 61 candidates ten are listed, and what is always named."""
    holes = [(900 + 1.2 * at, 2100) for at in range(60)]
    openings = [
        {"kind": "rectangle", "id": f"w{at}", "x_mm": 10 + 79 * at, "y_mm": sill, "width_mm": 40, "height_mm": head - sill}
        for at, (sill, head) in enumerate(holes)
    ]  # fmt: skip
    rows = result_of(stood({**levelled(0, 2475), "openings": openings}))["candidates"]
    assert [one["rank"] for one in rows[:10]] == list(range(1, 11))
    assert len(rows) <= 12
    assert {"as_given", "least_worst"} <= {one["why"] for one in rows}


tenths = st.integers(0, 749).map(lambda tenth: tenth / 10)
walls = st.lists(st.tuples(tenths, tenths), min_size=1, max_size=5).map(
    lambda holes: levelled(0, 2475, *[(900 + sill, 1800 + head) for sill, head in holes])
)


def brute_offset(level: float, datum: float) -> float:
    """Distance to the nearest course, from remainders alone."""
    into = math.fmod(level - datum, PITCH_MM) % PITCH_MM
    return min(into, PITCH_MM - into)


@given(walls)
@settings(max_examples=40, deadline=None)
def test_no_tenth_of_a_millimetre_has_a_lesser_worst_offset_than_the_least_worst(elevation) -> None:
    """A search over the circle in steps of 0.05: levels lie on tenths, so the middle of two is among them."""
    result = result_of(stood(elevation))
    levels = [one["y_mm"] for one in result["candidates"][0]["levels"]]
    searched = min(max(brute_offset(level, shift / 20) for level in levels) for shift in range(1500))
    found = min(row["worst_offset_mm"] for row in result["candidates"])
    assert found == pytest.approx(searched, abs=1e-3)


@given(walls)
@settings(max_examples=40, deadline=None)
def test_candidates_are_ranked_by_what_they_report(elevation) -> None:
    """Rips under 32.5, ripped levels, levels off course, worst and mean offset, distance from the datum; each by remainders."""
    rows = result_of(stood(elevation))["candidates"]
    keys = []
    for row in rows:
        levels = [(one["what"], one["y_mm"]) for one in row["levels"]]
        off = [brute_offset(y, row["level_mm"]) for _, y in levels]
        rips = []
        for what, y in levels:
            into = (y - row["level_mm"]) % PITCH_MM
            left = SLIP_MM - into if what in ("head", "base") else into
            if brute_offset(y, row["level_mm"]) > 0.5 + 1e-9 and 0.5 + 1e-9 < left < SLIP_MM - 0.5 - 1e-9:
                rips.append(left)
        assert row["off_course_count"] == sum(one > 0.5 + 1e-9 for one in off)
        assert row["ripped_count"] == len(rips)
        assert row.get("least_rip_mm", 0) == pytest.approx(min(rips, default=0))
        low = any(rip < 32.5 - 1e-9 for rip in rips)
        keys.append((low, len(rips), row["off_course_count"], round(max(off), 5), round(sum(off) / len(off), 5)))
    assert keys[: len(rows)] == sorted(keys)


@given(walls, st.sampled_from([1, -2, 7]))
@settings(max_examples=25, deadline=None)
def test_a_datum_whole_courses_off_has_the_same_candidates_with_other_numbers(elevation, courses) -> None:
    plain = result_of(stood(elevation))["candidates"]
    moved = result_of(stood(elevation, datum=PITCH_MM * courses))["candidates"]
    assert [row["level_mm"] for row in moved] == pytest.approx([row["level_mm"] + PITCH_MM * courses for row in plain])
    for one, other in zip(plain, moved, strict=True):
        assert offsets(one) == offsets(other)
        assert [row["course"] - courses for row in one["levels"]] == [row["course"] for row in other["levels"]]


@given(walls)
@settings(max_examples=25, deadline=None)
def test_the_order_of_elevations_changes_nothing(elevation) -> None:
    other = levelled(0, 2400, (1021, 2003), name="left")
    assert result_of(stood(elevation, other)) == result_of(stood(other, elevation))
