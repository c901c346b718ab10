"""Movement joints on single walls: fewest joints, clear of openings, existing ones repeated, and the refusals."""

import itertools
import math

import pytest

from storeyrod.findings import Refusal
from storeyrod.movement_joints.calculation import calculate
from storeyrod.movement_joints.models import MovementJointsRequest

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10},
}


def window(name: str, x_mm: float, width_mm: float) -> dict:
    return {"id": name, "kind": "rectangle", "x_mm": x_mm, "y_mm": 900, "width_mm": width_mm, "height_mm": 1200}


def answer(elevation: dict, **joint: float):
    system = {**SYSTEM, "movement_joint": {**SYSTEM["movement_joint"], **joint}}
    wall = {"id": "wall", "width_mm": 12000, "height_mm": 3000, **elevation}
    return calculate(MovementJointsRequest.model_validate({"elevations": [wall], "system": system}))


def joints(elevation: dict, **joint: float) -> list[float]:
    return [row["x_mm"] for row in answer(elevation, **joint).result["elevations"][0]["joints"]]


def test_a_wall_of_one_longest_bay_needs_no_joint() -> None:
    assert joints({"width_mm": 6000}) == []


def test_a_wall_just_over_one_longest_bay_needs_one_joint() -> None:
    assert len(joints({"width_mm": 6000.2})) == 1


def test_two_longest_bays_and_a_joint_need_one_joint() -> None:
    (x,) = joints({"width_mm": 12010}, snap_mm=120.2)
    assert x - 5 <= 6000
    assert 12010 - x - 5 <= 6000


def test_five_boards_limit_the_bay_below_the_length_given() -> None:
    assert answer({"width_mm": 9000}, max_spacing_mm=9000).result["elevations"][0]["longest_bay_limit_mm"] == 6000


def test_joints_stand_on_perps_of_the_half_module() -> None:
    for x in joints({"width_mm": 23000}):
        assert math.isclose((x + 5) % 112.5, 0, abs_tol=1e-6)


def test_joints_of_a_bond_from_the_right_stand_on_its_perps() -> None:
    """23000 from the right end is no whole number of half modules from the left one."""
    made = joints({"width_mm": 23000, "bond_from": "right"})
    assert made
    for x in made:
        assert math.isclose((23000 - x + 5) % 112.5, 0, abs_tol=1e-6)


def test_one_joint_of_two_places_alike_stands_nearer_to_where_the_bond_starts_at_either_end() -> None:
    """On 6300 with a grid of 225 the middle, 3150, is no place: 3145 and 3155 are as even as one another."""
    (left,), (right,) = (joints({"width_mm": 6300, "bond_from": side}, snap_mm=225) for side in ("left", "right"))
    assert left + right == 6300


CORNER = {"kind": "external_corner"}


@pytest.mark.parametrize(("x", "away"), [(219, 214), (100, 95)])
def test_a_joint_within_the_longer_leg_of_the_corner_slips_is_reported(x: float, away: float) -> None:
    """The longer leg shows 215; half a joint of 10 lies on either side of its centre."""
    made = answer({"width_mm": 4000, "left_edge": CORNER, "existing_joints_x_mm": [x]})
    (found,) = [item for item in made.findings if item["code"] == "joint-at-corner"]
    assert (found["value"], found["limit"], found["where"]["x_mm"]) == (away, 215, x)
    beyond = answer({"width_mm": 4000, "right_edge": CORNER, "existing_joints_x_mm": [4000 - x]})
    assert [item["value"] for item in beyond.findings if item["code"] == "joint-at-corner"] == [away]


@pytest.mark.parametrize("edge", [{"kind": "internal_corner"}, {"kind": "abutment"}, {**CORNER, "angle_deg": 135}])
def test_a_joint_near_an_end_without_corner_slips_is_not(edge: dict) -> None:
    made = answer({"width_mm": 4000, "left_edge": edge, "existing_joints_x_mm": [100]})
    assert "joint-at-corner" not in [item["code"] for item in made.findings]


def test_a_joint_at_the_perp_behind_the_return_is_where_it_belongs() -> None:
    made = answer({"width_mm": 4000, "left_edge": CORNER, "existing_joints_x_mm": [220]})
    assert [item["code"] for item in made.findings if item["level"] != "info"] == []


def test_a_joint_keeps_clear_of_a_jamb() -> None:
    openings = [window("w1", 5000, 2010)]
    (x,) = joints({"width_mm": 11000, "openings": openings}, max_spacing_mm=8000, max_boards_count=9)
    assert x + 5 <= 5000 - 225 or x - 5 >= 7010 + 225


def test_an_existing_joint_is_repeated_exactly() -> None:
    assert 4321.7 in joints({"existing_joints_x_mm": [4321.7]})


def test_an_existing_joint_across_an_opening_is_sealed_above_and_below_it() -> None:
    made = answer({"width_mm": 6000, "existing_joints_x_mm": [3000], "openings": [window("w1", 2500, 1010)]})
    (joint,) = made.result["elevations"][0]["joints"]
    assert joint["segments"] == [{"y_from_mm": 0, "y_to_mm": 900}, {"y_from_mm": 2100, "y_to_mm": 3000}]
    assert joint["sealed_length_m"] == pytest.approx(1.8)
    assert [item["code"] for item in made.findings] == ["joint-crosses-opening"]


@pytest.mark.parametrize("x", [2500, 3510])
def test_a_joint_on_a_jamb_has_no_second_flank_beside_the_opening(x: int) -> None:
    """The joint round the frame is sealed there; at the left jamb as at the right one."""
    made = answer({"width_mm": 6000, "existing_joints_x_mm": [x], "openings": [window("w1", 2500, 1010)]})
    (joint,) = made.result["elevations"][0]["joints"]
    assert joint["segments"] == [{"y_from_mm": 0, "y_to_mm": 900}, {"y_from_mm": 2100, "y_to_mm": 3000}]


def test_a_joint_through_a_gable_stops_at_the_verge() -> None:
    outline = [(0, 0), (8000, 0), (8000, 2000), (4000, 6000), (0, 2000)]
    points = [{"x_mm": x, "y_mm": y} for x, y in outline]
    wall = {"width_mm": None, "height_mm": None, "outline": points, "existing_joints_x_mm": [3000]}
    (first, *_) = answer(wall).result["elevations"][0]["joints"]
    assert first["sealed_length_m"] == pytest.approx(5.0)


def test_no_legal_position_withholds_the_joint_and_names_the_place() -> None:
    made = answer({"width_mm": 9000, "openings": [window("wide", 500, 8010)]})
    row = made.result["elevations"][0]
    assert row["withheld"] is True
    (stuck,) = [item for item in made.findings if item["code"] == "no-legal-joint-position"]
    assert stuck["level"] == "stop"
    assert stuck["limit"] == 6000


def test_strict_refuses_a_withheld_joint() -> None:
    wall = {"id": "wall", "width_mm": 9000, "height_mm": 3000, "openings": [window("wide", 500, 8010)]}
    request = MovementJointsRequest.model_validate(
        {"elevations": [wall], "system": SYSTEM, "options": {"strict": True}}
    )
    with pytest.raises(Refusal) as refused:
        calculate(request)
    assert refused.value.slug == "strict-cautions"


def test_an_existing_joint_outside_the_wall_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        joints({"width_mm": 6000, "existing_joints_x_mm": [6000]})
    assert refused.value.slug == "joint-outside-outline"
    assert refused.value.faults[0].pointer == "/elevations/0/existing_joints_x_mm/0"


def test_existing_joints_closer_than_their_width_are_refused() -> None:
    with pytest.raises(Refusal) as refused:
        joints({"width_mm": 6000, "existing_joints_x_mm": [3000, 3009]})
    assert refused.value.slug == "joints-overlap"


def test_existing_joints_just_a_width_apart_are_taken() -> None:
    assert joints({"width_mm": 6000, "existing_joints_x_mm": [3000, 3010]}) == [3000, 3010]


def test_too_fine_a_grid_over_a_long_wall_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        joints({"width_mm": 500_000}, snap_mm=25, max_spacing_mm=50_000, max_boards_count=100)
    assert refused.value.slug == "size-limit"


def _brute_force_count(width: float, openings: list[dict], limit: float, step: float) -> int | None:
    """Fewest grid positions that leave no clear bay over the limit, by trying every set in order of size."""
    grid = [x for k in range(1, int(width / step) + 2) if 15 <= (x := k * step - 5) <= width - 15]
    clear = [
        x for x in grid if all(x + 5 <= o["x_mm"] - 225 or x - 5 >= o["x_mm"] + o["width_mm"] + 225 for o in openings)
    ]
    for count in range(5):
        for chosen in itertools.combinations(clear, count):
            edges = [0, *(edge for x in chosen for edge in (x - 5, x + 5)), width]
            if all(b - a <= limit for a, b in zip(edges[::2], edges[1::2], strict=True)):
                return count
    return None


@pytest.mark.parametrize("first", [300, 900, 1500, 2600])
@pytest.mark.parametrize("width", [5000, 7400, 8800])
def test_the_count_equals_a_search_over_every_set_of_positions(first: int, width: int) -> None:
    openings = [window("a", first, 1010), window("b", first + 1500, 885)]
    row = answer({"width_mm": width, "openings": openings}, max_spacing_mm=2400, snap_mm=225).result["elevations"][0]
    expected = _brute_force_count(width, openings, 2400, 225)
    assert (None if row.get("withheld") else len(row["joints"])) == expected
