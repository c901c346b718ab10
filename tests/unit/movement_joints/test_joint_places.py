"""Joints whose place is given or declared: the designer's own, those of the structure, jamb lines, and parts of one face."""

import pytest

from storeyrod.findings import Refusal
from unit.movement_joints.joint_requests import codes, found, joined, jointed, lengths, places, wall, window


def reasons(row: dict) -> list[str]:
    return [joint["reason"] for joint in row["joints"]]


def test_joints_of_the_designer_are_taken_exactly_and_none_is_added() -> None:
    row = jointed(wall(width_mm=30_000, joints_x_mm=[4000.3, 17_000]))
    assert places(row) == [4000.3, 17_000]
    assert reasons(row) == ["designer", "designer"]


def test_an_empty_list_of_the_designer_means_no_joint() -> None:
    answer = joined(wall(joints_x_mm=[]))
    assert places(answer.result["elevations"][0]) == []
    assert [item["value"] for item in found(answer, "bay-too-long")] == [12_000]
    assert "withheld" not in answer.result["elevations"][0]


def test_joints_of_the_designer_that_leave_a_bay_too_long_are_reported_with_its_place() -> None:
    (over,) = found(joined(wall(joints_x_mm=[5000])), "bay-too-long")
    assert (over["where"]["x_mm"], over["where"]["x_to_mm"], over["value"], over["limit"]) == (5005, 12_000, 6995, 6000)


def test_a_joint_of_the_structure_is_repeated_exactly_where_the_designer_draws_it_half_a_millimetre_off() -> None:
    row = jointed(wall(existing_joints_x_mm=[6000.2], joints_x_mm=[6000.7, 3000]))
    assert places(row) == [3000, 6000.2]
    assert reasons(row) == ["designer", "existing"]


@pytest.mark.parametrize("own", [[6000.8, 3000], []])
def test_a_joint_of_the_structure_that_the_designer_bridges_is_refused(own: list[float]) -> None:
    with pytest.raises(Refusal) as refused:
        joined(wall(existing_joints_x_mm=[6000.2], joints_x_mm=own))
    assert refused.value.slug == "existing-joint-bridged"
    assert refused.value.faults[0].pointer == "/elevations/0/joints_x_mm"


def test_a_joint_of_the_designer_outside_the_wall_is_refused_by_its_member() -> None:
    with pytest.raises(Refusal) as refused:
        joined(wall(joints_x_mm=[3000, 12_000]))
    assert (refused.value.slug, refused.value.faults[0].pointer) == (
        "joint-outside-outline",
        "/elevations/0/joints_x_mm/1",
    )


def test_joints_of_the_designer_that_overlap_are_refused() -> None:
    with pytest.raises(Refusal) as refused:
        joined(wall(joints_x_mm=[3000, 3009]))
    assert (refused.value.slug, refused.value.faults[0].pointer) == ("joints-overlap", "/elevations/0/joints_x_mm")


def test_the_image_of_a_wall_has_the_joints_of_the_designer_at_the_other_end() -> None:
    answer = joined(wall(joints_x_mm=[5000, 8000.5]), {"id": "handed", "mirror_of": "wall"})
    assert places(answer.result["elevations"][1]) == [3999.5, 7000]


SHOP = [window("shop", 1500, 9000)]


def test_a_declared_jamb_line_saves_a_bay_that_would_stay_too_long() -> None:
    """From 1500 to 10 500 no perp is clear; with joints on both jamb lines the bay over the opening is 8990, within 9 m."""
    joint = {"max_spacing_mm": 9000, "max_boards_count": 9}
    assert jointed(wall(openings=SHOP), **joint).get("withheld") is True
    answer = joined(wall(openings=SHOP, joints_at_jambs=True), **joint)
    row = answer.result["elevations"][0]
    assert places(row) == [1500, 10_500]
    assert reasons(row) == ["jamb", "jamb"]
    assert lengths(row) == [1495, 8990, 1495]
    assert [item["where"]["opening"] for item in found(answer, "joint-crosses-opening")] == ["shop", "shop"]


def test_a_jamb_line_is_left_alone_where_a_perp_does_as_well() -> None:
    row = jointed(wall(width_mm=10_000, openings=[window("w", 4995, 1010)], joints_at_jambs=True))
    assert reasons(row) == ["spacing"]


def test_a_jamb_line_too_near_to_another_opening_is_none() -> None:
    """The joint of 10 on the jamb line at 10 500 ends 5 beyond it and needs 225 to the vent at 10 700."""
    near = [*SHOP, window("vent", 10_700, 100)]
    row = jointed(wall(openings=near, joints_at_jambs=True), max_spacing_mm=9000, max_boards_count=9)
    assert 10_500 not in places(row)


def test_openings_above_one_another_share_a_jamb_line() -> None:
    above = {**window("upper", 1500, 9000), "y_mm": 2400, "height_mm": 400}
    row = jointed(wall(openings=[*SHOP, above], joints_at_jambs=True), max_spacing_mm=9000, max_boards_count=9)
    assert places(row) == [1500, 10_500]


def test_joints_of_both_parts_of_a_face_stand_on_the_grid_of_the_place_where_its_bond_starts() -> None:
    """The second part starts at 7000, which is no perp of a bond from 0: 7000 / 112.5 is 62.2."""
    points = [{"x_mm": x, "y_mm": y} for x, y in ((7000, 0), (15_000, 0), (15_000, 3000), (7000, 3000))]
    part = {"id": "part", "outline": points, "bond_origin_x_mm": 0}
    (x,) = places(jointed(part))
    assert (x + 5) % 112.5 == 0


def test_every_other_joint_is_there_for_the_spacing() -> None:
    assert reasons(jointed(wall(existing_joints_x_mm=[4000]))) == ["existing", "spacing"]


def test_the_openings_of_an_answer_without_findings_are_clear_of_joints() -> None:
    assert "joint-crosses-opening" not in codes(joined(wall(openings=[window("w", 5000, 1010)])))
