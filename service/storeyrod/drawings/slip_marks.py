"""Slips on an elevation: a style for each kind that also reads in black and white, and marks at the ends of courses.

Whole slips are white, headers dark grey, cut pieces light grey with a stroke across a corner. An L slip has a broad outline and
is hatched where it turns: upright at a jamb, and leaning by its hand at a corner. A soldier has a line along its middle.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Item, Marker, Point, Shapes, Strokes, Style, Text
from storeyrod.drawings.lettering import number, width_of
from storeyrod.drawings.line_styles import (
    CUT_SLIP,
    FINE,
    HEADER_SLIP,
    L_SLIP,
    LETTERING,
    LETTERS_SMALL,
    LETTERS_SMALLEST,
    SLIP_FLAG,
    SLIP_MARK,
    WHOLE_SLIP,
    finer,
)
from storeyrod.drawings.slip_pieces import MARKS, DrawnCourse, LEnd, Mark

SLIP_STYLES: Final[Mapping[Mark, Style]] = MappingProxyType(
    {
        "whole": WHOLE_SLIP,
        "header": HEADER_SLIP,
        "soldier": WHOLE_SLIP,
        "voussoir": WHOLE_SLIP,
        "cut": CUT_SLIP,
        "corner_left": L_SLIP,
        "corner_right": L_SLIP,
        "return": L_SLIP,
    }
)

WORDS: Final[Mapping[Mark, str]] = MappingProxyType(
    {
        "whole": "whole slip",
        "header": "header slip",
        "soldier": "soldier",
        "voussoir": "voussoir",
        "cut": "cut slip",
        "corner_left": "left-handed corner slip",
        "corner_right": "right-handed corner slip",
        "return": "return slip at a jamb",
    }
)

_FINE_SCALE: Final = 20.0
"""Beyond this scale slips have the finest lines, so that their joints stay white."""

FLAG: Final = 2.4
"""Width of the ring round a narrow piece on paper, mm."""

_HATCH: Final = 0.5
_HATCHES: Final = 3
_MARGIN: Final = 0.22
_CUT_STROKE: Final = 1.2
"""Leg of the stroke across the corner of a cut piece on paper, mm; at most a third of its sides."""


def slip_groups(name: str, courses: Sequence[DrawnCourse], scale: float) -> tuple[Group, ...]:
    """All pieces of a face whose id is ``name``, kind by kind, then their marks and lettering."""
    return (
        *(_pieces(name, courses, mark, scale) for mark in MARKS if any(course.count(mark) for course in courses)),
        Group("slip-marks", _finer(SLIP_MARK, scale), _strokes(courses, scale)),
        Group("slip-words", LETTERING, tuple(_words(courses, scale))),
        Group("slip-flags", finer(SLIP_FLAG, scale), tuple(_flags(courses))),
    )


def _pieces(name: str, courses: Sequence[DrawnCourse], mark: Mark, scale: float) -> Group:
    shapes = tuple(
        Shapes(
            tuple(course.boxes.get(mark, ())),
            tuple(course.others.get(mark, ())),
            f"{name}:course-{course.name}:{mark.replace('_', '-')}",
            f"course {course.name}: {course.count(mark)} × {WORDS[mark]}",
        )
        for course in courses
        if course.count(mark)
    )
    return Group(f"slip-{mark.replace('_', '-')}", _finer(SLIP_STYLES[mark], scale), shapes)


def _finer(style: Style, scale: float) -> Style:
    return style if scale <= _FINE_SCALE else replace(style, weight=FINE)


def _strokes(courses: Sequence[DrawnCourse], scale: float) -> tuple[Item, ...]:
    lines: list[tuple[Point, Point]] = []
    for course in courses:
        lines += [cut_stroke(box, scale) for box in course.boxes.get("cut", ())]
        lines += [soldier_stroke(box) for box in course.boxes.get("soldier", ())]
        for end in course.ends:
            lines += end_strokes(end, scale)
    return (Strokes(tuple(lines)),) if lines else ()


def cut_stroke(box: Box, scale: float) -> tuple[Point, Point]:
    """A stroke across the upper right corner, as on boards."""
    left, bottom, right, top = box
    leg = min(_CUT_STROKE * scale, (right - left) / 3.0, (top - bottom) / 3.0)
    return (right - leg, top), (right, top - leg)


def soldier_stroke(box: Box) -> tuple[Point, Point]:
    """A line along the middle of a soldier, short of its ends."""
    left, bottom, right, top = box
    middle, inset = (left + right) / 2.0, (top - bottom) / 6.0
    return (middle, bottom + inset), (middle, top - inset)


def end_strokes(end: LEnd, scale: float) -> list[tuple[Point, Point]]:
    """Strokes at the side on which an L slip turns: leaning to the left or right by its hand, upright at a jamb."""
    left, bottom, right, top = end.box
    width, high = right - left, top - bottom
    lean = 0.0 if end.mark == "return" else min(high / 2.0, width / 4.0)
    pitch = min(_HATCH * scale, (width - lean) / (_HATCHES + 1))
    foot, head = (lean, 0.0) if end.mark == "corner_left" else (0.0, lean)
    if end.towards == "right":
        starts = [left + pitch * count for count in range(1, _HATCHES + 1)]
    else:
        starts = [right - lean - pitch * count for count in range(1, _HATCHES + 1)]
    return [((x + foot, bottom), (x + head, top)) for x in starts]


def _words(courses: Sequence[DrawnCourse], scale: float) -> Iterator[Text]:
    """Lengths of cut pieces and hands of corner slips, where there is room for them."""
    for course in courses:
        for box in course.boxes.get("cut", ()):
            middle = (box[0] + box[2]) / 2.0
            yield from _fitted(number(box[2] - box[0]), box, middle, box[2] - box[0], scale)
        for end in course.ends:
            yield from _end_words(end, scale)


def _end_words(end: LEnd, scale: float) -> Iterator[Text]:
    """A hand beside the hatching."""
    if end.mark == "return":
        return
    left, _, right, _ = end.box
    strokes = end_strokes(end, scale)
    hatched = max(x for line in strokes for x, _ in line), min(x for line in strokes for x, _ in line)
    low, high = (hatched[0], right) if end.towards == "right" else (left, hatched[1])
    yield from _fitted("L" if end.mark == "corner_left" else "R", end.box, (low + high) / 2.0, high - low, scale)


def _fitted(words: str, box: Box, middle: float, room: float, scale: float) -> Iterator[Text]:
    high = (box[3] - box[1]) / scale
    for letters in (LETTERS_SMALL, LETTERS_SMALLEST):
        clear = 2 * _MARGIN * letters
        if letters + clear <= high and width_of(words, letters) + clear <= room / scale:
            yield Text((middle, (box[1] + box[3]) / 2.0), words, letters, "middle", middle=True)
            return


def _flags(courses: Sequence[DrawnCourse]) -> Iterator[Marker]:
    for course in courses:
        for left, bottom, right, top in course.narrow:
            yield Marker(((left + right) / 2.0, (bottom + top) / 2.0), "ring", FLAG)
