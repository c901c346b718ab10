"""Substrate, board and finished plane. Expected lengths follow from t = 100 + 3 + 20 = 123 and t_b = 100, by hand."""

import pytest

from storeyrod.geometry.plane import bounds, signed_area
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from unit.wall.survey import face, points, rectangle, window

CORNERS = [
    ("external_corner", "external_corner", 4800 + 2 * 123),
    ("external_corner", "internal_corner", 4800),
    ("internal_corner", "internal_corner", 4800 - 2 * 123),
    ("external_corner", "abutment", 4800 + 123),
    ("internal_corner", "free_end", 4800 - 123),
    ("abutment", "movement_joint", 4800),
]


@pytest.mark.parametrize(("left", "right", "finished"), CORNERS)
def test_substrate_to_finished(left: str, right: str, finished: float) -> None:
    assert millimetres(face(rectangle(left, right, plane="substrate")).length) == finished


@pytest.mark.parametrize(("left", "right", "finished"), CORNERS)
def test_finished_back_to_substrate(left: str, right: str, finished: float) -> None:
    wall_face = face(rectangle(left, right, width_mm=finished))
    assert millimetres(wall_face.length) == finished
    assert millimetres(wall_face.substrate_length) == 4800


@pytest.mark.parametrize(("left", "right", "finished"), CORNERS)
def test_a_mirrored_face_has_the_same_length(left: str, right: str, finished: float) -> None:
    assert millimetres(face(rectangle(right, left, plane="substrate")).length) == finished


BOARDS = [
    ("external_corner", "external_corner", True, True, 4800 + 2 * 100),
    ("external_corner", "external_corner", True, False, 4800 + 100),
    ("external_corner", "external_corner", False, False, 4800),
    ("internal_corner", "internal_corner", True, True, 4800),
    ("internal_corner", "internal_corner", True, False, 4800 - 100),
    ("internal_corner", "internal_corner", False, False, 4800 - 2 * 100),
    ("abutment", "free_end", True, False, 4800),
]


@pytest.mark.parametrize("plane", ["substrate", "finished"])
@pytest.mark.parametrize(("left", "right", "left_through", "right_through", "length"), BOARDS)
def test_rows_run_through_past_the_substrate_or_butt(
    plane: str, left: str, right: str, left_through: bool, right_through: bool, length: float
) -> None:
    shift = {"external_corner": 123, "internal_corner": -123}
    width = 4800 if plane == "substrate" else 4800 + shift.get(left, 0) + shift.get(right, 0)
    wall_face = face(rectangle(left, right, plane=plane, width_mm=width))
    outline = wall_face.board_gross(left_runs_through=left_through, right_runs_through=right_through)
    box = bounds(outline.rings[0])
    assert millimetres(box[2] - box[0]) == length


def test_the_frame_of_the_request_stays_when_ends_move() -> None:
    wall_face = face(rectangle("external_corner", "internal_corner", plane="substrate"))
    assert (millimetres(wall_face.left), millimetres(wall_face.right)) == (-123, 4800 - 123)


def test_a_rake_keeps_its_slope_when_its_end_moves() -> None:
    # A fall of 900 over 3600 is 1 in 4: 123 further out it is 30.75 lower.
    lean_to = points((0, 0), (3600, 0), (3600, 3375), (0, 2475))
    wall_face = face(rectangle("external_corner", "abutment", plane="substrate", outline=lean_to))
    heights = wall_face.edge_heights("left")
    assert [millimetres(high) for _, high in heights] == [pytest.approx(2475 - 30.75, abs=1e-9)]
    assert signed_area(wall_face.outline) / TICKS_PER_MM**2 == pytest.approx(
        (3600 + 123) * (3375 + 2475 - 30.75) / 2, rel=1e-12
    )


def test_a_step_inside_the_build_up_of_a_corner_is_cut_off_not_folded_over() -> None:
    stepped = points((0, 150), (100, 150), (100, 0), (4800, 0), (4800, 2475), (0, 2475))
    wall_face = face(rectangle("external_corner", "free_end", outline=stepped))
    butting = wall_face.board_gross(left_runs_through=False, right_runs_through=True)
    assert butting.area / TICKS_PER_MM**2 == (4800 - 123) * 2475


def test_linings_narrow_an_opening_given_in_the_substrate() -> None:
    reveal = {"left": {"lining_mm": 23}, "right": {"lining_mm": 20}, "head": {"lining_mm": 15}}
    opening = face(rectangle(plane="substrate", openings=[window(reveal=reveal)])).openings[0]
    assert [millimetres(one) for one in (opening.left, opening.right, opening.sill, opening.head)] == [
        900 + 23, 900 + 1135 - 20, 1050, 1050 + 1050 - 15,
    ]  # fmt: skip


def test_boards_are_cut_for_the_structural_opening() -> None:
    reveal = {"left": {"lining_mm": 23}, "right": {"lining_mm": 20}, "head": {"lining_mm": 15}}
    for plane in ("substrate", "finished"):
        lined = face(rectangle(plane=plane, openings=[window(reveal=reveal)]))
        board = lined.board_openings()[0]
        finished = lined.openings[0]
        assert millimetres(board.right - board.left) == millimetres(finished.right - finished.left) + 43
        assert millimetres(board.head - board.sill) == millimetres(finished.head - finished.sill) + 15


def test_linings_keep_a_semicircle_a_semicircle() -> None:
    arch = {
        "kind": "arch", "id": "a", "x_mm": 900, "width_mm": 685, "sill_mm": 900, "springing_mm": 1800, "rise_mm": 342.5,
        "reveal": {side: {"lining_mm": 20} for side in ("left", "right", "head")},
    }  # fmt: skip
    opening = face(rectangle(plane="substrate", openings=[arch])).openings[0]
    assert millimetres(opening.head - opening.springing) == millimetres(opening.right - opening.left) / 2 == 322.5
