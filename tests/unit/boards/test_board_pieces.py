"""Pieces: kinds, shapes, ids, and level cuts on the ribs."""

import pytest
from board_requests import answer, found_codes, only, row_of, wall, window


def kinds(found) -> list[str]:
    return [piece["kind"] for piece in found.result["pieces"]]


def test_a_whole_board_is_full_and_has_no_place_in_a_board() -> None:
    (piece,) = answer(wall(1200, 600)).result["pieces"]
    assert piece["kind"] == "full"
    assert "board_x_mm" not in piece
    assert "ring" not in piece


def test_a_smaller_rectangle_is_cut() -> None:
    assert kinds(answer(wall(900, 600))) == ["cut"]


def test_a_notch_makes_a_piece_shaped_with_its_corners() -> None:
    (piece,) = answer(wall(1200, 600, openings=[window("a", 800, 300, 400, 300)])).result["pieces"]
    assert piece["kind"] == "shaped"
    assert [(p["x_mm"], p["y_mm"]) for p in piece["ring"]] == [
        (0, 0), (1200, 0), (1200, 300), (800, 300), (800, 600), (0, 600),
    ]  # fmt: skip
    assert piece["area_m2"] == pytest.approx(0.72 - 0.12)


def test_a_vent_inside_a_piece_is_a_hole() -> None:
    (piece,) = answer(wall(1200, 600, openings=[window("a", 500, 225, 150, 150)])).result["pieces"]
    assert len(piece["holes"]) == 1
    assert piece["area_m2"] == pytest.approx(0.72 - 0.0225)


def test_an_opening_that_parts_a_cell_makes_two_pieces_of_it() -> None:
    """Pieces are connected parts, not cells."""
    found = answer(wall(1200, 600, openings=[window("a", 0, 225, 1200, 150)]))
    assert [(piece["y_mm"], piece["height_mm"]) for piece in found.result["pieces"]] == [(0, 225), (375, 225)]


def test_a_rake_makes_a_piece_raked() -> None:
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (1200, 0), (0, 600)]]
    assert kinds(answer({"id": "wall", "outline": outline})) == ["raked"]


def test_an_arch_makes_a_piece_raked() -> None:
    arch = {"id": "a", "kind": "arch", "x_mm": 300, "width_mm": 600, "sill_mm": 0, "springing_mm": 150, "rise_mm": 300}
    assert kinds(answer(wall(1200, 600, openings=[arch]))) == ["raked"]


def test_ids_of_elevations_with_dashes_stay_apart() -> None:
    found = answer({**wall(2400, 600), "id": "a"}, {**wall(2400, 600), "id": "a-00"})
    ids = [piece["id"] for piece in found.result["pieces"]]
    assert ids == ["a-00-01", "a-00-02", "a-00-00-01", "a-00-00-02"]


def test_a_summary_leaves_out_the_pieces() -> None:
    from board_requests import BOARD, SLIP

    from storeyrod.boards.calculation import calculate
    from storeyrod.boards.models import BoardLayoutRequest

    request = {
        "elevations": [wall(2400, 600)],
        "system": {"board": BOARD, "slip": SLIP},
        "options": {"detail": "summary"},
    }
    assert "pieces" not in calculate(BoardLayoutRequest.model_validate(request)).result


@pytest.mark.parametrize(
    ("opening", "height"),
    [
        (window("a", 300, 151, 300, 299), 151.0),
        (window("a", 300, 150, 300, 299), 449.0),
    ],
)
def test_a_sill_or_head_between_two_ribs_is_reported(opening: dict, height: float) -> None:
    item = only(answer(wall(1200, 600, openings=[opening])), "cut-off-rib-line")
    assert item["where"]["y_mm"] == height
    assert item["value"] == pytest.approx(1.0)


def test_a_sill_half_a_millimetre_off_a_rib_is_not_reported() -> None:
    found = answer(wall(1200, 600, openings=[window("a", 300, 150.5, 300, 299.5)]))
    assert "cut-off-rib-line" not in found_codes(found)


def test_a_lining_that_moves_the_head_off_the_ribs_is_reported() -> None:
    opening = {**window("a", 300, 150, 300, 300), "reveal": {"head": {"lining_mm": 20}}}
    assert only(answer(wall(1200, 600, openings=[opening])), "cut-off-rib-line")["value"] == pytest.approx(20)


def test_a_board_without_ribs_may_be_cut_at_any_level() -> None:
    found = answer(wall(1200, 600, openings=[window("a", 300, 151, 300, 299)]), rib_pitch_mm=None)
    assert "cut-off-rib-line" not in found_codes(found)


def test_a_door_on_a_foot_between_ribs_is_reported_once_for_the_foot() -> None:
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 20), (1200, 20), (1200, 600), (0, 600)]]
    found = answer({"id": "wall", "outline": outline, "openings": [window("d", 300, 20, 300, 280)]})
    assert only(found, "cut-off-rib-line")["where"]["y_mm"] == 20


def test_a_raked_top_is_no_level_cut() -> None:
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (1200, 0), (1200, 590), (0, 310)]]
    assert "cut-off-rib-line" not in found_codes(answer({"id": "wall", "outline": outline}))


def test_rows_of_pieces_are_encoded_within_twice_the_time_of_bare_numbers() -> None:
    """Few members in a row: the text of a piece stays short."""
    import orjson

    found = answer(wall(24_000, 6000)).result["pieces"]
    assert max(len(orjson.dumps(piece)) for piece in found) < 220


def test_rows_are_counted_over_the_whole_building() -> None:
    high = [{"x_mm": x, "y_mm": y} for x, y in [(0, 600), (1200, 600), (1200, 1200), (0, 1200)]]
    found = answer({**wall(1200, 600), "id": "low"}, {"id": "high", "outline": high})
    assert [piece["id"] for piece in found.result["pieces"]] == ["low-00-01", "high-01-01"]
    assert row_of(found, 1, "high")
