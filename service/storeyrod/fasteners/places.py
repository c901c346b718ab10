"""Places of the fasteners in one piece: rows on courses, columns spread evenly, at the nearest place that is permitted."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.arms import reach_arms
from storeyrod.fasteners.pattern import Pattern, rows_over
from storeyrod.fasteners.reinforcing import reinforce
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


def places_in(room: Room, needed: int = 0) -> PiecePlaces:
    """Fasteners of a piece: the pattern, more rows or columns up to the least number, arms that the rows pass by, and then
    more rows, and columns in them, until there are as many as are needed or no more have room.
    """
    piece, pattern = room.piece, room.pattern
    if not room.stretches:
        return _forced(room, needed)
    wanted = max(1, _rows_wanted(piece, pattern))
    chosen = {course: room.at(course) for course in rows_for(pattern, room, wanted)}
    alike = {id(stretches): stretches for stretches in chosen.values()}
    columns = {key: [_columns(stretch, pattern, piece) for stretch in stretches] for key, stretches in alike.items()}
    across = {key: _across(stretches, pattern, columns[key]) for key, stretches in alike.items()}
    rows = {course: across[id(stretches)] for course, stretches in chosen.items()}
    asked = max(pattern.least, wanted * min(map(sum, columns.values())))
    _fill_up(rows, room)
    if missed := reach_arms(rows, room):
        asked = max(asked, sum(map(len, rows.values())) + missed)
    if sum(map(len, rows.values())) < needed:
        reinforce(rows, room, needed)
    return PiecePlaces([(pattern.height_of(course), tuple(rows[course])) for course in sorted(rows)], True, asked)


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
    if width < pattern.narrow or not piece.part.is_rectangle:
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
    while sum(len(xs) for xs in rows.values()) < pattern.least:
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
