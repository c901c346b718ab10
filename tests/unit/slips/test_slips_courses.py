"""Courses on single walls, counted by hand."""

import pytest
from slip_walls import face, layout, opening, outline, rectangle, result


def pieces(elevation, **changes):
    """(course, x, width, height, cut) of every piece, runs written out."""
    rows = []
    for course in face(elevation, **changes)["courses"]:
        for run in course["runs"]:
            rows += [
                (course["course"], run["x_mm"] + i * run["pitch_mm"], run["width_mm"], course["height_mm"], False)
                for i in range(run["count"])
            ]
        rows += [(course["course"], cut["x_mm"], cut["width_mm"], cut["height_mm"], True) for cut in course["cuts"]]
    return sorted(rows)


def test_one_course_of_whole_modules_is_whole_slips() -> None:
    assert pieces(rectangle(665, 75)) == [(0, 0.0, 215.0, 65.0, False), (0, 225.0, 215.0, 65.0, False), (0, 450.0, 215.0, 65.0, False)]  # fmt: skip


def test_odd_courses_start_and_end_with_a_half_bat() -> None:
    odd = [row for row in pieces(rectangle(665, 150)) if row[0] == 1]
    assert [row[1:3] for row in odd] == [(0.0, 102.5), (112.5, 215.0), (337.5, 215.0), (562.5, 102.5)]


def test_bond_start_half_changes_the_courses_over() -> None:
    plain, half = pieces(rectangle(665, 150)), pieces(rectangle(665, 150, bond_start="half"))
    assert [row[1:] for row in plain if row[0] == 0] == [row[1:] for row in half if row[0] == 1]


def test_the_course_grid_is_global_and_does_not_start_at_the_foot() -> None:
    low = outline((0, -40), (665, -40), (665, 75), (0, 75))
    first = pieces(low)[0]
    assert (first[0], first[3]) == (-1, 30.0)


def test_a_wall_moved_by_two_courses_has_the_same_pieces() -> None:
    moved = outline((0, 150), (665, 150), (665, 300), (0, 300))
    assert [row[1:] for row in pieces(moved)] == [row[1:] for row in pieces(rectangle(665, 150))]


def test_the_wall_of_the_false_friend_has_105_pieces_and_its_double_410() -> None:
    """Counted by hand: 10 and 11 pieces in turn; doubling a wall does not give four times the pieces."""
    assert face(rectangle(2250, 750))["total_count"] == 105
    assert face(rectangle(4500, 1500))["total_count"] == 410


def test_a_slot_narrower_than_a_slip_makes_two_pieces_of_one() -> None:
    slot = opening(97.5, 0, 20, 65)
    assert [row[1:3] for row in pieces(rectangle(215, 75, slot))] == [(0.0, 97.5), (117.5, 97.5)]


def test_a_piece_around_the_corner_of_an_opening_is_one_piece_with_its_ring() -> None:
    notch = opening(300, 0, 100, 30)
    cuts = face(rectangle(665, 75, notch))["courses"][0]["cuts"]
    assert len(cuts) == 1
    assert len(cuts[0]["rings"][0]) == 8
    assert (cuts[0]["width_mm"], cuts[0]["height_mm"]) == (215.0, 65.0)


def test_a_raked_piece_is_a_triangle_or_a_trapezium() -> None:
    cuts = face(outline((0, 0), (430, 0), (0, 65)))["courses"][0]["cuts"]
    assert sorted(len(cut["rings"][0]) for cut in cuts) == [3, 4]


def test_two_parts_of_one_unit_are_two_pieces() -> None:
    middle = opening(0, 20, 215, 20)
    assert face(rectangle(215, 65, middle))["total_count"] == 2


def test_a_ripped_course_at_the_top_is_cut_to_its_height() -> None:
    top = [row for row in pieces(rectangle(665, 115)) if row[0] == 1]
    assert {row[3] for row in top} == {40.0}
    assert all(row[4] for row in top)


def test_a_movement_joint_cuts_through_every_course() -> None:
    wall = face(rectangle(4490, 150, existing_joints_x_mm=[2245]))
    assert wall["movement_joint_area_m2"] == pytest.approx(0.0015, abs=1e-12)
    for course in wall["courses"]:
        ends = [run["x_mm"] + (run["count"] - 1) * run["pitch_mm"] + run["width_mm"] for run in course["runs"]]
        assert any(abs(end - 2240) < 1e-6 for end in ends) or any(
            abs(cut["x_mm"] + cut["width_mm"] - 2240) < 1e-6 for cut in course["cuts"]
        )


def test_nominal_bond_runs_on_behind_a_movement_joint() -> None:
    wall = face(rectangle(4490, 75, existing_joints_x_mm=[2245]))
    assert [run["x_mm"] % 225 for run in wall["courses"][0]["runs"]] == [0.0, 0.0]


def test_bed_and_perp_lengths_of_a_wall_by_hand() -> None:
    """Two courses of three stretchers: two beds of 665, perps 2 x 65 and 3 x 65."""
    wall = face(rectangle(665, 150))
    assert wall["bed_joint_length_m"] == pytest.approx(1.33, abs=1e-9)
    assert wall["perp_joint_length_m"] == pytest.approx(5 * 0.065, abs=1e-9)


def test_summary_leaves_the_pieces_out_and_nothing_else() -> None:
    whole, short = face(rectangle(665, 150)), face(rectangle(665, 150), options={"detail": "summary"})
    assert {name: value for name, value in whole.items() if name not in ("courses", "soldier_courses")} == short


def test_us_modules_repeat_without_a_rounding_that_grows() -> None:
    """P13: the 500th perp stands at origin + exact fraction; a third of 8 in is no whole tick."""
    changes = {
        "slip": {"length_mm": 193.675, "height_mm": 57.15},
        "joint": {"perp_mm": 9.525, "bed_mm": 8 * 25.4 / 3 - 57.15},
        "bond": "third_lap",
        "movement_joint": {"max_spacing_mm": 50000, "max_boards_count": 100, "width_mm": 1},
    }
    wide = layout({"width_mm": 45_000, "height_mm": 12_200}, **changes)
    (odd,) = [equal for equal in wide.faces[0].equal_courses if 151 in equal.numbers]
    run = odd.laid.runs[0]
    first_whole = 203.2 - 203.2 / 3
    assert (run.x + (run.count - 1) * run.pitch) / 1e4 == pytest.approx(first_whole + (run.count - 1) * 203.2, abs=1e-6)
    assert wide.faces[0].gauge.bottom(150) / 1e4 == pytest.approx(150 * 8 * 25.4 / 3, abs=1e-4)


def test_elevations_are_added_up() -> None:
    both = result(rectangle(665, 150), rectangle(2250, 750))
    assert both["net_area_m2"] == pytest.approx(0.09975 + 1.6875, abs=1e-12)
    assert both["pieces"]["face_pieces_count"] == 7 + 105
