"""Bays between joints: area, height, ratio, what governs them, and what is cut at their joints."""

import math

import pytest

from unit.movement_joints.joint_requests import codes, found, joined, jointed, lengths, outline, places, wall, window

GABLE = outline((0, 0), (8000, 0), (8000, 2000), (4000, 6000), (0, 2000))


def test_a_bay_says_its_length_height_area_and_ratio() -> None:
    (bay,) = jointed(wall(width_mm=6000, height_mm=2700, openings=[window("w", 1000, 1010)]))["bays"]
    assert (bay["length_mm"], bay["height_mm"]) == (6000, 2700)
    assert bay["gross_area_m2"] == pytest.approx(16.2)
    assert bay["ratio"] == pytest.approx(6000 / 2700)


def test_bays_of_a_gable_have_the_areas_of_their_trapezoids() -> None:
    """Beside a joint of 10 at 3000: 2.995 m from 2.0 to 4.995 high, and what is left of 32 m2 and the joint's 0.05 m2."""
    first, second = jointed(wall(**GABLE, existing_joints_x_mm=[3000]))["bays"]
    assert first["gross_area_m2"] == pytest.approx(2.995 * (2.0 + 4.995) / 2)
    assert second["gross_area_m2"] == pytest.approx(32.0 - 0.01 * 5.0 - first["gross_area_m2"])
    assert (first["height_mm"], second["height_mm"]) == (4995, 6000)


def test_a_joint_through_a_gable_is_as_long_as_the_rake_is_high() -> None:
    (joint,) = jointed(wall(**GABLE, joints_x_mm=[1500]))["joints"]
    assert joint["sealed_length_m"] == pytest.approx(2.0 + 1.5)


@pytest.mark.parametrize(
    ("limit", "governs"),
    [({}, "length"), ({"max_boards_count": 4}, "boards"), ({"max_area_m2": 13}, "area"), ({"max_ratio": 1.5}, "ratio")],
)
def test_a_bay_names_the_limit_that_it_comes_nearest_to(limit: dict, governs: str) -> None:
    """4.2 m by 3 m: 0.7 of 6 m, 0.875 of 4.8 m, 12.6 of 13 m2, 1.4 of 1.5. Six metres are five boards: the length comes first."""
    (bay,) = jointed(wall(width_mm=4200), **limit)["bays"]
    assert bay["governs"] == governs
    expected = {"length": 0.7, "boards": 0.875, "area": 12.6 / 13, "ratio": 1.4 / 1.5}[governs]
    assert bay["limit_fraction"] == pytest.approx(expected)


def test_the_ratio_of_its_sides_limits_the_length_of_a_low_wall() -> None:
    """1 m high and two and a half to one: bays of 2.5 m, so that one joint does for 4.9 m and not for 5.1 m."""
    assert len(jointed(wall(width_mm=4900, height_mm=1000), max_ratio=2.5, snap_mm=25)["joints"]) == 1
    row = jointed(wall(width_mm=5100, height_mm=1000), max_ratio=2.5, snap_mm=25)
    assert max(lengths(row)) <= 2500
    assert len(row["joints"]) == 2


def test_a_wall_too_high_for_upright_joints_alone_is_reported_and_not_cut_into_strips() -> None:
    """18 m high: 13.4 m2 would be strips of 0.74 m, 24 to one. Bays keep the length; area and ratio ask for level joints."""
    answer = joined(wall(height_mm=18_000), profile="adhered_thin_brick")
    (row,) = answer.result["elevations"]
    assert len(row["bays"]) == 3
    assert set(codes(answer)) == {"bay-area", "bay-ratio"}
    assert found(answer, "bay-area")[0]["value"] == pytest.approx(row["bays"][0]["length_mm"] * 18e-3)
    assert "withheld" not in row


def test_level_joints_divide_the_area_of_a_bay() -> None:
    """Storeys of 2.7 m on bed joints of courses of 75: 36 courses each. Area and ratio are kept in every storey."""
    storeys = {"storey_levels_mm": [2700, 5400], "height_mm": 8100}
    answer = joined(wall(width_mm=10_000, **storeys), profile="adhered_thin_brick", at_storeys=True)
    assert codes(answer) == []
    for bay in answer.result["elevations"][0]["bays"]:
        assert bay["largest_area_m2"] <= 13.4
        assert bay["gross_area_m2"] > 3 * bay["largest_area_m2"] * 0.98
        assert bay["ratio"] <= 2.5


def test_area_is_kept_under_a_rake_where_bays_are_lower_towards_the_eaves() -> None:
    answer = joined(wall(**outline((0, 0), (16_000, 0), (16_000, 1000), (0, 5000))), max_area_m2=13.4)
    row = answer.result["elevations"][0]
    assert max(bay["gross_area_m2"] for bay in row["bays"]) <= 13.4
    assert lengths(row)[-1] > lengths(row)[0]
    assert math.isclose(sum(bay["gross_area_m2"] for bay in row["bays"]), 48, rel_tol=0.01)


def test_area_that_no_joint_can_keep_beside_an_opening_is_withheld_in_square_metres() -> None:
    """From 4000 to 11 000 no joint may stand: 7 m are within 8 m, but 21 m2 are over 18. The length is kept all the same."""
    opening = window("shop", 4230, 6540)
    answer = joined(wall(openings=[opening]), max_spacing_mm=8000, max_boards_count=9, max_area_m2=18)
    (stuck,) = found(answer, "no-legal-joint-position")
    assert (stuck["unit"], stuck["limit"]) == ("m2", 18)
    assert 21 < stuck["value"] <= 24
    assert stuck["where"]["openings"] == ["shop"]


@pytest.mark.parametrize(
    ("opening", "cuts"),
    [
        ([], 2),
        ([window("w", 2500, 1010)], 2),
        ([{"id": "d", "kind": "rectangle", "x_mm": 2500, "y_mm": 0, "width_mm": 1010, "height_mm": 2100}], 1),
    ],
)
def test_a_joint_cuts_base_trim_and_coping_but_not_the_threshold_of_a_door(opening: list, cuts: int) -> None:
    answer = joined(wall(width_mm=6000, existing_joints_x_mm=[3000], openings=opening))
    assert answer.result["elevations"][0]["joints"][0]["trim_cuts_count"] == cuts
    assert answer.result["trim_cuts_count"] == cuts


def test_joints_that_cannot_stand_at_a_wide_opening_still_stand_elsewhere() -> None:
    """30 m with a shop front from 11 to 18 m: one bay of more than 6 m over it, all others within 6 m."""
    answer = joined(wall(width_mm=30_000, openings=[window("shop", 11_000, 7000), window("w", 2000, 1010)]))
    (row,) = answer.result["elevations"]
    (stuck,) = found(answer, "no-legal-joint-position")
    assert row["withheld"] is True
    assert sorted(lengths(row))[-2] <= 6000
    assert stuck["value"] == max(lengths(row))
    assert stuck["where"]["opening"] == "shop"
    assert stuck["where"]["x_mm"] < 11_000
    assert stuck["where"]["x_to_mm"] > 18_000


def test_of_several_openings_that_bind_a_bay_the_widest_is_named_first() -> None:
    openings = [window("narrow", 700, 900), window("wide", 1800, 6500)]
    (stuck,) = found(joined(wall(width_mm=9000, openings=openings)), "no-legal-joint-position")
    assert stuck["where"]["openings"] == ["wide", "narrow"]


def test_one_joint_stands_in_each_pier_between_openings_that_are_too_wide() -> None:
    openings = [window(f"w{at}", 500 + 8000 * at, 7000) for at in range(3)]
    row = jointed(wall(width_mm=24_500, openings=openings))
    assert [8000 - 500 < x < 8500 or 16_000 - 500 < x < 16_500 for x in places(row)] == [True, True]
