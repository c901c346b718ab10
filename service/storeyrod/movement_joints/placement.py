"""Placing vertical movement joints of a face: joints of the structure first, then the fewest more, then the most even bays.

Positions lie on the grid of half modules, so that a joint takes the place of a perp in one course and halves a stretcher in
the next, and keep clear of openings (``positions``). A bay is measured clear, from joint to joint. Between fixed joints a
forward pass over the permitted positions finds the fewest joints, and among those the most even bays (``search``). Positions
are counted, and the pass runs, from the end from which the bond is set out, so that a mirrored wall has mirrored joints.

The designer's own joints are taken as they are, and only looked at.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.movement_joints.at_corners import corner_joint_findings
from storeyrod.movement_joints.bay_findings import bay_findings, step_findings
from storeyrod.movement_joints.fixed_joints import fixed_places
from storeyrod.movement_joints.panels import Storey, storeys_of
from storeyrod.movement_joints.positions import Place, Positions, Reason, positions_of
from storeyrod.movement_joints.search import taken_positions
from storeyrod.movement_joints.spacing import BayLimits, area_limit_of, least_count_of, longest_bay_of, ratio_limit_of
from storeyrod.movement_joints.stretch import FreeStretch, area_kept
from storeyrod.movement_joints.width import moving_length, width_of
from storeyrod.movement_joints.width_working import width_findings
from storeyrod.trace import SILENT, Trace
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import Face
from storeyrod.wall.storey_joints import StoreyJoint
from storeyrod.wall.system import System

MOST_POSITIONS: Final = 1_000_000
"""Pairs of positions that the search may weigh for one elevation."""

NO_ENDS: Final = (math.inf, math.inf)
"""Ends of a face at which no corner asks for a joint nearer to it."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A movement joint as the strip it takes out of boards and slips, in ticks, and why it stands there."""

    left: float
    right: float
    reason: Reason

    @property
    def existing(self) -> bool:
        """Whether it repeats a joint of the structure."""
        return self.reason == "existing"

    @property
    def centre(self) -> float:
        """Middle of the strip."""
        return (self.left + self.right) / 2.0

    @property
    def width(self) -> float:
        """Width of the strip."""
        return self.right - self.left


@dataclass(frozen=True, slots=True)
class JointPlan:
    """Joints of one face from left to right, the bays between them, and what was found; ticks.

    ``limit`` is the longest permitted bay, ``ends`` the limits of the bays at the left and right end, ``moving`` the length that moves into a joint, from which its width was taken.
    """

    slots: tuple[Slot, ...]
    bays: tuple[Interval, ...]
    limit: float
    ends: tuple[float, float]
    moving: float
    least_count: int
    withheld: bool
    findings: tuple[Finding, ...]


def planned_joints(
    face: Face,
    system: System,
    trace: Trace = SILENT,
    *,
    storey_joints: Sequence[StoreyJoint] = (),
    ends: tuple[float, float] = NO_ENDS,
) -> JointPlan:
    """Vertical movement joints of a face between level ones; ``ends`` are the limits of its end bays, in ticks, where corners ask
    for joints nearer to them.

    Raises ``joint-outside-outline`` and ``joints-overlap`` for joints that are given, ``existing-joint-bridged``,
    ``parapet-outside-outline``, and ``size-limit`` when the grid of positions is too fine for the length.
    """
    limit_mm = longest_bay_of(face, system, trace)
    limits = _limits(system, ticks(limit_mm), ends)
    positions = positions_of(face, system, _width(system, limits.length))
    least = least_count_of(face, limit_mm, positions.width, trace)
    storeys = storeys_of(face, storey_joints) if min(limits.area, limits.ratio) < math.inf else ()
    fixed = fixed_places(face, system, positions)
    designed = face.elevation.joints_x_mm is not None
    places = fixed if designed else _with_free_places(face, fixed, positions, limits, storeys, system)
    moving = moving_length(
        [face.left, *(place.centre for place in places), face.right], math.inf if designed else limits.length
    )
    width = ticks(width_of(system, trace.given(millimetres(moving) * METRES_PER_MILLIMETRE, face.pointer), trace))
    slots = tuple(Slot(*place.strip(width), place.reason) for place in places)
    bays = _bays(face, slots)
    stuck, found = bay_findings(face, bays, limits, storeys, designed=designed)
    strips = [(slot.left, slot.right) for slot in slots]
    of_width = (
        width_findings(face, system, millimetres(moving) * METRES_PER_MILLIMETRE, millimetres(width)) if slots else ()
    )
    findings = (
        *found, *step_findings(face, strips, system), *_parapet(face), *_crossings(face, slots),
        *corner_joint_findings(face, strips, system), *of_width,
    )  # fmt: skip
    return JointPlan(slots, bays, limits.length, limits.ends, moving, least, stuck, findings)


def _limits(system: System, length: float, ends: tuple[float, float]) -> BayLimits:
    left, right = ends
    return BayLimits(length, (min(length, left), min(length, right)), area_limit_of(system), ratio_limit_of(system))


def _width(system: System, bay: float) -> float:
    """Width of the joints at the end of a bay, in ticks."""
    return ticks(width_of(system, millimetres(bay) * METRES_PER_MILLIMETRE, SILENT))


def _with_free_places(
    face: Face,
    fixed: Sequence[Place],
    positions: Positions,
    limits: BayLimits,
    storeys: Sequence[Storey],
    system: System,
) -> list[Place]:
    """The fixed places and, in the stretches between them, those that limits ask for."""
    half = positions.width / 2.0
    ends = sorted([positions.there(face.left - half), positions.there(face.right + half)])
    stops = [ends[0], *sorted(positions.there(place.centre) for place in fixed), ends[1]]
    kept = area_kept(storeys, limits)
    narrowest = _width(system, 0.0) if min(limits.ends) < limits.length or kept else positions.width
    near = limits.ends[::-1] if positions.turned else limits.ends
    places = list(fixed)
    for index, (low, high) in enumerate(pairwise(stops)):
        at_ends = (
            near[0] if index == 0 else limits.length,
            near[1] if index == len(stops) - 2 else limits.length,
        )
        stretch = FreeStretch(positions, low, high, limits, at_ends, storeys, kept, narrowest)
        if not stretch.is_bay:
            _refuse_too_many(face, positions, low, high, limits)
            places += [stretch.places[index] for index in taken_positions(stretch)]
    return sorted(places, key=lambda place: place.centre)


def _refuse_too_many(face: Face, positions: Positions, low: float, high: float, limits: BayLimits) -> None:
    count = (high - low) / positions.step
    window = (limits.length + positions.width) / positions.step + 2.0
    if count * window > MOST_POSITIONS:
        detail = f"About {count:.0f} positions of joints on this length; give a larger snap_mm, or split the elevation."
        raise refuse("size-limit", face.pointer, detail)


def _bays(face: Face, slots: Sequence[Slot]) -> tuple[Interval, ...]:
    """Bays between joints; refuses joints that overlap."""
    edges = [face.left, *(edge for slot in slots for edge in (slot.left, slot.right)), face.right]
    bays = tuple(zip(edges[::2], edges[1::2], strict=True))
    member = "existing_joints_x_mm" if face.elevation.joints_x_mm is None else "joints_x_mm"
    for before, after in bays:
        if after < before:
            detail = f"Joints overlap at x = {millimetres(before):g} mm; leave at least the width of a joint between them and the ends."
            raise refuse("joints-overlap", f"{face.members_pointer}/{member}", detail)
    return bays


def _parapet(face: Face) -> list[Finding]:
    """That the closer joints of a parapet run down the whole face."""
    level_mm = face.elevation.parapet_from_mm
    if level_mm is None:
        return []
    where: Where = {"pointer": f"{face.members_pointer}/parapet_from_mm", "elevation": face.id, "y_mm": level_mm}
    return [finding("parapet-governs", where)]


def _crossings(face: Face, slots: Sequence[Slot]) -> list[Finding]:
    return [
        finding(
            "joint-crosses-opening",
            {"pointer": opening.pointer, "elevation": face.id, "opening": opening.id, "x_mm": millimetres(slot.centre)},
        )
        for slot in slots
        for opening in face.openings
        if opening.left < slot.right and slot.left < opening.right
    ]
