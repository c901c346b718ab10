"""Named spacings: their printed numbers, what is kept of them, and where they disagree.

Sources as in the table of profiles. Thin brick: 18 ft and 144 square feet, two and a half to one (trade association's note; area
and ratio as a trade journal of 2021 reports them, length from memory). Tiling code: from memory. Brick notes and EN 1996-2: read.
"""

import pytest

from storeyrod.movement_joints.profiles import PROFILES
from unit.movement_joints.joint_requests import codes, found, joined, jointed, lengths, wall, window

CORNERED = {"left_edge": {"kind": "external_corner"}}


def check(answer, profile: str) -> dict:
    (row,) = [one for one in answer.result["profiles"] if one["profile"] == profile]
    return row


def limits(row: dict) -> dict[str, float]:
    return {one["kind"]: one["limit"] for one in row["limits"]}


PRINTED = {
    "common_practice": {"length": 6000, "boards": 5},
    "adhered_thin_brick": {"length": 5500, "area": 13.4, "ratio": 2.5},
    "adhered_tiling": {"length": 4500},
    "full_thickness_uk": {"length": 12_000, "corner": 6000, "change_of_height": 0},
    "en_1996_2": {"length": 12_000, "corner": 6000},
    "clay_brick_us": {"length": 7600, "change_of_height": 0},
}


@pytest.mark.parametrize(("profile", "printed"), PRINTED.items())
def test_a_profile_has_the_numbers_that_its_document_prints(profile: str, printed: dict[str, float]) -> None:
    row = check(joined(wall(**CORNERED)), profile)
    assert {kind: limit for kind, limit in limits(row).items() if kind in printed} == printed


@pytest.mark.parametrize(
    ("profile", "kind", "feet", "digits"),
    [
        ("adhered_thin_brick", "length", 18, 1),
        ("clay_brick_us", "length", 25, 1),
        ("clay_brick_us", "length_between_openings", 20, 1),
        ("clay_brick_us", "corner_near", 10, 0),
        ("clay_brick_us", "corner_sum", 25, 1),
    ],
)
def test_metres_are_the_printed_feet_to_the_printed_place(profile: str, kind: str, feet: int, digits: int) -> None:
    assert PROFILES[profile].rules[kind].value / 1000 == round(feet * 0.3048, digits)


def test_an_area_of_144_square_feet_is_13_4_square_metres() -> None:
    assert PROFILES["adhered_thin_brick"].rules["area"].value == round(144 * 0.3048**2, 1)


def test_every_profile_is_shown_once_and_only_those_for_adhered_facings_apply() -> None:
    rows = joined(wall()).result["profiles"]
    assert [row["profile"] for row in rows] == list(PRINTED)
    assert [row["profile"] for row in rows if row["applies"]] == list(PRINTED)[:3]
    assert [row["profile"] for row in rows if row["chosen"]] == ["common_practice"]


def test_a_bay_of_6_by_2_7_keeps_common_practice_and_is_too_large_for_thin_brick() -> None:
    """6.0 x 2.7 = 16.2 m2, over 13.4; also 6.0 m over 5.5 m; 6.0 / 2.7 = 2.22 is under 2.5."""
    answer = joined(wall(width_mm=6000, height_mm=2700))
    assert check(answer, "common_practice")["kept"]
    thin = check(answer, "adhered_thin_brick")
    assert [(one["kind"], one["kept"], one["value"]) for one in thin["limits"]] == [
        ("length", False, 6000),
        ("area", False, pytest.approx(16.2)),
        ("ratio", True, pytest.approx(6000 / 2700)),
    ]
    shown = [(item["value"], item["limit"], item["unit"]) for item in found(answer, "profile-disagrees")]
    assert shown == [(pytest.approx(16.2), 13.4, "m2"), (6000, 4500, "mm")]


def test_a_profile_that_is_chosen_is_kept_and_disagrees_with_itself_no_more() -> None:
    answer = joined(wall(width_mm=6000, height_mm=2700), profile="adhered_thin_brick")
    assert check(answer, "adhered_thin_brick")["kept"]
    assert len(answer.result["elevations"][0]["joints"]) == 1
    assert codes(answer) == []


def test_a_wall_of_three_bays_by_length_needs_four_by_area() -> None:
    """15 m by 2.7 m: 13.4 m2 are 4.963 m of wall, so three bays of 5 m would keep the length and not the area."""
    row = jointed(wall(width_mm=15_000, height_mm=2700), profile="adhered_thin_brick")
    assert row["joints_lower_bound_count"] == 2
    assert len(row["bays"]) == 4
    assert all(length * 2.7 <= 13.4e3 for length in lengths(row))


def test_the_worst_bay_is_named_for_each_limit() -> None:
    answer = joined(wall(id="short", width_mm=3000), wall(id="long", width_mm=5900))
    (length, *_) = check(answer, "adhered_thin_brick")["limits"]
    assert (length["elevation"], length["x_from_mm"], length["x_to_mm"]) == ("long", 0, 5900)


def test_limits_of_the_request_change_the_joints_and_not_what_a_document_says() -> None:
    answer = joined(wall(width_mm=8000), max_spacing_mm=9000, max_boards_count=9)
    assert answer.result["elevations"][0]["joints"] == []
    assert limits(check(answer, "common_practice"))["length"] == 6000
    assert not check(answer, "common_practice")["kept"]


def test_the_spacing_of_a_silent_request_comes_back_as_assumed() -> None:
    rows = {one["field"]: one for one in joined(wall()).assumptions}
    assert rows["/system/movement_joint/max_spacing_mm"]["value"] == 6000
    assert rows["/system/movement_joint/max_boards_count"]["value"] == 5
    assert rows["/system/movement_joint/max_spacing_mm"]["status"] == "common_practice"
    assert rows["/system/movement_joint/profile"]["value"] == "common_practice"


def test_limits_of_a_chosen_profile_come_back_with_their_document() -> None:
    rows = {one["field"]: one for one in joined(wall(), profile="adhered_thin_brick", max_spacing_mm=5000).assumptions}
    area = rows["/system/movement_joint/max_area_m2"]
    assert (area["value"], area["unit"], area["status"]) == (13.4, "m2", "published")
    assert area["source"].startswith("BIA technical note 28C")
    assert "/system/movement_joint/max_spacing_mm" not in rows
    assert "/system/movement_joint/max_boards_count" not in rows


@pytest.mark.parametrize(("openings", "limit"), [(1, 7600), (2, 6100)])
def test_the_us_note_asks_closer_joints_of_a_wall_with_many_openings(openings: int, limit: int) -> None:
    made = wall(width_mm=7000, openings=[window(f"w{at}", 500 + 2000 * at, 1010) for at in range(openings)])
    assert jointed(made, profile="clay_brick_us")["longest_bay_limit_mm"] == limit
