"""Laws of the layout that follows its offcuts, on random walls: it never breaks more rules, and never takes more boards."""

import board_walls
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.boards.chosen_layout import chosen_layout
from storeyrod.boards.cutting_plan import cut_boards
from storeyrod.boards.layout import lay_boards
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.wall.wall import wall_of

FEW = settings(max_examples=8, deadline=None)


def laid(elevations, system, effort="standard"):
    request = BoardLayoutRequest.model_validate({"elevations": elevations, "system": system})
    wall = wall_of(request.elevations, request.system)
    plans = joint_plans(wall)
    return lay_boards(wall, plans), chosen_layout(wall, plans, effort)


def boards_of(layout):
    return cut_boards(layout, (), "quick").boards_count


def lacks_of(layout):
    return sum(len(item["where"].get("pieces", [])) for item in layout.findings)


@given(board_walls.elevations(), board_walls.systems())
@FEW
def test_the_layout_chosen_takes_no_more_boards_than_the_plain_one(wall, system) -> None:
    plain, chosen = laid([wall], system)
    assert boards_of(chosen) <= boards_of(plain)


@given(board_walls.elevations(), board_walls.systems())
@FEW
def test_no_rule_is_given_up_for_a_board(wall, system) -> None:
    plain, chosen = laid([wall], system)
    assert lacks_of(chosen) <= lacks_of(plain)


@given(st.permutations(["a", "b", "c"]), board_walls.elevations(), board_walls.systems())
@FEW
def test_the_order_of_elevations_changes_no_place(order, wall, system) -> None:
    faces = {name: {**wall, "id": name, "bond_from": "left"} for name in "abc"}
    one, other = (
        {face.face.id: places_of(face) for face in laid([faces[name] for name in names], system)[1].faces}
        for names in ("abc", order)
    )
    assert one == other


def places_of(face):
    return [(piece.row.number, piece.left, piece.width) for piece in face.pieces]
