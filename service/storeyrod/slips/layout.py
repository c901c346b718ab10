"""The slip layout of a wall: every face laid course by course, then corners, jambs, and what is bought.

Areas and lengths inside are ticks; what other rooms take has its unit in its name.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from storeyrod.findings import Finding
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres, square_metres, ticks
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.storey_strips import storey_strips
from storeyrod.options import Options
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.course_grid import Module, module_lengths, widest_perp
from storeyrod.setting_out.set_out import set_out
from storeyrod.slips.arch_rings import voussoir_rings
from storeyrod.slips.beds import bed_joints
from storeyrod.slips.corner_slips import CornerSlips, corner_findings, corner_slips
from storeyrod.slips.ends import FaceEnds, Legs
from storeyrod.slips.face_slips import FaceSlips, free_region, level_area, plumb_boxes, strip_area
from storeyrod.slips.laying import laid_courses
from storeyrod.slips.raked_closers import CutLimits
from storeyrod.slips.remarks import piece_findings
from storeyrod.slips.returns import JambReturns, Lining, jamb_returns, overhead_findings
from storeyrod.slips.sawing import Sawing, circles_of
from storeyrod.slips.soldiers import soldier_courses
from storeyrod.slips.tally import Tally, UnitCount, add_reveals, add_voussoirs, straight_pieces
from storeyrod.trace import SILENT, Trace
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.gauge import Gauge
from storeyrod.wall.grid import corner_return_of, corner_stretcher_of
from storeyrod.wall.wall import Wall


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
    tallies: tuple[Tally, ...]
    module: Module

    @cached_property
    def units_by_face(self) -> tuple[tuple[UnitCount, UnitCount], ...]:
        """Straight slips and header slips of each face when it is cut on its own; soldiers apart."""
        return tuple(_bought(self.wall, tally, self.module) for tally in self.tallies)

    @cached_property
    def soldiers_count(self) -> int:
        """Soldiers, whole and cut: each takes a straight slip."""
        return sum(face.soldiers_count for face in self.faces)

    @property
    def voussoirs_count(self) -> int:
        """Voussoirs, whole and clipped; the slips they come out of are counted with those of the field."""
        return sum(face.voussoirs_count for face in self.faces)

    @property
    def slips_consumed_count(self) -> int:
        """Straight slips used up: field, reveals, voussoirs and soldiers."""
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

    @cached_property
    def returns(self) -> list[JambReturns]:
        """Lined jambs of all faces."""
        return [jamb for face in self.faces for jamb in face.returns]

    @cached_property
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

    Raises what ``set_out`` raises.
    """
    chosen = options if options is not None else Options()
    module = module_lengths(wall.system)
    gauge = wall.gauge
    limits = _cut_limits(wall) if chosen.perps == "equalised" else None
    laid = [
        _lay_face(wall, out, plan, gauge, limits, trace)
        for out, plan in zip(set_out(wall, plans, chosen), plans, strict=True)
    ]
    ends = {face.face.id: FaceEnds(face.equal_courses) for face, _ in laid}
    legs = _legs(wall)
    widest = max(widest_perp(face.bays) for face, _ in laid)
    corners = tuple(
        corner_slips(corner, ends, gauge, widest, legs) for corner in wall.corners if corner.kind == "external_corner"
    )
    level = [(joint.bottom, joint.top) for joint in wall.storey_joints]
    faces = tuple(
        face.with_returns(
            jamb_returns(face.face, Lining(ends[face.face.id], gauge, module, widest_perp(face.bays), legs), level)
        )
        for face, _ in laid
    )
    claimed = [ends[face.face.id].claimed() for face in faces]
    tallies = [
        straight_pieces(ends[face.face.id], taken, Sawing(gauge, circles_of(face.face, face.voussoirs)))
        for face, taken in zip(faces, claimed, strict=True)
    ]
    straight_pieces_count = sum(tally.pieces_count for tally in tallies)
    together = Tally()
    for face, tally in zip(faces, tallies, strict=True):
        add_reveals(tally, face.returns, gauge.height)
        add_voussoirs(tally, face.voussoirs, module.stretcher, gauge.height)
        together.add(tally)
    straight, headers = _bought(wall, together, module)
    findings = [
        *(item for _, found in laid for item in found),
        *(item for face in faces for item in piece_findings(face, wall.system)),
        *(item for corner in corners for item in corner_findings(corner, gauge)),
        *(item for face in wall.faces for item in overhead_findings(face)),
    ]
    return SlipLayout(
        wall, faces, corners, tuple(findings), straight, headers,
        straight_pieces_count=straight_pieces_count,
        twice_replaced_count=sum(one.shared for taken in claimed for one in taken),
        tallies=tuple(tallies),
        module=module,
    )  # fmt: skip


def _cut_limits(wall: Wall) -> CutLimits:
    system = wall.system
    return CutLimits(ticks(system.minimum_cut_mm), ticks(system.minimum_rip_mm), ticks(system.joint.perp_mm))


def _legs(wall: Wall) -> Legs:
    """Legs of a corner slip; a perp may widen up to its limit beside one."""
    joint = wall.system.joint
    legs = ticks(corner_stretcher_of(wall.system)), max(0.0, ticks(corner_return_of(wall.system)))
    return Legs(max(legs), min(legs), max(0.0, ticks(joint.perp_max_mm - joint.perp_mm)))


def _lay_face(
    wall: Wall, out: FaceSetOut, plan: JointPlan, gauge: Gauge, limits: CutLimits | None, trace: Trace
) -> tuple[FaceSlips, list[Finding]]:
    face, joints = out.face, out.joints
    slots = [(slot.left, slot.right) for slot in plan.slots]
    plumb = [strip for strip in (*slots, *joints) if strip[1] > strip[0]]
    level = [box for strip in storey_strips(face, wall.storey_joints) for box in strip.boxes(plumb)]
    strips = [*plumb_boxes(face, plumb), *level]
    soldiers, free, found = soldier_courses(face, free_region(face, strips), strips, wall.system, trace)
    voussoirs, free, arched = voussoir_rings(face, free, wall.system, trace)
    laid = FaceSlips(
        face, out.bays, gauge, laid_courses(free, gauge, out.bays, face.foot, face.top, limits), soldiers, voussoirs,
        beds=bed_joints(free, gauge, face.foot, face.top),
        slot_area=strip_area(face, slots),
        end_joint_area=strip_area(face, joints),
        storey_area=level_area(face, level),
    )  # fmt: skip
    return laid, [*out.findings, *found, *arched]


def _bought(wall: Wall, tally: Tally, module: Module) -> tuple[UnitCount, UnitCount]:
    """Straight slips and header slips, after corner and return slips have taken their pieces."""
    height, kerf = ticks(wall.system.slip.height_mm), ticks(wall.system.slip_kerf_mm)
    return (
        tally.units("stretcher", module.stretcher, height, kerf),
        tally.units("header", module.header, height, kerf),
    )
