"""Properties of sheets on random walls."""

from collections import Counter
from xml.etree import ElementTree

import pytest
from board_walls import requests
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon as Shape
from shapely import box, unary_union

from storeyrod.boards.calculation import calculate as lay
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.drawings.calculation import calculate
from storeyrod.drawings.display_list import Line, Polygon, Shapes, Sheet, Text, View
from storeyrod.drawings.models import DrawingRequest
from storeyrod.drawings.subjects import KINDS
from storeyrod.drawings.svg import write
from storeyrod.slips.calculation import calculate as lay_slips
from storeyrod.slips.models import SlipLayoutRequest


def quick_requests():
    """Requests whose boards are cut by the heuristic alone: sheets are looked at here, not the count of boards."""
    return requests().map(lambda request: request | {"options": {"effort": "quick"}})


def pieces_of(sheet: Sheet) -> list[Polygon]:
    groups = [group for view in sheet.views for group in view.groups if group.role in {"board-full", "board-cut"}]
    return [item for group in groups for item in group.items if isinstance(item, Polygon)]


def pieces_in(view: View) -> list[Polygon]:
    groups = [group for group in view.groups if group.role in {"board-full", "board-cut"}]
    return [item for group in groups for item in group.items if isinstance(item, Polygon)]


def has_pieces(view: View) -> bool:
    """Whether a view is of a board: the legend has pieces too, without ids."""
    return any(piece.id for piece in pieces_in(view))


def slips_of(sheet: Sheet) -> list[Shapes]:
    groups = [group for view in sheet.views for group in view.groups if group.role.startswith("slip-")]
    return [item for group in groups for item in group.items if isinstance(item, Shapes)]


def answered(request: dict, *kinds: str):
    sheets = [
        {"kind": kind} if kind == "cut_sheets" else {"kind": kind, "elevation": elevation["id"]}
        for kind in kinds or ("elevation",)
        for elevation in (request["elevations"] if kind != "cut_sheets" else [{}])
    ]
    return calculate(DrawingRequest.model_validate({"take_off": request, "sheets": sheets}))


@given(quick_requests())
@settings(max_examples=60, deadline=None)
def test_the_sheets_show_the_pieces_of_the_layout_each_with_its_area(request_) -> None:
    request_ = request_ | {"options": {"effort": "quick"}}
    laid = lay(BoardLayoutRequest.model_validate(request_)).result["pieces"]
    drawn = {polygon.id: polygon.area for sheet in answered(request_).result for polygon in pieces_of(sheet)}
    assert drawn == pytest.approx({piece["id"]: piece["area_m2"] * 1e6 for piece in laid}, abs=1.0)


@given(quick_requests())
@settings(max_examples=40, deadline=None)
def test_the_document_is_well_formed_and_no_id_stands_twice(request_) -> None:
    root = ElementTree.fromstring(write(answered(request_, *KINDS)))
    ids = Counter(element.get("id") for element in root.iter() if element.get("id"))
    assert set(ids.values()) == {1}


@given(quick_requests())
@settings(max_examples=40, deadline=None)
def test_walls_stand_inside_the_frame(request_) -> None:
    for sheet in answered(request_).result:
        for polygon in pieces_of(sheet):
            for ring in polygon.rings:
                for x, y in map(sheet.views[0].on_paper, ring):
                    assert 20.0 <= x <= sheet.width - 10.0
                    assert 56.0 <= y <= sheet.height - 10.0


@given(quick_requests(), st.sampled_from(["nominal", "equalised"]))
@settings(max_examples=40, deadline=None)
def test_the_slips_sheet_shows_every_slip_of_the_layout_with_its_area(request_, perps) -> None:
    request_ |= {"options": {"perps": perps, "effort": "quick"}}
    rows = lay_slips(SlipLayoutRequest.model_validate(request_)).result["elevations"]
    for row, sheet in zip(rows, answered(request_, "slips").result, strict=True):
        drawn = slips_of(sheet)
        assert sum(shapes.count for shapes in drawn) == row["total_count"]
        assert sum(shapes.area for shapes in drawn) == pytest.approx(row["slip_face_area_m2"] * 1e6, abs=1.0)


@given(quick_requests(), st.sampled_from(["nominal", "equalised"]))
@settings(max_examples=40, deadline=None)
def test_set_out_walls_and_their_figures_stand_inside_the_frame(request_, perps) -> None:
    for sheet in answered(request_ | {"options": {"perps": perps, "effort": "quick"}}, "setting_out").result:
        view = sheet.views[0]
        for group in view.groups:
            for item in group.items:
                if isinstance(item, Text | Line):
                    x, y = view.on_paper(item.at if isinstance(item, Text) else item.start)
                    assert 20.0 <= x <= sheet.width - 10.0, (group.role, item)
                    assert 56.0 <= y <= sheet.height - 10.0, (group.role, item)


@given(quick_requests())
@settings(max_examples=20, deadline=None)
def test_the_boards_sheet_shows_the_pieces_of_the_layout_each_with_its_area_and_board(request_) -> None:
    laid = lay(BoardLayoutRequest.model_validate(request_)).result["pieces"]
    sheets = answered(request_, "boards").result
    drawn = {polygon.id: polygon.area for sheet in sheets for polygon in pieces_of(sheet)}
    assert drawn == pytest.approx({piece["id"]: piece["area_m2"] * 1e6 for piece in laid}, abs=1.0)


@given(quick_requests())
@settings(max_examples=20, deadline=None)
def test_cut_sheets_show_every_board_with_pieces_inside_it_that_do_not_overlap(request_) -> None:
    laid = lay(BoardLayoutRequest.model_validate(request_)).result
    board = request_["system"]["board"]
    whole = box(0, 0, board["cover_length_mm"], board["cover_height_mm"])
    figures = [view for sheet in answered(request_, "cut_sheets").result for view in sheet.views if has_pieces(view)]
    assert len(figures) == len(laid["cut_sheets"])
    for view, row in zip(figures, laid["cut_sheets"], strict=True):
        shapes = [Shape(ring, holes) for ring, *holes in (piece.rings for piece in pieces_in(view))]
        titles = [piece.title for piece in pieces_in(view)]
        named = [title.split(":")[0].split(", ") for title in titles]
        assert named == [place["pieces"] for place in row["places"]]
        assert all(shape.within(whole.buffer(1e-3)) for shape in shapes)
        assert unary_union(shapes).area == pytest.approx(sum(shape.area for shape in shapes), abs=1.0)


@given(quick_requests())
@settings(max_examples=20, deadline=None)
def test_joints_sheets_and_their_figures_stand_inside_the_frame(request_) -> None:
    for sheet in answered(request_, "boards", "joints").result:
        view = sheet.views[0]
        for group in view.groups:
            for item in group.items:
                if isinstance(item, Text | Line):
                    x, y = view.on_paper(item.at if isinstance(item, Text) else item.start)
                    assert 20.0 <= x <= sheet.width - 10.0, (group.role, item)
                    assert 56.0 <= y <= sheet.height - 10.0, (group.role, item)
