"""Placing vertical movement joints: existing ones first, then the fewest more, then the most even bays.

Positions lie on the grid of half modules, so that a joint takes the place of a perp in one course and halves a stretcher in
the next, and keep clear of openings. A bay is measured clear, from joint to joint. Within a stretch between fixed joints a
forward pass over the permitted positions finds the fewest joints, and among those the least sum of squared spacings. Positions
are counted, and the pass runs, from the end from which the bond is set out, so that a mirrored wall has mirrored joints.
"""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import ROUNDING_GUARD, TICKS_PER_MM, millimetres, ticks
from storeyrod.movement_joints.at_corners import corner_joint_findings
from storeyrod.movement_joints.width import least_joints, longest_bay_of, moving_length, width_of
from storeyrod.movement_joints.width_working import width_findings
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import SILENT, Trace
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import Face
from storeyrod.wall.grid import module_of
from storeyrod.wall.system import System

MOST_POSITIONS: Final = 1_000_000
"""Pairs of positions that the search may weigh for one elevation."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A movement joint as the strip it takes out of boards and slips, in ticks."""

    left: float
    right: float
    existing: bool

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
    """Joints of one face from left to right, the bays between them, and what was found."""

    slots: tuple[Slot, ...]
    bays: tuple[Interval, ...]
    limit: float
    least_count: int
    withheld: bool
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class _Grid:
    """What a new joint must respect, in ticks: longest clear bay, width of a joint, grid and blocked centres.

    Places are counted from the end from which the bond is set out: of a face set out from the right, x is negative.
    """

    limit: float
    width: float
    step: float
    origin: float
    blocked: tuple[Interval, ...]
    turned: bool

    def there(self, places: Sequence[float]) -> list[float]:
        """Places of the face as this grid counts them, and the other way about."""
        return [0.0 - x for x in reversed(places)] if self.turned else list(places)

    @property
    def reach(self) -> float:
        """Longest permitted distance of two joint centres; a tick of slack for snapping."""
        return self.limit + self.width + 1.0

    def positions(self, low: float, high: float) -> list[float]:
        """Permitted centres between two fixed ones, at least a joint's width from both."""
        first = math.ceil((low + self.width - self.origin) / self.step)
        last = math.floor((high - self.width - self.origin) / self.step)
        free, coming, blocked_to = [], sorted(self.blocked, reverse=True), -math.inf
        for index in range(first, last + 1):
            x = self.origin + index * self.step
            while coming and coming[-1][0] < x:
                blocked_to = max(blocked_to, coming.pop()[1])
            if x >= blocked_to:
                free.append(x)
        return free


def planned_joints(face: Face, system: System, trace: Trace = SILENT) -> JointPlan:
    """Vertical movement joints of a face.

    Raises ``joint-outside-outline`` and ``joints-overlap`` for existing joints, and ``size-limit`` when the grid of positions
    is too fine for the length.
    """
    limit_mm = longest_bay_of(system, trace)
    existing = _existing(face)
    grid = _grid(face, system, ticks(limit_mm))
    least = trace.call(
        least_joints,
        L=trace.given(millimetres(face.length), face.pointer),
        s=limit_mm,
        w=trace.given(millimetres(grid.width), "/system/movement_joint"),
        tolerance=trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY),
    )
    centres, stuck = _centres(face, existing, grid)
    longest = millimetres(moving_length([face.left, *centres, face.right], grid.limit)) * METRES_PER_MILLIMETRE
    width_mm = width_of(system, trace.given(longest, face.pointer), trace)
    width = ticks(width_mm)
    slots = tuple(Slot(x - width / 2.0, x + width / 2.0, x in existing) for x in centres)
    _refuse_overlap(face, slots)
    near_corners = corner_joint_findings(face, [(slot.left, slot.right) for slot in slots], system)
    of_width = width_findings(face, system, longest, width_mm) if slots else ()
    findings = (*stuck, *_crossings(face, slots), *near_corners, *of_width)
    return JointPlan(slots, _bays(face, slots), ticks(limit_mm), int(least), bool(stuck), findings)


def _existing(face: Face) -> list[float]:
    centres = []
    for index, x_mm in enumerate(face.elevation.existing_joints_x_mm):
        centre = ticks(x_mm)
        if not face.left < centre < face.right:
            span = f"{millimetres(face.left):g} to {millimetres(face.right):g} mm"
            raise refuse(
                "joint-outside-outline",
                f"{face.members_pointer}/existing_joints_x_mm/{index}",
                f"{x_mm:g} mm is not inside the face, {span}; give the joint in the coordinates of the elevation.",
            )
        centres.append(centre)
    return sorted(set(centres))


def _grid(face: Face, system: System, limit: float) -> _Grid:
    joint = system.movement_joint
    half_module = module_of(system) / 2.0
    step = ticks(joint.snap_mm if joint.snap_mm is not None else half_module)
    width = _widest(system, limit)
    clear = ticks(joint.clear_of_opening_mm) + width / 2.0
    blocked = [(opening.left - clear, opening.right + clear) for opening in face.openings]
    half_perp = ticks(system.joint.perp_mm / 2.0)
    if face.elevation.bond_from == "left":
        return _Grid(limit, width, step, face.left - half_perp, tuple(blocked), turned=False)
    mirrored = tuple((-right, -left) for left, right in blocked)
    return _Grid(limit, width, step, -face.right - half_perp, mirrored, turned=True)


def _widest(system: System, limit: float) -> float:
    """Width that a joint may reach at the longest permitted bay, in ticks."""
    return ticks(width_of(system, millimetres(limit) * METRES_PER_MILLIMETRE, SILENT))


def _centres(face: Face, existing: Sequence[float], grid: _Grid) -> tuple[list[float], list[Finding]]:
    half = grid.width / 2.0
    fixed = grid.there([face.left - half, *existing, face.right + half])
    centres, findings = fixed[1:-1], []
    for low, high in pairwise(fixed):
        if high - low <= grid.reach:
            continue
        placed = _fewest_then_even(low, high, grid, face)
        if placed is None:
            findings.append(_stuck(face, low, high, grid))
        else:
            centres += placed
    return grid.there(sorted(centres)), findings


def _fewest_then_even(low: float, high: float, grid: _Grid, face: Face) -> list[float] | None:
    """Centres between two fixed ones, or none when some gap cannot be bridged.

    Stops are the permitted positions and the far end; each looks back over one longest bay only. What a stop needs at least
    grows from stop to stop, so those that need equally many joints are neighbours.
    """
    stops = [low, *grid.positions(low, high), high]
    window = grid.reach / grid.step + 2.0
    if len(stops) * window > MOST_POSITIONS:
        detail = f"{len(stops)} positions of joints on this length; give a larger snap_mm, or split the elevation."
        raise refuse("size-limit", f"{face.pointer}", detail)
    earliest = [bisect_left(stops, stop - grid.reach) for stop in stops]
    hops = _fewest_hops(earliest)
    return _most_even(stops, earliest, _useful(hops, earliest)) if len(hops) == len(stops) else None


def _fewest_hops(earliest: Sequence[int]) -> list[int]:
    """Fewest bays from the first stop to each, as far as stops can be reached: the farther back, the fewer."""
    hops = [0]
    for index in range(1, len(earliest)):
        if earliest[index] == index:
            break
        hops.append(hops[earliest[index]] + 1)
    return hops


def _useful(hops: Sequence[int], earliest: Sequence[int]) -> list[range]:
    """Stops of the shortest ways to the last one, by the number of bays before them."""
    layers = [range(len(hops) - 1, len(hops))]
    for bays in range(hops[-1] - 1, -1, -1):
        first = bisect_left(hops, bays)
        layers.append(
            range(max(first, earliest[layers[-1].start]), bisect_left(hops, bays + 1, hi=layers[-1].stop - 1))
        )
    return layers[::-1]


def _most_even(stops: Sequence[float], earliest: Sequence[int], layers: Sequence[range]) -> list[float]:
    """Of the shortest ways the one with the least sum of squared bays, in mm; of equal ones the leftmost."""
    best: dict[int, tuple[float, int]] = {0: (0.0, 0)}
    for before, layer in pairwise(layers):
        for index in layer:
            best[index] = min(
                (best[previous][0] + ((stops[index] - stops[previous]) / TICKS_PER_MM) ** 2, previous)
                for previous in range(max(before.start, earliest[index]), min(before.stop, index))
            )
    centres, index = [], best[len(stops) - 1][1]
    while index > 0:
        centres.append(stops[index])
        index = best[index][1]
    return centres[::-1]


def _stuck(face: Face, low: float, high: float, grid: _Grid) -> Finding:
    """The finding of the gap that no bay can bridge: the first one beyond what can be reached from where the bond starts."""
    reached = low
    for before, after in pairwise([low, *grid.positions(low, high), high]):
        if after - before > grid.reach:
            reached, high = before, after
            break
    where: Where = {
        "pointer": face.pointer,
        "elevation": face.id,
        "x_mm": millimetres(0.0 - high if grid.turned else reached),
    }
    bay = millimetres(high - reached - grid.width)
    return finding("no-legal-joint-position", where, value=bay, limit=millimetres(grid.limit), unit="mm")


def _refuse_overlap(face: Face, slots: Sequence[Slot]) -> None:
    edges = [face.left, *(edge for slot in slots for edge in (slot.left, slot.right)), face.right]
    for before, after in zip(edges[::2], edges[1::2], strict=True):
        if after < before:
            detail = f"Joints overlap at x = {millimetres(before):g} mm; leave at least the width of a joint between them and the ends."
            raise refuse("joints-overlap", f"{face.members_pointer}/existing_joints_x_mm", detail)


def _bays(face: Face, slots: Sequence[Slot]) -> tuple[Interval, ...]:
    edges = [face.left, *(edge for slot in slots for edge in (slot.left, slot.right)), face.right]
    return tuple(zip(edges[::2], edges[1::2], strict=True))


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
