"""Properties of the stepped base on drawn walls and random ground, judged by dense sampling and by shapely.

Over every place the base keeps the clearance, its levels are courses, no lower course would do, and raising the ground never
lowers it.
"""

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from unit.setting_out.base_walls import base_of, height_at, levels, over_ground
from unit.wall.survey import points, window

CLEARANCE, PITCH, WIDTH = 150.0, 75.0, 4800.0

heights = st.integers(-500, 900).map(float)
places = st.lists(st.integers(1, 4799).map(float), max_size=4)


@st.composite
def grounds(draw) -> list[tuple[float, float]]:
    """Ground from end to end, with corners and jumps."""
    line = [(0.0, draw(heights))]
    for x in sorted(draw(places)):
        line.append((x, draw(heights)))
        if draw(st.booleans()):
            line.append((x, draw(heights)))
    return [*line, (WIDTH, draw(heights))]


@st.composite
def feet(draw) -> list[tuple[float, float]]:
    """Lower corners of an outline: level, stepped or raked."""
    left, right = draw(st.sampled_from([0.0, 75.0, -150.0])), draw(st.sampled_from([0.0, 150.0, 33.0]))
    if draw(st.booleans()):
        return [(0.0, left), (WIDTH, right)]
    middle = float(draw(st.integers(600, 4200)))
    return [(0.0, left), (middle, left), (middle, right), (WIDTH, right)]


def wall(foot: list[tuple[float, float]], ground: list[tuple[float, float]], **members: Any) -> dict[str, Any]:
    outline = points(*foot, (WIDTH, 2475.0), (0.0, 2475.0))
    return over_ground(*ground, clearance=CLEARANCE, outline=outline, **members)


def samples(row: Any) -> list[tuple[float, float]]:
    """Places strictly inside the runs, with the level of the base there: fifty in each, and close to its ends."""
    found = []
    for left, right, level in levels(row):
        inside = [left + (right - left) * share / 50 for share in range(1, 50)]
        near = min(1e-4, (right - left) / 4)
        found += [(x, level) for x in (left + near, *inside, right - near)]
    return found


@given(feet(), grounds(), st.sampled_from([0.0, 30.0, -12.5]))
@settings(max_examples=50, deadline=None)
def test_the_base_is_the_lowest_course_that_keeps_clear_of_ground_and_foot(foot, ground, datum) -> None:
    row = base_of(wall(foot, ground), course_datum_mm=datum)
    for x, level in samples(row):
        needed = max(height_at(ground, x) + CLEARANCE, height_at(foot, x) - 0.5)
        assert level >= needed - 1e-3
        assert level - PITCH < needed + 1e-3
        assert abs((level - datum) / PITCH - round((level - datum) / PITCH)) < 1e-9


@given(feet(), grounds())
@settings(max_examples=25, deadline=None)
def test_runs_follow_one_another_and_every_change_of_level_is_a_step(foot, ground) -> None:
    row = base_of(wall(foot, ground))
    runs = levels(row)
    assert (runs[0][0], runs[-1][1]) == (0.0, WIDTH)
    assert all(one[1] == other[0] and one[2] != other[2] for one, other in pairwise(runs))
    assert [step["rise_mm"] for step in row["steps"]] == [other[2] - one[2] for one, other in pairwise(runs)]
    assert [step["courses_count"] for step in row["steps"]] == [
        round(abs(other[2] - one[2]) / PITCH) for one, other in pairwise(runs)
    ]


@given(grounds(), st.integers(1, 400))
@settings(max_examples=25, deadline=None)
def test_raising_the_ground_never_lowers_the_base(ground, by) -> None:
    foot = [(0.0, 0.0), (WIDTH, 0.0)]
    lower = base_of(wall(foot, ground))
    higher = base_of(wall(foot, [(x, y + by) for x, y in ground]))
    for x, level in samples(higher):
        assert level >= min(before for left, right, before in levels(lower) if left <= x <= right)


@given(feet(), grounds())
@settings(max_examples=30, deadline=None)
def test_the_net_area_is_what_shapely_leaves_over_the_base(foot, ground) -> None:
    openings = [
        window("a", x_mm=600, y_mm=900, width_mm=900),
        window("b", x_mm=2400, y_mm=300, width_mm=900, height_mm=1800),
    ]
    row = base_of(wall(foot, ground, openings=openings))
    solid = Polygon([*foot, (WIDTH, 2475), (0, 2475)])
    solid -= unary_union([box(600, 900, 1500, 1950), box(2400, 300, 3300, 2100)])
    over = solid - unary_union([box(left, -5000, right, level) for left, right, level in levels(row)])
    if "stepped_net_area_m2" in row:
        assert row["stepped_net_area_m2"] == pytest.approx(over.area * 1e-6, abs=1e-8)
    else:
        assert over.area == pytest.approx(solid.area, abs=1.0)
    if "stepped_outline" in row:
        outline = Polygon([(one["x_mm"], one["y_mm"]) for one in row["stepped_outline"]])
        assert outline.is_valid
        assert outline.area - 900 * 1050 - 900 * 1800 == pytest.approx(over.area, abs=1.0)


@given(grounds())
@settings(max_examples=25, deadline=None)
def test_steps_at_perps_keep_the_clearance_too(ground) -> None:
    """A step moved to its perp stands on the lower side of its limit, never past it."""
    row = base_of(wall([(0.0, 0.0), (WIDTH, 0.0)], ground))
    for step in row["steps"]:
        moved = step["at_perp_x_mm"] - step["limit_x_mm"]
        assert math.copysign(1.0, step["rise_mm"]) * moved <= 1e-9
        assert abs(moved) <= 225 + 1e-9
