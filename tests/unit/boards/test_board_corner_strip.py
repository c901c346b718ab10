"""The strip beside external corners: first cuts of whole boards, wide enough for two fasteners."""

from board_requests import answer, found_codes, only, wall

CORNER = {"kind": "external_corner"}


def test_without_a_strip_nothing_is_checked_and_that_is_said() -> None:
    found = answer(wall(3000, 1200, left_edge=CORNER))
    assert "offcut-at-corner" not in found_codes(found)
    assert any("corner_strip_mm" in sentence for sentence in found.not_checked)


def test_with_a_strip_the_answer_leaves_that_sentence_out() -> None:
    found = answer(wall(3000, 1200, left_edge=CORNER), corner_strip_mm=500)
    assert not any("corner_strip_mm" in sentence for sentence in found.not_checked)


def test_pieces_beside_the_corner_are_cut_first() -> None:
    """Two like pieces share a board: the one beside the corner is its first cut, the other the offcut."""
    corner = {**wall(550, 600, left_edge=CORNER), "id": "z"}
    plain = {**wall(527, 600), "id": "a"}
    found = answer(plain, corner, corner_strip_mm=300, kerf_mm=0)
    assert found.result["boards_needed_count"] == 1
    assert "offcut-at-corner" not in found_codes(found)


def test_a_corner_piece_from_stock_is_reported() -> None:
    stock = [{"id": "s", "width_mm": 600, "height_mm": 600, "factory_edges": ["bottom", "top"]}]
    found = answer(wall(600, 600, left_edge=CORNER), stock=stock, corner_strip_mm=300)
    assert found.result["boards_needed_count"] == 0
    assert only(found, "offcut-at-corner")["where"]["pieces"] == ["wall-00-01"]


def test_a_corner_piece_too_narrow_for_two_fasteners_is_reported() -> None:
    """Twice 50 to the edges and 100 between: 200; the piece is 190 wide, 213 less 23 behind the arris."""
    found = answer(wall(213, 600, left_edge=CORNER), corner_strip_mm=300)
    item = only(found, "offcut-at-corner")
    assert (item["value"], item["limit"]) == (190, 200)


def test_a_free_end_has_no_strip() -> None:
    found = answer(wall(190, 600, left_edge={"kind": "free_end"}), corner_strip_mm=300)
    assert "offcut-at-corner" not in found_codes(found)
