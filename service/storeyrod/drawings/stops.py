"""Where dimensions of a wall stop: ends, corners, jambs and joints along it; foot, sills, heads and top up it. All mm."""

from collections.abc import Sequence
from typing import Final

from storeyrod.drawings.dimensions import stops_of
from storeyrod.drawings.display_list import Point
from storeyrod.drawings.piece_marks import points_of
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face

MOST_CORNERS: Final = 40
"""Outlines with more corners, as of a traced survey, are not dimensioned corner by corner."""


def corners_of_outline(face: Face) -> Sequence[Point]:
    """Corners of the outline that are dimensioned."""
    return points_of(face.outline) if len(face.outline) <= MOST_CORNERS else ()


def ends_of_face(face: Face) -> list[float]:
    """Left and right end."""
    return [millimetres(face.left), millimetres(face.right)]


def opening_stops(face: Face) -> tuple[float, ...]:
    """Ends, corners and jambs."""
    jambs = [millimetres(x) for opening in face.openings for x in (opening.left, opening.right)]
    return stops_of([*ends_of_face(face), *jambs, *(x for x, _ in corners_of_outline(face))])


def level_rows(face: Face, plan: JointPlan) -> list[tuple[float, ...]]:
    """Rows of stops along the wall, nearest to it first: openings and corners, joints, the whole."""
    ends = ends_of_face(face)
    joints = [millimetres(slot.centre) for slot in plan.slots]
    detailed = (opening_stops(face), stops_of([*ends, *joints]))
    return [*(stops for stops in detailed if len(stops) > 2), stops_of(ends)]


def level_stops(face: Face) -> tuple[float, ...]:
    """Foot, top, corners, sills, springings and heads."""
    levels = [millimetres(y) for opening in face.openings for y in (opening.sill, opening.springing, opening.head)]
    return stops_of([millimetres(face.foot), millimetres(face.top), *levels, *(y for _, y in corners_of_outline(face))])
