"""Pointing mortar against hand counts of joints and a numerically integrated profile."""

import math

import pytest

from storeyrod.findings import Refusal
from unit.quantities.quantity_requests import line, quantities
from unit.wall.survey import rectangle, window

# 20 by 30 whole modules.
WALL = rectangle(width_mm=4500, height_mm=2250)
JOINTS_M2 = 4.5 * 2.25 - 20 * 30 * 0.215 * 0.065
BEDS_M = 30 * 4.5
PERPS_M = 600 * 0.065


def mortar(*elevations, **system):
    return quantities(*elevations, **system)["mortar"]


def hollow(width, sagitta):
    """Area between a chord and a circle through its ends, by the midpoint rule over a thousand thousand strips."""
    radius = (width**2 / 4 + sagitta**2) / (2 * sagitta)
    strips = 100_000
    step = width / strips
    return sum(
        (math.sqrt(radius**2 - (-width / 2 + (at + 0.5) * step) ** 2) - (radius - sagitta)) * step
        for at in range(strips)
    )


def test_flush_joints_take_area_by_depth():
    made = mortar(WALL)
    assert made["joint_area_m2"] == pytest.approx(JOINTS_M2)
    assert made["volume_l"] == pytest.approx(JOINTS_M2 * 15)
    assert made["profile_volume_l"] == 0.0


def test_a_hollow_of_2_in_10_takes_13_75_mm2_off():
    assert hollow(10, 2) == pytest.approx(13.75, abs=0.005)
    made = mortar(WALL, joint={"profile": {"kind": "concave", "sagitta_mm": 2}})
    assert made["profile_volume_l"] == pytest.approx(hollow(10, 2) * (BEDS_M + PERPS_M) / 1000, rel=1e-6)
    assert made["volume_l"] == pytest.approx(JOINTS_M2 * 15 - made["profile_volume_l"])


def test_beds_and_perps_have_hollows_of_their_own_width():
    made = mortar(
        rectangle(width_mm=20 * 227, height_mm=2250),
        joint={"perp_mm": 12, "profile": {"kind": "concave", "sagitta_mm": 2}},
    )
    beds, perps = hollow(10, 2) * 30 * 20 * 0.227, hollow(12, 2) * PERPS_M
    assert made["profile_volume_l"] == pytest.approx((beds + perps) / 1000, rel=1e-6)


def test_a_hollow_as_deep_as_half_the_joint_is_a_semicircle():
    made = mortar(WALL, joint={"profile": {"kind": "concave", "sagitta_mm": 5}})
    assert made["profile_volume_l"] == pytest.approx(math.pi * 25 / 2 * (BEDS_M + PERPS_M) / 1000)


@pytest.mark.parametrize(
    ("joint", "field"),
    [({"profile": {"kind": "concave", "sagitta_mm": 5.1}}, "bed_mm"),
     ({"perp_mm": 8, "profile": {"kind": "concave", "sagitta_mm": 4.1}}, "perp_mm"),
     ({"depth_mm": 2, "profile": {"kind": "concave", "sagitta_mm": 3}}, "depth of pointing")],
)  # fmt: skip
def test_a_hollow_that_does_not_fit_is_refused(joint, field):
    with pytest.raises(Refusal, match=field) as refused:
        mortar(WALL, joint=joint)
    assert refused.value.slug == "profile-too-deep"
    assert refused.value.faults[0].pointer == "/system/joint/profile/sagitta_mm"


def test_slips_without_joints_need_no_mortar():
    wall = rectangle(width_mm=20 * 215, height_mm=30 * 65)
    joint = {"bed_mm": 0, "perp_mm": 0, "perp_min_mm": 0, "profile": {"kind": "concave", "sagitta_mm": 2}}
    result = quantities(wall, board={"rib_pitch_mm": None}, joint=joint)
    assert result["mortar"]["volume_l"] == pytest.approx(0.0, abs=1e-9)
    assert line(result["lines"], "mortar")["order"] == pytest.approx(0.0, abs=1e-9)


def test_lined_reveals_have_joints_too():
    lined = mortar(rectangle(openings=[window(reveal={"left": {"depth_mm": 102.5}})]))
    # 1050 mm of jamb, fourteen slips of 65 on it: fourteen beds of 10, no upright joint.
    assert lined["reveal_joint_area_m2"] == pytest.approx(14 * 0.01 * 0.1025)
    assert lined["volume_l"] == pytest.approx((lined["joint_area_m2"] + lined["reveal_joint_area_m2"]) * 15)


def test_tooled_reveals_lose_their_hollows():
    profile = {"profile": {"kind": "concave", "sagitta_mm": 2}}
    plain, lined = (
        mortar(rectangle(openings=[window(reveal={"left": {"depth_mm": depth}})]), joint=profile)
        for depth in (0, 102.5)
    )
    assert lined["profile_volume_l"] - plain["profile_volume_l"] == pytest.approx(
        14 * 0.1025 * hollow(10, 2) / 1000, rel=1e-5
    )


def test_mass_is_volume_by_density():
    made = mortar(WALL, mortar={"density_kg_per_m3": 1500})
    assert made["mass_kg"] == pytest.approx(made["volume_l"] * 1.5)


def test_elevations_add_up():
    result = quantities(WALL, {**WALL, "id": "front", "height_mm": 1500})
    for member in ("joint_area_m2", "volume_l", "mass_kg"):
        assert result["mortar"][member] == pytest.approx(sum(row["mortar"][member] for row in result["elevations"]))
