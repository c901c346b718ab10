"""Size tolerances of clay units (EN 771-1; table as printed by a public copy, formulas from memory), and overlap in bonds."""

import math

import pytest
from loop_walls import SYSTEM

from storeyrod.setting_out.lap import bond_lap
from storeyrod.setting_out.tolerances import size_tolerances
from storeyrod.trace import SILENT
from storeyrod.wall.system import System

# The printed table, by size: T1, T2. At 190 it prints 4 where the formula gives 3.45; the formula is followed.
PRINTED = {
    40: (3, 2), 50: (3, 2), 65: (3, 2), 68: (3, 2), 73: (3, 2), 80: (4, 2), 90: (4, 2), 102: (4, 3), 215: (6, 4),
    225: (6, 4), 227: (6, 4), 290: (7, 4),
}  # fmt: skip


def system(**changes):
    return System.model_validate({**SYSTEM, **changes})


def tolerances(length, height=65):
    return size_tolerances(system(slip={"length_mm": length, "height_mm": height, "thickness_mm": 20}), SILENT)


@pytest.mark.parametrize("size", PRINTED)
def test_the_printed_table_of_mean_tolerances(size) -> None:
    assert tuple(row["length_mm_declared"] for row in tolerances(size)) == PRINTED[size]


def test_at_190_the_formula_is_followed_and_not_the_printed_4() -> None:
    assert tolerances(190)[1]["length_mm"] == pytest.approx(0.25 * math.sqrt(190))
    assert tolerances(190)[1]["length_mm_declared"] == 3


def test_the_range_of_a_delivery_is_six_or_three_tenths_of_the_root() -> None:
    assert [row["length_range_mm"] for row in tolerances(225)] == pytest.approx([9.0, 4.5])


def test_a_brick_of_the_wider_category_leaves_perps_outside_8_to_12() -> None:
    wider, closer = tolerances(215)
    assert wider["perp_least_mm"] == pytest.approx(10 - 0.4 * math.sqrt(215))
    assert (wider["perps_within"], closer["perps_within"]) == (False, False)


def test_a_short_unit_of_the_closer_category_keeps_perps_inside() -> None:
    assert tolerances(60)[1]["perps_within"]


@pytest.mark.parametrize(
    ("bond", "overlap"),
    [
        ("stretcher", 102.5),
        ("third_lap", 65.0),
        ("quarter_lap", 46.25),
        ("stack", 0.0),
        ("header", 46.25),
        ("english", 46.25),
        ("flemish", 46.25),
        ("english_garden_wall", 46.25),
        ("flemish_garden_wall", 46.25),
    ],
)
def test_overlap_is_the_shift_of_the_courses_less_a_perp(bond, overlap) -> None:
    """A half, third or quarter of 225 mm less 10 mm, by hand."""
    assert bond_lap(system(bond=bond), SILENT)["overlap_mm"] == pytest.approx(overlap)


def test_the_masonry_rule_is_40_mm_for_a_65_mm_unit() -> None:
    """EN 1996-1-1, 8.1.4.1, from memory: the greater of 0.4 times the height and 40 mm."""
    assert bond_lap(system(), SILENT)["masonry_rule_mm"] == 40.0
    tall = {"length_mm": 290, "height_mm": 190, "thickness_mm": 20}
    assert bond_lap(system(slip=tall), SILENT)["masonry_rule_mm"] == pytest.approx(76.0)


def test_stack_bond_does_not_keep_it() -> None:
    assert not bond_lap(system(bond="stack"), SILENT)["keeps_masonry_rule"]
