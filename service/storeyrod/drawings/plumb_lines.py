"""Plumb lines of a set-out wall: at perps, jambs and ends, each with its running distance from where the bond starts."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from storeyrod.drawings.display_list import Group, Item, Line, Polygon, Polyline, Text
from storeyrod.drawings.lettering import number, width_of
from storeyrod.drawings.line_styles import DIMENSION, LETTERING, LETTERS_SMALL, PLUMB_JAMB, PLUMB_PERP, SOLID
from storeyrod.drawings.spreading import spread
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.setting_out.bays import BondStart
from storeyrod.setting_out.bond_models import BaySetOut
from storeyrod.setting_out.level_models import BaseStep
from storeyrod.wall.face import Face

_PITCH: Final = 2.5
"""Distance of neighbouring figures on paper, mm."""

_BELOW: Final = 1.5
_KINK: Final = 3.5
_GAP: Final = 0.7
_BEYOND: Final = 8.0
"""How far figures may stand beyond the ends of the wall on paper, mm."""

_ARROW_HALF: Final = 0.7
_ARROW: Final = 1.8

What = Literal["perp", "step", "jamb", "end"]

_LETTERS: Final[Mapping[What, str]] = {"perp": "", "step": " S", "jamb": " J", "end": " E"}
_RANKS: Final[tuple[What, ...]] = ("end", "jamb", "step", "perp")
_TRIED: Final[tuple[frozenset[What], ...]] = tuple(frozenset(_RANKS[:count]) for count in (4, 3, 1))
"""What has a figure: everything; where the row is too full, no perps; or ends alone."""


@dataclass(frozen=True, slots=True)
class PlumbLine:
    """A plumb line, or a step of the base: x in mm, running distance, what it marks, which way and from where it is carried.

    ``low`` and ``high`` are foot and head of the set-out courses; a step is not carried.
    """

    x: float
    running: float
    what: What
    carry: Literal["up", "down", "up_and_down"] | None = None
    low: float = 0.0
    high: float = 0.0

    @property
    def words(self) -> str:
        """The figure, with a letter for jambs and ends."""
        return number(self.running) + _LETTERS[self.what]


def plumb_lines(
    bays: Sequence[BaySetOut], steps: Sequence[BaseStep], start: BondStart, course_height: float
) -> list[PlumbLine]:
    """Lines of all bays and steps of the base from left to right; where two fall together, what is built first stays."""
    chosen: dict[float, PlumbLine] = {}
    for line in (*_marked(bays, start, course_height), *_stepped(steps, start)):
        known = chosen.get(line.x)
        if known is None or _RANKS.index(line.what) < _RANKS.index(known.what):
            chosen[line.x] = line
    return [chosen[x] for x in sorted(chosen)]


def _marked(bays: Sequence[BaySetOut], start: BondStart, course_height: float) -> Iterator[PlumbLine]:
    for bay in bays:
        middles = [course["y_mm"] for course in bay["set_out_courses"]] or [0.0]
        low, high = min(middles) - course_height / 2.0, max(middles) + course_height / 2.0
        for mark in bay["marks"]:
            x = mark["x_mm"]
            yield PlumbLine(x, _running(x, start), mark["what"], mark["carry"], low, high)


def _stepped(steps: Sequence[BaseStep], start: BondStart) -> Iterator[PlumbLine]:
    for step in steps:
        yield PlumbLine(step["at_perp_x_mm"], _running(step["at_perp_x_mm"], start), "step")


def _running(x: float, start: BondStart) -> float:
    origin = millimetres(start.origin)
    return (x - origin if start.side == "left" else origin - x) + 0.0


def latest_steps(steps: Sequence[BaseStep], start: BondStart) -> list[str]:
    """A note of how far the steps of the base may go."""
    if not steps:
        return []
    limits = ", ".join(number(_running(step["limit_x_mm"], start)) for step in steps)
    return [f"Steps of the base (S) stand at perps; the ground lets them go no farther than {limits}."]


def plumb_groups(face: Face, lines: Sequence[PlumbLine]) -> tuple[Group, ...]:
    """The lines on the wall, which openings are drawn over."""
    perps = [one for line in lines if line.what == "perp" for one in _on_the_wall(face, line)]
    jambs = [one for line in lines if line.what == "jamb" for one in _on_the_wall(face, line)]
    return (
        Group("plumb-perp", PLUMB_PERP, tuple(perps)),
        Group("plumb-jamb", PLUMB_JAMB, tuple(jambs)),
    )


def carry_marks(lines: Sequence[PlumbLine], scale: float) -> tuple[Group, ...]:
    """Arrows that say which way lines are carried from the set-out courses."""
    return (Group("carry-marks", SOLID, tuple(arrow for line in lines for arrow in _arrows(line, scale))),)


def _on_the_wall(face: Face, line: PlumbLine) -> Iterator[Line]:
    for low, high in face.slip_region.heights_at(ticks(line.x)):
        yield Line((line.x, millimetres(low)), (line.x, millimetres(high)))


def _arrows(line: PlumbLine, scale: float) -> Iterator[Polygon]:
    half, long = _ARROW_HALF * scale, _ARROW * scale
    if line.carry in ("up", "up_and_down"):
        yield _arrow(line.x, line.high, half, long)
    if line.carry in ("down", "up_and_down"):
        yield _arrow(line.x, line.low, half, -long)


def _arrow(x: float, y: float, half: float, long: float) -> Polygon:
    return Polygon((((x - half, y), (x + half, y), (x, y + long)),))


@dataclass(frozen=True, slots=True)
class Ordinates:
    """Running distances below a wall, and how many plumb lines have none for lack of room."""

    groups: tuple[Group, ...]
    left_out: int


def ordinates_depth(lines: Sequence[PlumbLine]) -> float:
    """Room that figures and their leaders take below the wall on paper, mm."""
    longest = max((width_of(line.words, LETTERS_SMALL) for line in lines), default=0.0)
    return _BELOW + _KINK + _GAP + longest


def ordinates(
    lines: Sequence[PlumbLine], left: float, right: float, bottom: float, scale: float, room: float
) -> Ordinates:
    """Figures of the lines, turned, below y = ``bottom``; a row too full leaves out perps, then jambs.

    ``room`` is how far the row may reach beyond x = ``left`` and x = ``right`` on paper.
    """
    beyond = min(_BEYOND, room) * scale
    for kinds in _TRIED:
        shown = [line for line in lines if line.what in kinds]
        places = spread([line.x for line in shown], _PITCH * scale, left - beyond, right + beyond)
        if places is not None:
            return Ordinates(_figures(shown, places, bottom, scale), len(lines) - len(shown))
    return Ordinates((), len(lines))


def _figures(lines: Sequence[PlumbLine], places: Sequence[float], bottom: float, scale: float) -> tuple[Group, ...]:
    first, second = bottom - _BELOW * scale, bottom - (_BELOW + _KINK) * scale
    leaders: list[Item] = []
    texts: list[Item] = []
    for line, place in zip(lines, places, strict=True):
        kink = first - 0.3 * _KINK * scale
        leaders.append(Polyline(((line.x, first), (line.x, kink), (place, second))))
        at = (place, second - _GAP * scale)
        texts.append(Text(at, line.words, LETTERS_SMALL, "end", middle=True, turned=True))
    return Group("plumb-leaders", DIMENSION, tuple(leaders)), Group("plumb-figures", LETTERING, tuple(texts))
