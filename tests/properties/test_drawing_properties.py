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
from storeyrod.drawings.display_list import Line, Marker, Polygon, Shapes, Sheet, Text, View
from storeyrod.drawings.models import DrawingRequest
from storeyrod.drawings.subjects import KINDS
from storeyrod.drawings.svg import write
from storeyrod.fasteners.calculation import calculate as schedule
from storeyrod.fasteners.models import FastenerScheduleRequest
from storeyrod.slips.calculation import calculate as lay_slips
from storeyrod.slips.models import SlipLayoutRequest

OF_THE_JOB = ("cut_sheets", "load_path")
"""Kinds that name no elevation."""


def quick_requests():
    """Requests whose boards are cut by the heuristic alone: sheets are looked at here, not the count of boards."""
    return requests().map(lambda request: request | {"options": {"effort": "quick"}})


BUILDING = {"breadth_m": 10, "depth_m": 8, "height_m": 5}
"""No wall of these is longer than 9 m or higher than 4 m."""


def loaded(request: dict) -> dict:
    """The request with wind on its building, a weak substrate, and a load path; every other face lies on the front."""
    wind = {"kind": "peak_pressures", "building": BUILDING, "peak_pressures": [{"height_m": 5, "pressure_pa": 900}]}
    faces = [
        elevation | ({"face": {"side": "front", "offset_mm": 0}} if index % 2 == 0 else {})
        for index, elevation in enumerate(request["elevations"])
    ]
    system = request["system"] | {"fastener": {"pull_out": {"characteristic_kn": 0.5, "gamma_m": 2}}}
    more = {"elevations": faces, "system": system, "wind": wind, "substrate": {"category": "B"}, "links": []}
    return request | more


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
        {"kind": kind} if kind in OF_THE_JOB else {"kind": kind, "elevation": elevation["id"]}
        for kind in kinds or ("elevation",)
        for elevation in (request["elevations"] if kind not in OF_THE_JOB else [{}])
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
@settings(max_examples=25, deadline=None)
def test_the_document_is_well_formed_and_no_id_stands_twice(request_) -> None:
    root = ElementTree.fromstring(write(answered(loaded(request_), *KINDS)))
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


@given(quick_requests())
@settings(max_examples=25, deadline=None)
def test_the_fasteners_sheet_has_a_mark_for_every_fastener_of_the_schedule_with_its_id_stage_and_zone(request_) -> None:
    request_ = loaded(request_)
    members = {key: value for key, value in request_.items() if key != "links"}
    positions = schedule(FastenerScheduleRequest.model_validate(members)).result["positions"]
    drawn = {
        item.id: tuple(group.id.rsplit(":", 2)[1:])
        for sheet in answered(request_, "fasteners").result
        for group in sheet.views[0].groups
        if group.role.startswith("fastener-")
        for item in group.items
        if isinstance(item, Marker)
    }
    assert drawn == {row["id"]: (row.get("zone", "no-zone"), row["stage"]) for row in positions}


@given(quick_requests())
@settings(max_examples=25, deadline=None)
def test_zones_on_the_wind_sheet_cover_the_wall_once(request_) -> None:
    request_ = loaded(request_)
    rows = lay_slips(SlipLayoutRequest.model_validate({key: request_[key] for key in ("elevations", "system")}))
    for sheet, row in zip(answered(request_, "wind").result, rows.result["elevations"], strict=True):
        shapes = [item for group in sheet.views[0].groups if group.role == "zone" for item in group.items]
        assert sum(shape.area for shape in shapes) == pytest.approx(row["net_area_m2"] * 1e6, rel=1e-6)
