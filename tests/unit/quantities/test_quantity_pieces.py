"""What is bought by the piece agrees with the rooms that lay it."""

import pytest

from storeyrod.boards import calculation as boards
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.quantities.calculation import calculate
from storeyrod.quantities.models import QuantitiesRequest
from storeyrod.slips import calculation as slips
from storeyrod.slips.models import SlipLayoutRequest
from unit.quantities.quantity_requests import asked, line, quantities
from unit.wall.survey import rectangle, window


def lined(**members):
    return window(reveal={"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}}, **members)


HOUSE = (
    rectangle(right_edge={"kind": "external_corner", "to": "side:left"}, openings=[lined(head="soldier")]),
    {**rectangle(left_edge={"kind": "external_corner", "to": "rear:right"}, width_mm=3600), "id": "side"},
)


def room(calculation, model):
    return calculation.calculate(
        model.model_validate(asked(*HOUSE).model_dump(exclude_none=True, exclude={"stock_offcuts", "partial_factors"}))
    ).result


def test_boards_are_those_of_the_board_layout():
    layout, result = room(boards, BoardLayoutRequest), quantities(*HOUSE)
    made = line(result["lines"], "board")
    assert made["net"] == pytest.approx(layout["piece_area_m2"] / 0.72)
    assert made["net"] + made["cut_waste"] == pytest.approx(layout["boards_needed_count"])
    for own, elevation in zip(layout["elevations"], result["elevations"], strict=True):
        one = line(elevation["lines"], "board")
        assert one["net"] + one["cut_waste"] == pytest.approx(own["boards_needed_count"])


def test_pieces_from_stock_are_not_bought():
    """A wall of 1800 by 600 takes a whole board and half of another; with that half at hand one board is all."""
    whole = asked(rectangle(width_mm=1800, height_mm=600))
    half = {"id": "half", "width_mm": 600, "height_mm": 600, "factory_edges": ["bottom", "top"]}
    with_stock = QuantitiesRequest.model_validate({**whole.model_dump(exclude_none=True), "stock_offcuts": [half]})
    made = line(calculate(with_stock).result["lines"], "board")
    assert (made["net"], made["cut_waste"]) == (pytest.approx(1.0), pytest.approx(0.0))
    alone = line(calculate(whole).result["lines"], "board")
    assert (alone["net"], alone["cut_waste"]) == (pytest.approx(1.5), pytest.approx(0.5))


def test_slips_are_those_of_the_slip_layout():
    layout, result = room(slips, SlipLayoutRequest), quantities(*HOUSE)
    made = line(result["lines"], "slip")
    assert made["net"] + made["cut_waste"] == pytest.approx(layout["slips_consumed_count"])
    assert made["cut_waste"] >= 0.0
    assert sum(line(row["lines"], "slip")["net"] for row in result["elevations"]) == pytest.approx(made["net"])


def test_corner_and_return_slips_are_bought_together():
    layout, result = room(slips, SlipLayoutRequest), quantities(*HOUSE)
    # 33 courses at the corner, 14 courses at each of two jambs.
    assert line(result["lines"], "corner_slip")["net"] == 33 + 2 * 14
    assert line(result["lines"], "corner_slip")["net"] == layout["corner_slips_count"] + layout["return_slips_count"]


def test_a_corner_counts_with_the_edge_named_first():
    result = quantities(*HOUSE)
    assert [line(row["lines"], "corner_slip")["net"] for row in result["elevations"]] == [33 + 28, 0]


def test_fasteners_are_those_of_the_schedule():
    schedule, result = room(fasteners, FastenerScheduleRequest), quantities(*HOUSE)
    made = line(result["lines"], "fastener")
    assert made["net"] == schedule["fasteners_count"]
    assert made["order"] == pytest.approx(schedule["fasteners_count"] * 1.03)
