"""Joints near corners and in parapets.

Sources: the US note on clay brickwork (within about 10 ft of a corner on one side, both distances together not over the spacing),
EN 1996-2 (half the distance from a restrained edge; from memory), UK guidance for parapets (half the spacing, 1.5 m from corners;
second-hand).
"""

import pytest

from storeyrod.findings import Refusal
from unit.movement_joints.joint_requests import codes, found, joined, jointed, lengths, outline, places, wall

US = {"profile": "clay_brick_us"}
CORNER = {"kind": "external_corner"}


def corner(a_mm: float, b_mm: float, a: dict | None = None, b: dict | None = None) -> tuple[dict, dict]:
    """Two faces that meet at the right end of the first."""
    return (
        wall(id="a", width_mm=a_mm, right_edge={**CORNER, "to": "b:left"}, **(a or {})),
        wall(id="b", width_mm=b_mm, left_edge={**CORNER, "to": "a:right"}, **(b or {})),
    )


def at_corner(answer) -> tuple[float, float]:
    """Distances from the corner to the first joint on its two faces."""
    a, b = answer.result["elevations"]
    return lengths(a)[-1], lengths(b)[0]


@pytest.mark.parametrize(("a", "b"), [(20_000, 15_000), (15_000, 20_000)])
def test_the_longer_face_takes_the_nearer_joint_of_a_corner_and_both_keep_the_spacing_together(a: int, b: int) -> None:
    """10 ft and 15 ft of the printed example: 3.0 m and 7.6 - 3.0 = 4.6 m."""
    distances = at_corner(joined(*corner(a, b), **US))
    assert min(distances) <= 3000
    assert (distances[0] < distances[1]) == (a > b)
    assert max(distances) <= 4600
    assert sum(distances) <= 7600


def test_a_joint_that_is_given_near_the_corner_is_the_nearer_one() -> None:
    answer = joined(*corner(20_000, 15_000, b={"existing_joints_x_mm": [2000]}), **US)
    assert at_corner(answer)[1] == 1995
    assert at_corner(answer)[0] <= 4600
    assert "corner-bay-too-long" not in codes(answer)


def test_a_short_face_needs_no_joint_beside_a_corner_whose_other_face_has_one() -> None:
    answer = joined(*corner(20_000, 4600), **US)
    assert answer.result["elevations"][1]["joints"] == []
    assert "corner-bay-too-long" not in codes(answer)


def test_joints_of_the_designer_too_far_from_a_corner_together_are_reported_with_their_sum() -> None:
    """Bays of 2995 and 4995 beside joints of 10: 7990 together, over 7600."""
    a, b = {"joints_x_mm": [2500, 7000]}, {"joints_x_mm": [5000, 10_000]}
    answer = joined(*corner(10_000, 15_000, a, b), **US)
    (over,) = found(answer, "corner-bay-too-long")
    assert (over["value"], over["limit"]) == (7990, 7600)
    assert over["where"]["pointer"] == "/elevations/0/right_edge"


def test_a_corner_without_a_partner_has_its_nearer_joint_on_the_face_that_is_known() -> None:
    assert lengths(jointed(wall(left_edge=CORNER), **US))[0] <= 3000


@pytest.mark.parametrize(("width", "ends"), [(6000, 1), (6100, 2), (20_000, 3)])
def test_the_first_joint_stands_within_half_the_distance_from_a_restrained_edge(width: int, ends: int) -> None:
    """6 m of 12 m. A face of 6 m between two corners needs none; one of 20 m leaves 8 m between joints 6 m from both ends."""
    row = jointed(wall(width_mm=width, left_edge=CORNER, right_edge=CORNER), profile="en_1996_2")
    assert len(row["bays"]) == ends
    assert lengths(row)[0] <= 6000
    assert lengths(row)[-1] <= 6000


def test_bays_at_corners_keep_their_limit_with_joints_narrower_than_they_may_become() -> None:
    """Without a given width joints get 1.3 mm for each metre: narrower than those of the longest bay, which the search reckons with."""
    row = jointed(wall(width_mm=11_000, left_edge=CORNER, parapet_from_mm=2700), width_mm=None)
    assert lengths(row)[0] <= 1500


def test_a_parapet_halves_the_bays_of_the_whole_face() -> None:
    answer = joined(wall(parapet_from_mm=2700))
    row = answer.result["elevations"][0]
    assert row["longest_bay_limit_mm"] == 3000
    assert max(lengths(row)) <= 3000
    assert "parapet-governs" in codes(answer)


def test_a_parapet_has_its_first_joint_within_a_metre_and_a_half_of_a_corner() -> None:
    row = jointed(wall(parapet_from_mm=2700, right_edge=CORNER))
    assert lengths(row)[-1] <= 1500
    assert row["bays"][-1]["governs"] == "corner"


def test_a_parapet_outside_the_elevation_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        joined(wall(parapet_from_mm=3000))
    assert refused.value.slug == "parapet-outside-outline"
    assert refused.value.faults[0].pointer == "/elevations/0/parapet_from_mm"


def test_a_mirrored_building_has_mirrored_joints_at_its_corners() -> None:
    a, b = corner(20_000, 15_000)
    handed = [
        {"id": "a2", "mirror_of": "a", "left_edge": {**CORNER, "to": "b2:right"}},
        {"id": "b2", "mirror_of": "b", "right_edge": {**CORNER, "to": "a2:left"}},
    ]
    first, second, third, fourth = joined(a, b, *handed, **US).result["elevations"]
    assert [20_000 - x for x in places(first)][::-1] == places(third)
    assert [15_000 - x for x in places(second)][::-1] == places(fourth)


STEPPED = outline((0, 0), (9000, 0), (9000, 2400), (4000, 2400), (4000, 6000), (0, 6000))


def test_a_needed_joint_stands_at_a_change_of_height_flush_with_the_higher_wall() -> None:
    """9 m need one joint; the tower ends at 4000, and the joint lies beside it in the wing."""
    row = jointed(wall(**STEPPED))
    assert [(joint["x_mm"], joint["reason"]) for joint in row["joints"]] == [(4005, "height_change")]
    assert row["joints"][0]["segments"] == [{"y_from_mm": 0, "y_to_mm": 2400}]
    assert lengths(row) == [4000, 4990]


def test_a_change_of_height_alone_asks_for_a_joint_only_where_the_profile_says_so() -> None:
    short = outline((0, 0), (5000, 0), (5000, 2400), (2000, 2400), (2000, 3000), (0, 3000))
    assert places(jointed(wall(**short))) == []
    assert places(jointed(wall(**short), profile="full_thickness_uk")) == [2005]


def test_a_step_lower_than_a_change_of_height_is_none() -> None:
    low = outline((0, 0), (5000, 0), (5000, 2401), (2000, 2401), (2000, 3000), (0, 3000))
    assert places(jointed(wall(**low), profile="full_thickness_uk")) == []


def test_a_joint_of_the_structure_at_a_change_of_height_serves_it() -> None:
    answer = joined(wall(**STEPPED, existing_joints_x_mm=[4100]), profile="full_thickness_uk")
    assert places(answer.result["elevations"][0]) == [4100]
    assert "change-of-height-unjointed" not in codes(answer)


def test_a_change_of_height_over_an_opening_has_no_joint_and_it_is_said() -> None:
    opening = {"id": "door", "kind": "rectangle", "x_mm": 3500, "y_mm": 0, "width_mm": 1010, "height_mm": 2100}
    answer = joined(wall(**STEPPED, openings=[opening]), profile="full_thickness_uk")
    assert [item["where"]["x_mm"] for item in found(answer, "change-of-height-unjointed")] == [4000]
