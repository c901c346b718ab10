"""Where a piece has room for fasteners: on every course, the stretches that keep the edge distance.

The distance is measured square to every edge of the piece. At an external corner, past which a row of boards that runs through
has nothing behind it, another one is measured from the end of the substrate.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.pattern import Pattern
from storeyrod.geometry.intervals import Interval, clip
from storeyrod.geometry.plane import Region


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of a course inside a piece: how far the board goes, and the part that keeps the edge distance."""

    wall: Interval
    room: Interval


@dataclass(frozen=True)
class Room:
    """Room for fasteners in a piece: worked out for a course when it is asked for."""

    piece: Piece
    pattern: Pattern
    substrate: Interval
    known: dict[int, tuple[Stretch, ...]] = field(default_factory=dict)

    @cached_property
    def region(self) -> Region:
        """Area of the piece, with what it remembers of its levels."""
        return self.piece.region

    @cached_property
    def courses(self) -> list[int]:
        """Courses that have room, from the lowest."""
        return [course for course in self.within if self.at(course)]

    @cached_property
    def within(self) -> range:
        """Courses that keep the edge distance from foot and head of the piece."""
        edge = self.pattern.edge
        return self.pattern.courses_between(self.piece.bottom + edge, self.piece.top - edge)

    def at(self, course: int) -> tuple[Stretch, ...]:
        """Stretches with room on a course, from left to right; none outside the piece."""
        if self.piece.part.is_rectangle:
            return self._plain if course in self.within else ()
        if course not in self.known:
            height = self.pattern.height_of(course)
            self.known[course] = self._raked(height) if self.piece.kind == "raked" else self._shaped(height)
        return self.known[course]

    @cached_property
    def _plain(self) -> tuple[Stretch, ...]:
        return _kept([(self.piece.left, self.piece.right)], self.pattern, self.substrate)

    def _shaped(self, height: float) -> tuple[Stretch, ...]:
        """Square-cut pieces: what is clear over the edge distance below and above, less the edge distance at both ends."""
        edge = self.pattern.edge
        band = max(edge, 1.0)
        return _kept(self.region.clear_runs(height - band, height + band), self.pattern, self.substrate)

    def _raked(self, height: float) -> tuple[Stretch, ...]:
        """Pieces with a sloping or curved cut: the level line through the piece inset by the edge distance."""
        if not self._inset.rings:
            return ()
        end, walls = self.pattern.from_end, self.region.level_runs(height)
        rooms = clip(self._inset.level_runs(height), self.substrate[0] + end, self.substrate[1] - end)
        return tuple(
            Stretch(wall, room) for room in rooms for wall in walls if wall[0] <= room[0] and room[1] <= wall[1]
        )

    @cached_property
    def _inset(self) -> Region:
        return self.region.inset(self.pattern.edge)


def _kept(runs: Sequence[Interval], pattern: Pattern, substrate: Interval) -> tuple[Stretch, ...]:
    edge, low, high = pattern.edge, substrate[0] + pattern.from_end, substrate[1] - pattern.from_end
    found = (
        Stretch((left, right), (max(left + edge, low), min(right - edge, high)))
        for left, right in clip(runs, *substrate)
    )
    return tuple(stretch for stretch in found if stretch.room[0] <= stretch.room[1])


def forced_room(room: Room) -> tuple[float, Stretch]:
    """Where fasteners go in a piece that is too small for the edge distance: height and stretch.

    Of its courses the one that holds most of the least number, then the nearest to its middle; of that the widest stretch
    before the substrate. Sideways the edge distance is kept where the width allows.
    """
    piece, pattern = room.piece, room.pattern
    middle = (piece.bottom + piece.top) / 2.0
    courses = pattern.courses_between(piece.bottom + 1.0, piece.top - 1.0)
    heights = [pattern.height_of(course) for course in courses] or [middle]
    options = [(height, _widest(room, height)) for height in heights]
    return min(
        options, key=lambda option: (-min(pattern.least, pattern.most_in(option[1].room)), abs(option[0] - middle))
    )


def _widest(room: Room, height: float) -> Stretch:
    """The widest stretch at a height, before the substrate if any of it is."""
    runs = room.region.level_runs(height) or [(room.piece.left, room.piece.right)]
    left, right = max(clip(runs, *room.substrate) or runs, key=lambda run: (run[1] - run[0], -run[0]))
    middle, half = (left + right) / 2.0, max(0.0, (right - left) / 2.0 - room.pattern.edge)
    return Stretch((left, right), (middle - half, middle + half))
