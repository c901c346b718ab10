"""Openings one above another: how far their jambs drift, and whether the perps beside them run through."""

from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from storeyrod.setting_out.bay_frame import BayFrame, bay_frames
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.bond_models import OpeningStack
from storeyrod.setting_out.jambs import MEETS, off_perps
from storeyrod.setting_out.plumb_lines import End
from storeyrod.wall.openings import FaceOpening
from storeyrod.wall.wall import Wall


@dataclass(frozen=True, slots=True)
class _Drift:
    """How far the jambs of one side of a stack drift, and the openings whose jamb takes another place on the perps."""

    side: End
    length: float
    elsewhere: tuple[FaceOpening, ...]


def opening_stacks(out: FaceSetOut, wall: Wall) -> tuple[list[OpeningStack], list[Finding]]:
    """Stacks of two openings or more, from the left; one finding for each whose perps do not run through."""
    frames = bay_frames(out, wall.system)
    rows: list[OpeningStack] = []
    findings: list[Finding] = []
    for stack in stacks_of(out.face.openings):
        left, right = (_drift(stack, side, frames) for side in ("left", "right"))
        broken = [drift for drift in (left, right) if drift.elsewhere]
        rows.append(
            {
                "openings": [opening.id for opening in stack],
                "left_drift_mm": millimetres(left.length),
                "right_drift_mm": millimetres(right.length),
                "perps_run_through": not broken,
            }
        )
        if broken:
            findings.append(_finding(out.face.id, max(broken, key=lambda drift: drift.length)))
    return rows, findings


def stacks_of(openings: Sequence[FaceOpening]) -> list[tuple[FaceOpening, ...]]:
    """Openings above one another: each is put on the nearest one below that shares more than half of the narrower width.

    Openings without jambs, such as circles, stand in no stack.
    """
    stacks: list[list[FaceOpening]] = []
    with_jambs = [one for one in openings if one.jambs("left") and one.jambs("right")]
    for opening in sorted(with_jambs, key=lambda one: (one.sill, one.left, one.id)):
        below = [stack for stack in stacks if _stands_on(opening, stack[-1])]
        if below:
            max(below, key=lambda stack: (stack[-1].head, -stack[-1].left)).append(opening)
        else:
            stacks.append([opening])
    found = [tuple(stack) for stack in stacks if len(stack) > 1]
    return sorted(found, key=lambda stack: (stack[0].left, stack[0].sill))


def _stands_on(upper: FaceOpening, lower: FaceOpening) -> bool:
    shared = min(upper.right, lower.right) - max(upper.left, lower.left)
    narrower = min(upper.right - upper.left, lower.right - lower.left)
    return upper.sill >= lower.head and shared > narrower / 2.0


def _drift(stack: Sequence[FaceOpening], side: End, frames: Sequence[BayFrame]) -> _Drift:
    places = [opening.left if side == "left" else opening.right for opening in stack]
    offs = [_off(x, side, frames) for x in places]
    other = tuple(opening for opening, off in zip(stack, offs, strict=True) if abs(off - offs[0]) > MEETS)
    return _Drift(side, max(places) - min(places), other)


def _off(x: float, side: End, frames: Sequence[BayFrame]) -> float:
    """How far a jamb lies off the perps of its bay; at a left jamb the wall, and so a run's right end, is on its left."""
    ends_run: End = "right" if side == "left" else "left"
    return off_perps(min(frames, key=lambda frame: _distance(frame, x)), x, ends_run)


def _distance(frame: BayFrame, x: float) -> float:
    low, high = frame.turned((frame.bay.left, frame.bay.right))
    return max(low - x, x - high, 0.0)


def _finding(elevation: str, drift: _Drift) -> Finding:
    opening = drift.elsewhere[0]
    where: Where = {"pointer": opening.pointer, "elevation": elevation, "opening": opening.id}
    where["x_mm"] = millimetres(opening.left if drift.side == "left" else opening.right)
    where["y_mm"] = millimetres(opening.sill)
    limit = MEETS / TICKS_PER_MM
    return finding("perps-do-not-run-through", where, value=millimetres(drift.length), limit=limit, unit="mm")
