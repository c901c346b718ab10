"""Properties of runs, marks and stacks on random walls; shapely says where wall stands."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from slip_oracle import MODULES, mirrored, net_polygon, system, walls

from storeyrod.movement_joints.placement import planned_joints
from storeyrod.options import Options
from storeyrod.setting_out.runs import bay_set_outs
from storeyrod.setting_out.set_out import set_out
from storeyrod.setting_out.stacks import opening_stacks
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of

UNITS = st.sampled_from(MODULES)
BONDS = st.sampled_from(["stretcher", "third_lap", "english", "flemish"])
PERPS = st.sampled_from(["nominal", "equalised"])
QUICK = settings(max_examples=40, deadline=None)


def rows_of(elevation, module, bond, perps):
    wall = wall_of([Elevation.model_validate(elevation)], System.model_validate(system(module, bond)))
    plans = [planned_joints(face, wall.system) for face in wall.faces]
    out = set_out(wall, plans, Options(perps=perps))[0]
    return bay_set_outs(out, wall), opening_stacks(out, wall), wall.gauge


def band(gauge, course, left, right):
    return shapely.box(left, gauge.bottom(course) / 1e4, right, gauge.top(course) / 1e4)


@given(walls(), UNITS, BONDS, PERPS)
@QUICK
def test_piers_stand_in_the_wall_and_end_where_it_does(wall, module, bond, perps) -> None:
    (bays, _), _, gauge = rows_of(wall, module, bond, perps)
    net = net_polygon(wall)
    for bay in bays:
        for run in bay["runs"][1:]:
            for course in (run["course_from"], run["course_to"]):
                inside = band(gauge, course, run["x_from_mm"], run["x_to_mm"])
                assert shapely.difference(inside, net).area < 1e-6
                left = band(gauge, course, run["x_from_mm"] - 0.1, run["x_from_mm"])
                right = band(gauge, course, run["x_to_mm"], run["x_to_mm"] + 0.1)
                for beside, end in (
                    (left, bay["x_from_mm"] == run["x_from_mm"]),
                    (right, bay["x_to_mm"] == run["x_to_mm"]),
                ):
                    assert end or shapely.intersection(beside, net).area < beside.area - 1e-6


@given(walls(soldiers=True), UNITS, BONDS, PERPS)
@QUICK
def test_perps_that_are_marked_stand_in_the_wall(wall, module, bond, perps) -> None:
    (bays, _), _, _ = rows_of(wall, module, bond, perps)
    net = net_polygon(wall).buffer(1e-6)
    for bay in bays:
        for row in bay["set_out_courses"]:
            assert all(net.contains(shapely.Point(x, row["y_mm"])) for x in row["perps_x_mm"])
        assert [mark["x_mm"] for mark in bay["marks"]] == sorted({mark["x_mm"] for mark in bay["marks"]})


@given(walls(soldiers=True), UNITS, BONDS, PERPS)
@QUICK
def test_p05_a_wall_set_out_from_the_right_is_the_mirror_of_one_from_the_left(wall, module, bond, perps) -> None:
    first = {**wall, "bond_from": "left"}
    second = {**mirrored(first, 0.0), "bond_from": "right"}
    (one, found), stacks, _ = rows_of(first, module, bond, perps)
    (two, mirror_found), mirror_stacks, _ = rows_of(second, module, bond, perps)
    for bay, other in zip(one, reversed(two), strict=True):
        assert bay["arrangement"] == other["arrangement"]
        assert bay["perps_mm"] == pytest.approx(other["perps_mm"], abs=1e-6)
        for run, turned in zip(bay["runs"], other["runs"][:1] + sorted(
            other["runs"][1:], key=lambda run: (run["course_from"], -run["x_to_mm"], -run["x_from_mm"])), strict=True):  # fmt: skip
            assert (run["x_from_mm"], run["x_to_mm"]) == (-turned["x_to_mm"], -turned["x_from_mm"])
            for option, mirror in zip(run["options"], turned["options"], strict=True):
                assert option["arrangement"] == mirror["arrangement"]
                for ends, mirror_ends in zip(option["ends_mm"], mirror["ends_mm"], strict=True):
                    assert ends == pytest.approx(mirror_ends[::-1], abs=1e-3)
        marks = [(mark["x_mm"], mark["what"], mark["carry"]) for mark in bay["marks"]]
        turned_marks = [(-mark["x_mm"], mark["what"], mark["carry"]) for mark in reversed(other["marks"])]
        assert [mark[1:] for mark in marks] == [mark[1:] for mark in turned_marks]
        assert [mark[0] for mark in marks] == pytest.approx([mark[0] for mark in turned_marks], abs=1e-6)
    assert sorted(item["value"] for item in found) == pytest.approx(
        sorted(item["value"] for item in mirror_found), abs=1e-6
    )
    assert [row["left_drift_mm"] for row in stacks[0]] == [row["right_drift_mm"] for row in mirror_stacks[0]][::-1]


@given(walls(soldiers=True), UNITS, BONDS, PERPS)
@QUICK
def test_a_jamb_is_reported_once_and_with_a_piece_under_the_least(wall, module, bond, perps) -> None:
    (_, found), _, _ = rows_of(wall, module, bond, perps)
    places = [(item["where"]["opening"], item["where"]["x_mm"]) for item in found]
    assert len(places) == len(set(places))
    assert all(item["value"] < item["limit"] == 50.0 for item in found)
