"""Where a piece has room for fasteners: on every course, the stretches that keep the edge distance.

The distance is measured square to every edge of the piece. At an external corner, past which a row of boards that runs through
has nothing behind it, another one is measured from the end of the substrate. From other edges of the substrate fasteners keep
as far as the piece lets them: ``distances`` gives its room at that distance first, then at ever smaller ones.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final, NamedTuple

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.clear_levels import ClearLevels
from storeyrod.fasteners.level import Level
from storeyrod.fasteners.substrate_outline import Rise, SubstrateEdge, near_edges
from storeyrod.geometry.intervals import Interval, clip
from storeyrod.geometry.plane import Part, Region, Ring

STEPS: Final = 4
"""House rule: where a piece has no room, the distance from edges of the substrate gives way by quarters of what it is more than that
from edges of the piece.
"""


class Stretch(NamedTuple):
    """A stretch of a course inside a piece: how far the board goes, and the part that keeps the edge distance."""

    wall: Interval
    room: Interval


class Room:
    """Room for fasteners in a piece, worked out once."""

    __slots__ = (
        "_clear",
        "_kept_by_step",
        "_near",
        "beside",
        "courses",
        "heights",
        "level",
        "pattern",
        "piece",
        "stretches",
        "substrate",
    )

    def __init__(self, piece: Piece, level: Level, substrate: Interval, beside: Sequence[SubstrateEdge] = ()) -> None:
        """Of a piece on its level; ``substrate`` is where the wall behind ends at external corners, ``beside`` are its other edges
        in reach.
        """
        self.piece = piece
        self.level = level
        self.pattern = level.pattern
        self.heights = level.heights
        self.substrate = substrate
        self.beside = beside
        self._clear: ClearLevels | None = None
        self._near: dict[tuple[int, int], list[Interval]] = {}
        self._kept_by_step: dict[tuple[int, int], tuple[Stretch, ...]] = {}
        self.stretches: dict[int, tuple[Stretch, ...]] = self._found()
        """Courses that have room from the lowest, each with its stretches from left to right; courses alike share them."""
        self.courses = tuple(self.stretches)
        """Courses that have room, from the lowest."""

    def at(self, course: int) -> tuple[Stretch, ...]:
        """Stretches with room on a course; none outside the piece."""
        return self.stretches.get(course, ())

    def clear_runs(self, height: float, reach: float) -> Sequence[Interval]:
        """Where a piece is clear so far above and below a height; heights beside the same edges of a square-cut piece share their runs."""
        if self._clear is None:
            return Region(self.piece.part.outline).clear_runs(height - reach, height + reach)
        return self._clear.between(height - reach, height + reach)

    def inside(self, edge: float) -> "Room":
        """The room at a larger distance from edges of the piece."""
        pattern, level = self.pattern, self.level
        pattern = replace(pattern, edge=max(pattern.edge, edge), from_end=max(pattern.from_end, edge))
        return Room(self.piece, Level(pattern, level.bottom, level.top), self.substrate, self.beside)

    def distances(self) -> Iterator["Room"]:
        """The room at the distance from edges of the substrate, then as that gives way in equal steps, at last without it; rooms that
        have no place are left out.
        """
        for step in range(STEPS if self.beside else 0):
            kept = {course: self.kept(course, step) for course in self.courses}
            farther = self._with({course: stretches for course, stretches in kept.items() if stretches})
            if farther.stretches:
                yield farther
        yield self

    def squeezed(self) -> "Room":
        """The room of a piece that is too narrow for the edge distance: its courses that keep it from foot and head, each with the
        middle of its widest stretch.
        """
        return self._with({course: (_widest(self, height),) for course, height in self.heights.items()})

    def mirrored(self) -> "Room":
        """The room of the image of the piece in a mirror at x = 0; of its cut only that there is one is kept."""
        turned = {id(row): tuple([_turned(stretch) for stretch in reversed(row)]) for row in self.stretches.values()}
        made = self._with({course: turned[id(row)] for course, row in self.stretches.items()})
        left, bottom, right, top, area, shape = self.piece.part
        made.piece = self.piece._replace(part=Part(-right, bottom, -left, top, area, shape))
        made.substrate = -self.substrate[1], -self.substrate[0]
        made.beside = [SubstrateEdge(-c, b, -a, d, _FALLING[rise]) for a, b, c, d, rise in self.beside]
        made._near = {}
        return made

    def kept(self, course: int, step: int) -> tuple[Stretch, ...]:
        """Stretches of a course at the distance from edges of the substrate that is left after so many steps."""
        kept = self._kept_by_step.get((course, step))
        if kept is None:
            stretches, near = self.stretches.get(course, ()), self.near(course, step)
            kept = self._kept_by_step[course, step] = _less(stretches, near) if near else stretches
        return kept

    def near(self, course: int, step: int = 0) -> list[Interval]:
        """What of a course with room is closer to edges of the substrate than that distance, from the left."""
        near = self._near.get((course, step))
        if near is None:
            edge, whole = self.pattern.edge, self.pattern.from_end
            distance = whole - (whole - edge) * step / STEPS
            near = self._near[course, step] = near_edges(self.beside, self.heights[course], distance)
        return near

    def _with(self, stretches: dict[int, tuple[Stretch, ...]]) -> "Room":
        made = object.__new__(Room)
        for name in Room.__slots__:
            setattr(made, name, getattr(self, name))
        made.stretches, made.courses, made._kept_by_step = stretches, tuple(stretches), {}
        return made

    def _found(self) -> dict[int, tuple[Stretch, ...]]:
        part = self.piece.part
        if not part.shape:
            plain = self._kept(((part.left, part.right),))
            return dict.fromkeys(self.heights, plain) if plain else {}
        return dict(self._raked()) if self.piece.kind == "raked" else self._square_cut(part.rings)

    def _square_cut(self, rings: Sequence[Ring]) -> dict[int, tuple[Stretch, ...]]:
        """What is clear over the edge distance below and above, less the edge distance at both ends."""
        clear, spans = self.level.clear_levels(rings)
        found: dict[int, tuple[Stretch, ...]] = {}
        for span, courses in spans.items():
            runs = clear.over(span)
            stretches = self._kept(runs) if runs else ()
            if stretches:
                found.update(dict.fromkeys(courses, stretches))
        self._clear = clear
        return found

    def _raked(self) -> Iterator[tuple[int, tuple[Stretch, ...]]]:
        """Pieces with a sloping or curved cut: the level line through the piece inset by the edge distance."""
        region = Region(self.piece.part.outline)
        inset = region.inset(self.pattern.edge)
        if not inset.rings:
            return
        low, high = self.substrate[0] + self.pattern.from_end, self.substrate[1] - self.pattern.from_end
        for course, height in self.heights.items():
            walls, rooms = region.level_runs(height), clip(inset.level_runs(height), low, high)
            stretches = [
                Stretch(wall, room) for room in rooms for wall in walls if wall[0] <= room[0] and room[1] <= wall[1]
            ]
            if stretches:
                yield course, tuple(stretches)

    def _kept(self, runs: Sequence[Interval]) -> tuple[Stretch, ...]:
        """Runs of board before the substrate with what keeps the distance from their ends and from the substrate's."""
        edge, end = self.pattern.edge, self.pattern.from_end
        start, stop = self.substrate
        low, high = start + end, stop - end
        found = []
        for run in runs if start <= runs[0][0] and runs[-1][1] <= stop else clip(runs, start, stop):
            left, right = run[0] + edge, run[1] - edge
            room = left if left > low else low, right if right < high else high
            if room[0] <= room[1]:
                found.append(Stretch(run, room))
        return tuple(found)


_FALLING: Final[Mapping[Rise, Rise]] = MappingProxyType({-1: 1, 0: 0, 1: -1})
"""Rises of slopes in a mirror."""


def _turned(stretch: Stretch) -> Stretch:
    (left, right), (low, high) = stretch
    return Stretch((-right, -left), (-high, -low))


def _less(stretches: Sequence[Stretch], near: Sequence[Interval]) -> tuple[Stretch, ...]:
    """Stretches with room where nothing is near; ends of what is near have room."""
    found = []
    for wall, (start, end) in stretches:
        low = start
        for here, there in near:
            if low <= here <= end:
                found.append(Stretch(wall, (low, here)))
            if there > low and here <= end:
                low = there
        if low <= end:
            found.append(Stretch(wall, (low, end)))
    return tuple(found)


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
    runs = Region(room.piece.part.outline).level_runs(height) or [(room.piece.left, room.piece.right)]
    left, right = max(clip(runs, *room.substrate) or runs, key=lambda run: (run[1] - run[0], -run[0]))
    middle, half = (left + right) / 2.0, max(0.0, (right - left) / 2.0 - room.pattern.edge)
    return Stretch((left, right), (middle - half, middle + half))
