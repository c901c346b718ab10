"""The setting-out sheet: what a gang marks on the wall before the first board."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.base_marks import base_groups, base_steps, is_stepped
from storeyrod.drawings.bay_words import bay_labels, bay_notes, bond_words
from storeyrod.drawings.courses import Rod, course_groups, datum_groups
from storeyrod.drawings.dimensions import ROW_PITCH, Chain, dimensions, stops_of
from storeyrod.drawings.display_list import Box, Group, Item, Line, Polygon, Sheet, Style, View, box_polygon
from storeyrod.drawings.edge_labels import edge_labels
from storeyrod.drawings.feature_marks import feature_groups
from storeyrod.drawings.ground import ground_groups
from storeyrod.drawings.joint_marks import joint_blanks, joint_groups
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.legend_entries import (
    courses_entry,
    feature_entry,
    ground_entry,
    joint_entry,
    line_entry,
    opening_entry,
    outline_entry,
)
from storeyrod.drawings.lettering import number
from storeyrod.drawings.level_joints import level_joint_blanks, level_joint_groups, level_joint_marks
from storeyrod.drawings.level_marks import ROOM, LevelMark, level_groups, level_marks, level_of, marked_courses
from storeyrod.drawings.line_styles import (
    BASE_STEPPED,
    BOND_START,
    FACE_OUTLINE,
    PLUMB_JAMB,
    PLUMB_PERP,
    SET_OUT_COURSE,
    SET_OUT_PERP,
    SOLID,
    finer,
)
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.paper import Room, paper_and_scale
from storeyrod.drawings.piece_marks import points_of
from storeyrod.drawings.plumb_lines import (
    Ordinates,
    PlumbLine,
    carry_marks,
    latest_steps,
    ordinates,
    ordinates_depth,
    plumb_groups,
    plumb_lines,
)
from storeyrod.drawings.set_out_courses import ROOM_FOR_BOND_START, bond_start_groups, set_out_course_groups
from storeyrod.drawings.sheet_frame import LINE, Explained, Extent, extent_of, origin_on, sheet_of_wall
from storeyrod.drawings.stops import ends_of_face, level_stops, opening_stops
from storeyrod.drawings.title_block import Particulars
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.bond_models import BaySetOut
from storeyrod.setting_out.course_grid import Module
from storeyrod.setting_out.level_models import ElevationBase
from storeyrod.setting_out.ways import End
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.storey_joints import StoreyJoint

_ROOM_LEFT: Final = 50.0
_ROOM_TOP: Final = 12.8
_ROOM_FOR_JOINT_NAMES: Final = 9.0
_ROOM_BELOW_DIMENSIONS: Final = 2.5
_FIRST_DIMENSION: Final = 6.0
_LEFT_DIMENSION: Final = 21.0
_BESIDE_COURSES: Final = 14.0
_BELOW_FIGURES: Final = 1.0
_DATUM: Final = 34.0
"""Distances from the wall, or from what stands beside it, on paper, mm."""

_BAYS_IN_STRIP: Final = 2
"""So many different bays are described beside the legend; more of them stand under the heading, one a line."""

READABLE: Final = 50.0
"""Beyond one to this, a larger sheet is taken: courses of a usual pitch would fall below 1.5 mm, and base and carry marks would stand on the set-out courses."""

SHOWS: Final = "outline, openings, datum, course numbers and levels, bays and perps, movement joints, set-out courses and plumb lines"


@dataclass(frozen=True, slots=True)
class SettingOutSubject:
    """What a setting-out sheet draws: a face set out, its bays row by row, and what its edges meet."""

    out: FaceSetOut
    plan: JointPlan
    bays: Sequence[BaySetOut]
    gauge: Gauge
    module: Module
    bond: str
    meets: Mapping[End, End]
    base: ElevationBase
    joints: tuple[StoreyJoint, ...] = ()

    @property
    def face(self) -> Face:
        """The face."""
        return self.out.face


def setting_out_sheet(
    subject: SettingOutSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. ``said.scale`` is set here."""
    extent = extent_of(subject.face)
    around = _around(subject)
    paper, chosen = paper_and_scale(*extent.size, around, scale, pointer, READABLE)
    origin = origin_on(paper.place(around), extent.box, chosen)
    below = _ordinates(subject, extent.box, float(chosen))
    wall = View(origin, float(chosen), (*_wall_groups(subject, extent, float(chosen)), *below.groups))
    told = Explained(
        SHOWS,
        list(_entries(subject, ground=bool(extent.ground))),
        [
            *_notes(subject),
            *latest_steps(base_steps(subject.base), subject.out.start),
            *_left_out(below.left_out),
        ],
        _lines_below_heading(subject),
    )
    return sheet_of_wall(paper, wall, replace(said, scale=chosen), told, id_prefix)


def _entries(subject: SettingOutSubject, *, ground: bool) -> Iterator[Entry]:
    if subject.face.openings:
        yield opening_entry("opening: clear size, courses")
    yield outline_entry()
    if subject.face.features:
        yield feature_entry()
    if subject.plan.slots:
        yield joint_entry(_joint_words(subject.plan))
    if subject.joints:
        yield joint_entry("LJ level movement joint")
    yield courses_entry(millimetres(subject.gauge.pitch))
    band = box_polygon((0.0, -1.2, SYMBOL, 1.2))
    perps = (Line((3.0, -1.2), (3.0, 1.2)), Line((8.0, -1.2), (8.0, 1.2)))
    shown: tuple[tuple[str, Style, Item], ...] = (
        ("set-out-course", SET_OUT_COURSE, band),
        *(("set-out-perps", SET_OUT_PERP, perp) for perp in perps),
    )
    yield Entry(shown, "set-out course with its perps")
    yield line_entry("plumb-perp", PLUMB_PERP, "plumb line at a perp")
    yield line_entry("plumb-jamb", PLUMB_JAMB, "plumb line at a jamb: J, end: E")
    up = Polygon((((2.3, 0.2), (3.7, 0.2), (3.0, 2.0)),))
    down = Polygon((((6.3, -0.2), (7.7, -0.2), (7.0, -2.0)),))
    yield Entry((("carry-marks", SOLID, up), ("carry-marks", SOLID, down)), "carry the line up, down")
    start = (Line((1.0, -1.2), (1.0, 1.2)), Line((1.0, 0.0), (7.0, 0.0)))
    head = Polygon((((9.0, 0.0), (7.0, 0.8), (7.0, -0.8)),))
    yield Entry(tuple(("bond-start", BOND_START, item) for item in (*start, head)), "bond starts: x is 0 here")
    if ground:
        yield ground_entry()
    if is_stepped(subject.base):
        yield line_entry("base-stepped", BASE_STEPPED, "base over the ground, step: S")


def _lines_below_heading(subject: SettingOutSubject) -> list[str]:
    """Where the bond starts, and every bay where there are more of them than the strip has room for."""
    bays = list(bay_notes(subject.out, subject.module))
    face = subject.face
    size = f"Finished face {number(millimetres(face.length))} long, {number(millimetres(face.top - face.foot))} high."
    return [
        f"{size} {bond_words(subject.out, subject.bond, subject.module)}",
        *(bays if len(bays) > _BAYS_IN_STRIP else []),
    ]


def _notes(subject: SettingOutSubject) -> list[str]:
    bays = list(bay_notes(subject.out, subject.module))
    return bays if len(bays) <= _BAYS_IN_STRIP else []


def _joint_words(plan: JointPlan) -> str:
    widths = sorted({number(millimetres(slot.width)) for slot in plan.slots}, key=float)
    return f"MJ movement joint, {' or '.join(widths)} wide"


def _around(subject: SettingOutSubject) -> Room:
    rows = len(_rows(subject))
    below = ROOM_FOR_BOND_START + ordinates_depth(_lines(subject))
    bottom = below + _FIRST_DIMENSION + ROW_PITCH * (rows - 1) + _ROOM_BELOW_DIMENSIONS
    top = LINE * len(_lines_below_heading(subject)) + _ROOM_TOP + (_ROOM_FOR_JOINT_NAMES if subject.plan.slots else 0.0)
    return _ROOM_LEFT, bottom, ROOM, top


def _lines(subject: SettingOutSubject) -> list[PlumbLine]:
    height = millimetres(subject.gauge.height)
    return plumb_lines(subject.bays, base_steps(subject.base), subject.out.start, height)


def _ordinates(subject: SettingOutSubject, box: Box, scale: float) -> Ordinates:
    left, bottom, right, _ = box
    return ordinates(_lines(subject), left, right, bottom - ROOM_FOR_BOND_START * scale, scale, _ROOM_LEFT)


def _wall_groups(subject: SettingOutSubject, extent: Extent, scale: float) -> tuple[Group, ...]:
    face, gauge = subject.face, subject.gauge
    left, bottom, right, _ = extent.box
    foot, top = millimetres(face.foot), millimetres(face.top)
    rod = Rod(gauge, subject.joints)
    marks, lines = _level_marks(subject), _lines(subject)
    origin = millimetres(subject.out.start.origin)
    return (
        *set_out_course_groups(face, subject.bays, gauge, scale),
        *plumb_groups(face, lines),
        *joint_blanks(face, subject.plan, scale),
        *level_joint_blanks(face, subject.joints, scale),
        *opening_groups(face, scale, {one.id: _coursed(one.sill, one.head, gauge) for one in face.openings}),
        Group("face", finer(FACE_OUTLINE, scale), (Polygon((points_of(face.outline),)),)),
        *feature_groups(face, scale),
        *joint_groups(face, subject.plan, scale),
        *level_joint_groups(face, subject.joints, scale),
        *carry_marks(lines, scale),
        *(ground_groups(extent.ground, scale) if extent.ground else ()),
        *base_groups(subject.base, scale),
        *course_groups(left, right, foot, top, rod, scale, marked_courses(marks, gauge)),
        *level_groups(face, marks, gauge, right, scale),
        *(datum_groups(left - _DATUM * scale, rod.datum, scale) if foot <= rod.datum <= top else ()),
        *edge_labels(face, subject.meets, scale),
        *(bond_start_groups(subject.out.start, bottom, scale) if left <= origin <= right else ()),
        *dimensions(_chains(subject, extent.box, scale), scale),
    )


def _coursed(sill: float, head: float, gauge: Gauge) -> str:
    return f"{level_of(sill, gauge)} to {level_of(head, gauge)}"


def _level_marks(subject: SettingOutSubject) -> list[LevelMark]:
    pairs = {tuple(course["course"] for course in bay["set_out_courses"]) for bay in subject.bays} - {()}
    named = [
        (subject.gauge.bottom(max(pair)), f"set-out courses {', '.join(map(str, pair))}") for pair in sorted(pairs)
    ]
    return level_marks(subject.face, [*named, *level_joint_marks(subject.face, subject.joints)])


def _rows(subject: SettingOutSubject) -> list[Chain]:
    """Chains below the wall, nearest first, at no place yet: openings and corners, bays with their perps, the whole."""
    bays = subject.out.bays
    ends = ends_of_face(subject.face)
    joints = stops_of([*ends, *(millimetres(x) for bay in bays for x in (bay.left, bay.right))])
    words = {millimetres(bay.left): bay_labels(number, bay) for number, bay in enumerate(bays, start=1)}
    named = tuple(words.get(stop) for stop in joints[:-1])
    chains = [Chain(opening_stops(subject.face), 0.0, 0.0), Chain(joints, 0.0, 0.0, words=named)]
    if len(bays) > 1:
        chains.append(Chain(stops_of(ends), 0.0, 0.0))
    return chains if len(chains[0].stops) > 2 else chains[1:]


def _chains(subject: SettingOutSubject, box: Box, scale: float) -> list[Chain]:
    left, bottom, _, _ = box
    below = bottom - (ROOM_FOR_BOND_START + ordinates_depth(_lines(subject))) * scale
    foot, first = below - _BELOW_FIGURES * scale, below - _FIRST_DIMENSION * scale
    chains = [
        replace(chain, line=first - index * ROW_PITCH * scale, foot=foot - index * ROW_PITCH * scale)
        for index, chain in enumerate(_rows(subject))
    ]
    levels = level_stops(subject.face)
    beside, at = left - _BESIDE_COURSES * scale, left - _LEFT_DIMENSION * scale
    if len(levels) > 2:
        chains.append(Chain(levels, at, beside, upright=True))
        at -= ROW_PITCH * scale
    chains.append(Chain((levels[0], levels[-1]), at, beside, upright=True))
    return chains


def _left_out(count: int) -> list[str]:
    return [f"Distances of plumb lines left out for lack of room: {count}; ask for a larger scale."] if count else []
