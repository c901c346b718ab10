"""The slips sheet: every slip of one face to scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.courses import Rod
from storeyrod.drawings.display_list import Group, Item, Marker, Point, Sheet, Strokes, Style, View, box_polygon
from storeyrod.drawings.joint_marks import joint_blanks
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.legend_entries import (
    PIECE,
    courses_entry,
    feature_entry,
    ground_entry,
    joints_entry,
    opening_entry,
    outline_entry,
)
from storeyrod.drawings.lettering import number
from storeyrod.drawings.level_joints import level_joint_blanks
from storeyrod.drawings.level_marks import level_marks, marked_courses
from storeyrod.drawings.line_styles import SLIP_FLAG, SLIP_MARK
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.paper import paper_and_scale
from storeyrod.drawings.sheet_frame import Explained, Extent, extent_of, origin_on, sheet_of_wall
from storeyrod.drawings.slip_marks import FLAG, SLIP_STYLES, WORDS, cut_stroke, end_strokes, slip_groups, soldier_stroke
from storeyrod.drawings.slip_pieces import MARKS, DrawnCourse, LEnd, Mark, drawn_courses, without_plain
from storeyrod.drawings.surroundings import room_around, surroundings
from storeyrod.drawings.title_block import Particulars
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.slips.face_slips import FaceSlips
from storeyrod.slips.layout import SlipLayout
from storeyrod.wall.face import Face

SHORTEST: Final = 3.0
"""Length of a slip on paper below which whole ones are not drawn one by one, mm."""

SHOWS: Final = (
    "outline, openings, slips whole and cut, corner and return slips, movement joints, course numbers and dimensions"
)


@dataclass(frozen=True, slots=True)
class SlipsSubject:
    """What a slips sheet draws: a face with its slips, and the layout that they belong to."""

    slips: FaceSlips
    layout: SlipLayout
    plan: JointPlan

    @property
    def face(self) -> Face:
        """The face."""
        return self.slips.face

    @property
    def slip_mm(self) -> float:
        """Length of a slip."""
        return self.layout.wall.system.slip.length_mm


def slips_sheet(subject: SlipsSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. ``said.scale`` is set here."""
    extent = extent_of(subject.face)
    around = room_around(subject.face, subject.plan)
    readable = subject.slip_mm / SHORTEST
    paper, chosen = paper_and_scale(*extent.size, around, scale, pointer, readable)
    courses = drawn_courses(subject.slips, subject.layout)
    shown = courses if chosen <= readable else [without_plain(course) for course in courses]
    origin = origin_on(paper.place(around), extent.box, chosen)
    wall = View(origin, float(chosen), _wall_groups(subject, shown, extent, float(chosen)))
    entries = list(_entries(subject, courses, ground=bool(extent.ground)))
    told = Explained(SHOWS, entries, _notes(subject, courses, plain=chosen <= readable))
    return sheet_of_wall(paper, wall, replace(said, scale=chosen), told, id_prefix)


def _wall_groups(
    subject: SlipsSubject, courses: Sequence[DrawnCourse], extent: Extent, scale: float
) -> tuple[Group, ...]:
    face, gauge, joints = subject.face, subject.layout.wall.gauge, subject.layout.wall.storey_joints
    marked = marked_courses(level_marks(face), gauge)
    return (
        *slip_groups(face.id, courses, scale),
        *joint_blanks(face, subject.plan, scale),
        *level_joint_blanks(face, joints, scale),
        *opening_groups(face, scale),
        *surroundings(face, subject.plan, Rod(gauge, joints), extent, scale, marked),
    )


def _notes(subject: SlipsSubject, courses: Sequence[DrawnCourse], *, plain: bool) -> list[str]:
    counts = {mark: sum(course.count(mark) for course in courses) for mark in MARKS}
    said = [f"{count} × {WORDS[mark]}" for mark, count in counts.items() if count]
    notes = [f"Pieces on this face: {', '.join(said)}."]
    if not plain:
        notes.append(
            f"Whole slips would be under {number(SHORTEST)} mm long and are drawn as courses; "
            "ends, jambs and cut slips are drawn one by one. Ask for a larger scale."
        )
    return notes


def _entries(subject: SlipsSubject, courses: Sequence[DrawnCourse], *, ground: bool) -> Iterator[Entry]:
    for mark in MARKS:
        if any(course.count(mark) for course in courses):
            yield _piece_entry(mark)
    if any(course.narrow for course in courses):
        ring = Marker((SYMBOL / 2.0, 0.0), "ring", FLAG)
        system = subject.layout.wall.system
        limits = f"{number(system.minimum_cut_mm)} long or {number(system.minimum_rip_mm)} high"
        yield Entry((("slip-flags", SLIP_FLAG, ring),), f"under {limits}")
    if subject.face.openings:
        yield opening_entry()
    yield outline_entry()
    if subject.face.features:
        yield feature_entry()
    if subject.plan.slots or subject.layout.wall.storey_joints:
        yield joints_entry(level=bool(subject.layout.wall.storey_joints))
    yield courses_entry(millimetres(subject.layout.wall.gauge.pitch))
    if ground:
        yield ground_entry()


def _piece_entry(mark: Mark) -> Entry:
    words = WORDS[mark] + (": length if it fits" if mark == "cut" else "")
    drawn: list[tuple[str, Style, Item]] = [(f"slip-{mark.replace('_', '-')}", SLIP_STYLES[mark], box_polygon(PIECE))]
    strokes = _entry_strokes(mark)
    if strokes:
        drawn.append(("slip-marks", SLIP_MARK, Strokes(strokes)))
    return Entry(tuple(drawn), words)


def _entry_strokes(mark: Mark) -> tuple[tuple[Point, Point], ...]:
    match mark:
        case "corner_left" | "corner_right" | "return":
            return tuple(end_strokes(LEnd(PIECE, "right", mark), 1.0))
        case "soldier":
            return (soldier_stroke(PIECE),)
        case "cut":
            return (cut_stroke(PIECE, 1.0),)
        case _:
            return ()
