"""Lengths of fasteners and their holes, by hand. Board 100, levelling 10, old render 20, embedment 35: 165 mm."""

from typing import Any

import pytest
from fastener_requests import BOARD, SLIP, wall

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.lengths import NOT_ASSESSED, WITHOUT_HAMMER, length_of
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.fasteners.resistance_models import FastenerLength
from storeyrod.findings import Refusal
from storeyrod.wall.substrate_models import Substrate
from storeyrod.wall.system import System

RENDERED = {"render_mm": 20, "levelling_mm": 10}


def found(fastener: dict[str, Any], substrate: dict[str, Any] | None = None) -> FastenerLength | None:
    system = System.model_validate({"board": BOARD, "slip": SLIP, "fastener": fastener})
    return length_of(system, Substrate.model_validate(substrate) if substrate is not None else None)


def given(substrate: dict[str, Any] | None = None, **fastener: Any) -> FastenerLength:
    made = found({"embedment_mm": 35, **fastener}, {"category": "B", **RENDERED, **(substrate or {})})
    assert made is not None
    return made


def answered(fastener: dict[str, Any], substrate: dict[str, Any] | None):
    body = {"elevations": [wall(1200, 600)], "system": {"board": BOARD, "slip": SLIP, "fastener": fastener}}
    return calculate(FastenerScheduleRequest.model_validate(body | ({"substrate": substrate} if substrate else {})))


def test_the_length_goes_through_board_levelling_and_old_render_to_the_embedment() -> None:
    assert given()["required_mm"] == 165


def test_aerated_concrete_with_its_deeper_embedment_takes_195() -> None:
    assert given({"category": "E"}, embedment_mm=65)["required_mm"] == 195


def test_old_render_and_levelling_never_count_as_embedment() -> None:
    bare, rendered = given({"render_mm": 0, "levelling_mm": 0}), given()
    assert (bare["required_mm"], rendered["required_mm"]) == (135, 165)
    assert bare["embedment_mm"] == rendered["embedment_mm"] == 35


@pytest.mark.parametrize(
    ("held", "chosen"), [([155, 165, 175], 165), ([195, 155, 175], 175), ([164.9, 185], 185), ([165], 165)]
)
def test_the_next_length_held_is_taken_in_whatever_order_they_come(held: list[float], chosen: float) -> None:
    assert given(lengths_mm=held)["chosen_mm"] == chosen


def test_a_longer_one_goes_deeper_and_so_does_its_hole() -> None:
    """175 is 10 more than needed: 45 in the wall, the hole 10 beyond, 185 from the face of the board."""
    made = given(lengths_mm=[175])
    assert (made["embedment_mm"], made["hole_depth_mm"], made["drilling_depth_mm"]) == (45, 55, 185)


def test_without_lengths_only_the_required_one_is_known() -> None:
    made = given()
    assert "chosen_mm" not in made
    assert (made["embedment_mm"], made["hole_depth_mm"]) == (35, 45)


@pytest.mark.parametrize(("category", "beyond"), [("A", 10), ("B", 10), ("C", 15), ("D", 10), ("E", 10), (None, 10)])
def test_a_hole_goes_ten_beyond_the_fastener_and_fifteen_in_hollow_masonry(category: str | None, beyond: float) -> None:
    """From memory of the guideline for such fasteners."""
    assert given({"category": category})["hole_depth_mm"] == 35 + beyond


def test_how_far_a_hole_goes_beyond_is_the_callers_where_given() -> None:
    assert given({"category": "C"}, hole_beyond_mm=5)["hole_depth_mm"] == 40


def test_no_length_long_enough_is_refused_with_what_is_needed() -> None:
    with pytest.raises(Refusal, match=r"165 mm are needed.*longest fastener held has 155 mm") as refusal:
        given(lengths_mm=[135, 155])
    assert (refusal.value.slug, refusal.value.faults[0].pointer) == (
        "fastener-too-short",
        "/system/fastener/lengths_mm",
    )


def test_a_hole_may_go_as_deep_as_the_cover_allows_and_no_deeper() -> None:
    """Hole 45, 55 where the wall takes no levelling, cover 20."""
    assert given({"thickness_mm": 75})["hole_depth_mm"] == 45
    with pytest.raises(Refusal, match=r"hole of 55 mm.*is deeper than the 54 mm") as refusal:
        given({"thickness_mm": 74})
    assert (refusal.value.slug, refusal.value.faults[0].pointer) == ("hole-through-wall", "/substrate/thickness_mm")


def test_a_hole_through_deep_levelling_breaks_through_where_the_wall_stands_forward() -> None:
    """100 mm of wall and 80 of levelling: the hole is 45 deep in a hollow, and would be 125 on a high spot."""
    assert given({"thickness_mm": 100})["hole_depth_mm"] == 45
    with pytest.raises(Refusal, match=r"hole of 125 mm.*is deeper than the 80 mm"):
        given({"thickness_mm": 100, "levelling_mm": 80})


def test_a_length_that_is_too_long_for_the_wall_is_refused_though_a_shorter_one_would_do() -> None:
    """100 mm of wall: 35 would do, but the only length held reaches 75, its hole 85 and 95 on a high spot, with 80 allowed."""
    with pytest.raises(Refusal, match="hold a length nearer to the one required"):
        given({"thickness_mm": 100}, lengths_mm=[205])


def test_without_the_walls_thickness_its_holes_are_held_against_nothing() -> None:
    assert given(lengths_mm=[900])["hole_depth_mm"] == 780


@pytest.mark.parametrize("category", ["C", "E"])
def test_hollow_units_and_aerated_concrete_are_drilled_without_hammer(category: str) -> None:
    assert given({"category": category})["drilling"] == WITHOUT_HAMMER


def test_an_unknown_wall_is_drilled_without_hammer_until_it_is_known() -> None:
    assert "without hammer action until it is known" in given({"category": None})["drilling"]


@pytest.mark.parametrize("category", ["A", "B", "D"])
def test_in_solid_walls_the_fasteners_assessment_says_how_to_drill(category: str) -> None:
    assert "assessment" in given({"category": category})["drilling"]


@pytest.mark.parametrize(("fastener", "substrate"), [({}, {"category": "B"}), ({"embedment_mm": 35}, None)])
def test_without_embedment_or_substrate_lengths_are_left_out_and_that_is_said(fastener, substrate) -> None:
    answer = answered(fastener, substrate)
    assert "length" not in answer.result
    assert NOT_ASSESSED in answer.not_checked


def test_with_both_the_length_stands_in_the_answer_and_the_hole_among_the_assumptions() -> None:
    answer = answered({"embedment_mm": 35}, {"category": "C"})
    assert answer.result["length"]["required_mm"] == 145
    assert NOT_ASSESSED not in answer.not_checked
    assert [(one["field"], one["value"]) for one in answer.assumptions if one["field"].endswith("hole_beyond_mm")] == [
        ("/system/fastener/hole_beyond_mm", 15)
    ]


SURVEYED: dict[str, Any] = {"category": "B", "flatness": {"spacing_m": 4, "gap_mm": 14}}
"""A hollow of 14 mm: within the 15 that DIN 18202 lets a bare wall have at 4 m."""


def short_of(levelling: float, **fastener: Any) -> list[dict]:
    found = answered({"embedment_mm": 35, **fastener}, {**SURVEYED, "levelling_mm": levelling})
    return [item for item in found.findings if item["code"] == "levelling-short"]


@pytest.mark.parametrize(("levelling", "length", "anchored"), [(0, 135, 21), (10, 145, 31)])
def test_in_a_hollow_deeper_than_the_levelling_fasteners_reach_less_deep(levelling, length, anchored) -> None:
    """135 - 100 - 14 = 21 mm in the wall, 145 - 100 - 14 = 31."""
    (item,) = short_of(levelling, lengths_mm=[135, 145, 165])
    assert (item["where"]["pointer"], item["value"], item["limit"]) == ("/substrate/levelling_mm", levelling, 14)
    assert f"a fastener of {length} mm is anchored {anchored} mm deep, where 35 mm are asked for" in item["advice"]


@pytest.mark.parametrize(("levelling", "length"), [(0, 149), (0, 150), (10, 149)])
def test_a_length_that_reaches_deep_enough_in_the_hollow_too_is_not_remarked_on(
    levelling: float, length: float
) -> None:
    """149 - 100 - 14 = 35 mm, as much as is asked for."""
    assert short_of(levelling, lengths_mm=[length]) == []


@pytest.mark.parametrize(
    ("gap", "said"), [(40, "the substrate: it ends 5 mm before it and"), (35, "the substrate and")]
)
def test_a_fastener_that_ends_before_the_wall_is_said_to_hold_nothing(gap: float, said: str) -> None:
    """135 - 100 - 40 is 5 mm short of the wall; with a hollow of 35 mm it ends at its face."""
    deep = {"category": "B", "flatness": {"spacing_m": 4, "gap_mm": gap}, "levelling_mm": 0}
    found = answered({"embedment_mm": 35, "lengths_mm": [135]}, deep)
    (item,) = [item for item in found.findings if item["code"] == "levelling-short"]
    assert f"does not reach into {said} holds nothing" in item["advice"]


def test_so_is_a_length_that_makes_up_for_a_tenth_of_a_millimetre() -> None:
    """145 - 100 - 10 = 35 mm, though levelling is 0.1 mm less than the hollow."""
    nearly = {"category": "B", "flatness": {"spacing_m": 4, "gap_mm": 10}, "levelling_mm": 9.9}
    found = answered({"embedment_mm": 35, "lengths_mm": [145]}, nearly)
    assert "levelling-short" not in [item["code"] for item in found.findings]


def test_levelling_of_as_much_as_the_hollow_is_enough() -> None:
    assert short_of(14) == []


def test_levelling_behind_a_hollow_is_remarked_on_without_lengths_too() -> None:
    found = answered({}, {**SURVEYED, "levelling_mm": 13.9})
    assert "levelling-short" in [item["code"] for item in found.findings]


@pytest.mark.parametrize(("chi", "said"), [({}, 1), ({"chi_w_per_k": 0.002}, 0)])
def test_heat_through_fasteners_is_worked_out_or_said_not_to_be(chi: dict, said: int) -> None:
    found = answered(chi, None)
    assert " ".join(found.not_checked).count("fastener.chi_w_per_k") == said
    assert ("heat" in found.result) is (said == 0)
