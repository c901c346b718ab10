"""What stands around a face on the sheets of boards and of slips: outline, joints, ground, rods, datum and dimensions."""

from collections.abc import Collection, Iterator
from dataclasses import replace
from typing import Final

from storeyrod.drawings.break_lines import break_groups
from storeyrod.drawings.courses import Rod, course_groups, datum_groups
from storeyrod.drawings.dimensions import ROW_PITCH, Chain, dimensions
from storeyrod.drawings.display_list import Box, Group, Polygon
from storeyrod.drawings.feature_marks import feature_groups
from storeyrod.drawings.ground import ground_groups
from storeyrod.drawings.joint_marks import joint_groups
from storeyrod.drawings.lettering import number
from storeyrod.drawings.level_joints import level_joint_groups, level_joint_names
from storeyrod.drawings.line_styles import FACE_OUTLINE, finer
from storeyrod.drawings.paper import Room
from storeyrod.drawings.piece_marks import points_of
from storeyrod.drawings.sheet_frame import Extent
from storeyrod.drawings.stops import level_rows, level_stops
from storeyrod.drawings.wall_part import WallPart, whole_of
from storeyrod.drawings.zone_edges import ZoneEdges
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face

_FIRST_DIMENSION: Final = 9.0
_LEFT_DIMENSION: Final = 21.0
_RIGHT_DIMENSION: Final = 20.0
_BESIDE_COURSES: Final = 13.0
_BELOW: Final = 2.0
_DATUM: Final = 28.0
"""Distances from the wall on paper, mm."""

_ROOM_LEFT: Final = 44.0
_ROOM_RIGHT: Final = 26.0
_ROOM_TOP: Final = 12.0
_ROOM_FOR_JOINT_NAMES: Final = 9.0
_ROOM_BELOW_DIMENSIONS: Final = 4.0


def room_around(face: Face, plan: JointPlan, zones: ZoneEdges | None = None, part: WallPart | None = None) -> Room:
    """Room for what stands around: rods and levels at the sides, rows of dimensions below, joint names above."""
    rows = _rows(face, plan, zones, part or whole_of(face))
    bottom = _FIRST_DIMENSION + ROW_PITCH * (len(rows) - 1) + _ROOM_BELOW_DIMENSIONS
    top = _ROOM_TOP + (_ROOM_FOR_JOINT_NAMES if plan.slots else 0.0)
    return _ROOM_LEFT, bottom, _ROOM_RIGHT + ROW_PITCH * _has_levels(zones), top


def _has_levels(zones: ZoneEdges | None) -> bool:
    return zones is not None and len(zones.levels) > 2


def _rows(face: Face, plan: JointPlan, zones: ZoneEdges | None, part: WallPart) -> list[Chain]:
    """Rows below the wall at no place yet, nearest first; zones stand over the whole length, which a part names by its ends."""
    *detailed, whole = (part.stops(stops) for stops in level_rows(face, plan))
    rows = [Chain(stops, 0.0, 0.0) for stops in detailed if len(stops) > len(whole)]
    if zones is not None and zones.zones:
        rows.append(Chain(zones.stops, 0.0, 0.0, words=zones.words))
    named = (f"{number(part.right - part.left)}, {part.words}",) if part.breaks else ()
    return [*rows, Chain(whole, 0.0, 0.0, words=(named,))]


def surroundings(
    face: Face,
    plan: JointPlan,
    rod: Rod,
    extent: Extent,
    scale: float,
    marked: Collection[int] = (),
    zones: ZoneEdges | None = None,
    part: WallPart | None = None,
) -> tuple[Group, ...]:
    """All that, over the pieces of the face; ``marked`` courses are numbered on the rods besides every fourth, ``zones`` of wind
    have dimensions of their own. ``extent`` is that of the ``part`` that is shown.
    """
    left, _, right, _ = extent.box
    foot, top = millimetres(face.foot), millimetres(face.top)
    part = part or whole_of(face)
    return (
        *part.clipped(_on_the_wall(part.seen(face), plan, rod, scale), scale),
        *break_groups(face, part, scale),
        *level_joint_names(face, rod.joints, right, scale, part=part),
        *(ground_groups(extent.ground, scale) if extent.ground else ()),
        *course_groups(left, right, foot, top, rod, scale, [*marked, *(joint.course for joint in rod.joints)]),
        *(datum_groups(left - _DATUM * scale, rod.datum, scale) if foot <= rod.datum <= top else ()),
        *dimensions(_chains(face, plan, extent.box, scale, zones, part), scale),
    )


def _on_the_wall(face: Face, plan: JointPlan, rod: Rod, scale: float) -> Iterator[Group]:
    yield from feature_groups(face, scale)
    yield Group("face", finer(FACE_OUTLINE, scale), (Polygon((points_of(face.outline),)),))
    yield from joint_groups(face, plan, scale)
    yield from level_joint_groups(face, rod.joints, scale)


def _chains(
    face: Face, plan: JointPlan, box: Box, scale: float, zones: ZoneEdges | None, part: WallPart
) -> list[Chain]:
    """Rows below the wall, levels at its left, levels of zones and the whole height at its right."""
    left, bottom, right, _ = box
    foot, first = bottom - _BELOW * scale, bottom - _FIRST_DIMENSION * scale
    chains = [
        replace(chain, line=first - index * ROW_PITCH * scale, foot=foot)
        for index, chain in enumerate(_rows(face, plan, zones, part))
    ]
    levels = level_stops(part.seen(face))
    beside = _BESIDE_COURSES * scale
    at_right = [zones.levels] if zones is not None and _has_levels(zones) else []
    for index, stops in enumerate([*at_right, (levels[0], levels[-1])]):
        line = right + (_RIGHT_DIMENSION + index * ROW_PITCH) * scale
        chains.append(Chain(stops, line, right + beside, upright=True))
    if len(levels) > 2:
        chains.append(Chain(levels, left - _LEFT_DIMENSION * scale, left - beside, upright=True))
    return chains
