"""Where a piece has room for fasteners: on every course, the stretches that keep the edge distance.

The distance is measured square to every edge of the piece, and from the end of the substrate at an external corner, past
which a row of boards that runs through has nothing behind it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.pattern import Pattern
from storeyrod.geometry.intervals import Interval, clip
from storeyrod.geometry.plane import Region


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of a course inside a piece: how far the board goes, and the part that keeps the edge distance."""

    wall: Interval
    room: Interval


Room = Mapping[int, tuple[Stretch, ...]]
"""By course number, from the lowest; courses without room are left out."""


def room_in(piece: Piece, pattern: Pattern, substrate: Interval) -> Room:
    """Room for fasteners in a piece that reach the substrate."""
    edge = pattern.edge
    courses = pattern.courses_between(piece.bottom + edge, piece.top - edge)
    if piece.part.is_rectangle:
        left, right = max(piece.left, substrate[0]), min(piece.right, substrate[1])
        if right - left < 2.0 * edge:
            return {}
        stretches = (Stretch((left, right), (left + edge, right - edge)),)
        return dict.fromkeys(courses, stretches)
    inner = Region(piece.part.rings).inset(edge) if piece.kind == "raked" else None
    found = {course: _stretches(piece, pattern, pattern.height_of(course), inner, substrate) for course in courses}
    return {course: stretches for course, stretches in found.items() if stretches}


def _stretches(
    piece: Piece, pattern: Pattern, height: float, inner: Region | None, substrate: Interval
) -> tuple[Stretch, ...]:
    """Stretches at one height; of a square-cut piece by interval arithmetic, of a raked one from its inset."""
    edge = pattern.edge
    if inner is None:
        clear = clip(Region(piece.part.rings).clear_runs(height - edge, height + edge), *substrate)
        return tuple(
            Stretch((left, right), (left + edge, right - edge)) for left, right in clear if right - left >= 2.0 * edge
        )
    if not inner.rings:
        return ()
    held = substrate[0] + edge, substrate[1] - edge
    walls = Region(piece.part.rings).level_runs(height)
    rooms = clip(inner.level_runs(height), *held)
    return tuple(Stretch(wall, room) for room in rooms for wall in walls if wall[0] <= room[0] and room[1] <= wall[1])


def forced_room(piece: Piece, pattern: Pattern, substrate: Interval) -> Room:
    """The middle of a piece that is too small for the edge distance: the course nearest to its middle, and in it the widest
    stretch before the substrate; sideways the edge distance is kept where the width allows.
    """
    middle = (piece.bottom + piece.top) / 2.0
    course = _nearest_course(piece, pattern, middle)
    height = min(max(pattern.height_of(course), piece.bottom), piece.top)
    runs = Region(piece.part.outline).level_runs(min(height, piece.top - 1.0))
    held = clip(runs, *substrate) or runs
    left, right = max(held, key=lambda run: (run[1] - run[0], -run[0]))
    edge = min(pattern.edge, (right - left) / 2.0)
    return {course: (Stretch((left, right), (left + edge, right - edge)),)}


def _nearest_course(piece: Piece, pattern: Pattern, height: float) -> int:
    courses = pattern.courses_between(piece.bottom, piece.top)
    if not courses:
        return round((height - pattern.slip / 2.0) / pattern.pitch)
    return min(courses, key=lambda course: (abs(pattern.height_of(course) - height), course))
