"""Estimated size of a drawing."""

from drawing_walls import SYSTEM, small_wall
from storeyrod.api.operations import OPERATIONS
from storeyrod.drawings.models import DrawingRequest
from storeyrod.drawings.size import units_to_draw
from storeyrod.wall.size import estimated_units


def request_of(*names: str) -> DrawingRequest:
    take_off = {"system": SYSTEM, "elevations": [small_wall("a"), small_wall("b")]}
    return DrawingRequest.model_validate(
        {"take_off": take_off, "sheets": [{"kind": "elevation", "elevation": name} for name in names]}
    )


def test_the_house_counts_once_and_each_sheet_by_its_elevation():
    request = request_of("a", "b", "a")
    one = estimated_units(request.take_off.elevations[:1], request.take_off.system)
    assert abs(units_to_draw(request) - 5 * one) <= 2


def test_cut_sheets_count_every_elevation_once_more():
    request = request_of("a")
    cut = DrawingRequest.model_validate(request.model_dump(exclude={"sheets"}) | {"sheets": [{"kind": "cut_sheets"}]})
    one = estimated_units(request.take_off.elevations[:1], request.take_off.system)
    assert abs(units_to_draw(cut) - 4 * one) <= 2


def test_a_sheet_of_nothing_adds_nothing():
    assert units_to_draw(request_of("c")) == units_to_draw(request_of("d"))


def test_sheets_without_a_take_off_count_as_one():
    assert units_to_draw(DrawingRequest.model_validate({"sheets": [{"kind": "isotherms"}]})) == 1


def test_the_service_holds_a_drawing_against_its_limit_by_this_estimate():
    (drawing,) = (operation for operation in OPERATIONS if operation.path == "/v1/drawings")
    assert drawing.work(request_of("a")) == units_to_draw(request_of("a"))
