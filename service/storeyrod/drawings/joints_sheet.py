"""The joints sheet: movement joints of one elevation with places, widths and reasons, and its bays against their limits."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.bay_bars import BAR, any_over, bar_entry, bar_groups, over_entry
from storeyrod.drawings.courses import Rod, course_groups, datum_groups
from storeyrod.drawings.dimensions import ROW_PITCH, Chain, dimensions, stops_of
from storeyrod.drawings.display_list import Box, Group, Polygon, Sheet, View
from storeyrod.drawings.feature_marks import feature_groups
from storeyrod.drawings.ground import ground_groups
from storeyrod.drawings.joint_reasons import ROOM_FOR_NAMES, JointNames, reason_entries, reasoned_joints
from storeyrod.drawings.legend import Entry
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
from storeyrod.drawings.level_joints import level_joint_groups, level_joint_names
from storeyrod.drawings.line_styles import EXISTING_JOINT, FACE_OUTLINE, finer
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.paper import Room, paper_and_scale
from storeyrod.drawings.piece_marks import points_of
from storeyrod.drawings.plumb_lines import Ordinates, PlumbLine, ordinates, ordinates_depth
from storeyrod.drawings.sheet_frame import Explained, Extent, extent_of, origin_on, sheet_of_wall
from storeyrod.drawings.stops import ends_of_face, level_stops, opening_stops
from storeyrod.drawings.title_block import Particulars
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.bay_models import Bay
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.storey_strips import storey_strips
from storeyrod.wall.face import Face

SHOWS: Final = "outline, openings, movement joints with places, widths and reasons, and bays against their limits"

READABLE: Final = 100.0
"""Beyond one to this, a larger sheet is taken: the words on bays of a usual length would find no room."""

_ROOM_BESIDE_DIMENSIONS: Final = 22.0
_ROOM_RIGHT: Final = 46.0
_ROOM_TOP: Final = 12.0
_ROOM_BELOW_DIMENSIONS: Final = 4.0
_FIRST_DIMENSION: Final = 8.0
_LEFT_DIMENSION: Final = 21.0
_BESIDE_COURSES: Final = 13.0
_BELOW_FIGURES: Final = 1.0
_BAR_AWAY: Final = 2.4
_DATUM: Final = 6.0
"""Distances from the wall, or from what stands beside it, on paper, mm."""


@dataclass(frozen=True, slots=True)
class JointsSubject:
    """What a joints sheet draws; ``bays`` as they stand in the answer, ``spacing`` says which limits they keep."""

    face: Face
    plan: JointPlan
    bays: Sequence[Bay]
    rod: Rod
    spacing: str


def joints_sheet(subject: JointsSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. ``said.scale`` is set here."""
    extent = extent_of(subject.face)
    around = _around(subject)
    paper, chosen = paper_and_scale(*extent.size, around, scale, pointer, READABLE)
    origin = origin_on(paper.place(around), extent.box, chosen)
    names = reasoned_joints(subject.face, subject.plan, float(chosen))
    below = _ordinates(subject, extent.box, float(chosen))
    groups = (*_wall_groups(subject, extent, float(chosen), names), *below.groups)
    told = Explained(
        SHOWS,
        list(_entries(subject, ground=bool(extent.ground))),
        [*_notes(subject), *_left_out(names.left_out + below.left_out)],
    )
    return sheet_of_wall(paper, View(origin, float(chosen), groups), replace(said, scale=chosen), told, id_prefix)


def _entries(subject: JointsSubject, *, ground: bool) -> Iterator[Entry]:
    slots = subject.plan.slots
    strips = storey_strips(subject.face, subject.rod.joints)
    if subject.face.openings:
        yield opening_entry()
    yield outline_entry()
    if subject.face.features:
        yield feature_entry()
    if strips or slots:
        yield joint_entry("movement joint: MJ, level LJ" if strips else "MJ movement joint, width")
    if any(slot.existing for slot in slots) or any(strip.joint.existing for strip in strips):
        yield line_entry("movement-joint", EXISTING_JOINT, "over an existing joint")
    yield from reason_entries(subject.plan)
    yield bar_entry()
    if any_over(subject.bays):
        yield over_entry()
    yield courses_entry(subject.rod.pitch)
    if ground:
        yield ground_entry()


def _notes(subject: JointsSubject) -> Iterator[str]:
    plan = subject.plan
    yield f"{subject.spacing}: bays up to {number(millimetres(plan.limit))} long. Distances below the wall from its left end."
    count = len(plan.slots)
    yield f"{count} joint{'' if count == 1 else 's'}; the length alone asks for {plan.least_count}."
    near = [number(millimetres(limit)) for limit in plan.ends if limit < plan.limit]
    if near:
        yield f"From corners at most {' and '.join(dict.fromkeys(near))}."
    if plan.withheld:
        yield "No joint has a place in a bay over its limit: no verdict, see the findings."


def _left_out(count: int) -> list[str]:
    return [f"No room for names or distances: {count}."] if count else []


def _around(subject: JointsSubject) -> Room:
    uprights = len(_uprights(subject))
    left = _LEFT_DIMENSION + ROW_PITCH * (uprights - 1) + _DATUM + _ROOM_BESIDE_DIMENSIONS
    bottom = ordinates_depth(_lines(subject)) + _depth(subject) + _ROOM_BELOW_DIMENSIONS
    return left, bottom, _ROOM_RIGHT, _ROOM_TOP + (ROOM_FOR_NAMES if subject.plan.slots else 0.0)


def _lines(subject: JointsSubject) -> list[PlumbLine]:
    """Joints and ends with their distances from the left end."""
    left = millimetres(subject.face.left)
    joints = [PlumbLine(x, x - left, "perp") for x in (millimetres(slot.centre) for slot in subject.plan.slots)]
    first, last = (PlumbLine(x, x - left, "perp") for x in ends_of_face(subject.face))
    return [first, *joints, last] if joints else []


def _ordinates(subject: JointsSubject, box: Box, scale: float) -> Ordinates:
    left, bottom, right, _ = box
    return ordinates(_lines(subject), left, right, bottom, scale, _LEFT_DIMENSION)


def _wall_groups(subject: JointsSubject, extent: Extent, scale: float, names: JointNames) -> tuple[Group, ...]:
    face, rod = subject.face, subject.rod
    left, bottom, right, _ = extent.box
    foot, top = millimetres(face.foot), millimetres(face.top)
    below = bottom - ordinates_depth(_lines(subject)) * scale
    uprights = _uprights(subject)
    datum = _LEFT_DIMENSION + ROW_PITCH * (len(uprights) - 1) + _DATUM
    return (
        *opening_groups(face, scale),
        Group("face", finer(FACE_OUTLINE, scale), (Polygon((points_of(face.outline),)),)),
        *feature_groups(face, scale),
        *names.groups,
        *level_joint_groups(face, rod.joints, scale, EXISTING_JOINT),
        *level_joint_names(face, rod.joints, right, scale, sizes=True),
        *(ground_groups(extent.ground, scale) if extent.ground else ()),
        *course_groups(left, right, foot, top, rod, scale, [joint.course for joint in rod.joints]),
        *(datum_groups(left - datum * scale, rod.datum, scale) if foot <= rod.datum <= top else ()),
        *bar_groups(subject.bays, below - _bars_at(subject) * scale, scale),
        *dimensions(_chains(subject, left, below, scale), scale),
    )


def _levels(subject: JointsSubject) -> list[Chain]:
    """Rows below the wall at no place yet: openings and corners, the first joints from corners, bays."""
    face, plan = subject.face, subject.plan
    openings = Chain(opening_stops(face), 0.0, 0.0)
    bays = [
        (
            f"bay {index}: {number(bay['length_mm'])}, {bay['gross_area_m2']:.2f} m²",
            f"bay {index}: {number(bay['length_mm'])}",
        )
        for index, bay in enumerate(subject.bays, start=1)
    ]
    words = {bay["x_from_mm"]: tried for bay, tried in zip(subject.bays, bays, strict=True)}
    stops = stops_of([*ends_of_face(face), *(millimetres(x) for slot in plan.slots for x in (slot.left, slot.right))])
    return [
        *([openings] if len(openings.stops) > 2 else []),
        Chain(stops, 0.0, 0.0, words=tuple(words.get(stop) for stop in stops[:-1])),
    ]


def _corners(subject: JointsSubject) -> list[Chain]:
    """Distances from corners to the nearest joints, with what they may be, at no place yet."""
    face, plan = subject.face, subject.plan
    edges = (face.elevation.left_edge, face.elevation.right_edge)
    if not plan.slots:
        return []
    return [
        Chain((bay["x_from_mm"], bay["x_to_mm"]), 0.0, 0.0, words=(_corner_words(bay, millimetres(limit)),))
        for edge, bay, limit in zip(edges, (subject.bays[0], subject.bays[-1]), plan.ends, strict=True)
        if edge.is_corner
    ]


def _corner_words(bay: Bay, limit: float) -> tuple[str, ...]:
    long = number(bay["length_mm"])
    return f"from corner: {long}, at most {number(limit)}", f"from corner: {long}", f"corner: {long}"


def _depth(subject: JointsSubject) -> float:
    """Room below the figures of distances on paper: rows, bars, and the whole length."""
    return _bars_at(subject) + BAR + (ROW_PITCH - 2.0 if subject.plan.slots else 0.0)


def _bars_at(subject: JointsSubject) -> float:
    """Upper edge of the bars below the figures of distances on paper."""
    rows = len(_levels(subject)) + bool(_corners(subject))
    return _FIRST_DIMENSION + ROW_PITCH * (rows - 1) + _BAR_AWAY


def _chains(subject: JointsSubject, left: float, below: float, scale: float) -> list[Chain]:
    rows = [[chain] for chain in _levels(subject)]
    corners = _corners(subject)
    rows = [*rows[:-1], corners, rows[-1]] if corners else rows
    chains = []
    for index, row in enumerate(rows):
        line = below - (_FIRST_DIMENSION + ROW_PITCH * index) * scale
        foot = below - (_BELOW_FIGURES + ROW_PITCH * index) * scale
        chains += [replace(chain, line=line, foot=foot) for chain in row]
    if subject.plan.slots:
        line = below - _depth(subject) * scale
        chains.append(Chain(stops_of(ends_of_face(subject.face)), line, line + 4.0 * scale))
    beside = left - _BESIDE_COURSES * scale
    return [
        *chains,
        *(
            Chain(stops, left - (_LEFT_DIMENSION + ROW_PITCH * index) * scale, beside, upright=True)
            for index, stops in enumerate(_uprights(subject))
        ),
    ]


def _uprights(subject: JointsSubject) -> list[tuple[float, ...]]:
    """Stops of upright rows, nearest to the wall first: sills and heads, level joints, the whole height."""
    face = subject.face
    ends = [millimetres(face.foot), millimetres(face.top)]
    strips = storey_strips(face, subject.rod.joints)
    joints = stops_of([*ends, *(millimetres((strip.joint.bottom + strip.joint.top) / 2.0) for strip in strips)])
    detailed = [stops for stops in (level_stops(face), joints) if len(stops) > 2]
    return [*detailed, stops_of(ends)]
