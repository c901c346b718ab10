"""Properties of cutting on random walls, with shapely as an independent judge: boards close, pieces lie in them, bounds hold."""

import math
from collections.abc import Iterator
from itertools import combinations

import shapely
from board_walls import elevations, polygon_of, requests, systems
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import box

from storeyrod.boards.calculation import calculate
from storeyrod.boards.models import BoardLayoutRequest

SQUARE_MM = 1e-6
"""A square millimetre in m2."""

ROUNDING_MM = 2e-3
"""Boxes round raked pieces are rounded up to whole ticks of 0.0001 mm."""


def answer(request: dict, effort: str = "quick") -> dict:
    return calculate(BoardLayoutRequest.model_validate({**request, "options": {"effort": effort}})).result


@st.composite
def with_stock(draw: st.DrawFn) -> dict:
    """A wall with offcuts at hand, a strip beside its corners and a base trim that may take cut edges."""
    request = draw(requests())
    board = request["system"]["board"]
    board["corner_strip_mm"], board["base_row_cut"] = draw(st.sampled_from([None, 900])), draw(st.booleans())
    request["stock_offcuts"] = [
        {
            "id": f"s{index}",
            "width_mm": board["cover_length_mm"] * draw(st.sampled_from([0.25, 0.5, 1.0])),
            "height_mm": board["cover_height_mm"] - board["rib_pitch_mm"] * draw(st.sampled_from([0, 2])),
            "factory_edges": draw(st.lists(st.sampled_from(["left", "right", "bottom", "top"]), unique=True)),
            "count": draw(st.integers(1, 3)),
        }
        for index in range(draw(st.integers(0, 2)))
    ]
    return request


Sheet = dict
"""One cut sheet of the answer."""


def in_board(piece: dict) -> shapely.Polygon:
    """A piece at its place in its board."""
    shift = piece.get("board_x_mm", 0.0) - piece["x_mm"], piece.get("board_y_mm", 0.0) - piece["y_mm"]
    return affinity.translate(polygon_of(piece), *shift)


def rectangle_of(row: dict) -> shapely.Polygon:
    x, y = row["board_x_mm"], row["board_y_mm"]
    return box(x, y, x + row["width_mm"], y + row["height_mm"])


def kerf_of(cut: dict, kerf: float) -> shapely.Polygon:
    at, start, end = cut["at_mm"], cut["from_mm"], cut["to_mm"]
    return box(at, start, at + kerf, end) if cut["direction"] == "upright" else box(start, at, end, at + kerf)


def contents(found: dict) -> Iterator[tuple[Sheet, list[shapely.Polygon], list[dict]]]:
    """Every sheet with the pieces of each of its boards, as they lie in it, and the offcuts of that board."""
    pieces = {piece["id"]: piece for piece in found["pieces"]}
    for sheet in found["cut_sheets"]:
        for index, number in enumerate(sheet["boards"]):
            name, key = ("stock_number", sheet["stock_offcut"]) if "stock_offcut" in sheet else ("board", None)
            own = [row for row in found["offcuts"] if row.get(name) == number and row.get("stock_offcut") == key]
            yield sheet, [in_board(pieces[place["pieces"][index]]) for place in sheet["places"]], own


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_every_piece_is_drawn_on_its_board_without_overlap(request_) -> None:
    for sheet, pieces, own in contents(answer(request_)):
        whole = box(0, 0, sheet["width_mm"], sheet["height_mm"]).buffer(ROUNDING_MM)
        left = [rectangle_of(row) for row in own if row["destination"] != "pieces"]
        assert all(whole.contains(piece) for piece in pieces)
        assert all(one.intersection(other).area < 0.1 for one, other in combinations([*pieces, *left], 2))


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_boxes_of_pieces_lie_a_kerf_apart(request_) -> None:
    """But for those that lie in what another piece of the board sets free."""
    kerf, found = request_["system"]["board"]["kerf_mm"], answer(request_)
    freed = {name for row in found["offcuts"] if "released_by" in row for name in row.get("pieces", [])}
    for sheet in found["cut_sheets"]:
        boxes = [rectangle_of(place) for place in sheet["places"] if place["pieces"][0] not in freed]
        assert all(one.distance(other) >= kerf - ROUNDING_MM for one, other in combinations(boxes, 2))


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_pieces_rests_and_kerfs_fill_a_board(request_) -> None:
    """Boxes, what is left and kerfs cover it; rectangles that pieces set free lie in the boxes."""
    kerf = request_["system"]["board"]["kerf_mm"]
    for sheet, _, _ in contents(answer(request_, "standard")):
        boxes = [rectangle_of(place) for place in sheet["places"]]
        rests, kerfs = [rectangle_of(rest) for rest in sheet["rests"]], [kerf_of(cut, kerf) for cut in sheet["cuts"]]
        whole = box(0, 0, sheet["width_mm"], sheet["height_mm"])
        assert whole.difference(shapely.union_all([*boxes, *rests, *kerfs])).area < 0.1


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_an_offcut_lies_in_its_parent_and_goes_to_one_place(request_) -> None:
    found = answer(request_)
    for _, _, own in contents(found):
        by_id = {row["id"]: row for row in own}
        for row in own:
            if "parent" in row:
                parent = by_id[row["parent"]]
                assert rectangle_of(parent).buffer(ROUNDING_MM).contains(rectangle_of(row))
                assert set(row.get("pieces", [])) <= set(parent["pieces"])
            assert ("pieces" in row) == (row["destination"] == "pieces")
        for row in own:
            seen, above = {row["id"]}, row.get("parent")
            while above is not None:
                assert above not in seen
                seen.add(above)
                above = by_id[above].get("parent")


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_areas_of_boards_are_pieces_offcuts_and_waste(request_) -> None:
    found = answer(request_)
    board = request_["system"]["board"]
    stock = {row["id"]: row for row in request_["stock_offcuts"]}
    used = [(stock[row["id"]], row["used_count"]) for row in found.get("stock_offcuts", [])]
    bought = found["boards_needed_count"] * board["cover_length_mm"] * board["cover_height_mm"]
    taken = sum(row["width_mm"] * row["height_mm"] * count for row, count in used)
    whole = (bought + taken) * SQUARE_MM
    assert math.isclose(whole, found["piece_area_m2"] + found["waste_area_m2"], abs_tol=SQUARE_MM)
    kept = sum(row["width_mm"] * row["height_mm"] for row in found["offcuts"] if row["destination"] == "stock")
    assert math.isclose(kept * SQUARE_MM, found["kept_area_m2"], abs_tol=SQUARE_MM)
    assert found["kept_area_m2"] <= found["waste_area_m2"] + SQUARE_MM


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_every_piece_has_one_place_and_stock_is_used_no_more_than_there_is(request_) -> None:
    found = answer(request_)
    placed = [name for sheet in found["cut_sheets"] for place in sheet["places"] for name in place["pieces"]]
    assert sorted(placed) == sorted(piece["id"] for piece in found["pieces"])
    new = [number for sheet in found["cut_sheets"] if "stock_offcut" not in sheet for number in sheet["boards"]]
    assert sorted(new) == list(range(1, found["boards_needed_count"] + 1))
    for row, stock in zip(found.get("stock_offcuts", []), request_["stock_offcuts"], strict=True):
        assert row["used_count"] + row["left_count"] == stock["count"]
        assert row["left_count"] >= 0


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_factory_edges_asked_for_are_factory_edges_of_the_blank(request_) -> None:
    found = answer(request_)
    asked = {name: row["factory_edges"] for row in found["cut_list"] for name in row["pieces"]}
    for sheet in found["cut_sheets"]:
        stock = {row["id"]: row["factory_edges"] for row in request_["stock_offcuts"]}
        edges = stock.get(sheet.get("stock_offcut"), ["left", "right", "bottom", "top"])
        for place in sheet["places"]:
            for name in place["pieces"]:
                for edge in asked.get(name, []):
                    assert edge in edges
                    at = {"left": place["board_x_mm"], "bottom": place["board_y_mm"]}
                    at["right"] = sheet["width_mm"] - place["board_x_mm"] - place["width_mm"]
                    at["top"] = sheet["height_mm"] - place["board_y_mm"] - place["height_mm"]
                    assert abs(at[edge]) < ROUNDING_MM


@given(requests())
@settings(max_examples=40, deadline=None)
def test_feet_lie_as_high_over_a_rib_as_on_the_wall(request_) -> None:
    """Or where a factory edge puts them; half a millimetre off the ribs is taken for none."""
    pitch = request_["system"]["board"]["rib_pitch_mm"]
    for piece in answer(request_)["pieces"]:
        lift = piece["y_mm"] - piece["row"] * request_["system"]["board"]["cover_height_mm"]
        off = (piece.get("board_y_mm", 0.0) - lift) % pitch
        assert min(off, pitch - off) <= 0.5 + ROUNDING_MM


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_bounds_hold_and_gaps_are_their_distance(request_) -> None:
    found = answer(request_, "standard")
    needed = found["boards_needed_count"]
    assert found["boards_lower_bound_count"] <= found["cutting_lower_bound_count"] <= needed <= len(found["pieces"])
    assert found["gap_count"] == needed - found["boards_lower_bound_count"]
    assert found["cutting_gap_count"] == needed - found["cutting_lower_bound_count"]
    assert (found["bound_status"] == "proved") == (found["cutting_gap_count"] == 0)


@given(requests())
@settings(max_examples=40, deadline=None)
def test_the_bound_is_no_less_than_the_area_and_no_list_beats_its_large_pieces(request_) -> None:
    found, board = answer(request_), request_["system"]["board"]
    length, height = board["cover_length_mm"], board["cover_height_mm"]
    assert found["boards_lower_bound_count"] >= math.ceil(found["piece_area_m2"] / (length * height * SQUARE_MM) - 1e-6)
    if all(piece["kind"] in ("full", "cut") for piece in found["pieces"]):
        large = sum(p["width_mm"] > length / 2 and p["height_mm"] > height / 2 for p in found["pieces"])
        assert found["cutting_lower_bound_count"] >= large


@given(requests(), st.sampled_from([50, 250]), st.sampled_from([0, 350]))
@settings(max_examples=40, deadline=None)
def test_the_bound_for_any_layout_is_the_same_wherever_the_seams_stand(request_, least, stagger) -> None:
    """So each layout of a wall stays over the bound found with every other; clearance of corners, a rule of the bound, is left out."""
    free = {**request_["system"]["board"], "seam_clear_of_corner_mm": 0}
    found = answer({**request_, "system": {**request_["system"], "board": free}})
    board = {**free, "minimum_piece_mm": least, "stagger_mm": stagger}
    other = answer({**request_, "system": {**request_["system"], "board": board}})
    assert found["boards_lower_bound_count"] == other["boards_lower_bound_count"]
    assert other["boards_needed_count"] >= found["boards_lower_bound_count"]


@given(with_stock())
@settings(max_examples=40, deadline=None)
def test_an_offcut_at_hand_never_raises_the_bound(request_) -> None:
    without = answer({**request_, "stock_offcuts": []})
    assert answer(request_)["boards_lower_bound_count"] <= without["boards_lower_bound_count"]


@given(st.lists(elevations(("plain", "gable")), min_size=2, max_size=3), systems())
@settings(max_examples=40, deadline=None)
def test_faces_cut_together_take_no_more_than_each_on_its_own(walls, system) -> None:
    walls = [{**wall, "id": f"wall-{index}"} for index, wall in enumerate(walls)]
    found = answer({"elevations": walls, "system": system})
    rows = found["elevations"]
    assert found["boards_needed_count"] <= sum(row["boards_needed_count"] for row in rows)
    assert found["boards_lower_bound_count"] <= sum(row["boards_lower_bound_count"] for row in rows)
    assert all(row["boards_lower_bound_count"] <= row["boards_needed_count"] for row in rows)


@given(elevations(), systems())
@settings(max_examples=40, deadline=None)
def test_a_kerf_never_lowers_the_count_by_more_than_the_heuristic_wavers(elevation, system) -> None:
    """Exact plans are monotone; a search may miss a board, or a hundredth."""
    counts = []
    for kerf in (0, 3):
        board = {**system["board"], "kerf_mm": kerf}
        counts.append(answer({"elevations": [elevation], "system": {**system, "board": board}})["boards_needed_count"])
    assert counts[0] <= counts[1] + max(1, 0.01 * counts[1])
