"""Setting out a face: its bays between movement joints and ends, and the grid of perps in each."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres, ticks
from storeyrod.options import Options
from storeyrod.slips.bond import BONDS
from storeyrod.slips.perps import (
    HAIRLINE,
    BayPerps,
    Equalised,
    Module,
    PerpLimits,
    equalised_grids,
    exact_ticks,
    half_modules,
    nominal_grids,
)
from storeyrod.wall.face import SIDES, Face
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall


def end_joints(wall: Wall, options: Options) -> Mapping[str, tuple[float, float]]:
    """Joints taken off the ends of each face, left and right, in ticks; nominal perps take none off.

    An abutment takes the joint of its edge. At an internal corner one face runs through and the other butts against it with
    a perp: the one named second, or the only one known.
    """
    if options.perps == "nominal":
        return {}
    butting = {
        corner.ends[-1].name: exact_ticks(wall.system.joint.perp_mm)
        for corner in wall.corners
        if corner.kind == "internal_corner"
    }
    joints = {}
    for face in wall.faces:
        left, right = (
            ticks(face.edge(side).joint_mm)
            if face.edge(side).kind == "abutment"
            else butting.get(f"{face.id}:{side}", 0.0)
            for side in SIDES
        )
        joints[face.id] = (left, right)
    return joints


def end_strips(bays: Sequence[Interval], taken: tuple[float, float]) -> tuple[Interval, Interval]:
    """The strips that joints at the ends of a face take from its first and last bay: no more than the bays have."""
    (left, near), (far, right) = bays[0], bays[-1]
    first = left, min(left + taken[0], near)
    return first, (max(right - taken[1], far, first[1] if len(bays) == 1 else far), right)


def bays_of(
    face: Face, bays: Sequence[Interval], system: System, module: Module, options: Options
) -> tuple[tuple[BayPerps, ...], list[Finding]]:
    """Grids of the clear bays: nominal ones continue over the whole face, equalised ones come out in each bay."""
    bond = BONDS[system.bond]
    start = Fraction(1, 2) if face.elevation.bond_start == "half" else Fraction(0)
    nominal = nominal_grids(bond, module, face.left, start)
    made, findings = [], []
    for left, right in bays:
        spread = None
        if options.perps == "equalised" and right - left > HAIRLINE:
            phase = start + half_modules(left - face.left, module)
            spread = equalised_grids(bond, module, (left, right), phase, _limits(system))
        if spread is not None and spread.within:
            made.append(BayPerps(left, right, spread.grids, equalised=True))
            continue
        made.append(BayPerps(left, right, nominal, equalised=False))
        if spread is not None:
            findings.append(_out_of_range(face, (left, right), spread, system))
    return tuple(made), findings


def clear_bays(bays: Sequence[Interval], strips: tuple[Interval, Interval]) -> list[Interval]:
    """The bays less the joints at the ends of the face; a bay of no length stays in its place."""
    clear = list(bays)
    clear[0] = strips[0][1], clear[0][1]
    clear[-1] = clear[-1][0], strips[1][0]
    return clear


def _limits(system: System) -> PerpLimits:
    joint = system.joint
    return PerpLimits(ticks(joint.perp_min_mm), ticks(joint.perp_max_mm), ticks(system.minimum_cut_mm))


def _out_of_range(face: Face, bay: Interval, spread: Equalised, system: System) -> Finding:
    low, high = system.joint.perp_min_mm, system.joint.perp_max_mm
    perp = max((perp / TICKS_PER_MM for perp in spread.perps), key=lambda one: max(low - one, one - high))
    where: Where = {"pointer": face.pointer, "elevation": face.id, "x_mm": millimetres(bay[0])}
    return finding("perp-out-of-range", where, value=perp, limit=low if perp < low else high, unit="mm")
