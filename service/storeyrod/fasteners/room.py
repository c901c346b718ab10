"""Where a piece has room for fasteners: on every course, the stretches that keep the edge distance.

The distance is measured square to every edge of the piece. At an external corner, past which a row of boards that runs through
has nothing behind it, another one is measured from the end of the substrate.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, reduce
from typing import NamedTuple

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.pattern import Pattern
from storeyrod.geometry.intervals import Interval, clip, intersection
from storeyrod.geometry.plane import Region


class Stretch(NamedTuple):
    """A stretch of a course inside a piece: how far the board goes, and the part that keeps the edge distance."""

    wall: Interval
    room: Interval


@dataclass(frozen=True)
class Room:
    """Room for fasteners in a piece, worked out once."""

    piece: Piece
    pattern: Pattern
    substrate: Interval

    @cached_property
    def region(self) -> Region:
        """Area of the piece, with what it remembers of its levels."""
        return self.piece.region

    @cached_property
    def within(self) -> range:
        """Courses that keep the edge distance from foot and head of the piece."""
        edge = self.pattern.edge
        return self.pattern.courses_between(self.piece.bottom + edge, self.piece.top - edge)

    @cached_property
    def stretches(self) -> dict[int, tuple[Stretch, ...]]:
        """Courses that have room from the lowest, each with its stretches from left to right; courses alike share them."""
        if self.piece.part.is_rectangle:
            plain = self._kept([(self.piece.left, self.piece.right)])
            return dict.fromkeys(self.within, plain) if plain else {}
        at = self._raked if self.piece.kind == "raked" else self._shaped
        found = ((course, at(self.pattern.height_of(course))) for course in self.within)
        return {course: stretches for course, stretches in found if stretches}

    @cached_property
    def courses(self) -> list[int]:
        """Courses that have room, from the lowest."""
        return list(self.stretches)

    def at(self, course: int) -> tuple[Stretch, ...]:
        """Stretches with room on a course; none outside the piece."""
        return self.stretches.get(course, ())

    def clear_runs(self, height: float, reach: float) -> Sequence[Interval]:
        """Where a piece is clear so far above and below a height."""
        low, high = height - reach, height + reach
        if self.piece.kind == "raked":
            return self.region.clear_runs(low, high)
        bands = self.region.bands
        if low < bands[0].low or high > bands[-1].high:
            return ()
        first, last = bisect_right(self._floors, low) - 1, bisect_left(self._floors, high)
        if (first, last) not in self._clear:
            self._clear[first, last] = reduce(intersection, (band.clear for band in bands[first:last]))
        return self._clear[first, last]

    @cached_property
    def _floors(self) -> list[float]:
        return [band.low for band in self.region.bands]

    @cached_property
    def _clear(self) -> dict[tuple[int, int], Sequence[Interval]]:
        """What is clear over bands of the region, by the first of them and the one after the last."""
        return {}

    @cached_property
    def _shapes(self) -> dict[int, tuple[Stretch, ...]]:
        """Stretches of what is clear, by its identity: courses beside the same edges have the same."""
        return {}

    def _shaped(self, height: float) -> tuple[Stretch, ...]:
        """Square-cut pieces: what is clear over the edge distance below and above, less the edge distance at both ends."""
        runs = self.clear_runs(height, max(self.pattern.edge, 1.0))
        if id(runs) not in self._shapes:
            self._shapes[id(runs)] = self._kept(runs)
        return self._shapes[id(runs)]

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

    def _kept(self, runs: Sequence[Interval]) -> tuple[Stretch, ...]:
        """Runs of board before the substrate with what keeps the distance from their ends and from the substrate's."""
        edge, end = self.pattern.edge, self.pattern.from_end
        low, high = self.substrate[0] + end, self.substrate[1] - end
        found = [
            Stretch((left, right), (max(left + edge, low), min(right - edge, high)))
            for left, right in clip(runs, *self.substrate)
        ]
        return tuple([stretch for stretch in found if stretch.room[0] <= stretch.room[1]])


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
