"""The elevation sheet: one face with its boards, fasteners, movement joints, courses and dimensions."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.boards.layout import FaceBoards
from storeyrod.drawings.courses import Rod, course_groups, datum_groups
from storeyrod.drawings.dimensions import ROW_PITCH, Chain, dimensions, stops_of
from storeyrod.drawings.display_list import Box, Group, Point, Polygon, Sheet, Text, View, box_polygon
from storeyrod.drawings.fastener_marks import fastener_groups
from storeyrod.drawings.ground import ground_groups, ground_line
from storeyrod.drawings.joint_marks import joint_blanks, joint_groups
from storeyrod.drawings.legend import legend
from storeyrod.drawings.lettering import shortened
from storeyrod.drawings.line_styles import FACE_OUTLINE, FRAME, LETTERING, LETTERS_LARGE, finer
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.paper import Paper, Room, paper_and_scale
from storeyrod.drawings.piece_marks import piece_marks, points_of
from storeyrod.drawings.title_block import FOR_INFORMATION, PLANES, Particulars, title_block
from storeyrod.fasteners.schedule import FaceFasteners
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face

_GROUND_SHARE: Final = 0.25
"""Ground is drawn down to this share of the wall's height below its foot."""

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

FASTENERS_BY_PATTERN: Final = "Fasteners by pattern only: wind, pull-out and weight were not checked."

_MOST_CORNERS: Final = 40
"""Outlines with more corners, as of a traced survey, are not dimensioned corner by corner."""


@dataclass(frozen=True, slots=True)
class ElevationSubject:
    """What an elevation sheet draws."""

    face: Face
    plan: JointPlan
    boards: FaceBoards
    fasteners: FaceFasteners
    pitch: float
    datum: float = 0.0


@dataclass(frozen=True, slots=True)
class _Extent:
    """Box of the wall in mm, boards and ground included, and the ground line within it."""

    box: Box
    ground: tuple[Point, ...]


def elevation_sheet(
    subject: ElevationSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. ``said.scale`` is set here."""
    extent = _extent(subject)
    left, bottom, right, top = extent.box
    around = _around(subject)
    paper, chosen = paper_and_scale(right - left, top - bottom, around, scale, pointer)
    said = replace(said, scale=chosen)
    origin = _origin(paper.place(around), extent.box, chosen)
    pieces = piece_marks(subject.fasteners.pieces, float(chosen))
    wall = View(origin, float(chosen), (*pieces.groups, *_wall_groups(subject, extent, float(chosen))))
    notes = [*_left_out(pieces.unnamed), FASTENERS_BY_PATTERN]
    frame = View((0.0, 0.0), 1.0, _paper_groups(paper, subject, said, notes, ground=bool(extent.ground)))
    return Sheet(paper.width, paper.height, _title(said), _description(said), (wall, frame), id_prefix)


def _title(said: Particulars) -> str:
    return f"{said.project}: {said.subject}" if said.project else said.subject


def _description(said: Particulars) -> str:
    return (
        f"{said.subject} at 1:{said.scale}, with outline, openings, board pieces, fasteners, movement joints, courses and "
        f"dimensions. {PLANES} {FOR_INFORMATION} Fingerprint of the take-off: {said.fingerprint}. "
        f"Engine {said.engine_version}, data edition {said.data_edition}."
    )


def _extent(subject: ElevationSubject) -> _Extent:
    face, pieces = subject.face, subject.boards.pieces
    left = millimetres(min([face.left, *(piece.left for piece in pieces)]))
    right = millimetres(max([face.right, *(piece.right for piece in pieces)]))
    foot, top = millimetres(face.foot), millimetres(face.top)
    base = face.elevation.base
    if base is None:
        return _Extent((left, foot, right, top), ())
    low = foot - (top - foot) * _GROUND_SHARE
    points = [(point.x_mm, point.y_mm) for point in base.ground]
    line = ground_line(points, left, right, low, top)
    return _Extent((left, min(foot, *(y for _, y in line)), right, top), line)


def _around(subject: ElevationSubject) -> Room:
    """Room for what stands around the wall: rods and levels at its sides, rows of dimensions below, joint names above."""
    bottom = _FIRST_DIMENSION + ROW_PITCH * (len(_rows(subject)) - 1) + _ROOM_BELOW_DIMENSIONS
    top = _ROOM_TOP + (_ROOM_FOR_JOINT_NAMES if subject.plan.slots else 0.0)
    return _ROOM_LEFT, bottom, _ROOM_RIGHT, top


def _origin(place: Box, box: Box, scale: int) -> Point:
    """Where the wall's own origin lies on the paper, so that the wall stands in the middle of its place."""
    left, bottom, right, top = box
    x = (place[0] + place[2] - (left + right) / scale) / 2.0
    y = (place[1] + place[3] - (bottom + top) / scale) / 2.0
    return x, y


def _wall_groups(subject: ElevationSubject, extent: _Extent, scale: float) -> tuple[Group, ...]:
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


def _corners(face: Face) -> Sequence[Point]:
    return points_of(face.outline) if len(face.outline) <= _MOST_CORNERS else ()


def _rows(subject: ElevationSubject) -> list[tuple[float, ...]]:
    """Stops of the level chains, nearest to the wall first: openings and corners, joints, the whole."""
    face = subject.face
    ends = [millimetres(face.left), millimetres(face.right)]
    jambs = [millimetres(x) for opening in face.openings for x in (opening.left, opening.right)]
    joints = [millimetres(slot.centre) for slot in subject.plan.slots]
    detailed = (stops_of([*ends, *jambs, *(x for x, _ in _corners(face))]), stops_of([*ends, *joints]))
    return [*(stops for stops in detailed if len(stops) > 2), stops_of(ends)]


def _levels(face: Face) -> tuple[float, ...]:
    """Stops of the upright chain: foot, top, corners, sills, springings and heads."""
    levels = [millimetres(y) for opening in face.openings for y in (opening.sill, opening.springing, opening.head)]
    return stops_of([millimetres(face.foot), millimetres(face.top), *levels, *(y for _, y in _corners(face))])


def _chains(subject: ElevationSubject, box: Box, scale: float) -> list[Chain]:
    """Rows below the wall, levels at its left and the whole height at its right."""
    left, bottom, right, _ = box
    chains = [
        Chain(stops, bottom - (_FIRST_DIMENSION + index * ROW_PITCH) * scale, bottom - _BELOW * scale)
        for index, stops in enumerate(_rows(subject))
    ]
    levels = _levels(subject.face)
    beside = _BESIDE_COURSES * scale
    chains.append(Chain((levels[0], levels[-1]), right + _RIGHT_DIMENSION * scale, right + beside, upright=True))
    if len(levels) > 2:
        chains.append(Chain(levels, left - _LEFT_DIMENSION * scale, left - beside, upright=True))
    return chains


def _left_out(unnamed: int) -> list[str]:
    return [f"Ids of boards left out for lack of room: {unnamed}; ask for a larger scale."] if unnamed else []


def _paper_groups(
    paper: Paper, subject: ElevationSubject, said: Particulars, notes: Sequence[str], *, ground: bool
) -> tuple[Group, ...]:
    left, _, right, top = paper.frame
    heading = shortened(said.subject, LETTERS_LARGE, right - left - 10.0)
    return (
        Group("frame", FRAME, (box_polygon(paper.frame), box_polygon(paper.strip))),
        Group("heading", LETTERING, (Text((left + 5.0, top - 8.0), heading, LETTERS_LARGE, bold=True),)),
        *legend(paper, said.scale, subject.pitch, notes, ground=ground),
        *title_block(paper, said),
    )
