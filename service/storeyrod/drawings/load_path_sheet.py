"""The load path sheet: how far each link from slip to structure is used, what is missing, and which link governs."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.display_list import Group, Line, Sheet, Strokes, Text, View, box_polygon
from storeyrod.drawings.hatching import hatched
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.line_styles import BAY_FRAME, BAY_WITHIN, BLANK, KEPT, LETTERING, LETTERS_SMALL, SOLID
from storeyrod.drawings.link_bars import (
    AXIS_END,
    IN_PART,
    LIMIT,
    NAMES,
    UNIT,
    UNKNOWN,
    break_mark,
    cut_short,
    governing_mark,
    link_groups,
)
from storeyrod.drawings.link_rows import LinkRow, link_rows
from storeyrod.drawings.paper import PAPERS
from storeyrod.drawings.sheet_frame import Explained, sheet_of_views
from storeyrod.drawings.title_block import Particulars
from storeyrod.weights.load_path_models import LoadPath

SHOWS: Final = "a bar for each link of the load path from outside to inside, its use against 1.0, and what is missing"
VALUES: Final = "Design values: actions and resistances with their partial factors."

_INSET: Final = 5.0
_FIRST: Final = 33.0
"""From the top of the field to the middle of the first row, mm."""

_CAPTION_UP: Final = 11.0
_BOX: Final = (0.0, -1.6, SYMBOL, 1.6)


@dataclass(frozen=True, slots=True)
class LoadPathSubject:
    """What a load path sheet draws: the path as it stands in the answer."""

    path: LoadPath


def load_path_sheet(
    subject: LoadPathSubject, _scale: int | None, _pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet, not to scale; planes of ``said`` are set here."""
    paper, rows = PAPERS[0], link_rows(subject.path)
    left, _, _, top = paper.field
    groups = (*link_groups(rows, left + _INSET, top - _FIRST), _captions(left + _INSET, top - _FIRST + _CAPTION_UP))
    told = Explained(SHOWS, list(_entries(rows)), list(_notes(rows)))
    view = View((0.0, 0.0), 1.0, groups)
    return sheet_of_views(paper, (view,), replace(said, scale=0, planes=VALUES), told, id_prefix)


def _captions(left: float, y: float) -> Group:
    start = left + NAMES
    texts = (
        Text((left, y), "link, action: from outside to inside", LETTERS_SMALL, bold=True),
        Text((start + UNIT * AXIS_END + 12.0, y), "action / resistance", LETTERS_SMALL, bold=True),
        Text(
            (start + UNIT / 2.0, y), "share of the resistance that the action takes", LETTERS_SMALL, "middle", bold=True
        ),
    )
    return Group("captions", LETTERING, texts)


def _entries(rows: list[LinkRow]) -> Iterator[Entry]:
    frame = ("link-frame", BAY_FRAME, box_polygon(_BOX))
    over = ("link-over", KEPT, Strokes(tuple(hatched(_BOX, 1.8))))
    share = ("link-within", BAY_WITHIN, box_polygon((0.0, -1.6, 0.7 * SYMBOL, 1.6)))
    uses = [row.use for row in rows if row.use is not None]
    yield Entry((frame, share), "bar: its length is the use")
    if any(use > 1.0 for use in uses):
        yield Entry((frame, over), "action over resistance")
    if any(use > AXIS_END for use in uses):
        gap = ("link-break", BLANK, break_mark(SYMBOL / 2.0, -2.0, 2.0))
        yield Entry((frame, over, gap), f"broken off: use over {AXIS_END:g}, as printed")
    if any(row.left_out for row in rows):
        part = ("link-in-part", IN_PART, box_polygon(_BOX))
        yield Entry((("link-within", BAY_WITHIN, box_polygon(_BOX)), part), "part left out: use may be higher")
    yield Entry((("link-unknown", UNKNOWN, box_polygon(_BOX)),), "not assessed: use not known")
    yield Entry((("limit", LIMIT, Line((SYMBOL / 2.0, -2.2), (SYMBOL / 2.0, 2.2))),), "1.0: action equals resistance")
    yield Entry((("governs", SOLID, governing_mark((SYMBOL / 2.0, 0.0))),), "link that governs")


def _notes(rows: list[LinkRow]) -> Iterator[str]:
    for row in rows:
        if row.governs:
            yield f"Of what was assessed, {row.name} under {row.link['action']} governs: {row.use_words}."
    if not any(row.governs for row in rows):
        yield "No link was assessed: no link can be said to govern."
    yield f"{_counts(rows)}; a link without data is no link without load."
    if any(row.left_out for row in rows):
        yield "What a use leaves out may be used more, and then governs."
    yield "An engineer must confirm every resistance and the path as a whole."
    if short := cut_short(rows):
        yield f"Links that say less than what is missing: {short}; see the answer."


def _counts(rows: list[LinkRow]) -> str:
    """Links by how far they were assessed; together they are all of them."""
    known = [row for row in rows if row.use is not None]
    in_part = sum(bool(row.left_out) for row in known)
    said = [("Assessed", len(known) - in_part), ("in part", in_part), ("not assessed", len(rows) - len(known))]
    return ", ".join(f"{words}: {count}" for words, count in said if count or words != "in part")
