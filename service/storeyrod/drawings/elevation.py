"""The elevation sheet: one face with its boards, fasteners, movement joints, courses and dimensions."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.boards.layout import FaceBoards
from storeyrod.boards.pieces import Piece
from storeyrod.drawings.courses import Rod
from storeyrod.drawings.display_list import Box, Group, Sheet, View
from storeyrod.drawings.fastener_marks import fastener_groups
from storeyrod.drawings.joint_marks import joint_blanks
from storeyrod.drawings.legend import Entry
from storeyrod.drawings.legend_entries import (
    board_entries,
    courses_entry,
    fastener_entries,
    feature_entry,
    ground_entry,
    joints_entry,
    opening_entry,
    outline_entry,
)
from storeyrod.drawings.level_joints import level_joint_blanks
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.paper import paper_and_scale
from storeyrod.drawings.piece_marks import piece_marks
from storeyrod.drawings.sheet_frame import Explained, Extent, extent_of, origin_on, sheet_of_wall
from storeyrod.drawings.surroundings import room_around, surroundings
from storeyrod.drawings.title_block import Particulars
from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face

SHOWS: Final = "outline, openings, board pieces, fasteners, movement joints, courses and dimensions"
FASTENERS_BY_PATTERN: Final = "Fasteners by pattern only: wind, pull-out and weight were not checked."
FASTENERS_BY_WIND: Final = "Fasteners by pattern and wind: see the fasteners sheet. Weight was not checked."


@dataclass(frozen=True, slots=True)
class ElevationSubject:
    """What an elevation sheet draws."""

    face: Face
    plan: JointPlan
    boards: FaceBoards
    fasteners: FaceFasteners
    rod: Rod


def elevation_sheet(
    subject: ElevationSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. ``said.scale`` is set here."""
    extent = extent_of(subject.face, (_bounds(piece) for piece in subject.boards.pieces))
    around = room_around(subject.face, subject.plan)
    paper, chosen = paper_and_scale(*extent.size, around, scale, pointer)
    origin = origin_on(paper.place(around), extent.box, chosen)
    pieces = piece_marks(subject.fasteners.pieces, float(chosen))
    wall = View(origin, float(chosen), (*pieces.groups, *_wall_groups(subject, extent, float(chosen))))
    by_wind = any(one.need is not None for one in subject.fasteners.pieces)
    notes = [*_left_out(pieces.unnamed), FASTENERS_BY_WIND if by_wind else FASTENERS_BY_PATTERN]
    told = Explained(SHOWS, list(_entries(subject, ground=bool(extent.ground))), notes)
    return sheet_of_wall(paper, wall, replace(said, scale=chosen), told, id_prefix)


def _bounds(piece: Piece) -> Box:
    return piece.left, piece.bottom, piece.right, piece.top


def _entries(subject: ElevationSubject, *, ground: bool) -> Iterator[Entry]:
    yield from board_entries()
    if subject.face.openings:
        yield opening_entry()
    if subject.face.features:
        yield feature_entry()
    yield outline_entry()
    yield from fastener_entries()
    if subject.plan.slots or subject.rod.joints:
        yield joints_entry(level=bool(subject.rod.joints))
    yield courses_entry(subject.rod.pitch)
    if ground:
        yield ground_entry()


def _wall_groups(subject: ElevationSubject, extent: Extent, scale: float) -> tuple[Group, ...]:
    face, rod = subject.face, subject.rod
    return (
        *joint_blanks(face, subject.plan, scale),
        *level_joint_blanks(face, rod.joints, scale),
        *opening_groups(face, scale),
        *fastener_groups(subject.fasteners.pieces, scale),
        *surroundings(face, subject.plan, rod, extent, scale),
    )


def _left_out(unnamed: int) -> list[str]:
    return [f"Ids of boards left out for lack of room: {unnamed}; ask for a larger scale."] if unnamed else []
