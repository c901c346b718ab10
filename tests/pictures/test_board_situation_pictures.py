"""Situations of boards and fasteners as pictures, in the signs of the board pictures: B and b boards in turn, x a fastener."""

from test_board_pictures import SYSTEM, drawn, fasten, lay, picture_of, wall_from

from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.fasteners.models import FastenerScheduleRequest


def found(room, request_model, elevation):
    answer = room(
        request_model.model_validate({"elevations": [elevation], "system": SYSTEM, "options": {"effort": "quick"}})
    )
    return {item["code"] for item in answer.findings if item["level"] != "info"}


def test_g28_fasteners_that_a_vent_takes_move_beside_it_and_become_no_fewer() -> None:
    """Beside the vent the row has 400 and 700 of the board left: with four in 1200 that is 2 and 3, each in its equal share, at 100
    and 300, 616.7, 850 and 1083.3. The row below keeps its four. The vent is the fifth character of the second line.
    """
    wall = wall_from("\n".join(["B" * 20] * 8))
    vent = {"id": "vent", "kind": "rectangle", "x_mm": 400, "y_mm": 450, "width_mm": 100, "height_mm": 75}
    lines = picture_of({**wall, "openings": [vent]}, fasteners=True)
    lines[1] = f"{lines[1][:4]}.{lines[1][5:]}"
    assert lines == drawn("""
BBBBBBBBBBBBbbbbbbbb
BxBx.BxBxBxBbxbbxbxb
BBBBBBBBBBBBbbbbbbbb
BBBBBBBBBBBBbbbbbbbb
BBBBBBBBBBBBbbbbbbbb
BxBBxBBxBBxBbxbbxbxb
BBBBBBBBBBBBbbbbbbbb
BBBBBBBBBBBBbbbbbbbb
""")
    assert picture_of(wall, fasteners=True)[1] == lines[5]


def test_g30_a_spandrel_lower_than_a_board_is_cut_on_the_ribs_from_boards_that_run_through() -> None:
    """Its four courses are the two upper ones of the lower row and the two lower ones of the upper row, whose seams stand half a
    board apart. Seams stand at 12, 24 and 36 below and 6, 18 and 30 above: none within a character of a corner of a window.
    """
    wall = wall_from("""
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
""")
    assert picture_of(wall) == drawn("""
BBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbbbbbbb
BBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbbbbbbb
BBBBBBbbbbbbbb............BBBBbbbbbbbbbb
BBBBBBbbbbbbbb............BBBBbbbbbbbbbb
BBBBBBbbbbbbbb............BBBBbbbbbbbbbb
BBBBBBbbbbbbbb............BBBBbbbbbbbbbb
BBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbbbbbbb
BBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbbbbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbb
BBBBBBBBBBBBbb............BBBBBBBBBBbbbb
BBBBBBBBBBBBbb............BBBBBBBBBBbbbb
BBBBBBBBBBBBbb............BBBBBBBBBBbbbb
BBBBBBBBBBBBbb............BBBBBBBBBBbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbb
""")
    assert found(lay, BoardLayoutRequest, wall) == set()
    sunk = {**wall, "openings": [{**wall["openings"][0], "height_mm": 330}, wall["openings"][1]]}
    assert "cut-off-rib-line" in found(lay, BoardLayoutRequest, sunk)


def test_g58_at_an_arris_fasteners_keep_their_distance_from_the_end_of_the_wall_behind() -> None:
    """The wall behind ends at 123. The row that runs through reaches past it to 23 and has 1100 over wall for four fasteners: the
    first at 123 + 137.5. The row that butts starts at 123 and has 677 for three: the first at 123 + 112.8.
    """
    wall = wall_from("\n".join(["B" * 20] * 16), left_edge={"kind": "external_corner"})
    assert picture_of(wall, fasteners=True) == drawn("""
 BBBBBBBbbbbbbbbbbbb
 BxBxBxBbxbbxbbxbbxb
 BBBBBBBbbbbbbbbbbbb
 BBBBBBBbbbbbbbbbbbb
 BBBBBBBbbbbbbbbbbbb
 BxBxBxBbxbbxbbxbbxb
 BBBBBBBbbbbbbbbbbbb
 BBBBBBBbbbbbbbbbbbb
BBBBBBBBBBBBbbbbbbbb
BBxBBxBBxBxBbxbbxbxb
BBBBBBBBBBBBbbbbbbbb
BBBBBBBBBBBBbbbbbbbb
BBBBBBBBBBBBbbbbbbbb
BBxBBxBBxBxBbxbbxbxb
BBBBBBBBBBBBbbbbbbbb
BBBBBBBBBBBBbbbbbbbb
""")
    request = FastenerScheduleRequest.model_validate(
        {"elevations": [wall], "system": SYSTEM, "options": {"effort": "quick"}}
    )
    places = [row["x_mm"] for row in fasten(request).result["positions"]]
    assert min(places) >= 123 + 50
