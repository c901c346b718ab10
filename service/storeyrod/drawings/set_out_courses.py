"""The courses from which perps are spaced, on the wall: a grey band for each, with its perps; and where the bond starts."""

from collections.abc import Sequence
from typing import Final

from storeyrod.drawings.display_list import Group, Line, Point, Polygon, Shapes, Strokes
from storeyrod.drawings.line_styles import BOND_START, SET_OUT_COURSE, SET_OUT_PERP, finer
from storeyrod.geometry.intervals import clip
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.setting_out.bays import BondStart
from storeyrod.setting_out.bond_models import BaySetOut
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge

_ARROW: Final = 9.0
_HEAD: Final = 2.2
_HEAD_HALF: Final = 0.8
_FOOT: Final = 2.4
"""Arrow at the start of the bond on paper: length, its head, and the stroke at its foot, mm."""

_BELOW: Final = 0.9

ROOM_FOR_BOND_START: Final = _BELOW + _FOOT
"""What the arrow takes below the wall, mm."""


def set_out_course_groups(face: Face, bays: Sequence[BaySetOut], gauge: Gauge, scale: float) -> tuple[Group, ...]:
    """Bands and perps of the set-out courses of every bay, as far as wall stands there."""
    bands: list[tuple[float, float, float, float]] = []
    perps: list[tuple[Point, Point]] = []
    for bay in bays:
        left, right = ticks(bay["x_from_mm"]), ticks(bay["x_to_mm"])
        for course in bay["set_out_courses"]:
            bottom, top = gauge.bottom(course["course"]), gauge.top(course["course"])
            low, high = millimetres(bottom), millimetres(top)
            runs = clip(face.slip_region.clear_runs(bottom, top), left, right)
            bands += [(millimetres(start), low, millimetres(end), high) for start, end in runs]
            perps += [((x, low), (x, high)) for x in course["perps_x_mm"]]
    shown = (
        Group("set-out-course", SET_OUT_COURSE, (Shapes(tuple(bands)),)),
        Group("set-out-perps", finer(SET_OUT_PERP, scale), (Strokes(tuple(perps)),)),
    )
    return shown if bands else ()


def bond_start_groups(start: BondStart, foot: float, scale: float) -> tuple[Group, ...]:
    """An arrow below the wall from where the bond starts, the way it runs. ``foot`` in mm."""
    x, y = millimetres(start.origin), foot - (_BELOW + _FOOT / 2.0) * scale
    way = scale if start.side == "left" else -scale
    tip = x + _ARROW * way
    neck = tip - _HEAD * way
    head = Polygon((((tip, y), (neck, y + _HEAD_HALF * scale), (neck, y - _HEAD_HALF * scale)),))
    lines = (Line((x, y - _FOOT * scale / 2.0), (x, y + _FOOT * scale / 2.0)), Line((x, y), (neck, y)))
    return (Group("bond-start", BOND_START, (*lines, head)),)
