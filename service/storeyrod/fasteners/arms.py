"""Arms: parts of a piece beside, under or over an opening that the rows of the pattern pass by.

On a whole board no place lies farther sideways from a fastener than half a column's share. House rule: a part of a piece that
lies farther than a whole share from all fasteners gets its own.
"""

from collections.abc import Iterator, Mapping, Sequence

from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.room import Room, Stretch
from storeyrod.fasteners.spread import spread
from storeyrod.geometry.intervals import Interval, clip, difference, union


def reach_arms(rows: dict[int, list[float]], room: Room) -> int:
    """Set fasteners on the arms of a piece that is no rectangle, the longest first, until none with room is left.

    Returns how many the arms of a square-cut piece should have and have no room for.
    """
    if room.piece.part.is_rectangle:
        return 0
    pattern = room.pattern
    if _all_reached(rows, room):
        return 0
    reached = _reached(rows, pattern)
    while arms := list(_arms(rows, room, reached)):
        arm, course = max(arms, key=lambda found: (_length(found[0].room), -found[1]))
        more = spread(arm, pattern, pattern.columns_for(arm.wall[1] - arm.wall[0]), ())
        rows[course] = sorted([*rows.get(course, ()), *more])
        reached = _reached(rows, pattern)
    if room.piece.kind != "shaped":
        return 0
    behind = clip([(room.piece.left, room.piece.right)], *room.substrate)
    return sum([pattern.columns_for(_length(arm)) for arm in difference(behind, reached)])


def _all_reached(rows: Mapping[int, Sequence[float]], room: Room) -> bool:
    """Whether fasteners follow one another over the whole piece without a gap that none reaches."""
    reach, part = max(_share(room.pattern), room.pattern.spacing), room.piece.part
    end = part.left
    for x in sorted({x for xs in rows.values() for x in xs}):
        if x - reach > end:
            return False
        end = x + reach
    return end >= part.right


def _arms(
    rows: Mapping[int, Sequence[float]], room: Room, reached: Sequence[Interval]
) -> Iterator[tuple[Stretch, int]]:
    """Parts of courses with room that no fastener reaches, with the clear length between those beside them.

    Of courses with the same stretches the lowest stands for all.
    """
    lowest = {id(stretches): (course, stretches) for course, stretches in reversed(room.stretches.items())}
    for course, stretches in lowest.values():
        for stretch in stretches:
            for low, high in difference([stretch.room], reached):
                yield _arm(stretch, low, high, rows, room.pattern), course


def _arm(stretch: Stretch, low: float, high: float, rows: Mapping[int, Sequence[float]], pattern: Pattern) -> Stretch:
    apart = max(_share(pattern) / 2.0, pattern.spacing)
    before = max((x + apart for xs in rows.values() for x in xs if x < low), default=stretch.wall[0])
    after = min((x - apart for xs in rows.values() for x in xs if x > high), default=stretch.wall[1])
    left, right = max(before, stretch.wall[0]), min(after, stretch.wall[1])
    return Stretch((left, right), (max(left, stretch.room[0]), min(right, stretch.room[1])))


def _reached(rows: Mapping[int, Sequence[float]], pattern: Pattern) -> list[Interval]:
    reach = max(_share(pattern), pattern.spacing)
    return union([(x - reach, x + reach) for xs in rows.values() for x in xs])


def _share(pattern: Pattern) -> float:
    """Length of board that one column holds."""
    return pattern.board / pattern.columns


def _length(interval: Interval) -> float:
    return interval[1] - interval[0]
