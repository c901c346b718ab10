"""Places of the fasteners in one piece: rows on courses, columns spread evenly, at the nearest place that is permitted."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.arms import reach_arms
from storeyrod.fasteners.pattern import Pattern, rows_over
from storeyrod.fasteners.reinforcing import one_more
from storeyrod.fasteners.room import Room, Stretch, forced_room
from storeyrod.fasteners.rows import another_row, rows_for
from storeyrod.fasteners.spread import spread
from storeyrod.geometry.ticks import ROUNDING_GUARD


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


class Filling:
    """Fasteners of a piece as they grow in number: the pattern, more rows or columns up to the least number, arms that the rows
    pass by, and then more rows, and columns in them, as long as they have room.
    """

    __slots__ = ("_asked", "_grown", "_rows", "room")

    def __init__(self, room: Room) -> None:
        """Starts with what a piece gets without any need."""
        self.room = room
        self._rows, self._asked = _started(room) if room.stretches else ({}, 0)
        self._grown: list[PiecePlaces] = []

    def places(self, needed: int = 0) -> PiecePlaces:
        """Places of at least so many fasteners where they have room; a larger number goes on from where a smaller one ends."""
        if not self.room.stretches:
            return _forced(self.room, needed)
        for places in self._grown:
            if places.total >= needed:
                return places
        rows = self._rows
        while not self._grown or self._grown[-1].total < needed:
            if self._grown and not one_more(rows, self.room):
                break
            self._grown.append(self._as_they_stand())
        return self._grown[-1]

    def _as_they_stand(self) -> PiecePlaces:
        heights, rows = self.room.heights, self._rows
        return PiecePlaces([(heights[course], tuple(rows[course])) for course in sorted(rows)], True, self._asked)


def _started(room: Room) -> tuple[dict[int, list[float]], int]:
    """Places of a piece by course whatever the wind, and how many it should have."""
    piece, pattern = room.piece, room.pattern
    wanted = max(1, _rows_wanted(piece, pattern))
    rows, fewest = _pattern_rows(room, wanted)
    _fill_up(rows, room)
    missed = reach_arms(rows, room) if piece.part.shape else 0
    asked = max(pattern.least, wanted * fewest)
    return rows, max(asked, _total(rows) + missed) if missed else asked


def _pattern_rows(room: Room, wanted: int) -> tuple[dict[int, list[float]], int]:
    """Places of the pattern by course, and the fewest columns that a row should have; courses alike are spread once."""
    pattern, piece = room.pattern, room.piece
    across: dict[int, tuple[list[float], int]] = {}
    rows: dict[int, list[float]] = {}
    for course in rows_for(pattern, room, wanted):
        stretches = room.stretches[course]
        row = across.get(id(stretches))
        if row is None:
            columns = [_columns(stretch, pattern, piece) for stretch in stretches]
            row = across[id(stretches)] = _across(stretches, pattern, columns), sum(columns)
        rows[course] = row[0]
    return rows, min([columns for _, columns in across.values()])


def _total(rows: Mapping[int, Sequence[float]]) -> int:
    return sum(map(len, rows.values()))


def _forced(room: Room, needed: int) -> PiecePlaces:
    """Fasteners of a piece that cannot keep the edge distance: one row in its middle."""
    pattern = room.pattern
    height, stretch = forced_room(room)
    wanted = pattern.columns_for(stretch.wall[1] - stretch.wall[0])
    places = spread(stretch, pattern, max(wanted, pattern.least, needed), ())
    return PiecePlaces([(height, tuple(places))], False, max(wanted, pattern.least))


def _rows_wanted(piece: Piece, pattern: Pattern) -> int:
    courses = len(pattern.courses_between(piece.bottom, piece.top))
    return int(rows_over.function(k=courses, n=pattern.every, tolerance=ROUNDING_GUARD))


def _columns(stretch: Stretch, pattern: Pattern, piece: Piece) -> int:
    """Columns of a stretch; a rectangle counts by its whole width, also where it runs past the substrate."""
    width = stretch.wall[1] - stretch.wall[0]
    if width < pattern.narrow or piece.part.shape:
        return pattern.columns_for(width)
    return pattern.columns_for(piece.width)


def _across(stretches: Sequence[Stretch], pattern: Pattern, columns: Sequence[int]) -> list[float]:
    places: list[float] = []
    for stretch, wanted in zip(stretches, columns, strict=True):
        places += spread(stretch, pattern, wanted, places)
    return places


def _fill_up(rows: dict[int, list[float]], room: Room) -> None:
    """Up to the least number: first one more in the rows that have space, then more rows."""
    pattern = room.pattern
    while _total(rows) < pattern.least:
        wider = _one_more(rows, room)
        if wider is not None:
            rows[wider[0]] = wider[1]
            continue
        further = another_row(pattern, room.courses, rows)
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
