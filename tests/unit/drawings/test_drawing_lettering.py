"""Lettering: room, shortening, breaking, numbers."""

import pytest

from storeyrod.drawings.lettering import both_ends, fits, is_inside, number, shortened, width_of, wrapped

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
HOLE = ((4.0, 4.0), (6.0, 4.0), (6.0, 6.0), (4.0, 6.0))


@pytest.mark.parametrize(
    ("length_mm", "words"),
    [(1200.0, "1200"), (429.5, "429.5"), (851.26, "851.3"), (0.04, "0"), (-0.0, "0"), (112.49999, "112.5")],
)
def test_lengths_are_written_to_the_tenth(length_mm, words):
    assert number(length_mm) == words


def test_room_grows_with_height_and_characters():
    assert width_of("00-01", 2.5) == pytest.approx(2.5 * (4 * 0.88 + 0.52))


def test_characters_of_full_width_take_a_full_square():
    assert width_of("北", 1.8) == pytest.approx(1.8 / 0.72)


def test_text_that_fits_is_not_shortened():
    assert shortened("door", 2.0, 100.0) == "door"


def test_text_is_shortened_to_its_room():
    short = shortened("a very long name of an opening", 2.0, 20.0)
    assert short.endswith("…")
    assert width_of(short, 2.0) <= 20.0


def test_a_text_that_fits_keeps_its_middle():
    assert both_ends("door", 2.0, 100.0) == "door"


def test_a_text_too_long_for_its_room_keeps_both_ends():
    """Eight characters of 1.76 mm at a height of 2 mm and an ellipsis of 2.78 take 16.9 mm, a ninth would take 18.6."""
    assert both_ends("abcdefghijklmnop", 2.0, 17.7) == "abcd…mnop"


def test_room_for_nothing_leaves_one_character():
    assert both_ends("abcdef", 2.0, 0.0) == "a…"


def test_lines_are_broken_at_spaces():
    lines = wrapped("wind and weight were not checked", 2.0, 25.0)
    assert " ".join(lines) == "wind and weight were not checked"
    assert all(width_of(line, 2.0) <= 25.0 for line in lines)


def test_a_box_in_a_hole_is_not_inside():
    assert not is_inside((5.0, 5.0), (SQUARE, HOLE))
    assert not fits((4.5, 4.5, 5.5, 5.5), (SQUARE, HOLE))


def test_a_box_beside_a_hole_fits():
    assert fits((1.0, 1.0, 3.0, 3.0), (SQUARE, HOLE))


def test_a_box_across_a_hole_narrower_than_itself_does_not_fit():
    slot = ((4.9, 2.0), (5.1, 2.0), (5.1, 8.0), (4.9, 8.0))
    assert not fits((1.0, 4.0, 8.0, 5.0), (SQUARE, slot))


def test_a_box_around_a_hole_does_not_fit():
    assert not fits((1.0, 1.0, 9.0, 9.0), (SQUARE, HOLE))
