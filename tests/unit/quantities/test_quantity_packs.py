"""Orders and packs: exact on the numbers as written, one rounding, last, upwards."""

from fractions import Fraction

import pytest

from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.quantities.allowance import cut_waste, order_in_kilograms, order_in_litres, order_in_pieces, ordered
from storeyrod.quantities.decimals import written
from storeyrod.quantities.packs import whole_packs
from storeyrod.trace import SILENT


def packs(order, pack, unit="count"):
    return whole_packs(unit, order, pack, SILENT)


def test_an_exact_multiple_costs_no_pack_more():
    assert packs(800.0, 50.0) == 16


def test_a_piece_over_a_multiple_costs_one():
    assert packs(801.0, 50.0) == 17


def test_a_hair_of_floating_point_costs_none():
    assert packs(800.00000001, 50.0) == 16


def test_more_than_the_guard_costs_one():
    assert packs(50.0 * (16 + 2 * ROUNDING_GUARD), 50.0) == 17


def test_nothing_needs_no_pack():
    assert packs(0.0, 50.0) == 0


@pytest.mark.parametrize("tenths", range(1, 200))
def test_packs_of_a_tenth_hold_tenths(tenths):
    assert packs(tenths / 10, 0.1, "kg") == tenths


@pytest.mark.parametrize("unit", ["count", "l", "kg"])
def test_every_unit_is_rounded_alike(unit):
    assert [packs(order, 6.0, unit) for order in (0.0, 5.9, 6.0, 6.1)] == [0, 1, 1, 2]


def test_millions_of_pieces_are_still_counted_exactly():
    assert packs(order_in_pieces(q=90_000_000.0, a=0.05), 1.0) == 94_500_000


@pytest.mark.parametrize("need", [1.0, 3.0, 7.0, 100.0, 1517.0, 12345.0])
@pytest.mark.parametrize("share", [0.0, 0.02, 0.05, 0.07, 0.1, 0.15, 1.0])
def test_an_order_is_the_decimal_product_rounded_to_the_nearest_float(need, share):
    assert order_in_pieces(q=need, a=share) == float(Fraction(str(need)) * (1 + Fraction(str(share))))


def test_the_order_of_the_published_count_of_breakage():
    # Old building trades pocketbook: say 5 per cent for breakage; 1517 slips are 1592.85 with it.
    assert order_in_pieces(q=1517.0, a=0.05) == 1592.85


def test_each_unit_has_its_formula():
    assert ordered("count", 10.0, 0.1, SILENT) == order_in_pieces(q=10.0, a=0.1) == 11.0
    assert ordered("l", 10.0, 0.1, SILENT) == order_in_litres(q=10.0, a=0.1) == 11.0
    assert ordered("kg", 10.0, 0.1, SILENT) == order_in_kilograms(q=10.0, a=0.1) == 11.0


def test_cut_waste_is_what_is_used_beyond_the_net_need():
    assert cut_waste(q=28.0, q_net=24.1) == pytest.approx(3.9)


def test_a_number_is_taken_as_it_is_written():
    assert written(0.1) == Fraction(1, 10)
    assert written(1e-9) == Fraction(1, 10**9)
