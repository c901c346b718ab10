"""What holds for sheets of every kind: inside the frame, legible, named, the same each time."""

import re
from collections import Counter
from itertools import combinations

import pytest
from sheet_geometry import SVG, box_of_text, overlap, parsed, points_of

from drawing_walls import ALL_WALLS, HOSTILE, groups_of, lined_wall, sheet_of, small_wall, texts_of, words_of
from storeyrod.answer import Answer
from storeyrod.drawings.display_list import Text
from storeyrod.drawings.paper import PAPERS
from storeyrod.drawings.subjects import KINDS
from storeyrod.drawings.svg import write
from storeyrod.drawings.title_block import title_block_box

CASES = [(wall, kind) for kind in KINDS for wall in ALL_WALLS]

every_sheet = pytest.mark.parametrize(
    ("wall", "kind"), [(ALL_WALLS[name], kind) for name, kind in CASES], ids=["-".join(case) for case in CASES]
)

AROUND_THE_WALL = (
    "axis-figures",
    "captions",
    "course-levels",
    "course-numbers",
    "datum-name",
    "dimension-figures",
    "edge-names",
    "heading",
    "bay-words",
    "joint-names",
    "legend-words",
    "link-words",
    "level-names",
    "pattern-words",
    "plumb-figures",
    "rib-numbers",
    "row-numbers",
    "scale-bar-figures",
    "table-words",
    "title-block-words",
    "way-up-words",
)

ON_THE_WALL = (
    "base-levels",
    "cut-numbers",
    "feature-names",
    "opening-names",
    "piece-ids",
    "rest-words",
    "saw-figures",
    "slip-words",
    "zone-words",
)


@every_sheet
def test_everything_drawn_stays_inside_the_frame(wall, kind):
    sheet = sheet_of(wall, kind=kind)
    paper = next(paper for paper in PAPERS if paper.width == sheet.width)
    left, bottom, right, top = paper.frame
    for view in sheet.views:
        for group in view.groups:
            for item in group.items:
                boxes = [box_of_text(view, item)] if isinstance(item, Text) else []
                corners = [(x, y) for box in boxes for x, y in (box[:2], box[2:])]
                for x, y in corners or [view.on_paper(point) for point in points_of(item)]:
                    assert left - 1e-6 <= x <= right + 1e-6, (group.role, item)
                    assert bottom - 1e-6 <= y <= top + 1e-6, (group.role, item)


@every_sheet
def test_the_wall_and_what_stands_around_it_stay_clear_of_title_block_and_legend(wall, kind):
    sheet = sheet_of(wall, kind=kind)
    paper = next(paper for paper in PAPERS if paper.width == sheet.width)
    view = sheet.views[0]
    items = [item for group in view.groups for item in group.items]
    drawn = [view.on_paper(point)[1] for item in items for point in points_of(item)]
    lettered = [box_of_text(view, item)[1] for item in items if isinstance(item, Text)]
    assert min(drawn + lettered) > title_block_box(paper)[3]


@every_sheet
def test_lettering_around_the_wall_never_overlaps(wall, kind):
    sheet = sheet_of(wall, kind=kind)
    boxes = [(box_of_text(view, text), role) for role in AROUND_THE_WALL for view, text in texts_of(sheet, role)]
    clashes = [(one, other) for one, other in combinations(boxes, 2) if overlap(one[0], other[0])]
    assert clashes == []


@every_sheet
def test_lettering_of_one_kind_on_the_wall_never_overlaps(wall, kind):
    sheet = sheet_of(wall, kind=kind)
    for role in ON_THE_WALL:
        boxes = sorted((box_of_text(view, text) for view, text in texts_of(sheet, role)), key=lambda box: box[1])
        clashes = [pair for pair in combinations(boxes[:400], 2) if overlap(*pair)]
        assert clashes == [], role


@every_sheet
def test_no_id_stands_twice_when_an_elevation_is_drawn_twice(wall, kind):
    root = parsed(sheet_of(wall, kind=kind), sheet_of(wall, prefix="sheet-2:", kind=kind))
    ids = Counter(element.get("id") for element in root.iter() if element.get("id"))
    assert [name for name, count in ids.items() if count > 1] == []


@every_sheet
def test_wording_promises_nothing(wall, kind):
    words = write(Answer((sheet_of(wall, kind=kind),))).decode().lower()
    assert "for information only - not an approval; check on site." in words
    assert re.search(r"\b(approved|safe|compliant|certified|guaranteed)\b", words) is None


@every_sheet
def test_the_same_sheet_gives_the_same_bytes(wall, kind):
    assert write(Answer((sheet_of(wall, kind=kind),))) == write(Answer((sheet_of(wall, kind=kind),)))


@pytest.mark.parametrize("kind", KINDS)
def test_hostile_names_leave_the_document_well_formed_and_without_scripts(kind):
    wall = lined_wall(HOSTILE)
    wall |= {"openings": [wall["openings"][0] | {"id": HOSTILE}]}
    root = parsed(sheet_of(wall, kind=kind))
    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags <= {"svg", "g", "title", "desc", "rect", "path", "text"}
    assert any(HOSTILE in (element.text or "") for element in root.iter(f"{SVG}title"))


@pytest.mark.parametrize("kind", KINDS)
def test_ids_hold_no_white_space(kind):
    root = parsed(sheet_of(small_wall(HOSTILE), kind=kind))
    assert [element.get("id") for element in root.iter() if re.search(r"\s", element.get("id") or "")] == []


@pytest.mark.parametrize("kind", KINDS)
def test_the_document_is_named_and_described_for_those_who_cannot_see_it(kind):
    root = parsed(sheet_of(small_wall(), kind=kind))
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == f"{title.get('id')} {description.get('id')}"
    assert title.text.startswith("Test wall: ")
    assert "0123456789abcdef" * 4 in description.text


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("cut_sheets", "load_path")])
def test_each_movement_joint_is_drawn_on_every_sheet_of_an_elevation(kind):
    assert len(groups_of(sheet_of(ALL_WALLS["block"], kind=kind), "movement-joint")) == 1


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("cut_sheets", "load_path")])
def test_openings_are_explained_where_the_wall_has_one(kind):
    def explained(wall) -> bool:
        return any(words.startswith("opening") for words in words_of(sheet_of(wall, kind=kind), "legend-words"))

    assert explained(small_wall())
    assert not explained({name: value for name, value in small_wall().items() if name != "openings"})
