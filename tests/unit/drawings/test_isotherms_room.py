"""What finds room on the isotherm sheet: rows of tables, numbers of materials, words of points and environments."""

import re
from dataclasses import replace

from sheet_geometry import box_of_text

from drawing_sections import LAYERS, corner, drawn, many_materials, pin, section_of
from drawing_walls import groups_of, texts_of, words_of
from storeyrod.drawings.display_list import Sheet
from storeyrod.drawings.drawn_lines import DrawnLines
from storeyrod.drawings.paper import PAPERS
from storeyrod.drawings.section_subject import Environment, SectionSubject


def test_every_material_has_its_row_in_as_many_columns_as_that_takes():
    words = words_of(drawn(many_materials()), "table-words")
    assert [int(one.split()[0]) for one in words if re.fullmatch(r"\d+ part .*", one)] == [*range(1, 31)]


def test_a_long_table_goes_on_under_its_heading_in_the_next_column():
    words = words_of(drawn(many_materials(120)), "table-words")
    continued = words.count("Materials, continued")
    assert continued
    assert words.count("no., name") == continued + 1


def test_a_larger_sheet_is_taken_before_a_row_is_left_out():
    sheet = drawn(many_materials(486))
    words = words_of(sheet, "table-words")
    assert sum(re.fullmatch(r"\d+ part .*", one) is not None for one in words) == 486
    assert sheet.width > PAPERS[0].width


def test_rows_that_no_sheet_takes_end_in_a_count():
    """A result for every two of 100 environments: 4950 rows."""
    couplings = [(f"coupling {index}", "0.0001 W/(m·K)") for index in range(4950)]
    words = words_of(drawn(replace(corner(), results=couplings)), "table-words")
    shown = sum(re.fullmatch(r"coupling \d+", one) is not None for one in words)
    assert shown > 400
    assert f"and {4950 - shown} more" in words


def test_every_environment_has_its_row():
    names = [Environment(f"room {index}", float(index), 0.13, 0.0) for index in range(30)]
    words = words_of(drawn(replace(corner(), environments=names)), "table-words")
    assert {f"{letter} room {index}" for letter, index in (("A", 0), ("Z", 25), ("AA", 26), ("AD", 29))} <= set(words)


def test_environments_have_letters_that_no_point_has():
    points = [replace(one, id=letter) for one, letter in zip(corner().points, ("A", "b", "X"), strict=True)]
    sheet = drawn(replace(corner(), points=points))
    assert set(words_of(sheet, "environment-words")) == {"C inside: 20 °C", "D outside: -5 °C"}
    assert {"C inside", "D outside"} <= set(words_of(sheet, "table-words"))


def layers() -> SectionSubject:
    """Thirty layers of 13 mm that run from one surface to the other, cut above and below; the outside is at the left."""
    rectangles = tuple((0.0, 13.0 * place, 400.0, 13.0 * (place + 1), place) for place in range(30))
    outline = (
        ((0.0, 0.0), (0.0, 390.0), 1), ((400.0, 0.0), (400.0, 390.0), 0),
        ((0.0, 0.0), (400.0, 0.0), None), ((0.0, 390.0), (400.0, 390.0), None),
    )  # fmt: skip
    named = tuple((f"layer {place}", 0.03 * 1.2**place) for place in range(30))
    return section_of(rectangles, lambda x, _: -5.0 + x / 16.0, named, stretches=outline, coldest=(400.0, 208.0))


def test_numbers_of_thin_layers_leave_room_for_the_words_of_environments():
    sheet = drawn(layers())
    assert set(words_of(sheet, "environment-words")) == {"A inside: 20 °C", "B outside: -5 °C"}
    numbers, notes = words_of(sheet, "material-numbers"), " ".join(words_of(sheet, "legend-words"))
    assert len(numbers) >= 28
    assert len(numbers) == 30 or f"told by their hatching: {30 - len(numbers)}." in notes


def test_numbers_of_crowded_layers_stand_on_both_sides():
    sheet = drawn(layers())
    section = sheet.views[0]
    left, right = (section.on_paper((x, 0.0))[0] for x in (0.0, 400.0))
    at = [text.at[0] for _, text in texts_of(sheet, "material-numbers")]
    assert min(sum(x < left for x in at), sum(x > right for x in at)) >= 12


def test_lines_of_numbers_run_through_no_words():
    sheet = drawn(layers())
    boxes = [
        box_of_text(view, text) for role in ("environment-words", "point-words") for view, text in texts_of(sheet, role)
    ]
    ((_, group),) = groups_of(sheet, "material-leaders")
    lines = DrawnLines([(line.start, line.end) for line in group.items])
    assert all(map(lines.is_clear, boxes))


def test_an_environment_without_room_for_words_is_counted():
    """A slot of 5 mm at 1:10 that meets an environment of its own, deep in the wall."""
    notched = section_of(
        ((0.0, 0.0, 700.0, 1500.0, 0), (705.0, 0.0, 1500.0, 1500.0, 0), (700.0, 0.0, 705.0, 100.0, 0)),
        lambda x, _: x / 100.0, LAYERS[:1], (*corner().environments, Environment("slot", 5.0, 0.1, 0.0)), step=100.0,
        stretches=(((0.0, 0.0), (0.0, 1500.0), 1), ((1500.0, 0.0), (1500.0, 1500.0), 0), ((700.0, 100.0), (705.0, 100.0), 2)),
    )  # fmt: skip
    sheet = drawn(notched)
    assert {words[0] for words in words_of(sheet, "environment-words")} == {"A", "B"}
    assert "Environments without words, see the table:" in " ".join(words_of(sheet, "legend-words"))


def crossed(sheet: Sheet, role: str, line: tuple[tuple[float, float], tuple[float, float]]) -> list[str]:
    """Words of a role over an upright or level line of the section."""
    (x0, y0), (x1, y1) = (sheet.views[0].on_paper(point) for point in line)
    boxes = [(box_of_text(view, text), text.words) for view, text in texts_of(sheet, role)]
    return [words for (left, low, right, top), words in boxes if x0 < right and left < x1 and y0 < top and low < y1]


def test_the_axis_runs_through_no_words():
    sheet = drawn(pin())
    axis = ((-0.01, -14.0), (0.01, 224.0))
    roles = ("point-words", "environment-words", "isotherm-figures")
    assert [words for role in roles for words in crossed(sheet, role, axis)] == []


def test_words_of_a_point_stand_over_no_surface():
    """A wall of 300 x 6000 mm, 6 mm thick at 1:50 and 30 mm at 1:10: words of 25 mm find no room in it."""
    outline = (((0.0, 0.0), (0.0, 6000.0), 0), ((300.0, 0.0), (300.0, 6000.0), 1))
    tall = section_of(
        ((0.0, 0.0, 100.0, 6000.0, 1), (100.0, 0.0, 300.0, 6000.0, 3)), lambda x, _: 20.0 - x / 12.0,
        stretches=outline, points=(("a middle place", 150.0, 3000.0),), step=100.0,
    )  # fmt: skip
    for scale in (None, 50):
        sheet = drawn(tall, scale)
        assert words_of(sheet, "point-words")
        for x in (0.0, 300.0):
            assert crossed(sheet, "point-words", ((x - 0.01, 0.0), (x + 0.01, 6000.0))) == []
