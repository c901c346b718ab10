"""The cut list of whole walls: every piece at a rake by angle, direction and sides, enough to saw it by."""

import math
from collections import Counter

import pytest
from slip_walls import face, opening, outline, rectangle, result


def gable(width=4490, eaves=1500, ridge=3600):
    return outline((0, 0), (width, 0), (width, eaves), (width / 2, ridge), (0, eaves))


def rakes(elevation, **changes):
    return [row for row in result(elevation, **changes)["cut_list"] if "rake_deg" in row]


def test_a_flank_that_rises_900_over_3723_is_cut_at_13_59_degrees() -> None:
    """Plate: atan2(900, 3723) = 13.589 degrees; the roof rises to the right and so does every cut."""
    rows = rakes(outline((0, 0), (3723, 0), (3723, 3000), (0, 2100)))
    assert {round(row["rake_deg"], 2) for row in rows} == {13.59}
    assert {row["rises"] for row in rows} == {"right"}


def test_the_other_flank_rises_to_the_left() -> None:
    rows = rakes(outline((0, 0), (3723, 0), (3723, 2100), (0, 3000)))
    assert {row["rises"] for row in rows} == {"left"}


def test_a_symmetrical_gable_has_as_many_pieces_of_each_size_for_either_side() -> None:
    """Ten modules less a joint on the foot mirror into themselves, course by course."""
    sides = {"left": Counter(), "right": Counter()}
    for row in rakes(gable()):
        size = round(row["length_mm"], 1), round(row["height_mm"], 1), round(row["short_length_mm"], 1)
        sides[row["rises"]][size] += row["count"]
    assert sides["left"] == sides["right"]
    assert sides["left"].total() > 30


def test_a_full_course_at_45_degrees_loses_its_height_in_length() -> None:
    """65 high at 45 degrees: the short side is 65 shorter, or nothing is left of it."""
    rows = rakes(gable(width=4490, eaves=1500, ridge=1500 + 2245))
    whole = [row for row in rows if row["height_mm"] == 65 and row["length_mm"] < 215]
    assert whole
    assert all(row["length_mm"] - row["short_length_mm"] == pytest.approx(65, abs=1e-3) for row in whole)


def test_every_piece_at_a_rake_has_the_area_that_its_row_gives() -> None:
    """Length by height less the corner, over all rows, is the area of the cut pieces with sloping edges."""
    elevation = gable()
    named = sum(
        row["count"]
        * (
            row["length_mm"] * row["height_mm"]
            - (row["length_mm"] - row["short_length_mm"]) ** 2 * math.tan(math.radians(row["rake_deg"])) / 2
        )
        for row in rakes(elevation)
    )
    cuts = [cut for course in face(elevation)["courses"] for cut in course["cuts"] if "rings" in cut]
    single = [cut for cut in cuts if _slopes(cut["rings"][0]) == 1]
    assert named == pytest.approx(sum(_area(cut["rings"][0]) for cut in single), rel=1e-6)


def _edges(ring):
    return list(zip(ring, [*ring[1:], ring[0]], strict=True))


def _slopes(ring):
    return sum(abs(a["x_mm"] - b["x_mm"]) > 1e-3 and abs(a["y_mm"] - b["y_mm"]) > 1e-3 for a, b in _edges(ring))


def _area(ring):
    return abs(sum(a["x_mm"] * b["y_mm"] - b["x_mm"] * a["y_mm"] for a, b in _edges(ring))) / 2


def test_square_pieces_carry_no_more_than_before() -> None:
    rows = result(rectangle(4490, 3000, opening(1000, 900, 1135, 1050)))["cut_list"]
    assert {name for row in rows for name in row} == {"kind", "length_mm", "height_mm", "count"}


def test_the_piece_under_the_ridge_comes_with_its_corners() -> None:
    """Ridge at 3600: a course from 3525 to 3590 under slopes of 2100 over 2245."""
    row = next(row for row in result(gable())["cut_list"] if "outline" in row)
    run = 2245 / 2100
    assert [corner["x_mm"] for corner in row["outline"]] == pytest.approx([0, 150 * run, 85 * run, 65 * run], abs=0.01)
    assert [corner["y_mm"] for corner in row["outline"]] == [0, 0, 65, 65]


def test_a_piece_notched_by_a_head_off_course_comes_with_its_corners() -> None:
    """A sill at 920 leaves 20 of the course from 900 beside the jamb at 1000."""
    rows = result(rectangle(4490, 3000, opening(1000, 920, 1135, 1050)))["cut_list"]
    assert any(len(row.get("outline", ())) == 6 for row in rows)


def test_soldiers_at_a_rake_are_measured_along_their_length() -> None:
    """Soldiers stand upright: of 215, the shorter side loses 65 x tan(rake) across its width."""
    elevation = outline(
        (0, 0), (3723, 0), (3723, 3000), (0, 2100), openings=[opening(400, 0, 1135, 2100, head="soldier")]
    )
    rows = [row for row in rakes(elevation) if row["kind"] == "soldier"]
    assert rows
    across = [row for row in rows if row["height_mm"] == 65 and row["length_mm"] < 215]
    assert across
    drop = 65 * 900 / 3723
    assert all(row["length_mm"] - row["short_length_mm"] == pytest.approx(drop, abs=1e-3) for row in across)


def test_pieces_that_corner_slips_replace_leave_the_list() -> None:
    """The rows hold the pieces that are left to straight slips: all cuts less those at the corner."""
    free = outline((0, 0), (3723, 0), (3723, 3000), (0, 2100))
    corner = {**free, "id": "a", "left_edge": {"kind": "external_corner"}}
    count = {
        name: sum(row["count"] for row in result(elevation)["cut_list"]) for name, elevation in (("free", free), ("corner", corner))
    }  # fmt: skip
    assert count["corner"] < count["free"]


def test_the_order_of_elevations_changes_no_row() -> None:
    """But for the last digits, which rounding to a hundredth of a millimetre hides."""
    one, other = {**gable(), "id": "a"}, {**gable(ridge=3300), "id": "b"}
    there, back = (
        [{name: round(value, 2) if isinstance(value, float) else value for name, value in row.items()} for row in rows]
        for rows in (result(one, other)["cut_list"], result(other, one)["cut_list"])
    )
    assert there == back
