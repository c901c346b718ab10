"""The slip layout of a wall: every face laid course by course, then corners, jambs, and what is bought.

Areas and lengths inside are ticks; what other rooms take has its unit in its name.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain

from storeyrod.findings import Finding, refuse
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres, square_metres, ticks
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.options import Options
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.bond import BONDS, Kind
from storeyrod.setting_out.course_grid import HAIRLINE, Module, module_lengths, widest_perp
from storeyrod.setting_out.set_out import set_out
from storeyrod.slips.corner_slips import CornerSlips, corner_findings, corner_slips
from storeyrod.slips.courses import laid_courses
from storeyrod.slips.cutting import CutSlips, cut_slips
from storeyrod.slips.ends import CourseEnds, Legs, ends_of
from storeyrod.slips.face_slips import FaceSlips, free_region, strip_area
from storeyrod.slips.remarks import piece_findings
from storeyrod.slips.returns import JambReturns, jamb_returns, overhead_findings
from storeyrod.slips.soldiers import soldier_courses
from storeyrod.trace import SILENT, Trace
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.grid import corner_return_of, corner_stretcher_of
from storeyrod.wall.wall import Wall


@dataclass(frozen=True, slots=True)
class UnitCount:
    """Units of one kind to be bought: whole ones, pieces cut from others by length and height, and what those consume.

    ``net`` counts by area: what is laid, without what cutting wastes.
    """

    full: int
    cuts: tuple[tuple[float, float], ...]
    cutting: CutSlips
    net: float

    @property
    def consumed(self) -> int:
        """Units used up, cut ones paired into whole ones."""
        return self.full + self.cutting.slips

    @property
    def least(self) -> int:
        """No cutting of the same pieces end to end needs fewer."""
        return self.full + self.cutting.least


@dataclass(frozen=True)
class SlipLayout:
    """Slips of a whole wall."""

    wall: Wall
    faces: tuple[FaceSlips, ...]
    corners: tuple[CornerSlips, ...]
    findings: tuple[Finding, ...]
    straight: UnitCount
    headers: UnitCount
    straight_pieces_count: int
    twice_replaced_count: int
    ends: tuple[tuple[CourseEnds, ...], ...]
    module: Module

    @cached_property
    def units_by_face(self) -> tuple[tuple[UnitCount, UnitCount], ...]:
        """Straight slips and header slips of each face when it is cut on its own; soldiers apart."""
        pairs = zip(self.faces, self.ends, strict=True)
        return tuple(_bought(self.wall, [face], courses, self.module) for face, courses in pairs)

    @property
    def soldiers_count(self) -> int:
        """Soldiers, whole and cut: each takes a straight slip."""
        return sum(face.soldiers_count for face in self.faces)

    @property
    def slips_consumed_count(self) -> int:
        """Straight slips used up: field, reveals and soldiers."""
        return self.straight.consumed + self.soldiers_count

    @property
    def slips_lower_bound_count(self) -> int:
        """No cutting end to end needs fewer straight slips."""
        return self.straight.least + self.soldiers_count

    @property
    def slips_net_count(self) -> float:
        """Straight slips by area alone: what is laid, without what cutting wastes."""
        unit = self.wall.system.slip.length_mm * self.wall.system.slip.height_mm * TICKS_PER_MM**2
        return self.straight.net + sum(face.soldier_area for face in self.faces) / unit

    @property
    def corner_slips_count(self) -> int:
        """L slips at external corners."""
        return sum(corner.count for corner in self.corners)

    @property
    def returns(self) -> list[JambReturns]:
        """Lined jambs of all faces."""
        return [jamb for face in self.faces for jamb in face.returns]

    @property
    def return_slips_count(self) -> int:
        """L slips at lined jambs."""
        return sum(jamb.count for jamb in self.returns)

    @cached_property
    def slip_face_area_m2(self) -> float:
        """Face area of all pieces on the elevations, soldiers among them; reveals apart."""
        return square_metres(math.fsum(face.slip_area for face in self.faces))

    @cached_property
    def joint_area_m2(self) -> float:
        """Mortar joints of the elevations; movement joints and end joints apart."""
        return square_metres(math.fsum(face.joint_area for face in self.faces))

    @property
    def reveal_area_m2(self) -> float:
        """Area of lined reveals."""
        return square_metres(math.fsum(jamb.area for jamb in self.returns))

    @property
    def reveal_slip_area_m2(self) -> float:
        """Face area of legs and straight slips in reveals."""
        return square_metres(math.fsum(jamb.slip_area for jamb in self.returns))

    @property
    def reveal_joint_area_m2(self) -> float:
        """Mortar joints of reveals."""
        return self.reveal_area_m2 - self.reveal_slip_area_m2

    @property
    def bed_joint_length_m(self) -> float:
        """Length of bed joints on the elevations."""
        return _metres(math.fsum(face.bed_length for face in self.faces))

    @property
    def perp_joint_length_m(self) -> float:
        """Length of upright joints on the elevations."""
        return _metres(math.fsum(face.perp_length for face in self.faces))


def _metres(length: float) -> float:
    return millimetres(length) * METRES_PER_MILLIMETRE


def lay_slips(
    wall: Wall, plans: Sequence[JointPlan], options: Options | None = None, trace: Trace = SILENT
) -> SlipLayout:
    """Lay every face of a wall; ``plans`` are the movement joints of its faces in the same order.

    Raises ``header-too-short`` for a bond with headers when a slip has none.
    """
    chosen = options if options is not None else Options()
    module = module_lengths(wall.system)
    _refuse_without_header(wall, module)
    gauge = wall.gauge
    laid = [
        _lay_face(wall, out, plan, gauge, trace) for out, plan in zip(set_out(wall, plans, chosen), plans, strict=True)
    ]
    ends = {face.face.id: ends_of(face.courses) for face, _ in laid}
    legs = _legs(wall)
    corners = tuple(
        corner_slips(corner, ends, gauge, max(widest_perp(face.bays) for face, _ in laid), legs)
        for corner in wall.corners
        if corner.kind == "external_corner"
    )
    faces = tuple(
        face.with_returns(jamb_returns(face.face, ends[face.face.id], gauge, module, widest_perp(face.bays), legs))
        for face, _ in laid
    )
    face_ends = tuple(tuple(ends[face.face.id].values()) for face in faces)
    courses = list(chain.from_iterable(face_ends))
    straight, headers = _bought(wall, faces, courses, module)
    findings = [
        *(item for _, found in laid for item in found),
        *(item for face in faces for item in piece_findings(face, wall.system)),
        *(item for corner in corners for item in corner_findings(corner, gauge)),
        *(item for face in wall.faces for item in overhead_findings(face)),
    ]
    return SlipLayout(
        wall, faces, corners, tuple(findings), straight, headers,
        straight_pieces_count=sum(course.straight_count for course in courses),
        twice_replaced_count=sum(course.shared for course in courses),
        ends=face_ends,
        module=module,
    )  # fmt: skip


def _refuse_without_header(wall: Wall, module: Module) -> None:
    has_headers = any("header" in course.units for course in BONDS[wall.system.bond].courses)
    if has_headers and module.header <= HAIRLINE:
        slip = f"A slip of {wall.system.slip.length_mm:g} mm less a perp of {wall.system.joint.perp_mm:g} mm leaves no header"
        detail = f"{slip}; choose a bond without headers, or check both lengths."
        raise refuse("header-too-short", "/system/slip/length_mm", detail)


def _legs(wall: Wall) -> Legs:
    """Legs of a corner slip; a perp may widen up to its limit beside one."""
    joint = wall.system.joint
    legs = ticks(corner_stretcher_of(wall.system)), max(0.0, ticks(corner_return_of(wall.system)))
    return Legs(max(legs), min(legs), max(0.0, ticks(joint.perp_max_mm - joint.perp_mm)))


def _lay_face(
    wall: Wall, out: FaceSetOut, plan: JointPlan, gauge: Gauge, trace: Trace
) -> tuple[FaceSlips, list[Finding]]:
    face, joints = out.face, out.joints
    slots = [(slot.left, slot.right) for slot in plan.slots]
    soldiers, free, found = soldier_courses(face, free_region(face, [*slots, *joints]), wall.system, trace)
    courses = laid_courses(free, gauge, out.bays, face.foot, face.top)
    laid = FaceSlips(face, out.bays, tuple(courses), soldiers, strip_area(face, slots), strip_area(face, joints))
    return laid, [*out.findings, *found]


def _bought(
    wall: Wall, faces: Sequence[FaceSlips], courses: Sequence[CourseEnds], module: Module
) -> tuple[UnitCount, UnitCount]:
    """Straight slips and header slips, after corner and return slips have taken their pieces."""
    behind = [course for face in faces for jamb in face.returns for course in jamb.courses]
    reveal_cuts = [course.straight_cut for course in behind if course.straight_cut]
    reveals = sum(course.straight_full for course in behind), reveal_cuts
    return (
        _units(wall, "stretcher", module.stretcher, courses, reveals),
        _units(wall, "header", module.header, courses, (0, [])),
    )


def _units(
    wall: Wall, kind: Kind, width: float, courses: Sequence[CourseEnds], extra: tuple[int, list[float]]
) -> UnitCount:
    """Units of a kind in courses, with whole and cut ones that are needed elsewhere."""
    height = ticks(wall.system.slip.height_mm)
    full = extra[0] + sum(course.straight_full(kind) for course in courses)
    cuts = list(chain.from_iterable(course.straight_cuts(kind) for course in courses))
    sizes = (*((cut.width, cut.height) for cut in cuts), *((length, height) for length in extra[1]))
    if not full and not sizes:
        return UnitCount(0, (), CutSlips(0, 0, 0.0), 0.0)
    area = math.fsum(cut.part.area for cut in cuts) + sum(extra[1]) * height
    cutting = cut_slips([length for length, _ in sizes], width, ticks(wall.system.slip_kerf_mm))
    return UnitCount(full, sizes, cutting, full + area / (width * height))
