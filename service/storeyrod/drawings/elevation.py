"""The elevation sheet: one face with its boards, fasteners, movement joints, courses and dimensions."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.boards.layout import FaceBoards
from storeyrod.drawings.courses import Rod, course_groups, datum_groups
from storeyrod.drawings.dimensions import ROW_PITCH, Chain, dimensions
from storeyrod.drawings.display_list import Box, Group, Polygon, Sheet, View
from storeyrod.drawings.fastener_marks import fastener_groups
from storeyrod.drawings.ground import ground_groups
from storeyrod.drawings.joint_marks import joint_blanks, joint_groups
from storeyrod.drawings.legend import Entry
from storeyrod.drawings.legend_entries import (
    board_entries,
    courses_entry,
    fastener_entries,
    ground_entry,
    joint_entry,
    opening_entry,
    outline_entry,
)
from storeyrod.drawings.line_styles import FACE_OUTLINE, finer
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.paper import Room, paper_and_scale
from storeyrod.drawings.piece_marks import piece_marks, points_of
from storeyrod.drawings.sheet_frame import Explained, Extent, extent_of, origin_on, sheet_of_wall
from storeyrod.drawings.stops import level_rows, level_stops
from storeyrod.drawings.title_block import Particulars
from storeyrod.fasteners.schedule import FaceFasteners
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face

_FIRST_DIMENSION: Final = 9.0
_LEFT_DIMENSION: Final = 21.0
_RIGHT_DIMENSION: Final = 20.0
_BESIDE_COURSES: Final = 13.0
_BELOW: Final = 2.0
_DATUM: Final = 25.0
"""Distances from the wall on paper, mm."""

_ROOM_LEFT: Final = 41.0
_ROOM_RIGHT: Final = 26.0
_ROOM_TOP: Final = 12.0
_ROOM_FOR_JOINT_NAMES: Final = 9.0
_ROOM_BELOW_DIMENSIONS: Final = 4.0

SHOWS: Final = "outline, openings, board pieces, fasteners, movement joints, courses and dimensions"
FASTENERS_BY_PATTERN: Final = "Fasteners by pattern only: wind, pull-out and weight were not checked."


@dataclass(frozen=True, slots=True)
class ElevationSubject:
    """What an elevation sheet draws."""

    face: Face
    plan: JointPlan
    boards: FaceBoards
    fasteners: FaceFasteners
    pitch: float
    datum: float = 0.0


def elevation_sheet(
    subject: ElevationSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. ``said.scale`` is set here."""
    extent = extent_of(subject.face, ((piece.left, piece.right) for piece in subject.boards.pieces))
    around = _around(subject)
    paper, chosen = paper_and_scale(*extent.size, around, scale, pointer)
    origin = origin_on(paper.place(around), extent.box, chosen)
    pieces = piece_marks(subject.fasteners.pieces, float(chosen))
    wall = View(origin, float(chosen), (*pieces.groups, *_wall_groups(subject, extent, float(chosen))))
    notes = [*_left_out(pieces.unnamed), FASTENERS_BY_PATTERN]
    told = Explained(SHOWS, list(_entries(subject.pitch, ground=bool(extent.ground))), notes)
    return sheet_of_wall(paper, wall, replace(said, scale=chosen), told, id_prefix)


def _entries(pitch: float, *, ground: bool) -> Iterator[Entry]:
    yield from board_entries()
    yield opening_entry()
    yield outline_entry()
    yield from fastener_entries()
    yield joint_entry()
    yield courses_entry(pitch)
    if ground:
        yield ground_entry()


def _around(subject: ElevationSubject) -> Room:
    """Room for what stands around the wall: rods and levels at its sides, rows of dimensions below, joint names above."""
    rows = level_rows(subject.face, subject.plan)
    bottom = _FIRST_DIMENSION + ROW_PITCH * (len(rows) - 1) + _ROOM_BELOW_DIMENSIONS
    top = _ROOM_TOP + (_ROOM_FOR_JOINT_NAMES if subject.plan.slots else 0.0)
    return _ROOM_LEFT, bottom, _ROOM_RIGHT, top


def _wall_groups(subject: ElevationSubject, extent: Extent, scale: float) -> tuple[Group, ...]:
    face = subject.face
    left, _, right, _ = extent.box
    foot, top = millimetres(face.foot), millimetres(face.top)
    rod = Rod(subject.datum, subject.pitch)
    datum = datum_groups(left - _DATUM * scale, rod.datum, scale) if foot <= rod.datum <= top else ()
    return (
        *joint_blanks(face, subject.plan, scale),
        *opening_groups(face, scale),
        *fastener_groups(subject.fasteners.pieces, scale),
        Group("face", finer(FACE_OUTLINE, scale), (Polygon((points_of(face.outline),)),)),
        *joint_groups(face, subject.plan, scale),
        *(ground_groups(extent.ground, scale) if extent.ground else ()),
        *course_groups(left, right, foot, top, rod, scale),
        *datum,
        *dimensions(_chains(subject, extent.box, scale), scale),
    )


def _chains(subject: ElevationSubject, box: Box, scale: float) -> list[Chain]:
    """Rows below the wall, levels at its left and the whole height at its right."""
    left, bottom, right, _ = box
    chains = [
        Chain(stops, bottom - (_FIRST_DIMENSION + index * ROW_PITCH) * scale, bottom - _BELOW * scale)
        for index, stops in enumerate(level_rows(subject.face, subject.plan))
    ]
    levels = level_stops(subject.face)
    beside = _BESIDE_COURSES * scale
    chains.append(Chain((levels[0], levels[-1]), right + _RIGHT_DIMENSION * scale, right + beside, upright=True))
    if len(levels) > 2:
        chains.append(Chain(levels, left - _LEFT_DIMENSION * scale, left - beside, upright=True))
    return chains


def _left_out(unnamed: int) -> list[str]:
    return [f"Ids of boards left out for lack of room: {unnamed}; ask for a larger scale."] if unnamed else []
