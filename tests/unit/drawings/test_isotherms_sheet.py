"""The isotherm sheet: lines where the temperatures say, everything named once, nothing over anything else."""

import math
import re
from dataclasses import replace
from functools import cache
from itertools import combinations

import numpy as np
import pytest
from sheet_geometry import box_of_text, overlap, parsed, points_of

from drawing_sections import LAYERS, SECTIONS, corner, drawn, pin, section_of, still
from drawing_walls import groups_of, texts_of, words_of
from storeyrod.answer import Answer
from storeyrod.drawings.display_list import Marker, Polyline, Sheet, Text
from storeyrod.drawings.paper import PAPERS
from storeyrod.drawings.section_subject import MarkedPoint, SectionSubject
from storeyrod.drawings.svg import write
from storeyrod.drawings.title_block import title_block_box
from storeyrod.findings import Refusal

ROLES = (
    "environment-words", "heading", "isotherm-figures", "legend-words", "material-numbers", "point-words",
    "scale-bar-figures", "table-words", "title-block-words",
)  # fmt: skip


@cache
def sheet_of(name: str) -> Sheet:
    return drawn(SECTIONS[name]())


every_section = pytest.mark.parametrize("name", SECTIONS)


def slab(low: float, high: float) -> SectionSubject:
    """A square of 400 whose temperature rises from left to right."""
    outline = (((0.0, 0.0), (0.0, 400.0), 1), ((400.0, 0.0), (400.0, 400.0), 0))
    return section_of(
        ((0.0, 0.0, 400.0, 400.0, 0),), lambda x, _: low + (high - low) * x / 400.0, LAYERS[:1], stretches=outline
    )


def lines_by_temperature(sheet: Sheet) -> dict[float, list[Polyline]]:
    return {float(group.id.removeprefix("isotherm:")): list(group.items) for _, group in groups_of(sheet, "isotherm")}


def test_isotherms_stand_at_round_temperatures_where_the_section_has_them():
    """0 to 20 °C over 400 mm: every 2 K, 40 mm apart."""
    lines = lines_by_temperature(drawn(slab(0.0, 20.0)))
    assert sorted(lines) == [2.0 * step for step in range(1, 10)]
    for temperature, (line,) in lines.items():
        assert {round(x, 9) for x, _ in line.points} == {20.0 * temperature}


def test_each_isotherm_has_its_figure_on_it():
    sheet = drawn(slab(0.0, 20.0))
    section, lines = sheet.views[0], lines_by_temperature(sheet)
    for view, text in texts_of(sheet, "isotherm-figures"):
        (line,) = lines[float(text.words)]
        assert view.on_paper(text.at)[0] == pytest.approx(section.on_paper(line.points[0])[0])


def test_a_small_difference_is_drawn_in_fractions_of_a_kelvin():
    assert sorted(words_of(drawn(slab(19.0, 19.9)), "isotherm-figures"))[0] == "19.1"


def layer(thick: float) -> SectionSubject:
    """A flat layer of 900 mm whose temperature rises by 20 K over its thickness."""
    return section_of(
        ((0.0, 0.0, 900.0, thick, 0),), lambda _x, y: 20.0 * y / thick, LAYERS[:1],
        stretches=(((0.0, 0.0), (900.0, 0.0), 1), ((0.0, thick), (900.0, thick), 0)), step=thick / 3.0,
    )  # fmt: skip


def test_isotherms_without_room_for_figures_between_them_have_some_beyond_their_ends():
    """60 mm at 1:5: 2 K are 1.2 mm apart, lettering is 1.8 mm high. The roundest stand there, the others are counted."""
    sheet = drawn(layer(60.0))
    lines, figures = lines_by_temperature(sheet), words_of(sheet, "isotherm-figures")
    assert sorted(lines) == [2.0 * step for step in range(1, 10)]
    assert "10" in figures
    assert f"Isotherms without figure: {len(lines) - len(figures)}; count from the" in words_of(sheet, "legend-words")
    section = sheet.views[0]
    ends = section.on_paper((0.0, 0.0))[0], section.on_paper((900.0, 0.0))[0]
    assert all(not ends[0] <= text.at[0] <= ends[1] for _, text in texts_of(sheet, "isotherm-figures"))


def test_isotherms_that_would_run_together_are_drawn_farther_apart():
    """10 mm at 1:5: 2 K would be 0.2 mm apart, less than a line is thick; 5 K are half a millimetre."""
    assert sorted(lines_by_temperature(drawn(layer(10.0)))) == [5.0, 10.0, 15.0]


def test_one_temperature_all_over_has_no_isotherm():
    sheet = drawn(still())
    assert lines_by_temperature(sheet) == {}
    assert not [words for words in words_of(sheet, "legend-words") if "isotherm, every" in words]


def test_points_show_their_temperatures_and_stand_in_the_table():
    sheet = sheet_of("corner")
    assert "P1 19.4 °C" in words_of(sheet, "point-words")
    assert {"P1", "425", "900"} <= set(words_of(sheet, "table-words"))
    ((_, group),) = groups_of(sheet, "points")
    assert [item.id for item in group.items if isinstance(item, Marker)] == ["point:P1", "point:P2", "point:P3"]


def test_the_coldest_point_of_the_inside_surface_is_marked_and_named():
    sheet = sheet_of("corner")
    ((_, group),) = groups_of(sheet, "coldest-point")
    assert [item.at for item in group.items] == [(425.0, 425.0)]
    assert "coldest 18.8 °C" in words_of(sheet, "point-words")


def test_environments_stand_outside_with_letter_and_temperature_and_in_the_table_with_resistance_and_heat():
    sheet = sheet_of("corner")
    assert set(words_of(sheet, "environment-words")) == {"A inside: 20 °C", "B outside: -5 °C"}
    assert {"A inside", "0.13", "14.853", "B outside", "0.04", "-14.853"} <= set(words_of(sheet, "table-words"))


def test_words_of_environments_lie_over_no_material():
    subject, sheet = corner(), sheet_of("corner")
    section = sheet.views[0]
    for view, text in texts_of(sheet, "environment-words"):
        left, bottom, right, top = box_of_text(view, text)
        (x, y), scale = section.origin, section.scale
        assert subject.regions.is_empty(
            ((left - x) * scale, (bottom - y) * scale, (right - x) * scale, (top - y) * scale)
        )


@every_section
def test_every_material_of_the_table_has_its_number_or_is_counted(name):
    subject, sheet = SECTIONS[name](), sheet_of(name)
    numbers = words_of(sheet, "material-numbers")
    assert len(numbers) == len(set(numbers))
    counted = [words for words in words_of(sheet, "legend-words") if words.startswith("Materials without number")]
    assert len(numbers) == len(subject.materials) or counted


def test_a_thick_material_has_its_number_inside_it():
    subject, sheet = corner(), sheet_of("corner")
    section = sheet.views[0]
    places = {text.words: view.on_paper(text.at) for view, text in texts_of(sheet, "material-numbers")}
    for words in ("2", "4"):
        x, y = ((value - start) * section.scale for value, start in zip(places[words], section.origin, strict=True))
        assert subject.regions.at((x, y)) == int(words) - 1


def test_numbers_of_thin_layers_stand_outside_where_the_wall_is_cut():
    """The plaster of 15 mm is 1.5 mm thick at 1:10."""
    section = sheet_of("corner").views[0]
    right = section.on_paper((1425.0, 0.0))[0]
    outside = {text.words for view, text in texts_of(sheet_of("corner"), "material-numbers") if text.at[0] > right}
    assert outside == {"1", "3", "5"}


def test_metals_are_filled_and_others_hatched():
    groups = {group.id: group for _, group in groups_of(sheet_of("sheet_metal"), "material")}
    assert groups["material-4"].style.fill is not None
    assert groups["material-3"].style.fill is None


def test_a_section_that_turns_shows_its_axis_and_gives_heat_of_the_whole():
    sheet = sheet_of("pin")
    assert len(groups_of(sheet, "axis-of-turning")) == 1
    assert "gives, W" in words_of(sheet, "table-words")
    assert any("whole body" in words for words in words_of(sheet, "legend-words"))


def test_results_stand_in_the_table_and_in_the_title_block():
    sheet = sheet_of("corner")
    assert {"coupling", "0.594 W/(m·K)"} <= set(words_of(sheet, "table-words"))
    assert "Heat flow 14.853 W/m; psi -0.056 internal, 0.123 external, W/(m·K)" in words_of(sheet, "title-block-words")


def test_the_scale_is_the_largest_that_fits():
    assert "1:10 on A3" in words_of(sheet_of("corner"), "title-block-words")
    assert "1:2 on A3" in words_of(sheet_of("pin"), "title-block-words")


def test_a_section_too_large_for_one_to_ten_is_drawn_on_a_larger_sheet():
    assert "1:10 on A2" in words_of(drawn(corner(2900.0)), "title-block-words")


def test_a_scale_that_fits_no_paper_is_refused():
    with pytest.raises(Refusal) as caught:
        drawn(corner(), 1)
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("sheet-too-small", "/sheets/0/scale")
    assert "the section of 1425 x 1425 mm" in caught.value.detail
    least = int(caught.value.detail.split("give ")[1].split()[0])
    assert drawn(corner(), least).width == 1189
    with pytest.raises(Refusal):
        drawn(corner(), least - 1)


def test_a_surface_of_one_temperature_has_no_coldest_point():
    sheet = drawn(replace(corner(), even=True))
    assert groups_of(sheet, "coldest-point") == []
    assert "along the whole inside surface 18.8 °C" in words_of(sheet, "point-words")
    assert not [words for words in words_of(sheet, "legend-words") if "coldest" in words]
    table = words_of(sheet, "table-words")
    assert table[table.index("along the whole inside surface") :][1:4] == ["-", "-", "18.76"]


def test_words_of_a_whole_surface_make_way_for_those_of_a_point_on_it():
    middle = MarkedPoint("P4", (925.0, 425.0), 19.4)
    subject = replace(corner(), even=True, points=[middle], coldest=replace(middle, id="coldest"))
    sheet = drawn(subject)
    (near,) = (text for _, text in texts_of(sheet, "point-words") if text.words.startswith("P4"))
    (whole,) = (text for _, text in texts_of(sheet, "point-words") if text.words.startswith("along"))
    at = sheet.views[0].on_paper(middle.at)
    assert math.dist(near.at, at) < math.dist(whole.at, at)


@pytest.mark.parametrize(("side", "scale"), [(5.0, "10:1"), (25.0, "5:1"), (80.0, "2:1"), (150.0, "1:1")])
def test_a_small_section_is_drawn_enlarged(side, scale):
    outline = (((0.0, 0.0), (0.0, side), 1), ((side, 0.0), (side, side), 0))
    small = section_of(
        ((0.0, 0.0, side, side, 0),), lambda x, _: 20.0 * x / side, LAYERS[:1], stretches=outline, step=side
    )
    sheet = drawn(small)
    assert f"{scale} on A3" in words_of(sheet, "title-block-words")
    assert f"Isotherms at {scale}, with" in sheet.description
    left, right = (sheet.views[0].on_paper((x, 0.0))[0] for x in (0.0, side))
    enlarged, one = map(int, scale.split(":"))
    assert right - left == pytest.approx(side * enlarged / one)
    assert f"100 mm on paper = {100 * one // enlarged} mm of section" in words_of(sheet, "scale-bar-figures")


def test_a_section_far_from_its_origin_is_drawn_the_same():
    subject = pin()
    moved = replace(subject.temperatures, ys=subject.temperatures.ys + 90_000.0)
    outline = [
        replace(one, start=(one.start[0], one.start[1] + 90_000.0), end=(one.end[0], one.end[1] + 90_000.0))
        for one in subject.stretches
    ]
    coldest = replace(subject.coldest, at=(0.0, 90_000.0))
    far = drawn(replace(subject, temperatures=moved, stretches=outline, coldest=coldest))
    assert words_of(far, "isotherm-figures") == words_of(sheet_of("pin"), "isotherm-figures")


@every_section
def test_everything_drawn_stays_inside_the_frame_and_off_title_block_and_legend(name):
    sheet = sheet_of(name)
    paper = next(paper for paper in PAPERS if paper.width == sheet.width)
    left, bottom, right, top = paper.frame
    for index, view in enumerate(sheet.views):
        foot = title_block_box(paper)[3] if index < 2 else bottom
        for group in view.groups:
            for item in group.items:
                boxes = [box_of_text(view, item)] if isinstance(item, Text) else []
                corners = [point for box in boxes for point in (box[:2], box[2:])]
                for x, y in corners or [view.on_paper(point) for point in points_of(item)]:
                    assert left - 1e-6 <= x <= right + 1e-6, (group.role, item)
                    assert foot - 1e-6 <= y <= top + 1e-6, (group.role, item)


@every_section
def test_lettering_never_overlaps(name):
    sheet = sheet_of(name)
    boxes = [(box_of_text(view, text), text.words) for role in ROLES for view, text in texts_of(sheet, role)]
    assert [(one[1], other[1]) for one, other in combinations(boxes, 2) if overlap(one[0], other[0])] == []


@every_section
def test_every_word_of_the_sheet_is_looked_at(name):
    roles = {
        group.role
        for view in sheet_of(name).views
        for group in view.groups
        for item in group.items
        if isinstance(item, Text)
    }
    assert {role for role in roles if not role.startswith("legend-")} <= set(ROLES)


@every_section
def test_the_document_is_well_formed_and_promises_nothing(name):
    root = parsed(sheet_of(name))
    assert root.get("role") == "img"
    words = write(Answer((sheet_of(name),))).decode().lower()
    assert re.search(r"\b(approved|safe|compliant|certified|guaranteed)\b", words) is None


@every_section
def test_the_same_section_gives_the_same_bytes(name):
    assert write(Answer((drawn(SECTIONS[name]()),))) == write(Answer((sheet_of(name),)))


def test_a_fine_mesh_is_drawn_with_few_points():
    """Straightened by less than is seen: a straight isotherm has two points, however fine the mesh."""
    subject = slab(0.0, 20.0)
    fine = np.linspace(0.0, 400.0, 401)
    values = np.tile(20.0 * fine / 400.0, (401, 1))
    field = replace(subject.temperatures, xs=fine, ys=fine, values=values, filled=np.ones((400, 400), dtype=bool))
    sheet = drawn(replace(subject, temperatures=field, cells=np.zeros((400, 400), dtype=np.int32)))
    assert {len(line.points) for (line,) in lines_by_temperature(sheet).values()} == {2}
