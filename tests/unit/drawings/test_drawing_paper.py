"""Paper and scale. Sizes are ISO 216 and scales ISO 5455, from memory."""

import math
from itertools import pairwise

import pytest

from storeyrod.drawings.paper import PAPERS, SCALES, paper_and_scale, scale_for
from storeyrod.findings import Refusal

AROUND = (40.0, 30.0, 26.0, 20.0)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.name)
def test_sides_of_a_sheet_are_as_one_to_the_root_of_two(paper):
    assert paper.width / paper.height == pytest.approx(math.sqrt(2.0), rel=0.002)


def test_sheets_halve_from_size_to_size():
    areas = [paper.width * paper.height for paper in PAPERS]
    assert [larger / smaller for smaller, larger in pairwise(areas)] == pytest.approx([2.0] * 3, rel=0.01)


def test_scales_are_decimal_multiples_of_one_two_and_five():
    assert {scale / 10 ** int(math.log10(scale)) for scale in SCALES} == {1.0, 2.0, 5.0}


@pytest.mark.parametrize(
    ("width_mm", "scale"), [(300.0, 5), (5046.0, 20), (12_000.0, 50), (60_000.0, 200), (1_000_000.0, 5000)]
)
def test_without_a_scale_the_largest_that_fits_is_taken(width_mm, scale):
    assert scale_for(width_mm, 100.0, AROUND) == scale


def test_a_scale_asked_for_takes_the_smallest_sheet_that_holds_it():
    paper, scale = paper_and_scale(60_000.0, 11_100.0, AROUND, 100, "/sheets/0/scale")
    assert (paper.name, scale) == ("A1", 100)


def test_a_scale_that_fits_no_sheet_is_refused_with_the_smallest_that_fits():
    """A0 is 1189 mm long: less margins of 20 and 10 and room of 40 and 26, 1093 mm; 60 000 / 1093 = 54.9."""
    with pytest.raises(Refusal) as caught:
        paper_and_scale(60_000.0, 11_100.0, AROUND, 54, "/sheets/0/scale")
    assert caught.value.slug == "sheet-too-small"
    assert caught.value.faults[0].pointer == "/sheets/0/scale"
    assert "give 55 or more" in caught.value.detail
    assert paper_and_scale(60_000.0, 11_100.0, AROUND, 55, "/sheets/0/scale")[0].name == "A0"


def test_the_height_of_a_wall_may_decide_the_smallest_scale():
    """A0 is 841 mm high: less margins of 10 each, a strip of 46 and room of 30 and 20, 725 mm; 40 000 / 725 = 55.2."""
    assert PAPERS[-1].least_scale(1000.0, 40_000.0, AROUND) == 56


def test_a_wall_that_fits_a_scale_to_the_millimetre_fits_it():
    left, _, right, _ = PAPERS[-1].place(AROUND)
    assert PAPERS[-1].least_scale((right - left) * 30, 100.0, AROUND) == 30


def test_where_there_is_no_room_at_all_the_last_scale_stands():
    assert PAPERS[0].least_scale(1000.0, 1000.0, (300.0, 0.0, 300.0, 0.0)) == SCALES[-1]


def test_a_wall_that_just_fits_and_one_that_just_does_not():
    left, _, right, _ = PAPERS[0].place(AROUND)
    assert scale_for((right - left) * 20, 100.0, AROUND) == 20
    assert scale_for((right - left) * 20 + 0.1, 100.0, AROUND) == 50
