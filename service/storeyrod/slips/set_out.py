"""Setting out a face: its bays between movement joints and ends, and the grid of perps in each."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres, ticks
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.options import Options
from storeyrod.slips.bond import BONDS
from storeyrod.slips.perps import (
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


def bays_of(
    face: Face, plan: JointPlan, taken: tuple[float, float], system: System, module: Module, options: Options
) -> tuple[tuple[BayPerps, ...], list[Finding]]:
    """Bays with their grids: nominal ones continue over the whole face, equalised ones come out in each bay."""
    bond = BONDS[system.bond]
    start = Fraction(1, 2) if face.elevation.bond_start == "half" else Fraction(0)
    nominal = nominal_grids(bond, module, face.left, start)
    bays, findings = [], []
    for left, right in _clear(plan.bays, taken):
        if options.perps == "nominal":
            bays.append(BayPerps(left, right, nominal, equalised=False))
            continue
        phase = start + half_modules(left - face.left, module)
        spread = equalised_grids(bond, module, (left, right), phase, _limits(system))
        if spread is not None and spread.within:
            bays.append(BayPerps(left, right, spread.grids, equalised=True))
            continue
        bays.append(BayPerps(left, right, nominal, equalised=False))
        if spread is not None:
            findings.append(_out_of_range(face, (left, right), spread, system))
    return tuple(bays), findings


def _clear(bays: Sequence[Interval], taken: tuple[float, float]) -> list[Interval]:
    """The bays less the joints at the ends of the face."""
    clear = [list(bay) for bay in bays]
    clear[0][0] += taken[0]
    clear[-1][1] -= taken[1]
    return [(left, right) for left, right in clear if right > left]


def _limits(system: System) -> PerpLimits:
    joint = system.joint
    return PerpLimits(ticks(joint.perp_min_mm), ticks(joint.perp_max_mm), ticks(system.minimum_cut_mm))


def _out_of_range(face: Face, bay: Interval, spread: Equalised, system: System) -> Finding:
    low, high = system.joint.perp_min_mm, system.joint.perp_max_mm
    perp = max((perp / TICKS_PER_MM for perp in spread.perps), key=lambda one: max(low - one, one - high))
    where: Where = {"pointer": face.pointer, "elevation": face.id, "x_mm": millimetres(bay[0])}
    return finding("perp-out-of-range", where, value=perp, limit=low if perp < low else high, unit="mm")
