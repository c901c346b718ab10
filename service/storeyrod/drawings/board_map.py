"""The boards sheet: every piece of one elevation at its place, with the board it is cut from, its cut edges and its sizes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.boards.layout import FaceBoards
from storeyrod.boards.pieces import Kind
from storeyrod.drawings.courses import Rod
from storeyrod.drawings.display_list import Group, Line, Sheet, View, box_polygon
from storeyrod.drawings.joint_marks import joint_blanks
from storeyrod.drawings.legend import Entry
from storeyrod.drawings.legend_entries import (
    PIECE,
    courses_entry,
    feature_entry,
    ground_entry,
    joints_entry,
    opening_entry,
    outline_entry,
)
from storeyrod.drawings.level_joints import level_joint_blanks
from storeyrod.drawings.line_styles import CUT_EDGE, CUT_PIECE, FULL_PIECE, UP_ARROW
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.paper import Room, paper_and_scale
from storeyrod.drawings.row_marks import ROOM_FOR_ROWS, row_groups
from storeyrod.drawings.sawn_pieces import SawnPiece, SawnPieceMarks, sawn_piece_marks
from storeyrod.drawings.sheet_frame import Explained, Extent, extent_of, origin_on, sheet_of_wall
from storeyrod.drawings.surroundings import room_around, surroundings
from storeyrod.drawings.title_block import Particulars
from storeyrod.drawings.up_arrow import SMALL, arrow, sheet_arrow
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face

SHOWS: Final = (
    "outline, openings, board pieces with their boards, cut edges and sizes, rows, movement joints and dimensions"
)

READABLE: Final = 20.0
"""Beyond one to this, a larger sheet is taken: in a board of a usual size its id, size and number would find no room."""

_KINDS: Final[tuple[tuple[Kind, str], ...]] = (
    ("full", "full boards"),
    ("cut", "cut to a rectangle"),
    ("shaped", "shaped: notched or holed"),
    ("raked", "raked or curved"),
)


@dataclass(frozen=True, slots=True)
class BoardMapSubject:
    """What a boards sheet draws; ``pieces`` are those of the face, each with what it is cut from."""

    plan: JointPlan
    boards: FaceBoards
    pieces: Sequence[SawnPiece]
    rod: Rod

    @property
    def face(self) -> Face:
        """The face."""
        return self.boards.face


def board_map_sheet(
    subject: BoardMapSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. ``said.scale`` is set here."""
    pieces = [one.piece for one in subject.pieces]
    extent = extent_of(subject.face, ((one.left, one.bottom, one.right, one.top) for one in pieces))
    around = _around(subject)
    paper, chosen = paper_and_scale(*extent.size, around, scale, pointer, READABLE)
    origin = origin_on(paper.place(around), extent.box, chosen)
    marks = sawn_piece_marks(subject.pieces, float(chosen))
    wall = View(origin, float(chosen), (*marks.groups, *_wall_groups(subject, extent, float(chosen))))
    notes = [*_counts(subject.pieces), *_left_out(marks)]
    told = Explained(SHOWS, list(_entries(subject, ground=bool(extent.ground))), notes, together=True)
    sheet = sheet_of_wall(paper, wall, replace(said, scale=chosen), told, id_prefix)
    return replace(sheet, views=(*sheet.views, View((0.0, 0.0), 1.0, tuple(sheet_arrow(paper)))))


def _around(subject: BoardMapSubject) -> Room:
    left, bottom, right, top = room_around(subject.face, subject.plan)
    return left, bottom, right + ROOM_FOR_ROWS, top


def _wall_groups(subject: BoardMapSubject, extent: Extent, scale: float) -> tuple[Group, ...]:
    face, rod = subject.face, subject.rod
    return (
        *joint_blanks(face, subject.plan, scale),
        *level_joint_blanks(face, rod.joints, scale),
        *opening_groups(face, scale),
        *surroundings(face, subject.plan, rod, extent, scale),
        *row_groups([one.piece.row for one in subject.pieces], face, extent.box[2], scale),
    )


def _entries(subject: BoardMapSubject, *, ground: bool) -> Iterator[Entry]:
    left, bottom, right, top = PIECE
    yield Entry((("board-full", FULL_PIECE, box_polygon(PIECE)),), "full board: row-position, board")
    yield Entry((("board-cut", CUT_PIECE, box_polygon(PIECE)),), "cut board: id, size, board")
    cut = Line((right - 0.5, bottom + 0.5), (right - 0.5, top - 0.5))
    yield Entry((("board-cut", CUT_PIECE, box_polygon(PIECE)), ("cut-edge", CUT_EDGE, cut)), "sawn edge, line inside")
    up = arrow(((left + right) / 2.0, 0.0), SMALL)
    yield Entry(tuple(("way-up", UP_ARROW, item) for item in up), "this way up")
    if subject.face.openings:
        yield opening_entry()
    if subject.face.features:
        yield feature_entry()
    yield outline_entry()
    if subject.plan.slots or subject.rod.joints:
        yield joints_entry(level=bool(subject.rod.joints))
    yield courses_entry(subject.rod.pitch)
    if ground:
        yield ground_entry()


def _counts(pieces: Sequence[SawnPiece]) -> Iterator[str]:
    """The table of counts, a line for each kind."""
    yield "Pieces on this elevation:"
    for kind, words in _KINDS:
        count = sum(one.piece.kind == kind for one in pieces)
        if count:
            yield f"{words}: {count}"
    new = len({one.source for one in pieces if not one.is_stock})
    old = len({one.source for one in pieces if one.is_stock})
    whence = [f"{new} new boards"] * bool(new) + [f"{old} stock offcuts"] * bool(old)
    yield f"in all: {len(pieces)}, from {' and '.join(whence) or 'no boards'}"


def _left_out(marks: SawnPieceMarks) -> list[str]:
    """What found no room: a larger scale or the cut sheets have it."""
    notes = [f"{marks.unnamed} pieces without id: ask for a larger scale."] if marks.unnamed else []
    return [*notes, f"{marks.shortened} pieces lack a figure: see the cut sheets."] if marks.shortened else notes
