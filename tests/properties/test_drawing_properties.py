"""Properties of sheets on random walls."""

from collections import Counter
from xml.etree import ElementTree

import pytest
from board_walls import requests
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.boards.calculation import calculate as lay
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.drawings.calculation import calculate
from storeyrod.drawings.display_list import Line, Polygon, Shapes, Sheet, Text
from storeyrod.drawings.models import DrawingRequest
from storeyrod.drawings.svg import write
from storeyrod.slips.calculation import calculate as lay_slips
from storeyrod.slips.models import SlipLayoutRequest


def pieces_of(sheet: Sheet) -> list[Polygon]:
    groups = [group for view in sheet.views for group in view.groups if group.role in {"board-full", "board-cut"}]
    return [item for group in groups for item in group.items if isinstance(item, Polygon)]


def slips_of(sheet: Sheet) -> list[Shapes]:
    groups = [group for view in sheet.views for group in view.groups if group.role.startswith("slip-")]
    return [item for group in groups for item in group.items if isinstance(item, Shapes)]


def answered(request: dict, *kinds: str):
    sheets = [
        {"kind": kind, "elevation": elevation["id"]}
        for kind in kinds or ("elevation",)
        for elevation in request["elevations"]
    ]
    return calculate(DrawingRequest.model_validate({"take_off": request, "sheets": sheets}))


@given(requests())
@settings(max_examples=60, deadline=None)
def test_the_sheets_show_the_pieces_of_the_layout_each_with_its_area(request_) -> None:
    request_ = request_ | {"options": {"effort": "quick"}}
    laid = lay(BoardLayoutRequest.model_validate(request_)).result["pieces"]
    drawn = {polygon.id: polygon.area for sheet in answered(request_).result for polygon in pieces_of(sheet)}
    assert drawn == pytest.approx({piece["id"]: piece["area_m2"] * 1e6 for piece in laid}, abs=1.0)


@given(requests())
@settings(max_examples=40, deadline=None)
def test_the_document_is_well_formed_and_no_id_stands_twice(request_) -> None:
    root = ElementTree.fromstring(write(answered(request_, "elevation", "setting_out", "slips")))
    ids = Counter(element.get("id") for element in root.iter() if element.get("id"))
    assert set(ids.values()) == {1}


@given(requests())
@settings(max_examples=40, deadline=None)
def test_walls_stand_inside_the_frame(request_) -> None:
    for sheet in answered(request_).result:
        for polygon in pieces_of(sheet):
            for ring in polygon.rings:
                for x, y in map(sheet.views[0].on_paper, ring):
                    assert 20.0 <= x <= sheet.width - 10.0
                    assert 56.0 <= y <= sheet.height - 10.0


@given(requests(), st.sampled_from(["nominal", "equalised"]))
@settings(max_examples=40, deadline=None)
def test_the_slips_sheet_shows_every_slip_of_the_layout_with_its_area(request_, perps) -> None:
    request_ |= {"options": {"perps": perps}}
    rows = lay_slips(SlipLayoutRequest.model_validate(request_)).result["elevations"]
    for row, sheet in zip(rows, answered(request_, "slips").result, strict=True):
        drawn = slips_of(sheet)
        assert sum(shapes.count for shapes in drawn) == row["total_count"]
        assert sum(shapes.area for shapes in drawn) == pytest.approx(row["slip_face_area_m2"] * 1e6, abs=1.0)


@given(requests(), st.sampled_from(["nominal", "equalised"]))
@settings(max_examples=40, deadline=None)
def test_set_out_walls_and_their_figures_stand_inside_the_frame(request_, perps) -> None:
    for sheet in answered(request_ | {"options": {"perps": perps}}, "setting_out").result:
        view = sheet.views[0]
        for group in view.groups:
            for item in group.items:
                if isinstance(item, Text | Line):
                    x, y = view.on_paper(item.at if isinstance(item, Text) else item.start)
                    assert 20.0 <= x <= sheet.width - 10.0, (group.role, item)
                    assert 56.0 <= y <= sheet.height - 10.0, (group.role, item)
