"""Where a piece has room for fasteners: on every course, the stretches that keep the edge distance.

The distance is measured square to every edge of the piece. At an external corner, past which a row of boards that runs through
has nothing behind it, another one is measured from the end of the substrate.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, reduce
from typing import NamedTuple

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.pattern import Pattern
from storeyrod.geometry.intervals import Interval, clip, intersection
from storeyrod.geometry.plane import Band, Region


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
        found = self._raked() if self.piece.kind == "raked" else self._shaped()
        return {course: stretches for course, stretches in found if stretches}

    @cached_property
    def courses(self) -> list[int]:
        """Courses that have room, from the lowest."""
        return list(self.stretches)

    def at(self, course: int) -> tuple[Stretch, ...]:
        """Stretches with room on a course; none outside the piece."""
        return self.stretches.get(course, ())

    def clear_runs(self, height: float, reach: float) -> Sequence[Interval]:
        """Where a piece is clear so far above and below a height; heights beside the same edges share their runs."""
        low, high = height - reach, height + reach
        if self.piece.kind == "raked":
            return self.region.clear_runs(low, high)
        floors, bands, known = self._levels
        if low < floors[0] or high > bands[-1].high:
            return ()
        first, last = bisect_right(floors, low) - 1, bisect_left(floors, high)
        runs = known.get((first, last))
        if runs is None:
            runs = known[first, last] = reduce(intersection, [band.clear for band in bands[first:last]])
        return runs

    @cached_property
    def _levels(self) -> tuple[list[float], Sequence[Band], dict[tuple[int, int], Sequence[Interval]]]:
        """Feet of the region's bands, the bands, and what is clear from one of them to the one before another."""
        bands = self.region.bands
        return [band.low for band in bands], bands, {}

    def _shaped(self) -> Iterator[tuple[int, tuple[Stretch, ...]]]:
        """Square-cut pieces: what is clear over the edge distance below and above, less the edge distance at both ends."""
        reach, known = max(self.pattern.edge, 1.0), dict[int, tuple[Stretch, ...]]()
        for course in self.within:
            runs = self.clear_runs(self.pattern.height_of(course), reach)
            stretches = known.get(id(runs))
            if stretches is None:
                stretches = known[id(runs)] = self._kept(runs)
            yield course, stretches

    def _raked(self) -> Iterator[tuple[int, tuple[Stretch, ...]]]:
        """Pieces with a sloping or curved cut: the level line through the piece inset by the edge distance."""
        if not self._inset.rings:
            return
        low, high = self.substrate[0] + self.pattern.from_end, self.substrate[1] - self.pattern.from_end
        for course in self.within:
            height = self.pattern.height_of(course)
            walls, rooms = self.region.level_runs(height), clip(self._inset.level_runs(height), low, high)
            yield (
                course,
                tuple(
                    [
                        Stretch(wall, room)
                        for room in rooms
                        for wall in walls
                        if wall[0] <= room[0] and room[1] <= wall[1]
                    ]
                ),
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
