"""Quantities on random walls: one rounding, additivity before it, subadditivity after it, and what may depend on what."""

import math
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from storeyrod.quantities.allowance import order_in_pieces
from storeyrod.quantities.calculation import calculate
from storeyrod.quantities.models import QuantitiesRequest
from storeyrod.quantities.packs import whole_packs
from storeyrod.quantities.stock_cutting import cut_from_stock
from storeyrod.trace import SILENT

FEW = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
ADDITIVE = ("fastener", "corner_slip", "adhesive", "mortar", "sealant")
"""Roles whose need with cut waste adds up over elevations; boards, slips and trim are cut together."""

packs_of = {
    "board_count": 4, "slip_count": 50, "header_slip_count": 50, "corner_slip_count": 20, "fastener_count": 100,
    "adhesive_count": 10, "mortar_kg": 20, "sealant_ml": 600, "backer_rod_m": 50, "base_trim_count": 5,
}  # fmt: skip
SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "packs": packs_of,
}
shares = st.integers(0, 100).map(lambda percent: percent / 100)
amounts = st.floats(0.0, 1e7, allow_nan=False).map(lambda value: round(value, 3))


@st.composite
def elevations(draw, name="a"):
    width, height = draw(st.integers(800, 7000)), draw(st.integers(600, 4000))
    openings = []
    if draw(st.booleans()):
        wide, high = draw(st.integers(200, width - 500)), draw(st.integers(200, height - 300))
        depth = draw(st.sampled_from([0, 60, 102.5, 300]))
        openings.append(
            {
                "kind": "rectangle", "id": "w", "x_mm": draw(st.integers(0, width - wide)),
                "y_mm": draw(st.integers(0, height - high)), "width_mm": wide, "height_mm": high,
                "head": draw(st.sampled_from(["plain", "soldier"])),
                "reveal": {"left": {"depth_mm": depth}, "right": {"depth_mm": depth}},
            }
        )  # fmt: skip
    shape = {"width_mm": width, "height_mm": height}
    if draw(st.booleans()):
        peak = draw(st.integers(0, width))
        outline = [(0, 0), (width, 0), (width, height), (peak, height + 1500), (0, height)]
        shape = {"outline": [{"x_mm": x, "y_mm": y} for x, y in outline]}
    kinds = st.sampled_from(["free_end", "abutment", "external_corner", "internal_corner"])
    edges = {f"{side}_edge": {"kind": draw(kinds)} for side in ("left", "right")}
    return {"id": name, **shape, "openings": openings, **edges}


def quantities(*walls, perps="nominal", **system):
    merged = {**SYSTEM, **system}
    request = {
        "elevations": list(walls),
        "system": merged,
        "options": {"detail": "summary", "perps": perps, "effort": "quick"},
    }
    return calculate(QuantitiesRequest.model_validate(request)).result


def by_role(lines):
    return {line["role"]: line for line in lines}


@given(amounts, st.integers(1, 100_000))
def test_packs_hold_the_order_and_one_less_would_not(order, pack):
    packs = int(whole_packs("count", order, float(pack), SILENT))
    assert packs * pack >= order - 1e-9 * pack
    assert packs == 0 or (packs - 1) * pack < order


@given(st.integers(0, 100_000), st.integers(1, 1000))
def test_an_exact_multiple_takes_exactly_as_many(packs, pack):
    assert whole_packs("count", float(packs * pack), float(pack), SILENT) == packs


@given(st.integers(1, 10_000), st.sampled_from([0.1, 0.3, 0.7, 1.1, 12.5]))
def test_a_multiple_of_a_decimal_pack_takes_exactly_as_many(packs, pack):
    order = float(packs * Fraction(str(pack)))
    assert whole_packs("kg", order, pack, SILENT) == packs


@given(st.lists(amounts, min_size=1, max_size=8), st.integers(1, 500))
def test_pooling_never_costs_a_pack_and_saves_fewer_than_there_are_groups(orders, pack):
    apart = sum(whole_packs("count", order, float(pack), SILENT) for order in orders)
    pooled = whole_packs("count", math.fsum(orders), float(pack), SILENT)
    assert pooled <= apart <= pooled + len(orders) - 1


@given(amounts, shares)
def test_an_order_is_linear_in_the_need(need, share):
    order = order_in_pieces(q=need, a=share)
    assert order == pytest.approx(need * (1 + share), rel=1e-12)
    assert order_in_pieces(q=2 * need, a=share) == pytest.approx(2 * order, rel=1e-12)
    assert order_in_pieces(q=need, a=0.0) == need


@given(amounts, shares, shares)
def test_a_greater_share_never_orders_less(need, one, other):
    low, high = sorted((one, other))
    assert order_in_pieces(q=need, a=low) <= order_in_pieces(q=need, a=high)


@FEW
@given(elevations("a"), elevations("b"), st.sampled_from(["nominal", "equalised"]))
def test_what_is_not_cut_together_adds_up(first, second, perps):
    both = quantities(first, second, perps=perps)
    together = by_role(both["lines"])
    apart = [by_role(quantities(wall, perps=perps)["lines"]) for wall in (first, second)]
    for role in ADDITIVE:
        assert together[role]["order"] == pytest.approx(sum(one[role]["order"] for one in apart), rel=1e-9, abs=1e-9)
    for role in ("board", "slip", "base_trim"):
        assert together[role]["net"] == pytest.approx(sum(one[role]["net"] for one in apart), rel=1e-9)
    for one, elevation in zip(apart, both["elevations"], strict=True):
        assert by_role(elevation["lines"]) == one


@FEW
@given(elevations("a"), elevations("b"))
def test_packs_of_what_adds_up_are_subadditive(first, second):
    both = quantities(first, second)
    for role in ADDITIVE:
        apart = sum(by_role(row["lines"])[role]["packs_count"] for row in both["elevations"])
        pooled = by_role(both["lines"])[role]["packs_count"]
        assert pooled <= apart <= pooled + 1


@FEW
@given(elevations(), st.integers(10, 60))
def test_a_pack_changes_packs_only(wall, contents):
    changed = dict.fromkeys(packs_of, contents)
    for one, other in zip(quantities(wall)["lines"], quantities(wall, packs=changed)["lines"], strict=True):
        for member in ("role", "net", "cut_waste", "allowance", "order", "unit"):
            assert one[member] == other[member]


@FEW
@given(elevations(), shares)
def test_a_share_changes_the_order_and_never_the_need(wall, share):
    names = ("board", "slip", "corner_slip", "fastener", "adhesive", "mortar", "sealant", "backer_rod", "base_trim")
    given_shares = dict.fromkeys(names, share)
    for one, other in zip(quantities(wall)["lines"], quantities(wall, allowances=given_shares)["lines"], strict=True):
        assert (one["net"], one["cut_waste"]) == (other["net"], other["cut_waste"])
        assert other["order"] == pytest.approx((one["net"] + one["cut_waste"]) * (1 + share), rel=1e-9)
        assert other["cut_waste"] >= -1e-9


@FEW
@given(elevations(), st.integers(3, 20), st.integers(3, 20))
def test_litres_of_adhesive_go_with_the_square_of_the_bead(wall, one, other):
    first, second = (quantities(wall, adhesive={"bead_diameter_mm": d})["adhesive"] for d in (one, other))
    assert first["bead_length_m"] == second["bead_length_m"]
    assert first["volume_l"] * other**2 == pytest.approx(second["volume_l"] * one**2)
    assert first["bead_length_m"] * 65 / 1000 == pytest.approx(first["slip_face_area_m2"], abs=1e-6)


@FEW
@given(elevations(), st.floats(5.0, 40.0))
def test_mortar_is_linear_in_depth(wall, depth):
    profile = {"kind": "concave", "sagitta_mm": 2}
    one, two = (quantities(wall, joint={"depth_mm": d, "profile": profile})["mortar"] for d in (depth, 2 * depth))
    joints = one["joint_area_m2"] + one["reveal_joint_area_m2"]
    assert one["volume_l"] == pytest.approx(joints * depth - one["profile_volume_l"], rel=1e-9)
    assert two["volume_l"] - one["volume_l"] == pytest.approx(joints * depth, rel=1e-9)


@FEW
@given(elevations())
def test_no_joints_need_no_mortar(wall):
    joint = {"bed_mm": 0, "perp_mm": 0, "perp_min_mm": 0, "profile": {"kind": "concave", "sagitta_mm": 1}}
    wall = {**wall, "openings": [{**one, "head": "plain", "reveal": {}} for one in wall["openings"]]}
    made = quantities(wall, joint=joint)["mortar"]
    assert made["profile_volume_l"] == 0.0
    assert made["joint_area_m2"] == pytest.approx(0.0, abs=1e-6)
    assert made["volume_l"] == pytest.approx(0.0, abs=1e-4)


@given(st.lists(st.integers(1, 9000), max_size=30), st.integers(500, 6000), st.integers(0, 20))
def test_stock_lengths_hold_their_pieces_kerfs_and_rests(runs, stock, kerf):
    plan = cut_from_stock([float(run) for run in runs], float(stock), float(kerf))
    assert math.fsum(piece for one in plan.stocks for piece in one.pieces) == sum(runs)
    for one in plan.stocks:
        lost = stock - sum(one.pieces) - one.rest
        assert (len(one.pieces) - 1) * kerf <= lost <= len(one.pieces) * kerf
        assert one.rest >= 0
    assert len(plan.stocks) >= math.ceil(sum(runs) / stock)
    assert len(plan.stocks) <= sum(len(one.pieces) for one in plan.stocks) == len(runs) + plan.splices


@given(st.lists(st.integers(1, 9000), max_size=30), st.randoms())
def test_the_order_of_runs_changes_nothing(runs, chance):
    mixed = list(runs)
    chance.shuffle(mixed)
    one, other = (cut_from_stock([float(run) for run in some], 2500.0, 3.0) for some in (runs, mixed))
    assert (one.stocks, one.splices) == (other.stocks, other.splices)
