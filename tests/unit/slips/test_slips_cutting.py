"""Cuts paired into whole slips."""

import random

import pytest
from slip_walls import house, rectangle, result

from storeyrod.slips.calculation import calculate
from storeyrod.slips.cutting import cut_slips


def plain_first_fit(lengths, whole, kerf):
    """First-fit decreasing, as the definition says."""
    rooms: list[float] = []
    for length in sorted(lengths, reverse=True):
        for index, room in enumerate(rooms):
            if room + 1e-3 >= length + kerf:
                rooms[index] -= length + kerf
                break
        else:
            rooms.append(whole + kerf - length - kerf)
    return len(rooms)


def test_two_halves_and_a_kerf_make_one_slip() -> None:
    """S14 of half bats: 2 x 102.5 + kerf fits 215 up to a kerf of 10."""
    assert cut_slips([(102.5, 2)], 215.0, 10.0).slips == 1


def test_a_kerf_too_wide_needs_two_slips() -> None:
    assert cut_slips([(102.5, 2)], 215.0, 10.1).slips == 2


def test_a_piece_of_full_length_takes_a_slip_whatever_the_kerf() -> None:
    assert cut_slips([(215.0, 1)], 215.0, 20.0).slips == 1


def test_no_cuts_need_no_slips() -> None:
    assert cut_slips([], 215.0, 3.0) == cut_slips((), 215.0, 3.0)
    assert cut_slips([], 215.0, 3.0).slips == 0


def test_the_least_is_the_length_of_all_cuts() -> None:
    assert cut_slips([(100.0, 3)], 215.0, 3.0).least == 2


@pytest.mark.parametrize("seed", range(20))
def test_equal_to_first_fit_decreasing_by_its_definition(seed) -> None:
    chance = random.Random(seed)
    sizes = [(float(chance.randint(5, 215)), chance.choice([1, 1, 2, 7, 30])) for _ in range(chance.randint(1, 60))]
    lengths = [length for length, count in sizes for _ in range(count)]
    assert cut_slips(sizes, 215.0, 3.0).slips == plain_first_fit(lengths, 215.0, 3.0)


@pytest.mark.parametrize("seed", range(10))
def test_within_the_bound_of_first_fit_decreasing(seed) -> None:
    """First-fit decreasing never uses more than 11/9 of the optimum plus 1 (Johnson 1973; from memory)."""
    chance = random.Random(100 + seed)
    lengths = [float(chance.randint(5, 215)) for _ in range(80)]
    made = cut_slips([(length, 1) for length in lengths], 215.0, 0.0)
    assert made.least <= made.slips
    assert made.slips <= len(lengths)


def test_a_stopped_end_takes_half_a_slip_every_second_course() -> None:
    """S14: 6.67 half bats for each metre of a stopped end, cut two from a slip: 3.33 whole slips a metre. Both ends, 3 m."""
    made = result(rectangle(2240, 3000))
    assert made["cut_list"] == [{"kind": "stretcher", "length_mm": 102.5, "height_mm": 65.0, "count": 40}]
    assert made["slips_consumed_count"] == 20 * 10 + 20 * 9 + 20


def test_the_worked_house_consumes_no_more_than_without_corner_and_return_slips() -> None:
    swapped = calculate(house("house-courses")).result["slips_consumed_count"]
    alone = calculate(house("house-consumed")).result["slips_consumed_count"]
    assert swapped < alone == 1517


def test_headers_are_cut_from_header_slips() -> None:
    made = result(rectangle(2240, 150), bond="english")
    assert made["header_slips_consumed_count"] > 0
    assert {row["kind"] for row in made["cut_list"]} == {"header"}
