"""Levels beside a wall: heads, sills, tops and feet by name, each with a leader to its height, and the gauge of the courses."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.courses import NUMBER_AWAY, Rod, numbered_courses
from storeyrod.drawings.display_list import Group, Item, Line, Text
from storeyrod.drawings.lettering import number, shortened, width_of
from storeyrod.drawings.line_styles import COURSE, LETTERING, LETTERS_SMALL
from storeyrod.drawings.spreading import spread
from storeyrod.drawings.stops import corners_of_outline
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.setting_out.wall_levels import levels_of
from storeyrod.wall.checks import OFF_COURSE_MM
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge

ROOM: Final = 72.0
"""Room that numbers, levels and names take at the side of a wall, mm."""

_LEVEL_ENDS: Final = NUMBER_AWAY + 17.0
_LEADER: Final = _LEVEL_ENDS + 1.0
_NAMES: Final = _LEADER + 4.0
_NAMES_ROOM: Final = ROOM - _NAMES
_PITCH: Final = 2.6
_MOST_NAMES: Final = 3
_CORNER: Final = "corner of outline"
_BEYOND: Final = 4.0
"""How far names may stand above and below the wall on paper, mm."""


@dataclass(frozen=True, slots=True)
class LevelMark:
    """What stands at one level: the level in ticks, and each kind of thing there with the openings that have it."""

    level: float
    kinds: tuple[tuple[str, tuple[str, ...]], ...]

    @property
    def words(self) -> str:
        """Kinds with their openings; of many openings, how many."""
        return "; ".join(_kind(what, names) for what, names in self.kinds)


def _kind(what: str, names: tuple[str, ...]) -> str:
    if not names:
        return what
    return f"{what} of {len(names)} openings" if len(names) > _MOST_NAMES else f"{what} {', '.join(names)}"


def level_marks(face: Face, others: Sequence[tuple[float, str]] = ()) -> list[LevelMark]:
    """Levels of a face from the bottom: its feet, tops and corners, sills and heads, and ``others``. Ticks."""
    found: dict[float, dict[str, list[str]]] = {}
    for level, what, name in (*_courses(face), *_others(face), *((y, what, "") for y, what in others)):
        named = found.setdefault(level, {}).setdefault(what, [])
        if name and name not in named:
            named.append(name)
    return [LevelMark(level, _ordered(found[level])) for level in sorted(found)]


def _ordered(kinds: dict[str, list[str]]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Kinds in the order of the wall; a corner says nothing where a foot or top lies at the same level."""
    plain = {what: names for what, names in kinds.items() if what != _CORNER or len(kinds) == 1}
    return tuple((what, tuple(names)) for what, names in plain.items())


def _courses(face: Face) -> Iterator[tuple[float, str, str]]:
    """Levels that want a course line."""
    for level in levels_of([face]):
        yield level.y, level.what, level.opening or ""


def _others(face: Face) -> Iterator[tuple[float, str, str]]:
    """Levels that none is asked of: curved heads, and corners of rakes."""
    for opening in face.openings:
        if opening.is_arch:
            yield from ((opening.springing, "springing", opening.id), (opening.head, "crown", opening.id))
        elif opening.model.kind == "circle":
            yield from ((opening.sill, "lowest point", opening.id), (opening.head, "crown", opening.id))
    yield from ((ticks(y), _CORNER, "") for _, y in corners_of_outline(face))


def marked_courses(marks: Sequence[LevelMark], gauge: Gauge) -> list[int]:
    """Courses on whose foot a level falls."""
    return [gauge.nearest(mark.level) for mark in marks if _is_on_course(mark.level, gauge)]


def _is_on_course(level: float, gauge: Gauge) -> bool:
    return abs(millimetres(gauge.off_course(level))) <= OFF_COURSE_MM


def level_groups(face: Face, marks: Sequence[LevelMark], gauge: Gauge, right: float, scale: float) -> tuple[Group, ...]:
    """The gauge of the numbered courses right of x = ``right``, and the names of levels beside it. ``right`` in mm."""
    rod = Rod(gauge)
    foot, top = millimetres(face.foot), millimetres(face.top)
    courses = numbered_courses(foot, top, rod, scale, marked_courses(marks, gauge))
    x = right + _LEVEL_ENDS * scale
    gauged = tuple(
        Text((x, rod.foot_of(course)), number(rod.foot_of(course)), LETTERS_SMALL, "end", middle=True)
        for course in courses
    )
    leaders, names = _names(marks, gauge, right, scale)
    return (
        Group("course-levels", LETTERING, gauged),
        Group("level-leaders", COURSE, tuple(leaders)),
        Group("level-names", LETTERING, tuple(names)),
    )


def _names(marks: Sequence[LevelMark], gauge: Gauge, right: float, scale: float) -> tuple[list[Item], list[Item]]:
    if not marks:
        return [], []
    levels = [millimetres(mark.level) for mark in marks]
    beyond = _BEYOND * scale
    places = spread(levels, _PITCH * scale, levels[0] - beyond, levels[-1] + beyond)
    if places is None:
        return [], []
    leaders: list[Item] = []
    names: list[Item] = []
    for mark, level, place in zip(marks, levels, places, strict=True):
        start, end = right + _LEADER * scale, right + (_NAMES - 1.0) * scale
        leaders.append(Line((start, level), (end, place)))
        words = _fitting(mark, gauge)
        names.append(Text((right + _NAMES * scale, place), words, LETTERS_SMALL, middle=True))
    return leaders, names


def _fitting(mark: LevelMark, gauge: Gauge) -> str:
    """Names at a level; off the course lines with the level, and with its course where there is room."""
    if _is_on_course(mark.level, gauge):
        return shortened(mark.words, LETTERS_SMALL, _NAMES_ROOM)
    level = f" {number(millimetres(mark.level))}"
    for said in (f"{level}, {level_of(mark.level, gauge)}", level):
        if width_of(mark.words + said, LETTERS_SMALL) <= _NAMES_ROOM:
            return mark.words + said
    return shortened(mark.words, LETTERS_SMALL, _NAMES_ROOM - width_of(level, LETTERS_SMALL)) + level


def level_of(level: float, gauge: Gauge) -> str:
    """A level by its course, with what it lies above or below the foot of that, such as ``c 28 +12.5``."""
    course = f"c {gauge.nearest(level)}"
    if _is_on_course(level, gauge):
        return course
    off = millimetres(gauge.off_course(level))
    return f"{course} {'+' if off > 0.0 else '-'}{number(abs(off))}"
