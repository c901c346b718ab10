"""Places of the fasteners in one piece: rows on courses, columns spread evenly, at the nearest place that is permitted."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from storeyrod.fasteners.arms import reach_arms
from storeyrod.fasteners.gaps import into_a_gap, number_of, staggered_rows
from storeyrod.fasteners.keeping_off import kept_off, moved_off
from storeyrod.fasteners.reinforcing import closer_columns, one_more
from storeyrod.fasteners.room import Room, Stretch, forced_room
from storeyrod.fasteners.rows import another_row, rows_for
from storeyrod.fasteners.spread import spread


@dataclass(slots=True)
class PiecePlaces:
    """Fasteners of one piece, row by row from the lowest: height and places from left to right, in ticks."""

    rows: list[tuple[float, tuple[float, ...]]] = field(default_factory=list)
    keeps_edge: bool = True
    asked: int = 0
    xs: list[float] = field(init=False)
    ys: list[float] = field(init=False)
    """The same one by one."""
    total: int = field(init=False)

    def __post_init__(self) -> None:
        """Once: rows do not change any more."""
        self.xs = [x for _, xs in self.rows for x in xs]
        self.ys = [height for height, xs in self.rows for _ in xs]
        self.total = len(self.xs)


_Rows = dict[int, list[float]]
"""Places of a piece by course."""


class Filling:
    """Fasteners of a piece for any number that is asked for."""

    __slots__ = ("_from_left", "_from_right", "_keeps_edge", "_made", "_room")

    def __init__(self, room: Room) -> None:
        """Of a piece with this room."""
        self._keeps_edge = bool(room.stretches)
        self._room = room if room.stretches else room.squeezed()
        self._made: dict[int, PiecePlaces] = {}
        """By what was asked for."""
        self._from_left = _Growth(self._room)
        self._from_right: _Growth | None = None

    @property
    def has_room(self) -> bool:
        """Whether any place keeps the edge distance."""
        return self._keeps_edge

    def places(self, needed: int = 0) -> PiecePlaces:
        """Places of at least so many fasteners, or of as many as have room."""
        found = self._made.get(needed)
        if found is None:
            found = self._made[needed] = self._placed(needed) if self._room.stretches else _forced(self._room, needed)
        return found

    def _placed(self, needed: int) -> PiecePlaces:
        room, first = self._room, self._from_left
        rows, asked = first.of(needed), first.asked
        if first.is_lopsided or needed > first.started:
            if self._from_right is None:
                self._from_right = _Growth(room.mirrored())
            second = self._from_right
            image = second.of(needed)
            asked = max(asked, second.asked)
            if _is_better(number_of(image), number_of(rows), needed, max(first.started, second.started)):
                rows = {course: [-x for x in reversed(xs)] for course, xs in image.items()}
        heights, kept = room.heights, kept_off(rows, room)
        in_rows = [(heights[course], tuple(kept[course])) for course in sorted(kept)]
        return PiecePlaces(in_rows, self._keeps_edge, asked)


def _is_better(image: int, drawn: int, needed: int, started: int) -> bool:
    """Whether a piece fills better from the right: more of what it gets anyway, or what is needed with fewer; of two that fall short
    the fuller one.
    """
    if needed <= started or min(image, drawn) < needed:
        return image > drawn
    return image < drawn


class _Growth:
    """Rows of a piece as they grow in number: a larger number goes on from where a smaller one ends, as long as it has room."""

    __slots__ = ("_growing", "_grown", "_room", "asked", "is_lopsided", "started")

    def __init__(self, room: Room) -> None:
        """Of a piece with this room, from what it gets whatever the wind."""
        rows, self.asked, self.is_lopsided = _started(room) if room.stretches else ({}, 0, False)
        self.started = number_of(rows)
        self._room = room
        self._grown = [(self.started, rows)]
        self._growing: Iterator[_Rows] | None = None

    def of(self, needed: int) -> _Rows:
        """Rows of at least so many, or the fullest."""
        for number, rows in self._grown:
            if number >= needed:
                return rows
        if self._growing is None:
            self._growing = _growing(dict(self._grown[0][1]), self._room)
        for rows in self._growing:
            self._grown.append((number_of(rows), rows))
            if self._grown[-1][0] >= needed:
                break
        return self._grown[-1][1]


def _started(room: Room) -> tuple[_Rows, int, bool]:
    """What a piece gets whatever the wind, how many it should have, and whether they may be others from the other end: the pattern,
    more rows or columns up to the least number, and arms that the rows pass by.
    """
    least, wanted = room.pattern.least, room.level.rows_wanted
    rows, fewest = _pattern_rows(room, wanted)
    number = number_of(rows)
    lopsided = any(len(room.stretches[course]) > 1 for course in rows)
    if number < least:
        _fill_up(rows, room)
    missed = reach_arms(rows, room) if room.piece.part.shape else 0
    asked = max(least, wanted * fewest)
    if number_of(rows) < asked:
        rows = _in_gaps(rows, room, asked)
    total = number_of(rows)
    return rows, max(asked, total + missed) if missed else asked, lopsided or total != number


def _in_gaps(rows: _Rows, room: Room, asked: int) -> _Rows:
    """Rows with closer columns, or fasteners in their gaps, up to the number asked for, or else staggered rows that hold more; as far
    from edges of the substrate as there is room for so many. Where nothing holds so many, what holds most.
    """
    rows = dict(moved_off(rows, room))
    for farther in room.distances():
        while number_of(rows) < asked and (closer_columns(rows, farther) or into_a_gap(rows, farther)):
            pass
        fuller = rows if number_of(rows) >= asked else next(staggered_rows(farther, asked - 1), None)
        if fuller is not None:
            return fuller
    *_, most = rows, *staggered_rows(room, number_of(rows))
    return most


def _growing(rows: _Rows, room: Room) -> Iterator[_Rows]:
    """Rows with ever more fasteners: more rows, closer columns, gaps, and at last other rows altogether; as far from edges of the
    substrate as there is room for so many.
    """
    rows = dict(moved_off(rows, room))
    for farther in room.distances():
        while one_more(rows, farther):
            yield dict(rows)
        while into_a_gap(rows, farther):
            yield dict(rows)
        for fuller in staggered_rows(farther, number_of(rows)):
            rows = dict(fuller)
            yield fuller


def _pattern_rows(room: Room, wanted: int) -> tuple[_Rows, int]:
    """Places of the pattern by course, and the fewest columns that a row should have; courses alike are spread once."""
    rows: _Rows = {}
    fewest, before, places = math.inf, None, list[float]()
    for course in rows_for(room.level.rule, room.courses, wanted):
        stretches = room.stretches[course]
        if stretches is not before:
            before = stretches
            places, columns = _across(stretches, room)
            fewest = min(fewest, columns)
        rows[course] = places
    return rows, int(fewest)


def _forced(room: Room, needed: int) -> PiecePlaces:
    """Fasteners of a piece that is too low for the edge distance: one row in its middle."""
    pattern = room.pattern
    height, stretch = forced_room(room)
    wanted = pattern.columns_for(stretch.wall[1] - stretch.wall[0])
    places = spread(stretch, pattern, max(wanted, pattern.least, needed), ())
    return PiecePlaces([(height, tuple(places))], False, max(wanted, pattern.least))


def _across(stretches: Sequence[Stretch], room: Room) -> tuple[list[float], int]:
    """Places on the stretches of a course, and how many there should be.

    A rectangle counts by its whole width, also where it runs past the substrate.
    """
    pattern, whole = room.pattern, 0.0 if room.piece.part.shape else room.piece.width
    places, columns = list[float](), 0
    for stretch in stretches:
        (left, right), _ = stretch
        width = right - left
        wanted = pattern.columns_for(width if width < pattern.narrow else whole or width)
        places += spread(stretch, pattern, wanted, places)
        columns += wanted
    return places, columns


def _fill_up(rows: _Rows, room: Room) -> None:
    """Up to the least number: first one more in the rows that have space, then more rows."""
    pattern = room.pattern
    while number_of(rows) < pattern.least:
        wider = _one_more(rows, room)
        if wider is not None:
            rows[wider[0]] = wider[1]
            continue
        further = another_row(room.level.rule, room.courses, tuple(rows))
        if further is None:
            return
        rows[further] = spread(room.at(further)[0], pattern, 1, ())


def _one_more(rows: Mapping[int, Sequence[float]], room: Room) -> tuple[int, list[float]] | None:
    """The lowest row that has space for another fastener in its only stretch, with its places anew."""
    for course in sorted(rows):
        stretches = room.at(course)
        if len(stretches) > 1:
            continue
        places = spread(stretches[0], room.pattern, len(rows[course]) + 1, ())
        if len(places) > len(rows[course]):
            return course, places
    return None
