"""The vapour pressure sheet: curves where the numbers say, planes with moisture marked, months in a table, nothing over anything else."""

import re
from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest
from sheet_geometry import box_of_text, overlap, parsed, points_of

from drawing_moisture import MOISTURE, MONTHS, WALL, damp, dry, many_layers, planes_of, steady, tight, wet
from drawing_walls import groups_of, particulars, texts_of, words_of
from storeyrod.answer import Answer
from storeyrod.drawings.chart import Chart, measured_axis, whole_axis
from storeyrod.drawings.display_list import Line, Marker, Polyline, Sheet, Text
from storeyrod.drawings.layer_table import layer_table
from storeyrod.drawings.legend import Entry, legend
from storeyrod.drawings.paper import PAPERS
from storeyrod.drawings.svg import write
from storeyrod.drawings.vapour_pressure_sheet import vapour_pressure_sheet
from storeyrod.drawings.vapour_subject import THINNEST, VapourSubject

ROLES = (
    "air-words", "chart-figures", "heading", "layer-numbers", "legend-words", "table-words", "title-block-words", "wet-words",
)  # fmt: skip


def drawn(subject: VapourSubject) -> Sheet:
    return vapour_pressure_sheet(subject, None, "", particulars(subject="Vapour pressure"), "")


@cache
def sheet_of(name: str) -> Sheet:
    return drawn(MOISTURE[name]())


def told(name: str) -> str:
    return " ".join(words_of(sheet_of(name), "legend-words"))


every_subject = pytest.mark.parametrize("name", MOISTURE)


def frames_of(sheet: Sheet) -> list[tuple[float, float, float, float]]:
    """Boxes of the charts: temperature, pressure over thickness, pressure over equivalent air layers."""
    return [item.box for _, group in groups_of(sheet, "chart-frame") for item in group.items]


def curves_of(sheet: Sheet, role: str) -> list[list[Polyline]]:
    return [[item for item in group.items if isinstance(item, Polyline)] for _, group in groups_of(sheet, role)]


def test_a_chart_places_values_between_its_axes():
    chart = Chart((10.0, 20.0, 110.0, 70.0), measured_axis("", 250.0), whole_axis("", 3.0, 48.0))
    assert (chart.upright.low, chart.upright.high) == (0.0, 50.0)
    assert chart.at((125.0, 25.0)) == pytest.approx((60.0, 45.0))


def test_an_axis_round_one_value_has_room():
    axis = whole_axis("", 20.0, 20.0)
    assert axis.low <= 20.0 <= axis.high
    assert axis.high > axis.low


def test_saturation_pressure_stands_over_the_thickness_of_its_planes():
    """The insulation ends 235 of 263 mm from the inside."""
    subject, sheet = dry(), sheet_of("dry")
    left, bottom, right, top = frames_of(sheet)[1]
    (line,) = curves_of(sheet, "saturation-pressure")[0]
    x, y = line.points[6]
    assert (x - left) / (right - left) == pytest.approx(235.0 / 263.0)
    assert (y - bottom) / (top - bottom) == pytest.approx(subject.months[0].saturations[6] / 2500.0)


def test_over_equivalent_air_layers_each_layer_is_as_wide_as_it_resists_vapour():
    """0.15 + 10 + 7.2 of 18.65 m end with the insulation."""
    sheet = sheet_of("dry")
    left, _, right, _ = frames_of(sheet)[2]
    (line,) = curves_of(sheet, "vapour-pressure")[1]
    assert (line.points[6][0] - left) / (right - left) == pytest.approx(17.35 / 18.65)


def test_the_temperature_runs_from_air_to_air():
    sheet = sheet_of("dry")
    ((line,),) = curves_of(sheet, "temperature")
    _, bottom, _, top = frames_of(sheet)[0]
    shares = [(y - bottom) / (top - bottom) for _, y in (line.points[0], line.points[-1])]
    assert shares == pytest.approx([(20.0 + 5.0) / 25.0, (-2.8 + 5.0) / 25.0])


def test_without_moisture_the_coldest_month_is_drawn():
    assert any(words.startswith("January: inside 20.0 °C") for words in words_of(sheet_of("dry"), "heading"))


def test_the_month_in_which_most_condenses_is_drawn():
    """In January 41.5 g/m2, more than in any other month."""
    assert MONTHS[wet().shown] == "January"
    mild = wet()
    months = [replace(month, condensed={6: 0.001 * index}) for index, month in enumerate(mild.months)]
    assert MONTHS[replace(mild, months=months).shown] == "December"


def test_the_month_asked_for_is_drawn():
    sheet = drawn(replace(wet(), asked=3))
    assert any(words.startswith("April: ") for words in words_of(sheet, "heading"))


def test_planes_that_hold_moisture_are_marked_at_saturation_in_both_charts():
    subject, sheet = wet(), sheet_of("wet")
    for (_, group), (_, bottom, _, top) in zip(groups_of(sheet, "wet-planes"), frames_of(sheet)[1:], strict=True):
        (marker,) = (item for item in group.items if isinstance(item, Marker))
        assert (marker.at[1] - bottom) / (top - bottom) == pytest.approx(subject.month.saturations[6] / 2500.0)
    lines = [item for _, group in groups_of(sheet, "wet-lines") for item in group.items if isinstance(item, Line)]
    assert [line.start[0] == line.end[0] for line in lines] == [True, True]


def test_a_plane_that_has_dried_is_not_marked_in_that_month():
    sheet = drawn(replace(wet(), asked=MONTHS.index("August")))
    assert [group.items for _, group in groups_of(sheet, "wet-planes")] == [(), ()]


def test_what_condenses_and_is_held_stands_in_the_table_in_grams():
    words = words_of(sheet_of("wet"), "table-words")
    assert {"c1 (3|4) condenses, g/m²", "41.5", "-30.1", "c1 (3|4) holds at the end, g/m²", "107.5"} <= set(words)


def test_every_month_is_named_and_the_one_drawn_has_a_grey_ground():
    sheet = sheet_of("wet")
    assert set(MONTHS) <= set(words_of(sheet, "table-words"))
    ((_, group),) = groups_of(sheet, "month-shown")
    left, _, right, _ = group.items[0].box
    (january,) = (box_of_text(view, text) for view, text in texts_of(sheet, "table-words") if text.words == "January")
    assert left <= january[0]
    assert january[2] <= right


def test_planes_beyond_those_with_rows_are_counted_and_summed():
    sheet = sheet_of("many_planes")
    assert "Planes with moisture that have no rows: 3" in told("many_planes")
    # seven planes of 87.5 g/m2 at the end of January
    assert "612.5" in words_of(sheet, "table-words")


def test_planes_are_named_by_the_layers_that_they_lie_between_or_in():
    subject = dry()
    assert [subject.name_of(plane) for plane in (0, 1, 4, 6, 8)] == [
        "at the inside",
        "1|2",
        "in 3",
        "3|4",
        "at the outside",
    ]


def test_vapour_pressure_breaks_at_tight_layers_and_where_it_is_not_known():
    over_thickness, _ = curves_of(sheet_of("tight"), "vapour-pressure")
    assert len(over_thickness) == 2
    assert "the vapour pressure is not known" in told("tight")


def test_tight_layers_are_black_and_told():
    sheet = sheet_of("tight")
    assert len(groups_of(sheet, "layer-tight")) == 4
    assert words_of(sheet, "table-words").count("tight") == 2
    assert "passes no vapour" in words_of(sheet, "legend-words")


def test_a_layer_without_thickness_is_drawn_and_told():
    assert tight().thicknesses[1] == THINNEST
    assert "-" in words_of(sheet_of("tight"), "table-words")
    assert "Layers without thickness are drawn 10 mm thick." in told("tight")


def test_one_block_of_days_has_one_column():
    words = words_of(sheet_of("steady"), "table-words")
    assert words.count("60 days") == 1
    assert "200.0" in words
    assert len(steady().months) == 1


def test_too_many_layers_for_their_numbers_are_told():
    sheet = sheet_of("many_layers")
    assert words_of(sheet, "layer-numbers") == []
    assert "Layers are too many for their numbers over the charts." in told("many_layers")


def test_all_of_fifty_layers_stand_in_the_table():
    words = words_of(sheet_of("many_layers"), "table-words")
    assert [f"{number} layer {number - 1} of a cross-section" in words for number in range(1, 51)] == [True] * 50


def test_layers_that_find_no_room_beside_a_wide_table_of_months_are_counted():
    """Down from 200 mm to 100 mm: 95 mm below the title are 26 rows of 3.6 mm, heading and last line among them."""
    table = layer_table(many_layers(), 200.0, 100.0, 20.0, 10.0)
    assert [row[0].words for row in table.rows[-2:]] == ["24 layer 23 of a cross-section", "and 26 more"]


def test_long_names_of_layers_differ_at_both_ends():
    names = [f"{side} slab of mineral wool with a facing of glass fleece, {end} half" for side in "ab" for end in "cd"]
    layers = tuple(replace(WALL[3], name=name) for name in names)
    subject = replace(dry(), layers=layers, planes=planes_of(layers))
    shown = [row[0].words for row in layer_table(subject, 200.0, 100.0, 20.0, 300.0).rows[1:]]
    assert [words[2] + words[-6] for words in shown] == ["ac", "ad", "bc", "bd"]
    assert all("…" in words for words in shown)


def test_the_air_itself_is_marked_at_both_ends_of_the_pressure_charts():
    subject, sheet = dry(), sheet_of("dry")
    for (_, group), (left, bottom, right, top) in zip(
        groups_of(sheet, "air-pressure"), frames_of(sheet)[1:], strict=True
    ):
        assert [marker.at[0] for marker in group.items] == [left, right]
        pressures = [2500.0 * (marker.at[1] - bottom) / (top - bottom) for marker in group.items]
        assert pressures == pytest.approx([air.pressure for air in subject.month.airs])
    assert words_of(sheet, "air-words") == []


def test_air_over_the_saturation_of_its_surface_is_shown_and_told():
    sheet = sheet_of("damp")
    assert words_of(sheet, "air-words") == ["air 1262 Pa", "air 1262 Pa"]
    assert "Inside surface: vapour pressure is cut to saturation" in told("damp")
    assert "Caution: water condenses on the inside surface." in words_of(sheet, "heading")


def test_without_moisture_between_layers_the_month_of_the_dampest_surface_is_drawn():
    months = list(damp().months)
    months[4] = replace(months[4], indoor=replace(months[4].indoor, pressure=4000.0))
    assert MONTHS[replace(damp(), months=months).shown] == "May"


def test_a_steady_climate_is_not_told_by_months():
    sheet = sheet_of("steady")
    words = " ".join([sheet.description, *words_of(sheet, "table-words"), *words_of(sheet, "legend-words")])
    assert "month" not in words.lower()


def test_notes_go_on_in_the_next_column_as_a_whole():
    """Notes of two lines, more than the rest of the first column takes."""
    entries = [Entry((), f"entry {index}") for index in range(6)]
    notes = [f"{index} {'word ' * 12}end" for index in range(4)]
    (words,) = [group for group in legend(PAPERS[0], 0, entries, notes) if group.role == "legend-words"]
    texts = [text for text in words.items if isinstance(text, Text)][6:]
    starts = [index for index, text in enumerate(texts) if text.words[0].isdigit()]
    for start, end in zip(starts, [*starts[1:], len(texts)], strict=True):
        assert len({text.at[0] for text in texts[start:end]}) == 1
    assert len({text.at[0] for text in texts}) > 1


def test_layers_have_their_numbers_over_both_charts():
    assert sorted(words_of(sheet_of("dry"), "layer-numbers")) == sorted("12345" * 2)


def test_a_layer_that_resists_no_vapour_is_drawn():
    open_layers = (WALL[0], replace(WALL[2], sd=0.0))
    subject = dry()
    months = [
        replace(
            month, temperatures=month.temperatures[:6], saturations=month.saturations[:6], pressures=month.pressures[:6]
        )
        for month in subject.months
    ]
    sheet = drawn(VapourSubject(open_layers, planes_of(open_layers), months, ""))
    assert len(frames_of(sheet)) == 3


def test_results_stand_in_the_title_block():
    assert "Condenses and dries out; greatest 107.5 g/m² in February" in words_of(sheet_of("wet"), "title-block-words")


@every_subject
def test_everything_drawn_stays_inside_the_frame_and_off_the_strip(name):
    sheet = sheet_of(name)
    left, bottom, right, top = PAPERS[0].field
    view = sheet.views[0]
    for group in view.groups:
        for item in group.items:
            boxes = [box_of_text(view, item)] if isinstance(item, Text) else []
            corners = [point for box in boxes for point in (box[:2], box[2:])]
            for x, y in corners or points_of(item):
                assert left <= x <= right, (group.role, item)
                assert bottom <= y <= top, (group.role, item)


@every_subject
def test_lettering_never_overlaps(name):
    sheet = sheet_of(name)
    boxes = [(box_of_text(view, text), text.words) for role in ROLES for view, text in texts_of(sheet, role)]
    assert [(one[1], other[1]) for one, other in combinations(boxes, 2) if overlap(one[0], other[0])] == []


@every_subject
def test_every_word_of_the_sheet_is_looked_at(name):
    roles = {
        group.role
        for view in sheet_of(name).views
        for group in view.groups
        for item in group.items
        if isinstance(item, Text)
    }
    assert roles <= set(ROLES)


@every_subject
def test_the_document_is_well_formed_and_promises_nothing(name):
    assert parsed(sheet_of(name)).get("role") == "img"
    words = write(Answer((sheet_of(name),))).decode().lower()
    assert re.search(r"\b(approved|safe|compliant|certified|guaranteed)\b", words) is None


@every_subject
def test_the_same_check_gives_the_same_bytes(name):
    assert write(Answer((drawn(MOISTURE[name]()),))) == write(Answer((sheet_of(name),)))
