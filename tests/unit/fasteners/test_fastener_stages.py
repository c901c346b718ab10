"""Stages: two to hold the board, the lowest row waits for the base trim (common practice, no source)."""

from fastener_requests import answer, places, stages, wall, window


def test_on_the_base_the_lowest_row_waits_for_the_trim_and_two_of_the_upper_row_come_first() -> None:
    assert stages(answer(wall(1200, 600)), "wall-00-01") == ["after_trim"] * 4 + ["first", "rest", "rest", "first"]


def test_above_the_base_the_first_two_stand_at_opposite_corners() -> None:
    found = answer(wall(1200, 1200))
    rows = dict(zip(places(found, "wall-01-01"), stages(found, "wall-01-01"), strict=True))
    first = [place for place, stage in rows.items() if stage == "first"]
    assert first == [min(rows), max(rows)]
    assert "after_trim" not in rows.values()


def test_a_piece_over_a_door_does_not_wait_for_the_trim() -> None:
    found = answer(wall(1200, 600, openings=[window("d", 0, 0, 1200, 225)]))
    assert "after_trim" not in stages(found, "wall-00-01")


def test_a_piece_on_an_upper_step_of_the_base_waits_for_the_trim() -> None:
    points = [(0, 0), (1200, 0), (1200, 150), (2400, 150), (2400, 600), (0, 600)]
    found = answer({"id": "wall", "outline": [{"x_mm": x, "y_mm": y} for x, y in points]})
    assert "after_trim" in stages(found, "wall-00-02")


def test_a_piece_on_two_steps_of_the_base_waits_with_its_lowest_row() -> None:
    points = [(0, 0), (600, 0), (600, 150), (1200, 150), (1200, 600), (0, 600)]
    found = answer({"id": "wall", "outline": [{"x_mm": x, "y_mm": y} for x, y in points]})
    waiting = [y for (_, y), stage in zip(places(found, "wall-00-01"), stages(found, "wall-00-01"), strict=True) if stage == "after_trim"]  # fmt: skip
    assert set(waiting) == {182.5}


def test_a_piece_of_one_row_on_the_base_is_held_by_its_ends() -> None:
    assert stages(answer(wall(1200, 300)), "wall-00-01") == ["first", "after_trim", "after_trim", "first"]


def test_a_pier_of_one_plumb_line_on_the_base_is_held_by_both() -> None:
    assert stages(answer(wall(150, 600)), "wall-00-01") == ["first", "first"]


def test_counts_by_stage_add_up() -> None:
    found = answer(wall(4800, 2400, openings=[window("a", 1000, 600, 1000, 1200)])).result
    assert found["first_count"] + found["rest_count"] + found["after_trim_count"] == found["fasteners_count"]
    assert found["fasteners_count"] == len(found["positions"])
